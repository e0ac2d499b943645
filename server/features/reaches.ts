// What is marked as a selection grows: the word, what the line says, the line, its entry, the sheet.
import { tokensOf } from "../../grammar/lexer.ts";
import { type SheetText, lineText } from "../../grammar/sheet-text.ts";
import { endOf } from "../../grammar/tokens.ts";
import { lineAt } from "./at.ts";

/** Lines from 0, columns in UTF-16 units; `to` is exclusive. */
export interface Reach {
  readonly from: { readonly line: number; readonly column: number };
  readonly to: { readonly line: number; readonly column: number };
}

/** From the smallest that holds the place to the whole sheet, each larger than the one before. */
export function reachesAt(sheet: SheetText, asked: number, askedColumn: number): Reach[] {
  const line = Math.min(asked, sheet.lines.length - 1);
  const text = lineText(sheet, line);
  const column = Math.min(askedColumn, text.length);
  const within = (from: number, to: number): Reach => ({ from: { line, column: from }, to: { line, column: to } });
  const out: Reach[] = [];
  const word = tokensOf(text).tokens.find((it) => it.startOffset <= column && column <= endOf(it));
  if (word !== undefined) out.push(within(word.startOffset, endOf(word)));
  const at = lineAt(sheet, line);
  const said = at?.line?.at;
  if (said !== undefined && said.from <= column && column <= said.to) out.push(within(said.from, said.to));
  out.push(within(0, text.length));
  if (at !== undefined) {
    const head = line - at.row;
    const last = [...at.entry.details, ...at.entry.stray].reduce((row, it) => Math.max(row, it.row), 0);
    if (at.row <= last) out.push({ from: { line: head, column: 0 }, to: { line: head + last, column: lineText(sheet, head + last).length } });
  }
  const end = sheet.lines.length - 1;
  out.push({ from: { line: 0, column: 0 }, to: { line: end, column: lineText(sheet, end).length } });
  return out.filter((it, i) => i === 0 || isLarger(it, out[i - 1] as Reach));
}

function isLarger(it: Reach, than: Reach): boolean {
  return it.from.line !== than.from.line || it.from.column !== than.from.column || it.to.line !== than.to.line || it.to.column !== than.to.column;
}
