// A gauge too coarse for the limit that it is used on.
import type { Gauge, Limit } from "../../model/things.ts";
import { type Exact, zero } from "../../quantities/exact.ts";
import type { Band } from "../../quantities/range.ts";
import { uncertaintyOf } from "../../story/bands.ts";
import { bandOf, measured, rangeText } from "../../model/values.ts";
import type { Job } from "../../model/job.ts";
import { isCritical } from "../../model/relations.ts";
import type { Verdict } from "../../story/verdict.ts";
import type { JobContext, JobRule } from "../rule.ts";
import { agreeing, called, knownTo, valueText } from "../wording.ts";

export const rule: JobRule = {
  id: "gauge-cannot-tell",
  group: "Limits, readings, checks",
  severity:
    "information, once a limit; warning that holds where a critical fit was bored or ground and is worked out of readings that cannot tell it from a bad one",
  safety: false,
  title: "Uncertainty so wide that no reading could be in, or wider than a quarter of the band",
  why: "A gauge that is out by as much as the band is wide can't pass anything. A quarter of the band or finer is common practice; wider, expect more readings in doubt.",
  wrong: `fastener hub-nut "Hub nut"
gauge dial "Dial gauge"
  uncertainty 0.0010 in
limit end-float "Hub end float"
  set 0.002 .. 0.005 in by hub-nut
  source "Maker's handbook, page 64"
measure end-float final by dial
#                          ^^^^ information gauge-cannot-tell
  0.0035 in
`,
  right: `fastener hub-nut "Hub nut"
gauge dial "Dial gauge"
  uncertainty 0.0005 in
limit end-float "Hub end float"
  set 0.002 .. 0.005 in by hub-nut
  source "Maker's handbook, page 64"
measure end-float final by dial
  0.0035 in
`,
  scope: "job",
  check({ job, story, judged, report }) {
    ofTheFit(job, judged.verdicts, report);
    const said = new Set<string>();
    // Most limits are read several times with one gauge, and that answers them all.
    const fine = new Map<Limit, Gauge>();
    for (const reading of story.readings) {
      const { limit, stood, gauge } = reading;
      if (gauge === undefined || (gauge.uncertainty === undefined && gauge.uncertaintyShare === undefined) || said.has(limit.name) || fine.get(stood) === gauge)
        continue;
      const bands = ([stood.set, stood.new, stood.worn] as const).flatMap((range) => {
        const band = bandOf(range);
        return range === undefined ||
          band?.low === undefined ||
          band.high === undefined ||
          (gauge.uncertainty !== undefined && band.unit.dimension !== measured(gauge.uncertainty)?.unit.dimension)
          ? []
          : // A share of the reading is least at the lower end: there it could tell soonest.
            [{ range, band, width: band.high.sub(band.low), u: uncertaintyOf(gauge, nearestZero(band.low, band.high)) ?? zero }];
      });
      const hopeless = bands.find((it) => it.u.mul(2).compare(it.width) > 0);
      // No limit is wider than the gauge can tell only because one band of it is: the narrowest two-sided one is asked.
      const coarse = hopeless ?? bands.find((it) => it.u.mul(4).compare(it.width) > 0);
      if (coarse === undefined) fine.set(stood, gauge);
      if (coarse === undefined || reading.entry.by === undefined) continue;
      said.add(limit.name);
      const width = valueText(coarse.width, coarse.band.unit, places(coarse.band));
      report({
        where: { ...reading.where, row: 0, at: reading.entry.by.at },
        severity: "information",
        message: `${called(gauge)} ${agreeing(gauge, "is")} only good to ± ${knownTo(gauge)}; the limits (${rangeText(coarse.range)}) are ${width} apart. ${hopeless === undefined ? "Use a finer one, or expect readings in doubt" : "No reading with it can be inside; use a finer one"}.`,
      });
    }
  },
};

/**
 * What two pieces clear one another, one of which was bored or ground here or outside: it was made to the band of new, and by gauges that are out by more than that is wide nobody knows whether it was.
 * What has only run is judged by its wear, which is far off.
 */
function ofTheFit(job: Job, verdicts: readonly Verdict[], report: JobContext["report"]): void {
  for (const it of verdicts) {
    if (
      !it.workedOut ||
      !(it.mended || it.renewed) ||
      it.outcome !== "in" ||
      it.stage !== "final" ||
      it.uncertaintySquared === undefined ||
      !isCritical(job, it.limit)
    )
      continue;
    const band = bandOf(it.stood.new);
    if (band?.low === undefined || band.high === undefined) continue;
    const width = band.high.sub(band.low);
    if (it.uncertaintySquared.mul(4).compare(width.mul(width)) <= 0) continue;
    report({
      where: it.where,
      severity: "warning",
      open: true,
      message: `${called(it.limit, it.place)} ${agreeing(it.limit, "was")} bored or ground, and read to no closer than new is wide (${rangeText(it.stood.new as NonNullable<Limit["new"]>)}): nobody knows whether it fits. Measure with a finer gauge.`,
    });
  }
}

function nearestZero(low: Exact, high: Exact): Exact {
  return low.abs().compare(high.abs()) < 0 ? low.abs() : high.abs();
}

function places(band: Band): number {
  return Math.max(...(band.text.match(/\.(\d+)/g) ?? [".0"]).map((it) => it.length - 1));
}
