// What could be written at the cursor: keywords, names of the right kind, places, words that the line takes.
// Which names fit is asked of the reader itself: the line is read with a stand-in name at the cursor, and what the reader makes of it decides.
// Invariant: nothing is offered for a word that is whole as it is written, nor behind what ends a line, so that Enter there begins a new line and changes nothing.
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import type { Entry } from "../../grammar/tree.ts";
import { type EntryKind, conditionOf, lockingPhrases } from "../../grammar/words.ts";
import type { Files } from "../model/files.ts";
import type { Job } from "../model/job.ts";
import { type ThingKind, linesOf } from "../model/things.ts";
import { currencies, currencyDigits } from "../quantities/money.ts";
import { type Dimension, rows as unitRows } from "../quantities/unit-table.ts";
import { rules } from "../rules/all.ts";
import { admissible } from "../rules/pardons.ts";
import { titles } from "../rules/titles.ts";
import { counterUnits, measureOf } from "../rules/units/shared/dimensions.ts";
import { type FigureGroup, figuresOf } from "../rules/units/shared/figures.ts";
import { wantedOf } from "../rules/units/shared/issues.ts";
import { isUnlocked } from "../story/standing.ts";
import type { FastenerCell, PartCell, Story } from "../story/story.ts";
import { suitablePin } from "../trade/split-pins.ts";
import { allThreads, threadOf } from "../trade/threads.ts";
import { type LineAt, type NameInEntry, lineAt, namesOf } from "./at.ts";
import { entrySnippet } from "./entry-snippets.ts";
import { asSnippet } from "./snippets.ts";
import { type WordAbout, heads, linesUnder, wordsAbout, wordsWithin } from "./word-about.ts";
import { type LineBegun, isTaken, readLine } from "./words-that-fit.ts";

export interface Completion {
  readonly label: string;
  readonly sort: "keyword" | "thing" | "place" | "word" | "unit" | "file";
  readonly detail?: string;
  readonly documentation?: string;
  /** Lower comes first. */
  readonly rank: number;
  /** What an editor that has snippets writes in its place: stops where something is to be filled in. */
  readonly snippet?: string;
  /** The quote that closes its text is written with it: the line has none behind the cursor. */
  readonly closes?: true;
  /** Columns of what it takes the place of. */
  readonly from: number;
  readonly to: number;
}

type Offer = Omit<Completion, "from" | "to">;

export interface Circumstances {
  /** ISO 8601; without it no day is offered. */
  readonly today?: string | undefined;
  /** Somebody asked for the list: it did not come up by itself behind a blank, so that Enter takes from it only what was looked for. */
  readonly asked?: boolean | undefined;
  /** What has happened so far, by the last check: what waits for the word of the line is offered first. */
  readonly story?: Story | undefined;
}

/** `line` and `column` count from 0. */
export function completionsAt(job: Job, line: number, column: number, circumstances: Circumstances = {}, files: Files = job.workspace): Completion[] {
  const text = lineText(job.own.sheet, line);
  const left = text.slice(0, column);
  if (inTextOrComment(left)) return pathsAt(job, files, left, !text.includes('"', column));
  const typed = /[\p{L}\p{M}\p{N}.·⋅°_-]*$/u.exec(left)?.[0] ?? "";
  const from = left.length - typed.length;
  const before = left.slice(0, from);
  const at = lineAt(job.own.sheet, line);
  const offers =
    before.trim() === ""
      ? atLineStart(job, at, before !== "", circumstances)
      : typed === "" && circumstances.asked !== true && endsLine(before)
        ? []
        : behindWords(job, at, before, typed, circumstances);
  if (typed !== "" && isWhole(job, at, typed, offers)) return [];
  const begun = typed.toLowerCase();
  const seen = new Set<string>();
  return offers
    .filter((it) => it.label !== typed && it.label.toLowerCase().startsWith(begun) && !seen.has(it.label) && seen.add(it.label))
    .map((it) => ({ ...it, ...(it.snippet === undefined ? {} : { snippet: it.snippet.replaceAll("\n", job.own.sheet.newline) }), from, to: column }));
}

