// What could be written at the cursor: keywords, names of the right kind, places, words that the line takes.
// Which names fit is asked of the reader itself: the line is read with a stand-in name at the cursor, and what the reader makes of it decides.
// Invariant: nothing is offered for a word that is whole as it is written, nor behind what ends a line, so that Enter there begins a new line and changes nothing.
import { lineText, readSheet } from "../../grammar/sheet-text.ts";
import { lockingPhrases } from "../../grammar/words.ts";
import type { Job } from "../model/job.ts";
import { linesOf } from "../model/things.ts";
import { rows as unitRows } from "../quantities/unit-table.ts";
import { rules } from "../rules/all.ts";
import { type LineAt, lineAt, namesOf } from "./at.ts";
import { type WordAbout, heads, linesUnder, wordAbout, wordsBehind } from "./word-about.ts";

export interface Completion {
  readonly label: string;
  readonly sort: "keyword" | "thing" | "place" | "word" | "unit";
  readonly detail?: string;
  readonly documentation?: string;
  /** Lower comes first. */
  readonly rank: number;
  /** Columns of what it takes the place of. */
  readonly from: number;
  readonly to: number;
}

type Offer = Omit<Completion, "from" | "to">;

/** `line` and `column` count from 0. */
export function completionsAt(job: Job, line: number, column: number): Completion[] {
  const left = lineText(job.own.sheet, line).slice(0, column);
  if (inTextOrComment(left)) return pathsAt(job, left);
  const typed = /[\p{L}\p{M}\p{N}.°-]*$/u.exec(left)?.[0] ?? "";
  const from = left.length - typed.length;
  const before = left.slice(0, from);
  const at = lineAt(job.own.sheet, line);
  const offers = before.trim() === "" ? atLineStart(job, at, before !== "") : endsLine(before) ? [] : (afterFigure(before) ?? behind(job, at, before));
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
function afterFigure(before: string): readonly Offer[] | undefined {
  return behindFigure.test(before) && !countsThings.test(before) ? unitsOffered : undefined;
}

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

/** Within the quotes of `use`, the sheets of the workspace; within all others, nothing. */
function pathsAt(job: Job, left: string): Completion[] {
  const begun = /^\s*use\s+"([^"]*)$/.exec(left)?.[1];
  if (begun === undefined) return [];
  return (job.workspace.jobsheets?.() ?? [])
    .map((path) => relativePath(job.path, path))
    .filter((path) => path?.startsWith(begun) === true && path !== begun)
    .map((label): Completion => ({ label: label as string, sort: "word", rank: 0, from: left.length - begun.length, to: left.length }));
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
function atLineStart(job: Job, at: LineAt | undefined, setIn: boolean): Offer[] {
  const offer =
    (rank: number) =>
    (it: WordAbout): Offer => ({ label: it.word, sort: "keyword", detail: it.syntax, documentation: it.says, rank });
  const details = at === undefined || at.row === 0 ? [] : linesUnder(at.entry.kind).map(offer(setIn ? 1 : 4));
  const entries = setIn && details.length > 0 ? [] : heads.map(offer(2));
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

function behind(job: Job, at: LineAt | undefined, before: string): Offer[] {
  const keyword = /^\s*(\p{L}[\p{L}\p{M}\p{N}-]*)/u.exec(before)?.[1];
  if (keyword === "accept") return rules.filter((it) => !it.safety).map((it) => ({ label: it.id, sort: "word", detail: it.title, rank: 0 }));
  const head = at === undefined || at.row === 0 ? undefined : headText(job, at);
  const read = readSheet(`${head === undefined ? "" : `${head}\n`}${before}${standIn}`);
  const entry = read.entries.at(-1);
  const row = head === undefined || read.entries.length > 1 ? 0 : 1;
  const out: Offer[] = [];
  for (const it of entry === undefined ? [] : namesOf(entry)) {
    if (it.row !== row || it.name.text !== standIn || it.declares) continue;
    if (it.sort === "thing") out.push(...thingsOf(job, it.wants));
    if (it.sort === "place") out.push(...[...job.kindsOfPlace.keys()].map((label): Offer => ({ label, sort: "place", rank: 1 })));
    if (it.sort === "kind") out.push(...[...job.placeKinds].map(([label, places]): Offer => ({ label, sort: "place", detail: places.join(", "), rank: 0 })));
  }
  const rest = restOfLocking(before);
  if (rest !== undefined) return rest;
  const about = keyword === undefined ? undefined : wordAbout(keyword, at?.entry.kind, head === undefined);
  for (const { word, says } of wordsBehind(about)) out.push({ label: word, sort: "word", ...(says === undefined ? {} : { detail: says }), rank: 3 });
  return out;
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

function thingsOf(job: Job, wants: readonly string[]): Offer[] {
  return [...job.things.values()]
    .filter((it) => wants.includes(it.kind) && it.name !== standIn)
    .map((it) => ({ label: it.name, sort: "thing", detail: it.title === undefined ? it.kind : `${it.kind} “${it.title}”`, rank: 0 }));
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
