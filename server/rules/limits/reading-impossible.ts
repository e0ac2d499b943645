// A reading below zero where there can be none, and a fluid that is low by more than it holds.
import { canBeNegative } from "../../story/bands.ts";
import { measured, quantityText } from "../../model/values.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called } from "../wording.ts";

export const rule: JobRule = {
  id: "reading-impossible",
  group: "Limits, readings, checks",
  severity: "error",
  safety: false,
  title: "Below zero where there can be none; a fluid low by more than it holds",
  why: "A diameter or a clearance that is read directly can't be less than nothing. Either the gauge was set to zero elsewhere, or a sign slipped in. A box can't lack more oil than goes into it: the figure, its unit or the capacity has slipped.",
  wrong: `limit bore "Bush bore"
  worn max 22.4 mm
  source "Maker's handbook, page 66"
measure bore found
  -0.02 mm
# ^^^^^^^^ error reading-impossible
`,
  right: `limit bore "Bush bore"
  worn max 22.4 mm
  source "Maker's handbook, page 66"
measure bore found
  22.3 mm
`,
  scope: "job",
  check({ story, report }) {
    for (const reading of story.readings) {
      if (canBeNegative(reading.limit)) continue;
      const figure = reading.detail.figures.find((it) => it.figure.text.startsWith("-") && !/^-[0./-]*$/.test(it.figure.text));
      if (figure === undefined) continue;
      const at = [reading.place, reading.position].filter((it) => it !== undefined && it !== "").join(" ");
      report({
        where: { ...reading.where, at: figure.at },
        severity: "error",
        message: `${called(reading.limit, at)} reads below zero, and it can't. Read it again, or take the sign away.`,
      });
    }
    for (const { thing, conditions } of story.findings) {
      if (thing.kind !== "fluid" || thing.capacity === undefined) continue;
      const capacity = measured(thing.capacity);
      if (capacity === undefined) continue;
      for (const { condition, where } of conditions) {
        const low = condition.kind === "low" ? measured(condition.amount) : undefined;
        if (low === undefined || low.unit.dimension !== capacity.unit.dimension || low.value.compare(capacity.value) <= 0) continue;
        report({
          where,
          severity: "error",
          message: `${called(thing)} ${agreeing(thing, "is")} low by more than the ${quantityText(thing.capacity)} that there is of it. Write by how much it was low.`,
        });
      }
    }
  },
};
