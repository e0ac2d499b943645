// A column of figures in a page: the points one below the other, the units behind them one below the other.
import { type Content, html } from "./html.ts";

/**
 * Each cell is a figure and its unit. What stands behind the point, with the unit beside it, is as wide in every cell of the column, so that the
 * points and the ends of whole numbers stand one below the other.
 */
export function column(cells: readonly (readonly [figure: string | null, unit: string | null])[]): Content[] {
  const split = cells.map(([figure, unit]) => {
    const [whole, decimals] = (figure ?? "").split(".");
    return { whole: whole as string, behind: `${decimals === undefined ? "" : `.${decimals}`}${unit === null ? "" : `\u00a0${unit}`}`, unit };
  });
  // All figures are equally wide: what is alike behind the point ends at the edge by itself, under the head of its column.
  const alike = new Set(split.map(({ behind }) => behind.replace(/\d/g, "0"))).size <= 1;
  // Capitals are wider than figures: a unit has room for one letter more.
  const width = Math.min(most, Math.max(0, ...split.map(({ behind, unit }) => [...behind].length + (unit === null || unit === "" ? 0 : 1))));
  return cells.map(([figure], i) => {
    const { whole, behind } = split[i] as (typeof split)[number];
    if (figure === null) return "\u2013";
    return alike ? `${whole}${behind}` : html`${whole}${width > 0 && html`<span class="f c${width}">${behind}</span>`}`;
  });
}

/** The style has a class for each width up to this. */
const most = 20;

/** `0.0143 in` as a figure and its unit. */
export function figureAndUnit(text: string): readonly [string, string | null] {
  const space = text.indexOf(" ");
  return space < 0 ? [text, null] : [text.slice(0, space), text.slice(space + 1)];
}
