// What could be written at the cursor: keywords, names of the right kind, places, words that the line takes.
// Which names fit is asked of the reader itself: the line is read with a stand-in name at the cursor, and what the reader makes of it decides.
// Invariant: nothing is offered for a word that is whole as it is written, nor behind what ends a line, so that Enter there begins a new line and changes nothing.
import { lineText, readSheet } from "../../grammar/sheet-text.ts";
import { type EntryKind, lockingPhrases } from "../../grammar/words.ts";
import type { Files } from "../model/files.ts";
import type { Job } from "../model/job.ts";
import { linesOf } from "../model/things.ts";
import { rows as unitRows } from "../quantities/unit-table.ts";
import { rules } from "../rules/all.ts";
import { admissible } from "../rules/pardons.ts";
import type { Story } from "../story/story.ts";
import { suitablePin } from "../trade/split-pins.ts";
import { threadOf } from "../trade/threads.ts";
import { type LineAt, type NameInEntry, lineAt, namesOf } from "./at.ts";
import { entrySnippet } from "./entry-snippets.ts";
import { asSnippet } from "./snippets.ts";
import { type WordAbout, heads, linesUnder, wordAbout, wordsBehind } from "./word-about.ts";

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
  /** What has happened so far, by the last check: what is off is offered first where something is fitted. */
  readonly story?: Story | undefined;
}

/** `line` and `column` count from 0. */
export function completionsAt(job: Job, line: number, column: number, circumstances: Circumstances = {}, files: Files = job.workspace): Completion[] {
  const text = lineText(job.own.sheet, line);
  const left = text.slice(0, column);
  if (inTextOrComment(left)) return pathsAt(job, files, left, !text.includes('"', column));
  const typed = /[\p{L}\p{M}\p{N}.°_-]*$/u.exec(left)?.[0] ?? "";
  const from = left.length - typed.length;
  const before = left.slice(0, from);
  const at = lineAt(job.own.sheet, line);
  const offers =
    before.trim() === ""
      ? atLineStart(job, at, before !== "", circumstances)
      : endsLine(before)
        ? []
        : (afterFigure(job, before) ?? behind(job, at, before, circumstances));
  if (typed !== "" && isWhole(job, at, before, typed, offers)) return [];
  const begun = typed.toLowerCase();
  const seen = new Set<string>();
  return offers
    .filter((it) => it.label !== typed && it.label.toLowerCase().startsWith(begun) && !seen.has(it.label) && seen.add(it.label))
    .map((it) => ({ ...it, from, to: column }));
}

/** A word that is whole stays as it is, though there be longer ones that begin with it: to get one of those, its next letter is typed. */
function isWhole(job: Job, at: LineAt | undefined, before: string, typed: string, offers: readonly Offer[]): boolean {
  if (unitSpellings.has(typed) && behindFigure.test(before)) return true;
  const thing = job.things.get(typed);
  // A name that only this entry has may be one that is still being typed.
  if (thing?.implied === true && thing.entry === at?.entry) return false;
  return thing !== undefined || offers.some((it) => it.label === typed);
}

const figure = String.raw`[\d.,/]*\d(?:-\d+/\d+)?`;

/** A closed text, or a figure with its unit: what may follow is too little to be worth a list that Enter would take from. */
function endsLine(before: string): boolean {
  const written = before.trimEnd();
  if (written.endsWith('"')) return true;
  const last = new RegExp(`(?:^|[\\s(])${figure}\\s*([\\p{L}µ°%][^\\s"]*)$`, "u").exec(written)?.[1];
  return last !== undefined && unitSpellings.has(last);
}

/** Right behind a figure, its unit and nothing else; the usual spellings of each unit. Undefined where no figure is there, or where it is part of a name or a date. */
function afterFigure(job: Job, before: string): readonly Offer[] | undefined {
  if (!behindFigure.test(before)) return undefined;
  if (asksMoney.test(before)) return currenciesIn(job);
  return countsThings.test(before) ? undefined : unitsOffered;
}

/** A figure that is a sum of money. */
const asksMoney = /^\s*(?:price|freight|exchange|least order|rate)\s[^"]*$|^\s*(?:item|work)\s.*\sprice\s[^"]*$/;

const behindFigure = new RegExp(`(?:^|\\s)${figure}\\s+$`);

