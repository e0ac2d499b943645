// A range with its lower end above its upper.
import type { Range } from "../../../grammar/tree.ts";
import { measuredList, quantitiesOf, quantityText, rangeText } from "../../model/values.ts";
import { type Where, where } from "../../model/where.ts";
import type { EntryRule, RuleEdit } from "../rule.ts";
import { figuresOf } from "./shared/figures.ts";

export const rule: EntryRule = {
  id: "range-reversed",
  group: "Units and figures",
  severity: "error",
  safety: false,
  title: "A range with its ends the wrong way round",
  why: "Nothing lies between a lower end and an upper end that is below it, so nothing could ever pass. Either the two changed places, or one of them is a slip of the pen: look it up before it is turned round. Of two deviations the upper comes first.",
  wrong: `limit lever-travel "Clutch lever travel"
  set 25 .. 18 mm by link-nut
#     ^^^^^^^^^^^ error range-reversed (fix)
  source "Maker's handbook, page 7"

fastener link-nut "Link nut"
`,
  right: `limit lever-travel "Clutch lever travel"
  set 18 .. 25 mm by link-nut
  source "Maker's handbook, page 7"

fastener link-nut "Link nut"
`,
  fixed: `limit lever-travel "Clutch lever travel"
  set 18 .. 25 mm by link-nut
  source "Maker's handbook, page 7"

fastener link-nut "Link nut"
`,
  scope: "entry",
  check({ file, entry, report }) {
    for (const { row, range } of figuresOf(entry).ranges) {
      if (range.kind !== "between" && range.kind !== "deviations") continue;
      const [first, second, third] = measuredList(quantitiesOf(range));
      const [a, b] = range.kind === "between" ? [first, second] : [third, second];
      if (a === undefined || b === undefined || a.unit.dimension !== b.unit.dimension || a.value.compare(b.value) <= 0) continue;
      const at = where(file, entry, row, range.at);
      const turned = turnedRound(range, at);
      report({
        where: at,
        severity: "error",
        message:
          range.kind === "between"
            ? `The lower end is above the upper: ${rangeText(range)}. Write ${turned.text}, if the figures are right.`
            : `The upper deviation comes first: ${turned.text}.`,
        fixes: [{ title: `Write ${turned.text}`, edits: turned.edits, spells: true }],
      });
    }
  },
};

/** The two ends in each other's place. A unit that stands once stays where it is. */
function turnedRound(range: Extract<Range, { kind: "between" | "deviations" }>, at: Where): { text: string; edits: RuleEdit[] } {
  if (range.kind === "deviations") {
    const { nominal, first, second } = range;
    const upper = /^[+-]/.test(second.figure.text) ? second.figure.text : `+${second.figure.text}`;
    const text = rangeText({
      ...range,
      first: { ...first, figure: { ...first.figure, text: upper } },
      second: { ...second, figure: { ...second.figure, text: first.figure.text } },
      nominal,
    });
    return {
      text,
      edits: [
        { where: { ...at, at: first.figure.at }, text: upper },
        { where: { ...at, at: second.figure.at }, text: first.figure.text },
      ],
    };
  }
  const { low, high } = range;
  if (low.unit !== undefined && high.unit !== undefined) {
    return {
      text: `${quantityText(high)} .. ${quantityText(low)}`,
      edits: [
        { where: { ...at, at: low.at }, text: quantityText(high) },
        { where: { ...at, at: high.at }, text: quantityText(low) },
      ],
    };
  }
  return {
    text: rangeText({ ...range, low: { ...low, figure: high.figure }, high: { ...high, figure: low.figure } }),
    edits: [
      { where: { ...at, at: low.figure.at }, text: high.figure.text },
      { where: { ...at, at: high.figure.at }, text: low.figure.text },
    ],
  };
}
