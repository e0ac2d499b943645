// Where in a sheet planned work is put: before the release, for steps count in the order of the sheet, or at the end.
import { type SheetText, lineText } from "../../../grammar/sheet-text.ts";

/** From 0: `text` goes in there, with one blank line around it. */
export function placedIn(sheet: SheetText, text: string): { line: number; column: number; text: string } {
  return placed(text, (i) => lineText(sheet, i), sheet.lines.length, releaseLine(sheet));
}

/** The line of the release, with the comments that stand right above it. */
function releaseLine(sheet: SheetText): number | undefined {
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
