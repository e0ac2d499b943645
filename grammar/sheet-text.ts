// A sheet as text and as entries, kept in step: an edit reads again the entry that it touches and leaves every other entry object as it was.
// The text falls into segments at entry keywords in column 0; a segment's entries hang on its own lines and on nothing else.
// Invariant: after any edit, entries and starts equal those of a fresh read; `textOf` gives back every byte.
import { fileLines, filingLines, someLines } from "./entries.ts";
import { type Slices, runThrough } from "./slices.ts";
import type { Entry, SheetEntry } from "./tree.ts";
import { entryWords } from "./words.ts";

export interface SheetText {
  readonly entries: readonly Entry[];
  /** Absolute line (0-based) of each entry's head. */
  readonly starts: readonly number[];
  readonly lineCount: number;
  /** The line end that the sheet uses most at its beginning: what a line that is put in should end with. */
  readonly newline: "\n" | "\r\n" | "\r";
  /** The lines without their ends. A byte order mark is the first character of the first. */
  readonly lines: readonly string[];
  /** What ends each line; the last ends with nothing. */
  readonly breaks: readonly string[];
}

export interface SheetChange {
  readonly startLine: number;
  readonly startColumn: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly text: string;
}

export function readSheet(text: string): SheetText {
  return runThrough(readingSheet(text));
}

/** The same in slices of some lines. */
export function* readingSheet(text: string): Slices<SheetText> {
  const { lines, breaks } = yield* splitting(text);
  const entries: Entry[] = [];
  const starts: number[] = [];
  yield* filingRegion(lines, 0, lines.length, entries, starts);
  return sheet(entries, starts, lines, breaks);
}

/** The first `sheet` entry of a text, as `readSheet` finds it, without reading what is behind it. */
export function sheetEntryOf(text: string): SheetEntry | undefined {
  const { lines } = split(text);
  let begin = 0;
  for (let i = 1; i <= lines.length; i++) {
    if (i < lines.length && !isBoundary(lines[i] as string)) continue;
    // An entry is of this kind by its word alone, as it stands in the text.
    const mayHave = lines.slice(begin, i).some((it) => it.includes("sheet"));
    const head = mayHave ? fileLines(lines, begin, i).entries.find((entry) => entry.kind === "sheet") : undefined;
    if (head !== undefined) return head;
    begin = i;
  }
  return undefined;
}

/** Positions outside the text are taken as the nearest inside. */
export function editSheet(before: SheetText, change: SheetChange): SheetText {
  return runThrough(editingSheet(before, change));
}

/** The same in slices of some lines. */
export function* editingSheet(before: SheetText, change: SheetChange): Slices<SheetText> {
  const start = inside(before, change.startLine, change.startColumn);
  const end = later(start, inside(before, change.endLine, change.endColumn));
  // A lone CR before the edit may become half of a CRLF, so its line is split again with the rest.
  const first = start.line > 0 && before.breaks[start.line - 1] === "\r" && start.column === 0 ? start.line - 1 : start.line;
  const last = end.line;
  const head = text(before, first, start.line) + (before.lines[start.line] as string).slice(0, start.column);
  const tail = (before.lines[last] as string).slice(end.column) + (before.breaks[last] as string);
  const fresh = yield* splitting(head + change.text + tail);
  // Where the last line touched has an end, what is behind that end is a line of its own already.
  if (last < before.lines.length - 1) {
    fresh.lines.pop();
    fresh.breaks.pop();
  }
  const lines = spliced(before.lines, first, last + 1, fresh.lines);
  const breaks = spliced(before.breaks, first, last + 1, fresh.breaks);

  // Read again from the head of the segment that the edit is in (of the one before, where the edit has touched that head) up to the next.
  let from = first;
  if (!isBoundary(lines[first] as string) || !isBoundary(before.lines[first] as string)) {
    from = Math.max(0, first - 1);
    while (from > 0 && !isBoundary(lines[from] as string)) from--;
  }
  let oldTo = last + 1;
  while (oldTo < before.lines.length && !isBoundary(before.lines[oldTo] as string)) oldTo++;
  const to = oldTo + lines.length - before.lines.length;
  const keepTo = firstAtOrBehind(before.starts, from);
  const keepFrom = firstAtOrBehind(before.starts, oldTo);
  const entries: Entry[] = [];
  const starts: number[] = [];
  yield* filingRegion(lines, from, to, entries, starts);
  const shift = to - oldTo;
  const moved = shift === 0 ? before.starts : before.starts.map((it, i) => (i < keepFrom ? it : it + shift));
  return sheet(spliced(before.entries, keepTo, keepFrom, entries), spliced(moved, keepTo, keepFrom, starts), lines, breaks);
}

/** A list with some of it replaced; the same list where that changes nothing, so that one look tells. */
function spliced<T>(list: readonly T[], from: number, to: number, by: readonly T[]): readonly T[] {
  if (by.length !== to - from) return list.slice(0, from).concat(by, list.slice(to));
  if (by.every((it, i) => it === list[from + i])) return list;
  const out = list.slice();
  for (let i = 0; i < by.length; i++) out[from + i] = by[i] as T;
  return out;
}