/** Lines on which a figure is a count, or a part of a thread's name. */
const countsThings =
  /^\s*(?:undo|remove|fit|slacken|tighten|lock|repair|mark|work|each|qty|stock|need|offer|item|finding|is|thread)\s(?!.*\s(?:to|with|by|from|at)\s)[^"]*$/;

const unitsOffered: readonly Offer[] = unitRows.map(({ spellings, dimension }) => ({
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

/** The places and positions of the limit that is measured, and `again`. */
function readingWords(job: Job, at: LineAt): Offer[] {
  const name = at.entry.kind === "measure" ? at.entry.limit?.text : undefined;
  const limit = name === undefined ? undefined : job.things.get(name);
  if (limit?.kind !== "limit") return [];
  const places = limit.placeKind === undefined ? [] : (job.placeKinds.get(limit.placeKind.text) ?? []);
  const positions = linesOf(limit, "read-at").flatMap(({ detail }) => detail.positions.map((it) => it.text));
  return [...[...places, ...positions].map((label): Offer => ({ label, sort: "place", rank: 0 })), { label: "again", sort: "word", rank: 1 }];
}

const standIn = "stand-in-for-what-is-typed";

function behind(job: Job, at: LineAt | undefined, before: string, circumstances: Circumstances): Offer[] {
  const keyword = /^\s*(\p{L}[\p{L}\p{M}\p{N}-]*)/u.exec(before)?.[1];
  if (keyword === "accept" || keyword === "admit") return /^\s*\p{L}+\s+$/u.test(before) ? rulesFor(keyword) : [];
  if (/^\s*currency\s+$/.test(before)) return currenciesIn(job);
  const head = at === undefined || at.row === 0 ? undefined : headText(job, at);
  const read = readSheet(`${head === undefined ? "" : `${head}\n`}${before}${standIn}`);
  const entry = read.entries.at(-1);
  const row = head === undefined || read.entries.length > 1 ? 0 : 1;
  const names = entry === undefined ? [] : namesOf(entry).filter((it) => it.row === row);
  const out: Offer[] = [];
  for (const it of names) {
    if (it.name.text !== standIn || it.declares) continue;
    if (it.sort === "thing") out.push(...thingsOf(job, it.wants, keyword === "fit" ? circumstances.story : undefined));
    if (it.sort === "place") out.push(...placesFor(job, names).map((label): Offer => ({ label, sort: "place", rank: 1 })));
    if (it.sort === "kind") out.push(...[...job.placeKinds].map(([label, places]): Offer => ({ label, sort: "place", detail: places.join(", "), rank: 0 })));
  }
  const rest = restOfLocking(before);
  if (rest !== undefined) return rest.length > 0 ? rest : pinFor(job, at, before);
  const about = keyword === undefined ? undefined : wordAbout(keyword, at?.entry.kind, head === undefined);
  for (const { word, says } of wordsBehind(about, before.trimStart().slice(keyword?.length ?? 0)))
    out.push({ label: word, sort: "word", ...(says === undefined ? {} : { detail: says }), rank: 3 });
  if (circumstances.today !== undefined && about !== undefined && takesDay.test(about.syntax) && !/\d{4}-\d\d-\d\d/.test(before))
    out.push({ label: circumstances.today, sort: "word", detail: "today", rank: 2 });
  if (about !== undefined && asksAtOnce.test(about.syntax) && /^\s*\p{L}+(?:\s(?:by|with|max|min))?\s+$/u.test(before))
    out.push({ label: "___", sort: "word", detail: "left blank, to be filled in", rank: 8 });
  return out;
}

const takesDay = /\bDATE\b/;
/** A word that a figure, a name or a text must follow. */
const asksAtOnce = /^\S+(?: (?:by|with|max))? (?:Q|N|R|RANGE|THREAD|MONEY|DATE|LOCKING|[A-Z]+…?|"[^"]*")/;

/** What can be accepted, and what can be owned up to. */
function rulesFor(keyword: "accept" | "admit"): Offer[] {
  const fit = keyword === "accept" ? rules.filter((it) => !it.safety) : rules.filter((it) => admissible.has(it.id));
  return fit.map((it) => ({ label: it.id, sort: "word", detail: it.title, rank: 0 }));
}

/** The currencies that the job names. */
function currenciesIn(job: Job): Offer[] {
  const codes = new Set<string>();
  for (const { sheet } of job.files)
    for (const entry of sheet.entries) for (const it of entry.details) if (it.kind === "currency" && it.code !== undefined) codes.add(it.code.text);
  return [...codes].map((label) => ({ label, sort: "unit", detail: "currency of this job", rank: 0 }));
}

/** The places of the things that the line names before; all places where it names none, or one without places. */
function placesFor(job: Job, names: readonly NameInEntry[]): string[] {
  const kinds = new Set<string>();
  for (const it of names) {
    if (it.sort !== "thing" || it.name.text === standIn) continue;
    const thing = job.things.get(it.name.text);
    if (thing !== undefined && "placeKind" in thing && thing.placeKind !== undefined) kinds.add(thing.placeKind.text);
  }
  return kinds.size === 0 ? [...job.kindsOfPlace.keys()] : [...kinds].flatMap((it) => job.placeKinds.get(it) ?? []);
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

/** Within the words of a locking: what makes them whole. Nothing behind one that is. Undefined where none is begun. */
function restOfLocking(before: string): Offer[] | undefined {
  const begun = /(?:^|\s)((?:\p{L}[\p{L}-]*\s+){1,2})$/u.exec(before)?.[1]?.trim().replace(/\s+/g, " ");
  if (begun === undefined) return undefined;
  const words = begun.split(" ");
  for (const part of [begun, words.at(-1) as string]) {
    const longer = [...lockingPhrases.keys()].filter((it) => it.startsWith(`${part} `));
    if (longer.length > 0) return longer.map((it) => ({ label: it.slice(part.length + 1), sort: "word", rank: 0 }));
    if (lockingPhrases.has(part)) return [];
  }
  return undefined;
}

function headText(job: Job, at: LineAt): string | undefined {
  const index = job.own.sheet.entries.indexOf(at.entry);
  return at.entry.kind === "headless" ? undefined : lineText(job.own.sheet, job.own.sheet.starts[index] ?? 0);
}

/** With a story, what is off comes before what is on. */
function thingsOf(job: Job, wants: readonly string[], story: Story | undefined): Offer[] {
  const off = new Set(
    story === undefined ? [] : [...story.parts, ...story.fasteners].filter((it) => it.then.off > 0 || it.then.on < it.total).map((it) => it.thing.name),
  );
  return [...job.things.values()]
    .filter((it) => wants.includes(it.kind) && it.name !== standIn)
    .map((it) => ({
      label: it.name,
      sort: "thing",
      detail: `${off.has(it.name) ? "off: " : ""}${it.title === undefined ? it.kind : `${it.kind} “${it.title}”`}`,
      rank: story === undefined || off.has(it.name) ? 0 : 4,
    }));
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
