// What can be folded away: each entry of more than one line, each day with all that belongs to it, and comments of several lines.
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import { outlineOf } from "./outline.ts";

export interface Fold {
  /** From 0; the first line stays. */
  readonly from: number;
  readonly to: number;
  readonly kind: "day" | "entry" | "comment";
}

export function foldsIn(sheet: SheetText): Fold[] {
  const items = outlineOf(sheet);
  const out: Fold[] = [];
  const days = items.flatMap((it, i) => (it.kind === "day" ? [i] : []));
  for (const [n, i] of days.entries()) {
    const last = items[(days[n + 1] ?? items.length) - 1];
    const from = items[i]?.firstLine ?? 0;
    if (last !== undefined && last.lastLine > from) out.push({ from, to: last.lastLine, kind: "day" });
  }
  for (const it of items) if (it.lastLine > it.firstLine) out.push({ from: it.firstLine, to: it.lastLine, kind: "entry" });
  let began: number | undefined;
  for (let line = 0; line <= sheet.lines.length; line++) {
    const comment = line < sheet.lines.length && lineText(sheet, line).startsWith("#");
    if (comment) began ??= line;
    else {
      if (began !== undefined && line - began > 1) out.push({ from: began, to: line - 1, kind: "comment" });
      began = undefined;
    }
  }
  return out.sort((a, b) => a.from - b.from || b.to - a.to);
}