/** The unit of a figure comes before the words that go on behind it. */
function behindWords(job: Job, at: LineAt | undefined, before: string, typed: string, circumstances: Circumstances): Offer[] {
  const { units, needed } = afterFigure(job, at, before);
  const words = behind(job, at, before, typed, circumstances);
  return [...units, ...(needed ? words.filter((it) => it.sort === "word" && withinFigure.has(it.label)) : words)];
}

/** `20 to 30 mm`, `1/8 x 1 in`: the unit of the second may serve both. */
const withinFigure: ReadonlySet<string> = new Set(["to", "x", "flat", "flats", "turn", "turns"]);

/** A word that is whole stays as it is, though there be longer ones that begin with it: to get one of those, its next letter is typed. */
function isWhole(job: Job, at: LineAt | undefined, typed: string, offers: readonly Offer[]): boolean {
  if (isUnit(typed) && offers.some((it) => it.sort === "unit")) return true;
  const thing = job.things.get(typed);
  // A name that only this entry has may be one that is still being typed.
  if (thing?.implied === true && thing.entry === at?.entry) return false;
  if (thing !== undefined && thing.entry === at?.entry && at.row === 0 && offers.some((it) => it.sort === "thing")) return isMentioned(job, typed, at.entry);
  return thing !== undefined || offers.some((it) => it.label === typed);
}

function isMentioned({ own: { sheet } }: Job, name: string, but: Entry): boolean {
  for (const it of mentions(sheet, but)) if (it.written === name) return true;
  return false;
}

/** Things that other entries of the sheet speak of, by their names as they are written: one that is near to a name that is half typed was taken for that. */
function* mentions(sheet: SheetText, but: Entry): Generator<{ readonly written: string; readonly wants: readonly ThingKind[] }> {
  for (const [i, entry] of sheet.entries.entries()) {
    if (entry === but) continue;
    for (const { name, sort, row, wants, declares } of namesOf(entry))
      if (sort === "thing" && !declares) yield { written: lineText(sheet, (sheet.starts[i] ?? 0) + row).slice(name.at.from, name.at.to), wants };
  }
}

const figure = String.raw`[\d.,/]*\d(?:-\d+/\d+)?`;

/** A closed text, or a figure with its unit: what may follow is too little to be worth a list that Enter would take from. Its first letter asks for it, or whoever asks for the list. */
function endsLine(before: string): boolean {
  const written = before.trimEnd();
  if (written.endsWith('"')) return true;
  const last = new RegExp(`(?:^|[\\s(])${figure}\\s*([\\p{L}µ°%][^\\s"]*)$`, "u").exec(written)?.[1];
  return last !== undefined && isUnit(last);
}

/** A unit as the reader takes it, with whichever point stands between its parts. */
function isUnit(word: string): boolean {
  return unitSpellings.has(word.replace(/[·⋅]/g, "."));
}

/** What measures the figure that stands right before: the usual spellings of each unit that belongs there, or the currencies. */
interface UnitsThere {
  readonly units: readonly Offer[];
  /** The figure says nothing without one. */
  readonly needed: boolean;
}

/** None behind what is counted, a part of a name or a date. */
function afterFigure(job: Job, at: LineAt | undefined, before: string): UnitsThere {
  if (!behindFigure.test(before) || sizeOfThread.test(before)) return { units: [], needed: false };
  if (asksMoney.test(before)) return { units: currenciesIn(job), needed: true };
  const begun: LineBegun = { head: headAbove(job, at), before };
  const wants = isTaken(begun, someUnit) ? wantedAt(job, at, begun) : undefined;
  if (wants === undefined) return { units: [], needed: false };
  const { dimensions, needed, isCounter } = wants;
  if (isCounter) return { units: unitsOffered.filter((it) => counterUnits.includes(it.label)), needed };
  return { units: dimensions.length === 0 ? unitsOffered : unitsOffered.filter((it) => dimensions.includes(it.detail as Dimension)), needed };
}

/** Read in the place of the unit that is to be written. */
const someUnit = "mm";

interface Wanted {
  readonly dimensions: readonly Dimension[];
  readonly needed: boolean;
  /** What a counter shows. */
  readonly isCounter?: true;
}

