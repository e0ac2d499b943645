// Readings and looks that wait in the sheet to be filled in, and how the lines begin that wait for them.
// Invariant: what waits so is not asked for twice.
import { lineText } from "../../../grammar/sheet-text.ts";
import type { Check, Limit } from "../../model/things.ts";
import type { Story } from "../../story/story.ts";

/** Written already and waiting to be filled in: an empty `measure … final` of it, or a comment that holds its line. */
export function waitsInSheet({ job }: Story, thing: Limit | Check, place: string, stage = "final"): boolean {
  const { sheet } = job.own;
  if (thing.kind === "check") return sheet.lines.some((line) => commentOf(line)?.startsWith(seenLine(thing, place)) === true);
  return sheet.entries.some((entry, i) => {
    if (entry.kind !== "measure" || entry.limit?.text !== thing.name || entry.stage !== stage) return false;
    const first = sheet.starts[i] ?? 0;
    const comments = Array.from({ length: entry.rows }, (_, row) => commentOf(lineText(sheet, first + row))).filter((it) => it !== undefined);
    return comments.some((it) => it.startsWith(readingLine(place)));
  });
}

/** How a line that waits for a figure begins, behind the sign of a comment. */
export function readingLine(place: string): string {
  return place === "" ? "\u2026" : `${place} \u2026`;
}

export function seenLine(check: Check, place: string): string {
  return `seen ${check.name} final good|bad "\u2026"${place === "" ? "" : ` ${place}`} by "\u2026"`;
}

function commentOf(line: string): string | undefined {
  return /^\s*#\s*(.*)$/.exec(line)?.[1];
}
