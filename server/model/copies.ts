// Whether one sheet is saved from another: an earlier state of it, or a second one in which somebody went on.
// Invariant: told of, and nothing hangs on it: a sheet that was begun from another as its pattern looks the same.
import type { SheetText } from "../../grammar/sheet-text.ts";
import { sheetEntryIn } from "./files.ts";
import { memo } from "./memo.ts";

/** The same title, and of the shorter of both nearly every line stands in the other. */
export function looksLikeCopy(one: SheetText, other: SheetText): boolean {
  const title = sheetEntryIn(one)?.title?.value;
  if (title === undefined || sheetEntryIn(other)?.title?.value !== title) return false;
  const [a, b] = [linesIn(one), linesIn(other)];
  const [few, many] = a.size < b.size ? [a, b] : [b, a];
  if (few.size < leastLines) return false;
  let same = 0;
  for (const line of few) if (many.has(line)) same++;
  return same >= few.size * nearlyAll;
}

const leastLines = 6;
const nearlyAll = 0.8;

/** A saved copy begins as its sheet does, so that of a long one the beginning tells. */
const mostLines = 1000;

const linesIn = memo((sheet: SheetText): ReadonlySet<string> => {
  const lines = sheet.lines.slice(0, mostLines).map((it) => it.trim());
  return new Set(lines.filter((it) => it !== "" && !it.startsWith("#")));
});