/** Byte for byte what was read. */
export function textOf(sheet: SheetText): string {
  return text(sheet, 0, sheet.lines.length);
}

/** A line without its end; empty where there is no such line. */
export function lineText(sheet: SheetText, line: number): string {
  return sheet.lines[line] ?? "";
}

/**
 * What a check looks at: equal keys mean that nothing has changed for it. Columns and rows count;
 * the words of notes, photos and reasons, and comments, don't.
 */
export function factsKey(entry: Entry): string {
  let key = keys.get(entry);
  if (key === undefined) {
    // Under a head that can't be read nothing is silent: every word there may be a name that was meant.
    const quiet = entry.kind !== "unread" && entry.details.some((it) => silent.has(it.kind) && it.fault === undefined);
    const seen = quiet ? { ...entry, details: entry.details.map((it) => (silent.has(it.kind) && it.fault === undefined ? [it.kind, it.row] : it)) } : entry;
    key = JSON.stringify(seen);
    keys.set(entry, key);
  }
  return key;
}

const keys = new WeakMap<Entry, string>();
const silent = new Set(["note", "photo", "because"]);

// ---------------------------------------------------------------- lines

const keyword = entryWords.map((it) => it.word).join("|");
const boundary = new RegExp(`^\\ufeff?(?:${keyword})(?![\\p{L}\\p{M}\\p{N}])(?!-[\\p{L}\\p{N}])`, "u");

const keywords = new Set(entryWords.map((it) => it.word as string));
const firstLetters = /^\ufeff?([a-z]+)/;

function isBoundary(line: string): boolean {
  const code = line.charCodeAt(0);
  // No keyword begins with anything but a small letter, perhaps behind a byte order mark.
  if ((code < 97 || code > 122) && code !== 0xfeff) return false;
  const found = firstLetters.exec(line);
  if (found === null || !keywords.has(found[1] as string)) return false;
  const end = found[0].length;
  const next = line.charCodeAt(end);
  // Behind nearly every keyword there is a space or nothing; the pattern of all scripts takes milliseconds to make ready.
  return Number.isNaN(next) || next === 32 || boundary.test(line.length > 100 ? line.slice(0, 100) : line);
}

/** Lines end as the Language Server Protocol counts them: at CRLF, LF or CR. */
function split(text: string): { lines: string[]; breaks: string[] } {
  return runThrough(splitting(text));
}

/** So many lines a slice. */
const manyLines = 3000;

/** The same in slices. */
function* splitting(text: string): Slices<{ lines: string[]; breaks: string[] }> {
  const lines: string[] = [];
  const breaks: string[] = [];
  const ends = /\r\n|\n|\r/g;
  let from = 0;
  for (let found = ends.exec(text); found !== null; found = ends.exec(text)) {
    lines.push(text.slice(from, found.index));
    breaks.push(found[0]);
    from = ends.lastIndex;
    if (lines.length % manyLines === 0) yield;
  }
  lines.push(text.slice(from));
  breaks.push("");
  return { lines, breaks };
}

function text(sheet: SheetText, from: number, to: number): string {
  let out = "";
  for (let i = from; i < to; i++) out += (sheet.lines[i] as string) + (sheet.breaks[i] as string);
  return out;
}

/** Files lines that begin at a segment's head, or at the text's beginning, and end before one. */
function* filingRegion(lines: readonly string[], from: number, to: number, entries: Entry[], starts: number[]): Slices<void> {
  let begin = from;
  let sliced = from;
  for (let i = from + 1; i <= to; i++) {
    if (i < to && !isBoundary(lines[i] as string)) continue;
    const filed = yield* filingLines(lines, begin, i);
    for (const it of filed.entries) entries.push(it);
    for (const it of filed.starts) starts.push(begin + it);
    begin = i;
    if (i - sliced < someLines) continue;
    sliced = i;
    yield;
  }
}

function sheet(entries: readonly Entry[], starts: readonly number[], lines: readonly string[], breaks: readonly string[]): SheetText {
  const first = breaks[0];
  return { entries, starts, lines, breaks, lineCount: lines.length, newline: first === "\r\n" || first === "\r" ? first : "\n" };
}

interface Position {
  readonly line: number;
  readonly column: number;
}

function inside(sheet: SheetText, line: number, column: number): Position {
  if (!(line >= 0)) return { line: 0, column: 0 };
  if (line >= sheet.lines.length) return { line: sheet.lines.length - 1, column: (sheet.lines[sheet.lines.length - 1] as string).length };
  return { line: Math.floor(line), column: Math.max(0, Math.min(Math.floor(column) || 0, (sheet.lines[Math.floor(line)] as string).length)) };
}

function later(a: Position, b: Position): Position {
  return b.line < a.line || (b.line === a.line && b.column < a.column) ? a : b;
}

/** Index of the first number that is at least `least`, in a rising list. */
function firstAtOrBehind(list: readonly number[], least: number): number {
  let low = 0;
  let high = list.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((list[middle] as number) < least) low = middle + 1;
    else high = middle;
  }
  return low;
}
