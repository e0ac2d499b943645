// Sets the layout of a sheet: entries at the margin, details set in by two spaces, single spaces, no runs of blank lines.
// Invariant: formatting never changes what a sheet means, and formatting twice changes nothing more. A line that can't be read keeps its text;
// where setting the layout would change whose a broken line is, the lines around it are left alone.
import type { IToken } from "chevrotain";
import { commentAt } from "./line-parser.ts";
import { type Slices, runThrough, someAtOnce } from "./slices.ts";
import { type SheetText, readingSheet } from "./sheet-text.ts";
import { tokensOf } from "./lexer.ts";
import { Close, Comma, DotDot, EqualsSign, Open, PlusMinus, endOf, figureToken, nameToken, touching, unitOnlyToken } from "./tokens.ts";
import type { Detail, Entry } from "./tree.ts";

export function formatSheet(text: string): string {
  return runThrough(layingOut(text));
}

/** The same in slices. */
export function* layingOut(text: string): Slices<string> {
  const sheet = yield* readingSheet(text);
  const whole = yield* laidOut(sheet, () => false);
  if (whole === text || (yield* meansTheSame(sheet, whole))) return whole;
  const careful = yield* laidOut(sheet, broken(sheet));
  return careful === text || (yield* meansTheSame(sheet, careful)) ? careful : text;
}

/** What each line is to be; `undefined` where nothing is to be done to it. */
type Layout = "head" | "detail" | "indent" | undefined;

function* laidOut(sheet: SheetText, leave: (line: number) => boolean): Slices<string> {
  const layouts = layoutsOf(sheet);
  const mark = sheet.lines[0]?.startsWith("\ufeff") === true ? "\ufeff" : "";
  let out = mark;
  let blanks = 0;
  const last = sheet.lines.length - 1;
  for (let i = 0; i <= last; i++) {
    if (i % someAtOnce === 0) yield;
    const line = i === 0 ? (sheet.lines[0] as string).slice(mark.length) : (sheet.lines[i] as string);
    if (leave(i)) {
      out += line + sheet.breaks[i];
      blanks = 0;
      continue;
    }
    if (line.trim() === "") {
      // Of a run of blank lines one stays, with the end of its first; at the text's end none does.
      if (blanks++ === 0 && !restIsBlank(sheet, i)) out += sheet.breaks[i];
      continue;
    }
    blanks = 0;
    out += lineOf(line, layouts.get(i), layouts.size > 0) + sheet.breaks[i];
  }
  return out;
}

function restIsBlank(sheet: SheetText, from: number): boolean {
  for (let i = from; i < sheet.lines.length; i++) if ((sheet.lines[i] as string).trim() !== "") return false;
  return true;
}

function layoutsOf(sheet: SheetText): Map<number, Layout> {
  const out = new Map<number, Layout>();
  sheet.entries.forEach((entry, i) => {
    const start = sheet.starts[i] as number;
    if (entry.kind !== "headless") out.set(start, entry.fault === undefined ? "head" : undefined);
    for (const it of entry.details)
      out.set(start + it.row, entry.kind === "headless" || it.kind === "unread" ? undefined : it.fault === undefined ? "detail" : "indent");
    for (const it of entry.stray) out.set(start + it.row, undefined);
  });
  return out;
}

function lineOf(line: string, layout: Layout, inEntry: boolean): string {
  // A comment at the margin stays there; one that is set in is set in as details are.
  if (/^\s*#/.test(line)) return line.startsWith("#") || !inEntry ? line.trimEnd() : `  ${line.trim()}`;
  if (layout === undefined) return line;
  if (layout === "indent") return `  ${line.trimStart()}`;
  return (layout === "detail" ? "  " : "") + spaced(line);
}

/** The tokens of a good line with single spaces between them, and its comment as it stands. */
function spaced(line: string): string {
  const { tokens } = tokensOf(line);
  let out = "";
  for (const [i, it] of tokens.entries()) out += i > 0 && gap(tokens[i - 1] as IToken, it) ? ` ${it.image}` : it.image;
  const from = commentAt(line);
  if (from === undefined) return out;
  const end = endOf(tokens[tokens.length - 1] as IToken);
  return `${out}${line.slice(end, from).replace(/[^ ]/g, " ")}${line.slice(from).trimEnd()}`;
}

/** Whether a space stands between two tokens: as written, but for commas, two dots, and a unit behind its figure. */
function gap(before: IToken, it: IToken): boolean {
  if (it.tokenType === Comma) return false;
  if (before.tokenType === Comma) return true;
  if (before.tokenType === Open || it.tokenType === Close) return false;
  if (it.tokenType === DotDot || before.tokenType === DotDot || it.tokenType === PlusMinus || before.tokenType === PlusMinus) return true;
  if (before.tokenType === EqualsSign || it.tokenType === EqualsSign) return true;
  if (touching(before, it)) return figureToken(before) && (nameToken(it) || unitOnlyToken(it));
  return true;
}

/** Lines of entries in which something can't be read, and of those beside them. */
function broken(sheet: SheetText): (line: number) => boolean {
  const lines = new Set<number>();
  sheet.entries.forEach((entry, i) => {
    if (![entry, ...entry.details, ...entry.stray].some((it: Entry | Detail) => it.fault !== undefined)) return;
    const from = sheet.starts[Math.max(0, i - 1)] as number;
    const to = sheet.starts[i + 2] ?? sheet.lines.length;
    for (let line = from; line < to; line++) lines.add(line);
  });
  const first = sheet.starts[0] ?? 0;
  return (line) => lines.has(line) || (lines.has(first) && line < first);
}

/** Whether the text says what the sheet does, whatever its layout. */
function* meansTheSame(sheet: SheetText, text: string): Slices<boolean> {
  const { entries } = yield* readingSheet(text);
  if (entries.length !== sheet.entries.length) return false;
  for (const [i, entry] of entries.entries()) {
    if (i % someAtOnce === 0) yield;
    if (meaningOf(entry) !== meaningOf(sheet.entries[i] as Entry)) return false;
  }
  return true;
}

/** What an entry says, whatever its layout: its tree without columns and rows. */
function meaningOf(entry: Entry): string {
  return JSON.stringify(entry, (key, value) => {
    if (key === "at" || key === "keyword" || key === "row" || key === "rows" || key === "written" || key === "fixes") return undefined;
    return value !== null && typeof value === "object" && typeof value.from === "number" ? true : value;
  });
}
