// A decimal comma.
import type { Slices } from "../../../grammar/slices.ts";
import { where } from "../../model/where.ts";
import { type EntryRule, rewrite } from "../rule.ts";
import { figuresOf } from "./shared/figures.ts";

/** So many a slice. */
const manyFigures = 5000;

export const rule: EntryRule = {
  id: "decimal-comma",
  group: "Units and figures",
  severity: "error",
  safety: false,
  title: "A decimal comma",
  why: "A comma separates the figures of a list here, so 0,38 could be 0.38 or two readings, and 1,250 could be a thousand times more. Handbooks use the comma in both ways. The sheet takes a point, and a space after the comma of a list.",
  wrong: `limit backlash "Backlash of the bevel gears"
  worn max 0,38 mm
#          ^^^^ error decimal-comma (fix)
  source "Maker's handbook, page 52"
`,
  right: `limit backlash "Backlash of the bevel gears"
  worn max 0.38 mm
  source "Maker's handbook, page 52"
`,
  fixed: `limit backlash "Backlash of the bevel gears"
  worn max 0.38 mm
  source "Maker's handbook, page 52"
`,
  scope: "entry",
  *check({ file, entry, report }): Slices<void> {
    for (const [i, { row, figure, reading }] of figuresOf(entry).all.entries()) {
      if (i % manyFigures === manyFigures - 1) yield;
      if (!figure.comma) continue;
      const at = where(file, entry, row, figure.at);
      const point = figure.text.replace(",", ".");
      const ways = [point];
      // Three figures behind the comma may be thousands, unless nothing but a nought stands before it.
      if (/^[+-]?[1-9]\d{0,2}(,\d{3})+$/.test(figure.text)) ways.push(figure.text.replaceAll(",", ""));
      if (reading && !/^[+-]?0+,|,0/.test(figure.text)) ways.push(figure.text.replaceAll(",", ", "));
      report({
        where: at,
        severity: "error",
        message: `${figure.text} has a comma in it. Write ${ways.length === 1 ? point : `${ways.slice(0, -1).join(", ")} or ${ways.at(-1)}, whichever it is`}.`,
        fixes: ways.map((way) => rewrite(`Write ${way}`, at, way)),
      });
    }
  },
};
