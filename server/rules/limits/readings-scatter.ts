// The same spot read again, and the readings lie wider apart than the gauge can explain.
import { isCritical } from "../../model/relations.ts";
import { bandOf } from "../../model/values.ts";
import type { Exact } from "../../quantities/exact.ts";
import { verdict } from "../../quantities/range.ts";
import { readingsOn } from "../../story/looked-up.ts";
import type { Reading, Spot, Story } from "../../story/story.ts";
import { greatest, least } from "../../story/worked-out.ts";
import { uncertaintyOf } from "../../story/bands.ts";
import type { JobRule } from "../rule.ts";
import { knownTo, called, valueText } from "../wording.ts";

export const rule: JobRule = {
  id: "readings-scatter",
  group: "Limits, readings, checks",
  severity: "warning; open at release where a critical thing may be outside by one of the tries",
  safety: false,
  title: "`again` readings spread wider than the gauge's uncertainty can explain",
  why: "Readings of one spot that span more than twice the gauge's uncertainty were not of one spot, or the stand moved, or there was dirt. Their mean says nothing yet: clean it and read again. (Twice U is the span that a gauge of that uncertainty would hardly ever show; a rule of this tool.)",
  wrong: `gauge dial "Dial gauge"
  uncertainty 0.01 mm
limit end-float "Hub end float"
  worn max 0.25 mm
  source "Maker's handbook, page 64"
measure end-float found by dial
  again 0.10, 0.15, 0.11 mm
#       ^^^^^^^^^^^^^^^^^^^ warning readings-scatter
`,
  right: `gauge dial "Dial gauge"
  uncertainty 0.01 mm
limit end-float "Hub end float"
  worn max 0.25 mm
  source "Maker's handbook, page 64"
measure end-float found by dial
  again 0.10, 0.12, 0.11 mm
`,
  scope: "job",
  check({ story, report }) {
    for (const reading of story.readings) {
      const { gauge } = reading;
      if (gauge === undefined) continue;
      for (const spot of reading.spots) {
        const first = spot.figures[0];
        if (!spot.again || first === undefined || spot.figures.length < 2) continue;
        const values = spot.figures.map((it) => it.value);
        const span = greatest(values).sub(least(values));
        const u = uncertaintyOf(gauge, spot.value);
        if (u === undefined || span.compare(u.mul(2)) <= 0) continue;
        const at = [reading.place, reading.position].filter((it) => it !== undefined && it !== "").join(" ");
        report({
          where: { ...reading.where, at: spot.at },
          severity: "warning",
          ...(saysNothing(story, reading, spot, u) ? { open: true } : {}),
          message: `${called(reading.limit, at)}: repeat readings differ by ${valueText(span, first.unit, Math.max(...spot.figures.map((it) => it.places)))}; the gauge accounts for ± ${knownTo(gauge)}. Clean it, set the gauge and read again.`,
        });
      }
    }
  },
};

/** The last final at its place of something critical, and by one of its tries it may be outside: their mean says nothing yet. */
function saysNothing(story: Story, reading: Reading, spot: Spot, u: Exact): boolean {
  const { limit, stood, place, stage } = reading;
  if (stage !== "final" || !isCritical(story.job, limit)) return false;
  if (readingsOn(story, limit.name).some((it) => it.seq > reading.seq && it.stage === "final" && it.place === place && it.position === reading.position))
    return false;
  const band = bandOf(stood.set ?? stood.worn ?? stood.new);
  return band !== undefined && spot.figures.some((it) => it.unit.dimension === band.unit.dimension && verdict(band, it.value, u) !== "in");
}
