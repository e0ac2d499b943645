// Which words of a text stay together at the end of a line: a day, and a figure with its unit.
import { isUnitSpelling } from "../../quantities/units.ts";
import { type Content, html } from "./html.ts";

// A figure as the trade writes it, `1-1/4` and `± 0.015` too; several with `x` or `..` between them are one size or one range.
const figure = String.raw`(?:\u00b1 ?)?\d[\d.,]*(?:[-/]\d+)*`;
const pieces = new RegExp(String.raw`\b\d{4}-\d{2}-\d{2}\b|(?<![\w.-])${figure}(?: (?:x|\.\.) ${figure})*(?: [^\s,;:()]*[^\s,;:().])?`, "gu");

/** The text with what must not be broken kept whole: `2026-04-11`, `± 0.015 mm`, `5/32 x 1-1/4 in`, `0.10 .. 0.18 mm`, `38.50 GBP`. */
export function unbroken(text: string): Content[] {
  const out: Content[] = [];
  let from = 0;
  for (const match of text.matchAll(pieces)) {
    const whole = wholeOf(match[0]);
    if (!/[\s/-]/u.test(whole)) continue;
    out.push(text.slice(from, match.index), html`<span class="unbroken">${whole}</span>`);
    from = match.index + whole.length;
  }
  out.push(text.slice(from));
  return out;
}

/** Without the word behind the figure where that is neither a unit nor a currency. */
function wholeOf(match: string): string {
  const space = match.lastIndexOf(" ");
  const word = match.slice(space + 1);
  return space < 0 || /^\d/u.test(word) || isUnitSpelling(word) || /^[A-Z]{3}$/u.test(word) ? match : match.slice(0, space);
}
