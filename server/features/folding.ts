// What can be folded away: each entry of more than one line, each day with all that belongs to it, and comments of several lines.
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";

/** So many lines a slice: each is only looked at. */
const someLines = 1000;

export interface Fold {
  /** From 0; the first line stays. */
  readonly from: number;
  readonly to: number;
  readonly kind: "day" | "entry" | "comment";
}

export function* folding(sheet: SheetText): Slices<Fold[]> {
  const out: Fold[] = [];
  let day: number | undefined;
  let last = 0;
  const endDay = () => {
    if (day !== undefined && last > day) out.push({ from: day, to: last, kind: "day" });
  };
  for (const [i, entry] of sheet.entries.entries()) {
    if (i % someAtOnce === 0) yield;
    const from = sheet.starts[i] as number;
    if (entry.kind === "day") {
      endDay();
      day = from;
    }
    // The last line that says something: blank lines and comments behind an entry belong to nobody.
    last = from;
    for (const it of entry.details) last = Math.max(last, from + it.row);
    for (const it of entry.stray) last = Math.max(last, from + it.row);
    if (last > from) out.push({ from, to: last, kind: "entry" });
  }
  endDay();
  let began: number | undefined;
  for (let line = 0; line <= sheet.lines.length; line++) {
    if (line % someLines === 0) yield;
    const comment = line < sheet.lines.length && lineText(sheet, line).startsWith("#");
    if (comment) began ??= line;
    else {
      if (began !== undefined && line - began > 1) out.push({ from: began, to: line - 1, kind: "comment" });
      began = undefined;
    }
  }
  return out.sort((a, b) => a.from - b.from || b.to - a.to);
}
