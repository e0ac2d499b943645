// A gauge or a torque wrench used where its scale does not reach.
import { bandOf, measuredList, quantityText, rangeText } from "../../model/values.ts";
import { inside } from "../../quantities/range.ts";
import { isCritical } from "../../model/relations.ts";
import type { JobRule } from "../rule.ts";
import type { FastenerCell, FastenerMoment } from "../../story/story.ts";
import { byLine } from "../by-line.ts";
import { called, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "gauge-range",
  group: "Tightness",
  severity: "error for a torque and for a critical reading, else warning",
  safety: false,
  title: "A gauge used outside its range",
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
      if (it.gauge === undefined || range === undefined || action.to === undefined) continue;
      report({
        where: { ...it.where, at: action.by?.at ?? action.to.at },
        severity: "error",
        message: `${called(it.gauge)} reads ${rangeText(range)}; ${outOfReach(it)} is outside it. Tighten ${midSentence(cell.thing)} with one that reaches.`,
        ...(cell.thing.critical ? { firm: true as const } : {}),
      });
    }
    for (const reading of story.readings) {
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

/** The first figure, of its stages in turn, that the wrench does not reach. */
function outOfReach({ action, gauge }: FastenerMoment): string | undefined {
  const band = bandOf(gauge?.range);
  if (action?.to === undefined || band === undefined) return undefined;
  const stages = action.stages ?? [action.to];
  const out = measuredList(stages).findIndex((it) => it !== undefined && it.unit.dimension === band.unit.dimension && !inside(band, it.value));
  const at = stages[out];
  return at === undefined ? undefined : quantityText(at, at.unit ?? action.to.unit);
}
