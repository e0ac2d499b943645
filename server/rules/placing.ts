// Makes diagnostics of what the rules said: an entry and a row become the line that they stand on now.
// Invariant: a diagnostic whose places stand where they stood is the same object as before, so that nothing is made of it twice.
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import type { Entry } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import type { Where } from "../model/where.ts";
import { type Said, type Severity, lastEntry, lineEnd } from "./rule.ts";

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
  readonly fixes: readonly { readonly title: string; readonly edits: readonly TextEdit[] }[];
}

export interface TextEdit {
  readonly file: string;
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** What a rule said, and the lines that the marks in its messages stand for. */
export interface Told {
  readonly said: Said;
  readonly lines: readonly Where[];
  /** What was made of it last. */
  placed?: Placed;
}

interface Placed {
  readonly diagnostic: Diagnostic;
  /** Every place in it, with the line and, where it reaches to the end of that line, the column that it had. */
  readonly anchors: readonly Where[];
  readonly lines: readonly number[];
  readonly ends: readonly number[];
}

export interface Placer {
  /**
   * An entry as it was when a rule spoke of it stands where the one stands that says the same now. False where that can't be, for it still stands
   * somewhere itself, or was found elsewhere.
   */
  alias(before: Entry, now: Entry): boolean;
  line(where: Where): number;
  diagnostic(told: Told): Diagnostic;
}

/** A mark for a line in a message: the number is put in when the message is sent, so that it is right after any edit above. */
export function mark(index: number): string {
  return `\uE000${index}\uE001`;
}

/** The same message with other marks. */
export function remarked(message: string, of: (index: number) => string): string {
  return message.includes("\uE000") ? message.replace(/\uE000(\d+)\uE001/g, (_, index) => of(Number(index))) : message;
}

export function placer(job: Job): Placer {
  const sheets = new Map<string, SheetText>();
  const starts = new Map<Entry, number>();
  for (const { path, sheet } of job.files) {
    sheets.set(path, sheet);
    for (let i = 0; i < sheet.entries.length; i++) starts.set(sheet.entries[i] as Entry, sheet.starts[i] as number);
  }
  starts.set(lastEntry, lastLine(job.own.sheet));

  const aliases = new Map<Entry, Entry>();

  const line = (where: Where) => (starts.get(where.entry) ?? starts.get(aliases.get(where.entry) as Entry) ?? 0) + where.row;
  const reachesEnd = ({ at }: Where) => at.from === lineEnd || at.to === lineEnd;
  const end = (where: Where) => {
    const sheet = sheets.get(where.file);
    return sheet === undefined ? 0 : lineText(sheet, line(where)).length;
  };

  function make({ said, lines }: Told): Placed {
    const { report, rule } = said;
    const anchors: Where[] = [];
    const at = (where: Where) => {
      anchors.push(where);
      const { from, to } = where.at;
      const column = reachesEnd(where) ? end(where) : 0;
      return { file: where.file, line: line(where), from: from === lineEnd ? column : from, to: to === lineEnd ? column : to };
    };
    const text = (message: string) =>
      remarked(message, (index) => {
        const where = lines[index];
        // A sheet may hold such a mark of its own; it means nothing.
        if (where === undefined) return "";
        anchors.push(where);
        return String(line(where) + 1);
      });
    const diagnostic: Diagnostic = {
      ...at(report.where),
      severity: report.severity,
      rule,
      message: text(report.message),
      related: (report.related ?? []).map((related) => ({ ...at(related.where), message: text(related.message) })),
      fixes: (report.fixes ?? []).map((fix) => ({ title: fix.title, edits: fix.edits.map((edit) => ({ ...at(edit.where), text: edit.text })) })),
    };
    return { diagnostic, anchors, lines: anchors.map(line), ends: anchors.map((it) => (reachesEnd(it) ? end(it) : 0)) };
  }

  function stands({ anchors, lines, ends }: Placed): boolean {
    for (let i = 0; i < anchors.length; i++) {
      const where = anchors[i] as Where;
      if (line(where) !== lines[i] || (reachesEnd(where) && end(where) !== ends[i])) return false;
    }
    return true;
  }

  return {
    alias(before, now) {
      if (starts.has(before)) return false;
      const other = aliases.get(before);
      if (other !== undefined) return other === now;
      aliases.set(before, now);
      return true;
    },
    line,
    diagnostic(told) {
      if (told.placed === undefined || !stands(told.placed)) told.placed = make(told);
      return told.placed.diagnostic;
    },
  };
}

/** The last line of a sheet that is not blank, as far up as the head of its last entry. */
function lastLine(sheet: SheetText): number {
  const head = sheet.starts[sheet.starts.length - 1] ?? 0;
  let line = sheet.lines.length - 1;
  while (line > head && lineText(sheet, line).trim() === "") line--;
  return line;
}
