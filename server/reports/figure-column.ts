// A column of figures in a page: the points one below the other, the units behind them one below the other.
import { type Content, html } from "./html.ts";

/** Each cell is a figure and its unit; what stands behind the point is as wide everywhere. */
export function column(cells: readonly (readonly [figure: string | null, unit: string | null])[]): Content[] {
  const split = cells.map(([figure]) => (figure ?? "").split("."));
  const behind = Math.max(0, ...split.map(([, decimals]) => (decimals === undefined ? 0 : decimals.length + 1)));
  // Capitals are wider than figures: a unit has room for one letter more.
  const units = Math.max(0, ...cells.map(([, unit]) => [...(unit ?? "")].length));
  return cells.map(([figure, unit], i) => {
    if (figure === null) return "\u2013";
    const [whole, decimals] = split[i] as [string, string?];
    return html`${whole}${behind > 0 && html`<span class="f c${width(behind)}">${decimals === undefined ? "" : `.${decimals}`}</span>`}${units > 0 && html`<span class="u c${width(units + 1)}">${unit ?? ""}</span>`}`;
  });
}

/** The style has a class for each width up to this. */
function width(letters: number): number {
  return Math.min(letters, 15);
}

/** `0.0143 in` as a figure and its unit. */
export function figureAndUnit(text: string): readonly [string, string | null] {
  const space = text.indexOf(" ");
  return space < 0 ? [text, null] : [text.slice(0, space), text.slice(space + 1)];
}