/** What is measured there, by the line, or by the limit, gauge or thing that it is of; empty where anything may be, undefined where pieces are counted. */
function wantedAt(job: Job, at: LineAt | undefined, begun: LineBegun): Wanted | undefined {
  const ofThing = at === undefined ? undefined : measureOf(job, at.entry);
  const group = endings.map((it) => groupThere(begun, `${someUnit}${it}`)).find((it) => it !== undefined);
  if (group?.item !== undefined) return wantedOf(job, group.item).only ? undefined : { dimensions: wantedOf(job, group.item).dimensions, needed: false };
  const needed = group !== undefined && !group.bare && !isCounted(begun);
  if (group?.counter !== undefined) return { dimensions: [], needed, isCounter: true };
  if (group !== undefined && group.by === undefined) return { dimensions: group.wants, needed };
  const ofLine = ofThing === undefined ? [] : [ofThing];
  // How far a gauge can be trusted may be a part of what it shows.
  return { dimensions: group?.by === "gauge" && ofThing !== undefined && /^\s*uncertainty\s/.test(begun.before) ? [...ofLine, "ratio"] : ofLine, needed };
}

/** What must still come behind the unit on some lines, for without it they are not read: who sets it, who sells it, how many there are and for what. */
const endings = ["", " by x", " from x", " 1", ' "x"', ' 1 "x"'];

/** The figures of which one has its unit where the cursor is, with this written there. */
function groupThere(begun: LineBegun, written: string): FigureGroup | undefined {
  const { entry, row } = readLine(begun, written);
  if (entry === undefined) return undefined;
  return figuresOf(entry).groups.find((it) => it.row === row && it.list.some(({ unit }) => unit !== undefined && unit.at.from === begun.before.length));
}

/** As it stands it is how many there are: `self-locking nut 4`. */
function isCounted(begun: LineBegun): boolean {
  const { entry, row } = readLine(begun, "");
  const end = begun.before.trimEnd().length;
  return entry !== undefined && figuresOf(entry).groups.some((it) => it.row === row && it.bare && it.list.some(({ figure }) => figure.at.to === end));
}

/** A figure that is a sum of money. */
const asksMoney = /^\s*(?:price|freight|exchange|least order|rate)\s[^"]*$|^\s*(?:item|work)\s.*\sprice\s[^"]*$/;

/** Behind the class of a fit, too: `new 63 H7 mm`. */
const behindFigure = new RegExp(`(?:^|\\s)[+-]?${figure}(?:\\s+[A-Za-z]{1,2}\\d{1,2})?\\s+$`);

const unitsOffered: readonly Offer[] = unitRows
  .filter((it) => it.bench !== true)
  .map(({ spellings, dimension }) => ({
    label: spellings.split(" ")[0] as string,
    sort: "unit",
    detail: dimension,
    rank: 1,
  }));
const unitSpellings: ReadonlySet<string> = new Set(unitRows.flatMap((it) => it.spellings.split(" ")));

