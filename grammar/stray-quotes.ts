// A text without its end, or a quote that came in by a slip: only a second reading of the line tells which.
// Invariant: a fix is offered where it leaves a line that is read, and takes nothing away but one quote.
import type { IToken } from "chevrotain";
import { fault, fixOf } from "./line-nodes.ts";
import type { FaultAt } from "./sure-fixes.ts";
import type { Fault } from "./tree.ts";

/** In a line of more of them nobody knows which is too many. */
const mostQuotes = 8;

/** Undefined where neither closing the text nor taking a quote away leaves a line that is read. */
export function strayQuote(text: string, open: IToken, faultAt: FaultAt): Fault | undefined {
  const end = open.startOffset + open.image.trimEnd().length;
  const isRead = (line: string) => faultAt(line) === undefined;
  const quotes: number[] = [];
  for (let i = text.indexOf('"'); i !== -1 && i < end; i = text.indexOf('"', i + 1)) quotes.push(i);
  if (quotes.length > mostQuotes || text.includes("\\")) return undefined;
  const said = text.slice(open.startOffset + 1, end).trim();
  const close = said !== "" && isRead(`${text.slice(0, end)}"${text.slice(end)}`) ? [fixOf("Close the text", { from: end, to: end }, '"')] : [];
  const strays = quotes.filter((it) => isRead(text.slice(0, it) + text.slice(it + 1)));
  const [stray] = strays;
  // `""x"`: which of two quotes that touch is taken is one.
  const isOne = stray !== undefined && strays.every((it, i) => it === stray + i);
  const take = isOne ? [fixOf("Take the quote away", { from: stray, to: stray + 1 }, "")] : [];
  if (close.length > 0) return fault({ from: open.startOffset, to: end }, "This text has no closing quote.", [...close, ...take]);
  return isOne ? fault({ from: stray, to: stray + 1 }, "This quote does not belong there.", take) : undefined;
}
