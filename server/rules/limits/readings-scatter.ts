// The same spot read again, and the readings lie wider apart than the gauge can explain.
import { isCritical } from "../../model/relations.ts";
import { bandOf } from "../../model/values.ts";
import type { Exact } from "../../quantities/exact.ts";
import type { Measured } from "../../quantities/quantity.ts";
import { type Band, inside, verdict } from "../../quantities/range.ts";
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
      for (const spot of reading.spots) {
        const first = spot.figures[0];
        if (!spot.again || first === undefined || spot.figures.length < 2) continue;
        const values = spot.figures.map((it) => it.value);
        const span = greatest(values).sub(least(values));
        const u = uncertaintyOf(gauge, spot.value);
        const where = { ...reading.where, at: spot.at };
        // Nothing says by how much the tries may differ: one that is outside is outside, whatever the mean of them.
        const outside = u === undefined ? tryOutside(story, reading, spot) : undefined;
        if (outside !== undefined)
          report({
            where,
            severity: "warning",
            open: true,
            message: `${called(reading.limit, reading.place)}: one of the tries is ${figureText(outside)}, outside what it may be, and no gauge says that they may differ so. Read it again, and say by which gauge.`,
          });
        if (gauge === undefined || u === undefined || span.compare(u.mul(2)) <= 0) continue;
        const at = [reading.place, reading.position].filter((it) => it !== undefined && it !== "").join(" ");
        report({
          where,
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
  const band = lastWord(story, reading);
  return band !== undefined && spot.figures.some((it) => it.unit.dimension === band.unit.dimension && verdict(band, it.value, u) !== "in");
}

/** The first of its tries that is outside, where the mean of them is not. */
function tryOutside(story: Story, reading: Reading, spot: Spot): Measured | undefined {
  const band = lastWord(story, reading);
  if (band === undefined || spot.figures.some((it) => it.unit.dimension !== band.unit.dimension) || !inside(band, spot.value)) return undefined;
  return spot.figures.find((it) => !inside(band, it.value) && isFarOut(band, it.value));
}

/** By more than a quarter of what it may be from end to end, or a tenth of its one end: a try that is out by less is what the mean is for. A rule of this tool. */
function isFarOut({ low, high }: Band, value: Exact): boolean {
  const by = high !== undefined && value.compare(high) > 0 ? value.sub(high) : low !== undefined ? low.sub(value) : undefined;
  if (by === undefined) return false;
  return low !== undefined && high !== undefined ? by.mul(4).compare(high.sub(low)) > 0 : by.mul(10).compare(((high ?? low) as Exact).abs()) > 0;
}

/** What a reading is judged by, where it is the last final of something critical at its place. */
function lastWord(story: Story, { limit, stood, place, position, stage, seq }: Reading): Band | undefined {
  if (stage !== "final" || !isCritical(story.job, limit)) return undefined;
  if (readingsOn(story, limit.name).some((it) => it.seq > seq && it.stage === "final" && it.place === place && it.position === position)) return undefined;
  return bandOf(stood.set ?? stood.worn ?? stood.new);
}

function figureText({ figure, unit }: Measured): string {
  return `${figure} ${unit.spelling}`;
}
