// Makes diagnostics of what the rules said: an entry and a row become the line that they stand on.
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import type { Entry } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import type { Where } from "../model/where.ts";
import { type RuleFix, type Said, type Severity, lastEntry, leavingBlank, lineEnd } from "./rule.ts";

export interface Diagnostic {
  readonly file: string;
  /** From 0. */
  readonly line: number;
  /** UTF-16 columns; `to` is exclusive. */
  readonly from: number;
  readonly to: number;
  readonly severity: Severity;
  readonly rule: string;
  readonly message: string;
  readonly related: readonly { readonly file: string; readonly line: number; readonly from: number; readonly to: number; readonly message: string }[];
  readonly fixes: readonly PlacedFix[];
  /** Can't be accepted in the sheet, whatever its rule. */
  readonly firm?: true;
}

export interface PlacedFix {
  readonly title: string;
  readonly edits: readonly TextEdit[];
  /** Only spells: it may be done at once. */
  readonly spells?: true;
}

export interface TextEdit {
  readonly file: string;
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** What a rule said, and the places that the marks in its messages stand for. */
export interface Told {
  readonly said: Said;
  readonly lines: readonly Where[];
}

/** A line of a file, from 0. */
export interface LineOf {
  readonly file: string;
  readonly line: number;
}

/** A diagnostic, and what its messages are made of again where the lines that they name have moved. */
export interface Placed {
  readonly diagnostic: Diagnostic;
  /** Its message and those of what is related, with their marks; undefined where none names a line. */
  readonly marked: Marked | undefined;
  /** The first and the last line of its own file that it names, fixes and all; of nothing but -1 and no end where it names a line of another file. */
  readonly first: number;
  readonly last: number;
}

export interface Marked {
  readonly message: string;
  readonly related: readonly string[];
  readonly lines: readonly LineOf[];
}

export interface Placer {
  line(where: Where): number;
  place(told: Told): Placed;
}

/** A mark for a line in a message: the number is put in when the message is sent, so that it is right after any edit above. */
export function mark(index: number): string {
  return `\uE000${index}\uE001`;
}

/** The same message with other marks, or with what they stand for. */
export function remarked(message: string, of: (index: number) => string): string {
  return message.includes("\uE000") ? message.replace(/\uE000(\d+)\uE001/g, (_, index) => of(Number(index))) : message;
}

/** The message with its numbers. A sheet may hold such a mark of its own; it means nothing. */
export function numbered(message: string, lines: readonly LineOf[]): string {
  return remarked(message, (index) => (lines[index] === undefined ? "" : String((lines[index] as LineOf).line + 1)));
}

/** Kept with what was placed, so that an edit elsewhere is told by two numbers. */
export function placed(diagnostic: Diagnostic, marked: Marked | undefined): Placed {
  let [first, last] = [diagnostic.line, diagnostic.line];
  const name = ({ file, line }: LineOf) => {
    if (file !== diagnostic.file) [first, last] = [-1, Number.POSITIVE_INFINITY];
    if (line < first) first = line;
    if (line > last) last = line;
  };
  for (const it of diagnostic.related) name(it);
  for (const fix of diagnostic.fixes) for (const it of fix.edits) name(it);
  for (const it of marked?.lines ?? []) name(it);
  return { diagnostic, marked, first, last };
}

export function placer(job: Job): Placer {
  const heads = new Map<Entry, number>();
  const sheets = new Map<string, SheetText>();
  for (const { path, sheet } of job.files) {
    sheets.set(path, sheet);
    for (let i = 0; i < sheet.entries.length; i++) heads.set(sheet.entries[i] as Entry, sheet.starts[i] as number);
  }
  const end = lastLine(job.own.sheet);
  const line = ({ entry, row }: Where) => (entry === lastEntry ? end : (heads.get(entry) ?? 0)) + row;
  return { line, place: (told) => placeOf(told, line, (file) => sheets.get(file)) };
}

/** `line` says where a place stands now, `sheetAt` what is written there. */
export function placeOf({ said: { report, rule }, lines }: Told, line: (where: Where) => number, sheetAt: (file: string) => SheetText | undefined): Placed {
  const used: LineOf[] = [];
  const text = (message: string) =>
    remarked(message, (index) => {
      const where = lines[index];
      return where === undefined ? "" : mark(used.push({ file: where.file, line: line(where) }) - 1);
    });
  const message = text(report.message);
  const related = report.related?.map((it) => text(it.message)) ?? nothing;
  const { file, line: row, from, to } = at(report.where, line, sheetAt);
  const { severity, firm } = report;
  const said = {
    file,
    line: row,
    from,
    to,
    severity,
    rule,
    message: numbered(message, used),
    related: report.related?.map((it, i) => ({ ...at(it.where, line, sheetAt), message: numbered(related[i] as string, used) })) ?? nothing,
    fixes: report.fixes?.map((fix) => placedFix(leavingBlank(fix), line, sheetAt)) ?? nothing,
  };
  return placed(firm === true ? { ...said, firm } : said, used.length === 0 ? undefined : { message, related, lines: used });
}

const nothing: readonly never[] = [];

/** Where a place stands in its file now. */
function at(where: Where, line: (where: Where) => number, sheetAt: (file: string) => SheetText | undefined) {
  const { file } = where;
  const { from, to } = where.at;
  const it = line(where);
  if (from !== lineEnd && to !== lineEnd) return { file, line: it, from, to };
  const sheet = sheetAt(file);
  const column = sheet === undefined ? 0 : lineText(sheet, it).length;
  return { file, line: it, from: from === lineEnd ? column : from, to: to === lineEnd ? column : to };
}

function placedFix({ title, edits: given, spells }: RuleFix, line: (where: Where) => number, sheetAt: (file: string) => SheetText | undefined): PlacedFix {
  const edits = inTurn(given.map((edit) => ({ ...at(edit.where, line, sheetAt), text: edit.text })));
  return spells === true ? { title, edits, spells } : { title, edits };
}

/** Two texts that are put in at one place are one edit: in what order they stand is not left to an editor. */
function inTurn(edits: readonly TextEdit[]): TextEdit[] {
  const out: TextEdit[] = [];
  for (const it of edits) {
    const same = out.findIndex((was) => was.file === it.file && was.line === it.line && was.to === it.from && it.from === it.to);
    if (same < 0) out.push(it);
    else out[same] = { ...(out[same] as TextEdit), text: `${(out[same] as TextEdit).text}${it.text}` };
  }
  return out;
}

/** The last line of a sheet that is not blank, as far up as the head of its last entry. */
export function lastLine(sheet: SheetText): number {
  const head = sheet.starts[sheet.starts.length - 1] ?? 0;
  let line = sheet.lines.length - 1;
  while (line > head && lineText(sheet, line).trim() === "") line--;
  return line;
}
