// A gauge or a torque wrench used where its scale does not reach.
import { bandOf, measuredList, quantityText, rangeText } from "../../model/values.ts";
import { ratio } from "../../quantities/exact.ts";
import { inside } from "../../quantities/range.ts";
import { isCritical } from "../../model/relations.ts";
import type { JobRule } from "../rule.ts";
import type { Entry } from "../../../grammar/tree.ts";
import { allWords } from "../../model/titles.ts";
import type { Gauge } from "../../model/things.ts";
import type { FastenerCell, FastenerMoment, Reading } from "../../story/story.ts";
import { byLine } from "../by-line.ts";
import { agreeing, called, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "gauge-range",
  group: "Tightness",
  severity: "error for a torque and for a critical reading, else warning",
  safety: false,
  title: "A gauge used outside its range, feeler blades where no gap is read, or a bore gauge on the outside of a thing",
  why: "Below the lower end of its scale a torque wrench does not click where it says it does, and a micrometer closed past its range reads nothing true. Use the one that reaches.",
  wrong: `gauge wrench "Torque wrench"
  range 40 .. 200 N.m
fastener cap-bolt "Cap bolt"
  torque 20 .. 25 N.m
step refit "Cap back"
  tighten cap-bolt to 22 N.m by wrench
#                               ^^^^^^ error gauge-range
  done
`,
  right: `gauge wrench "Torque wrench"
  range 10 .. 60 N.m
fastener cap-bolt "Cap bolt"
  torque 20 .. 25 N.m
step refit "Cap back"
  tighten cap-bolt to 22 N.m by wrench
  done
`,
  scope: "job",
  check({ job, story, report }) {
    const lines = byLine<FastenerCell, FastenerMoment>(story.fasteners, (it) => outOfReach(it) !== undefined);
    for (const { cell, moment: it, action } of lines) {
      const range = it.gauge?.range;
      if (it.gauge === undefined || range === undefined || action.to === undefined || isPulledOn(cell, it)) continue;
      report({
        where: { ...it.where, at: action.by?.at ?? action.to.at },
        severity: "error",
        message: `${called(it.gauge)} reads ${rangeText(range)}; ${outOfReach(it)} is outside it. Tighten ${midSentence(cell.thing)} with one that reaches.`,
        ...(cell.thing.critical ? { firm: true as const } : {}),
      });
    }
    const isTold = new Set<Entry>();
    for (const reading of story.readings) {
      const { gauge } = reading;
      const why = gauge === undefined ? undefined : cannotRead(gauge, reading);
      if (gauge !== undefined && why !== undefined && reading.entry.by !== undefined) {
        if (isTold.has(reading.entry)) continue;
        isTold.add(reading.entry);
        report({
          where: { ...reading.where, row: 0, at: reading.entry.by.at },
          severity: reading.stage !== "trial" && isCritical(job, reading.limit) ? "error" : "warning",
          open: reading.stage === "final",
          message: `${called(gauge)} ${agreeing(gauge, "is")} ${why}. Write what it was read with, or read it again.`,
        });
        continue;
      }
      const range = reading.gauge?.range;
      const band = bandOf(range);
      if (reading.gauge === undefined || range === undefined || band === undefined) continue;
      const figures = measuredList(reading.detail.figures);
      const out = figures.findIndex((it) => it !== undefined && it.unit.dimension === band.unit.dimension && !inside(band, it.value));
      const at = reading.detail.figures[out];
      if (at === undefined) continue;
      report({
        where: { ...reading.where, at: at.at },
        severity: reading.stage !== "trial" && isCritical(job, reading.limit) ? "error" : "warning",
        open: reading.stage === "final",
        ...(reading.stage === "final" && isCritical(job, reading.limit) ? { firm: true as const } : {}),
        message: `${called(reading.gauge)} reads ${rangeText(range)}; ${quantityText(at, at.unit ?? reading.detail.figures.at(-1)?.unit)} is outside it. Read it again with one that reaches.`,
      });
    }
  },
};

/** Why nobody reads such a thing with such a gauge (common practice); undefined where somebody may, and of a gauge whose words name a second one. */
function cannotRead(gauge: Gauge, { limit, detail }: Reading): string | undefined {
  const words = allWords(gauge).replace(setBy, " ");
  if (feelers.test(words) && !withAnother.test(words)) {
    const wide = measuredList(detail.figures).some((it) => it?.unit.dimension === "length" && it.value.compare(widestBlades) > 0);
    return wide ? "for gaps, and this is wider than blades fill" : undefined;
  }
  if (!insideGauges.test(words) || withAnother.test(words)) return undefined;
  const of = allWords(limit);
  return outsides.test(of) && !insides.test(of) ? "for holes, and this is the outside of a thing" : undefined;
}

/** Millimetres: a whole set of blades on one another. */
const widestBlades = ratio(10);
const setBy = /,? \b(set|zeroed|checked|proved) (to|by|with|from|on|against|in)\b.*/iu;
const feelers = /\bfeelers?\b/iu;
const withAnother = /\b(and|with|plus|over|on) .*\b(mic|micrometer|calipers?|rule|straight ?edge|gauge blocks?|slips?)\b|[+&]/iu;
const insideGauges = /\b(bore (gauge|mic)|inside mic|internal mic|telescopic gauge|three[- ]leg|hole gauge|plug gauge)/iu;
const outsides = /\b(journals?|spigots?|stems?|shafts?|pins?|o\.?d|outside|outer diameter|thickness|stub|crank-?pins?)\b/iu;
const insides =
  /\b(bores?|bored|inside|internal|inner|i\.?d|holes?|bush(es)?|brass(es)?|cups?|drums?|cylinders?|housings?|eyes?|seats?|races?|sleeves?|liners?|shells?|bearings?|between|gap|clearance|float|play|guides?|boss(es)?|seating)\b/iu;

/** A first pull below what the wrench shows, where nobody asks for a stage, and pulled in the same step to a figure that it does show. */
function isPulledOn(cell: FastenerCell, { seq, visit, gauge, to }: FastenerMoment): boolean {
  if (to === undefined || cell.thing.critical || (cell.thing.torque?.stages?.length ?? 0) > 1) return false;
  const next = cell.history.find((it) => it.seq > seq && (it.verb === "tighten" || it.verb === "undo" || it.verb === "slacken" || it.verb === "lock"));
  const isOn =
    next?.verb === "tighten" && next.visit === visit && next.gauge === gauge && next.to !== undefined && next.to.unit.dimension === to.unit.dimension;
  return isOn && (next.to?.value.compare(to.value) ?? 0) > 0 && outOfReach(next) === undefined;
}

/** The first figure, of its stages in turn, that the wrench does not reach. */
function outOfReach({ action, gauge }: FastenerMoment): string | undefined {
  const band = bandOf(gauge?.range);
  if (action?.to === undefined || band === undefined) return undefined;
  const stages = action.stages ?? [action.to];
  const out = measuredList(stages).findIndex((it) => it !== undefined && it.unit.dimension === band.unit.dimension && !inside(band, it.value));
  const at = stages[out];
  return at === undefined ? undefined : quantityText(at, at.unit ?? action.to.unit);
}
