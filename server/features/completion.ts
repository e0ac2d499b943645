// What could be written at the cursor: keywords, names of the right kind, places, words that the line takes.
// Which names fit is asked of the reader itself: the line is read with a stand-in name at the cursor, and what the reader makes of it decides.
import { lineText, readSheet } from "../../grammar/sheet-text.ts";
import type { Job } from "../model/job.ts";
import { linesOf } from "../model/things.ts";
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
  if (inTextOrComment(left)) return [];
  const typed = /[\p{L}\p{M}\p{N}-]*$/u.exec(left)?.[0] ?? "";
  const from = left.length - typed.length;
  const before = left.slice(0, from);
  const at = lineAt(job.own.sheet, line);
  const offers = before.trim() === "" ? atLineStart(job, at, before !== "") : behind(job, at, before);
  const seen = new Set<string>();
  return offers.filter((it) => !seen.has(it.label) && seen.add(it.label)).map((it) => ({ ...it, from, to: column }));
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
  const about = keyword === undefined ? undefined : wordAbout(keyword, at?.entry.kind, head === undefined);
  for (const { word, says } of wordsBehind(about)) out.push({ label: word, sort: "word", ...(says === undefined ? {} : { detail: says }), rank: 3 });
  return out;
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
