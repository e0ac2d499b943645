// A reading with more places than its gauge can show.
import { where } from "../../model/where.ts";
import { measured } from "../../model/values.ts";
import { type Exact, placesOf, ratio } from "../../quantities/exact.ts";
import { type Measured, bothSystems } from "../../quantities/quantity.ts";
import { fromBase } from "../../quantities/units.ts";
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "figure-too-fine",
  group: "Units and figures",
  severity: "information",
  safety: false,
  title: "More places than the gauge reads",
  why: "A last figure that the gauge can't show was guessed, worked out, or read from another gauge. It looks surer than it is, and near a limit it may decide.",
  wrong: `limit journal "Main journal"
  worn min 49.95 mm
  source "Maker's handbook, page 18"

gauge micrometer "Outside micrometer, 25-50 mm"
  resolution 0.01 mm
  uncertainty 0.004 mm

measure journal found by micrometer
  49.974 mm
# ^^^^^^ information figure-too-fine
`,
  right: `limit journal "Main journal"
  worn min 49.95 mm
  source "Maker's handbook, page 18"

gauge micrometer "Outside micrometer, 25-50 mm"
  resolution 0.01 mm
  uncertainty 0.004 mm

measure journal found by micrometer
  49.97 mm
`,
  scope: "job",
  check({ story, judged, report }) {
    // A slipped figure is asked about first; until it is answered nothing else is said of it.
    const slipped = new Set(judged.slips.map((it) => it.spot));
    for (const reading of story.readings) {
      const resolution = measured(reading.gauge?.resolution);
      if (resolution === undefined || reading.gauge === undefined) continue;
      for (const spot of reading.spots) {
        if (slipped.has(spot)) continue;
        for (const it of spot.figures) {
          if (!tooFine(it, resolution)) continue;
          const { detail, where: line } = reading;
          const quantity = detail.figures.find((one) => one.figure.text === it.figure && one.at.from >= spot.at.from && one.at.to <= spot.at.to);
          report({
            where: where(line.file, line.entry, detail.row, quantity?.figure.at ?? spot.at),
            severity: "information",
            message: `${called(reading.gauge)} reads to ${bothSystems(resolution)}; it can't have shown ${it.figure} ${it.unit.spelling}. Write what was read.`,
          });
        }
      }
    }
  },
};

/**
 * More places than the resolution has, and not one of its steps: 0.0125 is right of a gauge that reads 0.0005, 0.01433 is not of one that reads 0.001.
 * Between inches and millimetres nothing is said: a figure that was converted has the places that it needs.
 */
function tooFine(it: Measured, resolution: Measured): boolean {
  if (it.places <= 0 || it.unit.dimension !== resolution.unit.dimension) return false;
  if (it.unit.name === resolution.unit.name && it.places <= resolution.places) return false;
  const between = it.unit.factor.div(resolution.unit.factor);
  const shift = it.unit.name === resolution.unit.name ? 0 : powerOfTen(between);
  if (shift === undefined) return false;
  const shown = fromBase(resolution.value, resolution.unit);
  const places = placesOf(shown);
  if (places === undefined || shown.compare(0) <= 0 || it.places - shift <= places) return false;
  return it.value.div(resolution.value).d !== 1n;
}

function powerOfTen(it: Exact): number | undefined {
  for (let power = -6; power <= 6; power++) if (it.equals(power < 0 ? ratio(1n, 10n ** BigInt(-power)) : ratio(10n ** BigInt(power)))) return power;
  return undefined;
}
