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
  /** Stands as long as no head has moved; undefined where a line's length counts as well. */
  standing: object | undefined;
}

export interface Placer {
  /**
   * An entry as it was when a rule spoke of it stands where the one stands that says the same now. False where that can't be, for it still stands
   * somewhere itself, or was found elsewhere.
   */
  alias(before: Entry, now: Entry): boolean;
  line(where: Where): number;
  diagnostic(told: Told): Diagnostic;
  /** Whether it was shown, and every entry that it speaks of stands there unchanged: of another one neither the columns nor the words would be sure. */
  stillStands(told: Told): boolean;
}

/** Where entries stand, by their position in the files laid one behind the other; and where those stood that are no more. */
export interface Standing {
  readonly here: Map<Entry, number>;
  readonly gone: Map<Entry, number>;
  /** The lines of the heads, file by file, as they were last looked at. */
  heads: readonly (readonly number[])[];
  /** Another object each time that a head stands on another line than before. */
  lines: object;
}

export function standingOf(job: Job): Standing {
  const here = new Map<Entry, number>();
  let at = 0;
  for (const { sheet } of job.files) for (const entry of sheet.entries) here.set(entry, at++);
  return { here, gone: new Map(), heads: job.files.map(({ sheet }) => sheet.starts), lines: {} };
}

/** Puts an entry in the place of another. False where it is one that was there before, and stood elsewhere. */
export function replaced(standing: Standing, before: Entry, now: Entry, at: number): boolean {
  const { here, gone } = standing;
  if (gone.has(now) || here.has(now)) return false;
  here.delete(before);
  gone.set(before, at);
  here.set(now, at);
  return true;
}

/** A mark for a line in a message: the number is put in when the message is sent, so that it is right after any edit above. */
export function mark(index: number): string {
  return `\uE000${index}\uE001`;
}

/** The same message with other marks. */
export function remarked(message: string, of: (index: number) => string): string {
  return message.includes("\uE000") ? message.replace(/\uE000(\d+)\uE001/g, (_, index) => of(Number(index))) : message;
}

export function placer(job: Job, standing: Standing = standingOf(job)): Placer {
  const { here, gone } = standing;
  if (!job.files.every(({ sheet }, i) => sheet.starts === standing.heads[i]) || job.files.length !== standing.heads.length) {
    standing.heads = job.files.map(({ sheet }) => sheet.starts);
    standing.lines = {};
  }
  const sheets = new Map<string, SheetText>();
  let starts: readonly number[] = [];
  for (const { path, sheet } of job.files) {
    sheets.set(path, sheet);
    starts = starts.length === 0 ? sheet.starts : starts.concat(sheet.starts);
  }
  const end = lastLine(job.own.sheet);

  const line = ({ entry, row }: Where) => {
    if (entry === lastEntry) return end + row;
    const at = here.get(entry) ?? gone.get(entry);
    return (at === undefined ? 0 : (starts[at] as number)) + row;
  };
  const reachesEnd = ({ at }: Where) => at.from === lineEnd || at.to === lineEnd;
  const endOf = (where: Where) => {
    const sheet = sheets.get(where.file);
    return sheet === undefined ? 0 : lineText(sheet, line(where)).length;
  };

  function make({ said, lines }: Told): Placed {
    const { report, rule } = said;
    const anchors: Where[] = [];
    const at = (where: Where) => {
      anchors.push(where);
      const { from, to } = where.at;
      const column = reachesEnd(where) ? endOf(where) : 0;
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
    return {
      diagnostic,
      anchors,
      lines: anchors.map(line),
      ends: anchors.map((it) => (reachesEnd(it) ? endOf(it) : 0)),
      standing: anchors.some(reachesEnd) ? undefined : standing.lines,
    };
  }

  function stands(placed: Placed): boolean {
    if (placed.standing === standing.lines) return true;
    const { anchors, lines, ends } = placed;
    for (let i = 0; i < anchors.length; i++) {
      const where = anchors[i] as Where;
      if (line(where) !== lines[i] || (reachesEnd(where) && endOf(where) !== ends[i])) return false;
    }
    if (placed.standing !== undefined) placed.standing = standing.lines;
    return true;
  }

  const known = ({ entry }: Where) => entry === lastEntry || here.has(entry);

  return {
    stillStands: ({ placed }) => placed?.anchors.every(known) === true,
    alias(before, now) {
      if (here.has(before)) return false;
      const at = here.get(now) as number;
      const other = gone.get(before);
      if (other !== undefined) return other === at;
      gone.set(before, at);
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
