// One figure where a range is needed.
import { exact } from "../../quantities/exact.ts";
import { bandOf, quantityText } from "../../model/values.ts";
import { where } from "../../model/where.ts";
import { isUnitSpelling, unitOf } from "../../quantities/units.ts";
import type { Entry, Quantity } from "../../../grammar/tree.ts";
import { type EntryRule, type RuleFix, rewrite } from "../rule.ts";
import { figuresOf } from "./shared/figures.ts";

export const rule: EntryRule = {
  id: "range-bare",
  group: "Units and figures",
  severity: "error",
  safety: false,
  title: "One figure where a range is needed",
  why: "Nothing is ever exactly 50: a single figure doesn't say which way it may be missed, nor by how much. Where nothing may exceed it, say `max`; where nothing may be below it, `min`; where it is to be met, say within what: `50 +/- 5 lbf.ft`.",
  wrong: `limit cylinder-bore "Cylinder bore"
  worn 90.2 mm
#      ^^^^^^^ error range-bare (fix)
  source "Maker's handbook, page 40"
`,
  right: `limit cylinder-bore "Cylinder bore"
  worn max 90.2 mm
  source "Maker's handbook, page 40"
`,
  fixed: `limit cylinder-bore "Cylinder bore"
  worn max 90.2 mm
  source "Maker's handbook, page 40"
`,
  scope: "entry",
  check({ file, entry, report }) {
    for (const { row, range, keyword } of figuresOf(entry).ranges) {
      if (range.kind !== "bare") continue;
      const { only } = range;
      // A decimal comma, or a word that is no unit, is said first: what it is in truth may be a range.
      if (only.figure.comma || (only.unit !== undefined && unitOf(only.unit.text) === undefined && !isUnitSpelling(only.unit.text))) continue;
      const written = quantityText(only);
      report({
        where: where(file, entry, row, range.at),
        severity: "error",
        message: `${written} is one figure, and \`${keyword}\` needs a range. Write max ${written}, min ${written}, or ${only.figure.text} +/- what it may be off.`,
        fixes: fixesFor(file, entry, row, only),
      });
    }
  },
};

function fixesFor(file: string, entry: Entry, row: number, only: Quantity): RuleFix[] {
  const written = quantityText(only);
  const front = where(file, entry, row, { from: only.at.from, to: only.at.from });
  const behind = where(file, entry, row, { from: only.figure.at.to, to: only.figure.at.to });
  const max = rewrite(`Write max ${written}`, front, "max ");
  const min = rewrite(`Write min ${written}`, front, "min ");
  const within: RuleFix = { title: `Write ${only.figure.text} +/- ___, for how far it may be off`, edits: [{ where: behind, text: " +/- ___" }] };
  return wearsDown(entry, only) ? [min, max, within] : [max, min, within];
}

/** What wears away is worn below what it was new. */
function wearsDown(entry: Entry, only: Quantity): boolean {
  const value = exact(only.figure.text);
  for (const detail of entry.details) {
    if (detail.kind !== "new" || value === undefined || detail.range === undefined) continue;
    const band = bandOf(detail.range);
    const unit = only.unit === undefined ? undefined : unitOf(only.unit.text);
    if (band?.low !== undefined && unit !== undefined && unit.dimension === band.unit.dimension) return value.mul(unit.factor).compare(band.low) < 0;
  }
  return false;
}
