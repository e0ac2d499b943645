// A reading below zero where there can be none.
import { canBeNegative } from "../../story/bands.ts";
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "reading-impossible",
  group: "Limits, readings, checks",
  severity: "error",
  safety: false,
  title: "Below zero where there can be none",
  why: "A diameter or a clearance that is read directly can't be less than nothing. Either the gauge was set to zero elsewhere, or a sign slipped in.",
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
  },
};
