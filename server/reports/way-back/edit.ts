// Where in a sheet its way back is written, and what: at the end, or before the release, for steps count in the order of the sheet.
// Invariant: adds lines and changes none; a head that stands in the sheet already is not written twice.
import { lineText } from "../../../grammar/sheet-text.ts";
import type { Files } from "../../model/files.ts";
import { counted } from "../../rules/wording.ts";
import { nothingMissing, wayBackHeadline } from "./words.ts";
import { type WayBack, wayBack } from "./way-back.ts";

export interface WayBackEdit {
  /** From 0: `text` goes in there. Undefined where nothing is missing. */
  readonly insert?: { readonly line: number; readonly column: number; readonly text: string };
  /** What came of it, for whoever asked. */
  readonly said: string;
}

/** Undefined where there is no such sheet. */
export function wayBackEdit(files: Files, path: string): WayBackEdit | undefined {
  const sheet = files.read(path);
  const report = wayBack(files, path);
  if (typeof sheet === "string" || report === undefined) return undefined;
  if (report.sheet === "") return { said: `${nothingMissing}${unsettledWords(report)}` };
  const lines = sheet.lines.length;
  const known = new Set(Array.from({ length: lines }, (_, i) => lineText(sheet, i).trim()));
  const [head, ...body] = report.sheet.trimEnd().split("\n\n");
  const heads = (head as string).split("\n").filter((it) => !known.has(it));
  const text = [...(heads.length === 0 ? [] : [heads.join("\n")]), ...body].join("\n\n");
  const insert = placed(text, (i) => lineText(sheet, i), lines, releaseLine(sheet));
  return {
    insert: { ...insert, text: insert.text.replaceAll("\n", sheet.newline) },
    said: `Written: ${wayBackHeadline(report).replace(/\.$/, "")}. Mark a step done when it is done, and write the figures that you read.${unsettledWords(report)}`,
  };
}

/** The line of the release, with the comments that stand right above it. */
function releaseLine(sheet: Exclude<ReturnType<Files["read"]>, string>): number | undefined {
  const at = sheet.entries.findIndex((entry) => entry.kind === "release");
  if (at < 0) return undefined;
  let line = sheet.starts[at] as number;
  while (line > 0 && /^\s*#/.test(lineText(sheet, line - 1))) line -= 1;
  return line;
}

/** With one blank line around it. */
function placed(text: string, at: (line: number) => string, lines: number, before: number | undefined): { line: number; column: number; text: string } {
  if (before !== undefined) {
    const blank = before === 0 || at(before - 1).trim() === "";
    return { line: before, column: 0, text: `${blank ? "" : "\n"}${text}\n\n` };
  }
  // A text that ends with a line break has a last line with nothing in it.
  const last = lines - 1;
  const ended = at(last) === "";
  const above = ended ? last - 1 : last;
  const blank = above < 0 || at(above).trim() === "";
  return { line: last, column: at(last).length, text: `${ended ? "" : "\n"}${blank ? "" : "\n"}${text}\n` };
}

function unsettledWords(report: WayBack): string {
  const count = report.unsettled.length;
  return count === 0 ? "" : ` ${counted(count, "thing")} no step can settle: the report of the way back names ${count === 1 ? "it" : "them"}.`;
}