/** Within the quotes of a line that names a file, the files of the workspace that it may name; within all others, nothing. */
function pathsAt(job: Job, files: Files, left: string, open: boolean): Completion[] {
  const [, word = "", begun] = /^\s*(use|see|photo|prices)\s+"([^"]*)$/.exec(left) ?? [];
  if (begun === undefined) return [];
  const listed = word === "photo" ? files.listed?.("photo") : word === "prices" ? files.listed?.("price list") : files.jobsheets?.();
  const paths = (listed ?? []).flatMap((path) => relativePath(job.path, path) ?? []);
  // A file that is whole as it is written stays so, though there be longer names that begin with it.
  if (paths.includes(begun)) return [];
  const named = word === "photo" ? photosNamed(job) : new Set<string>();
  const letters = begun.toLowerCase();
  return paths
    .filter((path) => [path, path.replace(/^.*\//, "")].some((it) => it.toLowerCase().startsWith(letters)))
    .slice(0, mostFiles)
    .map(
      (label): Completion => ({
        label,
        sort: "file",
        rank: named.has(label) ? 1 : 0,
        from: left.length - begun.length,
        to: left.length,
        ...(open ? { closes: true as const } : {}),
      }),
    );
}

/** More are not gone through: the next letter brings fewer. */
const mostFiles = 200;

/** Those that the sheet names already come behind those that it does not. */
function photosNamed(job: Job): Set<string> {
  return new Set(
    job.own.sheet.entries.flatMap(({ details }) => details.flatMap((it) => (it.kind === "photo" && it.path !== undefined ? [it.path.value] : []))),
  );
}

/** A path as a sheet would write it; undefined for the sheet itself. */
function relativePath(from: string, to: string): string | undefined {
  if (from === to) return undefined;
  const here = from.split("/").slice(0, -1);
  const there = to.split("/");
  let shared = 0;
  while (shared < here.length && here[shared] === there[shared]) shared++;
  return [...here.slice(shared).map(() => ".."), ...there.slice(shared)].join("/");
}

/** Entries first at the start of a line, details first where it is set in. */
function atLineStart(job: Job, at: LineAt | undefined, setIn: boolean, { today }: Circumstances): Offer[] {
  const offer =
    (rank: number) =>
    (it: WordAbout): Offer => ({ label: it.word, sort: "keyword", detail: it.syntax, documentation: it.says, rank });
  const details = at === undefined || at.row === 0 ? [] : linesUnder(at.entry.kind).map(offer(setIn ? 1 : 4));
  // A file that says nothing yet begins with its sheet.
  const empty = job.own.sheet.entries.length === 0;
  const entries =
    setIn && details.length > 0
      ? []
      : heads.map((it) => ({ ...offer(empty && it.word === "sheet" ? 0 : 2)(it), snippet: entrySnippet(it.word as EntryKind, today) }));
  return [...(at?.entry.kind === "measure" && at.row > 0 ? readingWords(job, at) : []), ...details, ...entries];
}

/** The places of the limit that is measured. */
function placesMeasured(job: Job, at: LineAt): readonly string[] {
  const limit = at.entry.kind === "measure" ? job.things.get(at.entry.limit?.text ?? "") : undefined;
  return limit?.kind === "limit" && limit.placeKind !== undefined ? (job.placeKinds.get(limit.placeKind.text) ?? []) : [];
}

/** The places and positions of the limit that is measured, and `again`. */
function readingWords(job: Job, at: LineAt): Offer[] {
  const name = at.entry.kind === "measure" ? at.entry.limit?.text : undefined;
  const limit = name === undefined ? undefined : job.things.get(name);
  if (limit?.kind !== "limit") return [];
  const places = placesMeasured(job, at);
  const positions = linesOf(limit, "read-at").flatMap(({ detail }) => detail.positions.map((it) => it.text));
  return [...[...places, ...positions].map((label): Offer => ({ label, sort: "place", rank: 0 })), { label: "again", sort: "word", rank: 1 }];
}

/** Behind its place the position, and `again`; nothing once a figure is there. */
function readingWordsBehind(job: Job, at: LineAt, before: string): Offer[] {
  const written = before.trim().split(/\s+/);
  if (/^[-+.]?\d/.test(written.at(-1) ?? "") || written.includes("again")) return [];
  const words = readingWords(job, at);
  const places = placesMeasured(job, at);
  const left = words.filter(({ label }) => !written.includes(label) && !places.includes(label));
  // One position a line.
  return written.some((it) => words.some(({ label }) => label === it) && !places.includes(it)) ? left.filter((it) => it.label === "again") : left;
}

const standIn = "stand-in-for-what-is-typed";

function behind(job: Job, at: LineAt | undefined, before: string, typed: string, circumstances: Circumstances): Offer[] {
  const keyword = /^\s*(=|\p{L}[\p{L}\p{M}\p{N}-]*)/u.exec(before)?.[1];
  if ((keyword === "accept" || keyword === "admit") && /^\s*\p{L}+\s+$/u.test(before)) return rulesFor(keyword);
  if (/^\s*currency\s+$/.test(before)) {
    const named = currenciesIn(job);
    return [...named, ...currencies().flatMap((label): Offer[] => (named.some((it) => it.label === label) ? [] : [{ label, sort: "unit", rank: 5 }]))];
  }
  if (at?.entry.kind === "measure" && at.row > 0) return readingWordsBehind(job, at, before);
  const begun: LineBegun = { head: headAbove(job, at), before };
  const { entry, row } = readLine(begun, standIn);
  const names = entry === undefined ? [] : namesOf(entry).filter((it) => it.row === row);
  const out: Offer[] = [];
  for (const it of names) {
    if (it.name.text !== standIn || it.declares) continue;
    if (it.sort === "thing") out.push(...thingsOf(job, it.wants, keyword, circumstances.story));
    if (it.sort === "place") out.push(...placesFor(job, names).map((label): Offer => ({ label, sort: "place", rank: 1 })));
    if (it.sort === "kind") out.push(...[...job.placeKinds].map(([label, places]): Offer => ({ label, sort: "place", detail: places.join(", "), rank: 0 })));
  }
  const written = before.trimStart().slice(keyword?.length ?? 0);
  // A part may be called as a locking begins, `spring`, `tab`, and stands where no locking may.
  const rest = restOfLocking(written, begun);
  const isNamed = job.things.get(/(\S+)\s+$/.exec(written)?.[1] ?? "")?.implied === false;
  if (isNamed) out.push(...(rest ?? []));
  else if (rest !== undefined && (rest.length > 0 || typed === "")) return rest.length > 0 ? rest : pinFor(job, at, before);
  const abouts = keyword === undefined ? [] : wordsAbout(keyword, at?.entry.kind, begun.head === undefined);
  const fitting = new Map<string, string | undefined>();
  for (const about of abouts)
    for (const { word, says, read } of wordsWithin(about, written)) {
      if (fitting.has(word) || (keyword === "is" && !isSaidOf(job, at, word))) continue;
      // `let back`: the second word of two that begin the line always comes.
      const second = written.trim() === "" && about.syntax.startsWith(`${keyword} ${word} `);
      if (second || (isTaken(begun, word, read) && !isTakenForUnit(begun, word))) fitting.set(word, says);
    }
  // Of words that begin alike only what they share, where that is one of them: which of them it is comes next.
  for (const [word, says] of fitting) {
    const shared = word.slice(0, Math.max(0, word.lastIndexOf(" ")));
    const alike = shared !== "" && fitting.has(shared);
    if (!alike) out.push({ label: word, sort: "word", ...(says === undefined ? {} : { detail: says }), rank: 3 });
  }
  if (/\sby\s+$/.test(before) && isTaken(begun, '"x"')) out.push(...whoDoesIt(job));
  if (at?.row === 0 && keyword !== undefined && written.trim() === "") out.push(...undeclared(job, keyword, at.entry));
  const size = sizeOfThread.exec(before)?.[1];
  if (size !== undefined) out.push(...familiesOf(size));
  const about = abouts[0];
  const { today } = circumstances;
  if (today !== undefined && about !== undefined && takesDay.test(about.syntax) && !/\d{4}-\d\d-\d\d/.test(before) && isTaken(begun, today))
    out.push({ label: today, sort: "word", detail: "today", rank: 2 });
  if (about !== undefined && asksAtOnce.test(about.syntax) && /^\s*\p{L}+(?:\s(?:by|with|max|min))?\s+$/u.test(before) && isTaken(begun, "___"))
    out.push({ label: "___", sort: "word", detail: "left blank, to be filled in", rank: 8 });
  return out;
}

/** Behind a figure any word is read as its unit. */
function isTakenForUnit(begun: LineBegun, word: string): boolean {
  return behindFigure.test(begun.before) && endings.some((it) => groupThere(begun, `${word}${it}`) !== undefined);
}

/** As the sheet says it, in its quotes. */
function whoDoesIt({ own: { sheet } }: Job): Offer[] {
  const out: Offer[] = [];
  for (const [i, entry] of sheet.entries.entries()) {
    if (entry.kind !== "sheet") continue;
    for (const it of entry.details)
      if (it.kind === "by" && it.text !== undefined)
        out.push({
          label: lineText(sheet, (sheet.starts[i] ?? 0) + it.row).slice(it.text.at.from, it.text.at.to),
          sort: "word",
          detail: "who does the job",
          rank: 2,
        });
  }
  return out;
}

/** What the sheet speaks of and nothing declares yet, where such a thing is declared. */
function undeclared(job: Job, keyword: string, here: Entry): Offer[] {
  const names = new Set<string>();
  for (const { written, wants } of mentions(job.own.sheet, here)) {
    if (!wants.includes(keyword as ThingKind)) continue;
    const known = job.things.get(written);
    if (known === undefined ? wants[0] === keyword : known.implied && known.kind === keyword) names.add(written);
  }
  return [...names].map((label) => ({ label, sort: "thing", detail: "in use, and not declared yet", rank: 1 }));
}

/** What is said of a fluid is not said of a nut. */
function isSaidOf(job: Job, at: LineAt | undefined, word: string): boolean {
  const thing = at?.entry.kind === "finding" ? job.things.get(at.entry.of?.text ?? "") : undefined;
  const kind = thing?.implied === true ? undefined : thing?.kind;
  const known = conditionOf(word);
  return known === undefined || (kind !== "part" && kind !== "fastener" && kind !== "fluid") || known.of.some((it) => it === kind);
}

/** A line of its own, or a thing that is ordered by its thread. */
const sizeOfThread = /(?:^|\s)thread\s+([^\s"]+)\s+$/;

/** Behind the size of a thread, `7/16` or `7/16-20`: the families that have it. */
function familiesOf(size: string): Offer[] {
  // A pipe thread stands in the tables by its ISO name, with G before its size.
  families ??= [...new Set([...allThreads().flatMap((it) => / (\S+)$/.exec(it)?.[1] ?? []), "BSP"])];
  return families.filter((it) => threadOf(`${size} ${it}`) !== undefined).map((label) => ({ label, sort: "word", rank: 0 }));
}
let families: readonly string[] | undefined;

const takesDay = /\bDATE\b/;
/** A word that a figure, a name or a text must follow. */
const asksAtOnce = /^\S+(?: (?:by|with|max))? (?:Q|N|R|RANGE|THREAD|MONEY|DATE|LOCKING|[A-Z]+…?|"[^"]*")/;

/** What can be accepted, and what can be owned up to. */
function rulesFor(keyword: "accept" | "admit"): Offer[] {
  const fit = keyword === "accept" ? rules.filter((it) => !it.safety) : rules.filter((it) => admissible.has(it.id));
  return fit.map((it) => ({ label: it.id, sort: "word", detail: titles.get(it.id) as string, rank: 0 }));
}

/** The currencies that the job names. */
function currenciesIn(job: Job): Offer[] {
  const codes = new Set<string>();
  for (const { sheet } of job.files)
    for (const entry of sheet.entries) for (const it of entry.details) if (it.kind === "currency" && it.code !== undefined) codes.add(it.code.text);
  return [...codes].filter((it) => currencyDigits(it) !== undefined).map((label) => ({ label, sort: "unit", detail: "currency of this job", rank: 0 }));
}

/** The places of the things that the line names before; all places where it names none, or one that nothing declares. A thing that is there once has none. */
function placesFor(job: Job, names: readonly NameInEntry[]): string[] {
  const kinds = new Set<string>();
  let once = false;
  for (const it of names) {
    if (it.sort !== "thing" || it.name.text === standIn) continue;
    const thing = job.things.get(it.name.text);
    if (thing === undefined) continue;
    if ("placeKind" in thing && thing.placeKind !== undefined) kinds.add(thing.placeKind.text);
    else once ||= !thing.implied && (thing.kind === "part" || thing.kind === "fastener");
  }
  if (kinds.size === 0) return once ? [] : [...job.kindsOfPlace.keys()];
  return [...kinds].flatMap((it) => job.placeKinds.get(it) ?? []);
}

/** After `locked by split pin` of a fastener whose thread is known: the pin that is usual with it. */
function pinFor(job: Job, at: LineAt | undefined, before: string): Offer[] {
  if (at?.entry.kind !== "fastener" || !/\bsplit pin\s+$/.test(before)) return [];
  const thing = job.things.get(at.entry.name?.text ?? "");
  if (thing?.kind !== "fastener") return [];
  return thing.threads.flatMap(({ thread }) => {
    const known = thread.free ? undefined : threadOf(thread.designation);
    const pin = known === undefined ? undefined : suitablePin(known);
    if (pin === undefined) return [];
    const size = pin.lengthMm === undefined ? `${pin.pin.figure} x ___ ${pin.pin.unit}` : `${pin.pin.figure} x ${pin.lengthMm} ${pin.pin.unit}`;
    return [{ label: size, sort: "word", detail: `usual with ${thread.designation}: ${pin.practice}`, rank: 0, snippet: asSnippet(size).text } satisfies Offer];
  });
}

/** Within the words of a locking: what makes them whole. Nothing behind one that is. Undefined where none is begun, or may stand. The keyword is none of them: `lock` asks for a nut. */
function restOfLocking(written: string, line: LineBegun): Offer[] | undefined {
  const begun = /(?:^|\s)((?:\p{L}[\p{L}-]*\s+){1,2})$/u.exec(written)?.[1]?.trim().replace(/\s+/g, " ");
  if (begun === undefined) return undefined;
  const words = begun.split(" ");
  for (const part of [begun, words.at(-1) as string]) {
    const longer = [...lockingPhrases.keys()].filter((it) => it.startsWith(`${part} `)).map((it) => it.slice(part.length + 1));
    const taken = longer.filter((it) => isTaken(line, it));
    if (taken.length > 0) return taken.map((label) => ({ label, sort: "word", rank: 0 }));
    if (longer.length > 0) return undefined;
    if (lockingPhrases.has(part)) return [];
  }
  return undefined;
}

/** The head of the entry that the line is in; undefined where the line is a head. */
function headAbove(job: Job, at: LineAt | undefined): string | undefined {
  if (at === undefined || at.row === 0 || at.entry.kind === "headless") return undefined;
  return lineText(job.own.sheet, job.own.sheet.starts[job.own.sheet.entries.indexOf(at.entry)] ?? 0);
}

/** What waits for the word that the line begins with comes first: what is off is fitted, what is slack is tightened, what is not locked is locked. */
function thingsOf(job: Job, wants: readonly string[], verb: string | undefined, story: Story | undefined): Offer[] {
  const waits = story === undefined ? undefined : waitingFor(verb, story);
  return [...job.things.values()]
    .filter((it) => wants.includes(it.kind) && it.name !== standIn)
    .map((it) => ({
      label: it.name,
      sort: "thing",
      detail: `${waits?.names.has(it.name) === true ? `${waits.how}: ` : ""}${it.title === undefined ? it.kind : `${it.kind} “${it.title}”`}`,
      rank: waits === undefined || waits.names.has(it.name) ? 0 : 4,
    }));
}

/** Undefined for a verb for which nothing waits. */
function waitingFor(verb: string | undefined, { parts, fasteners }: Story): { readonly how: string; readonly names: ReadonlySet<string> } | undefined {
  const named = (cells: readonly (PartCell | FastenerCell)[]) => new Set(cells.map((it) => it.thing.name));
  if (verb === "fit") return { how: "off", names: named([...parts, ...fasteners].filter((it) => it.then.off > 0 || it.then.on < it.total)) };
  if (verb === "tighten") return { how: "not tight", names: named(fasteners.filter((it) => it.then.on < it.total || !it.then.tight)) };
  if (verb === "lock") return { how: "not locked", names: named(fasteners.filter((it) => it.then.on > 0 && isUnlocked(it, it.then))) };
  return undefined;
}

/** Behind a quote that is still open, or behind a `#` that starts a comment. */
function inTextOrComment(left: string): boolean {
  let quoted = false;
  for (let i = 0; i < left.length; i++) {
    const sign = left[i];
    if (quoted && sign === "\\") i++;
    else if (sign === '"') quoted = !quoted;
    else if (!quoted && sign === "#" && (i === 0 || /\s/.test(left[i - 1] as string))) return true;
  }
  return quoted;
}
