// A torque so near the end of its range that the wrench's own uncertainty may well put it outside.
import { wantedOf } from "../../model/torque.ts";
import { couldBeIn, verdict } from "../../quantities/range.ts";
import { quantityText } from "../../model/values.ts";
import { decimalText } from "../../quantities/exact.ts";
import { isRight } from "../../story/put-right.ts";
import type { FastenerCell, FastenerMoment } from "../../story/story.ts";
import { uncertaintyOf } from "../../story/bands.ts";
import { byLine } from "../by-line.ts";
import { curedReport } from "../found.ts";
import type { JobRule } from "../rule.ts";
import { leftSo } from "../tightenings.ts";
import { agreeing, calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "torque-doubt",
  group: "Tightness",
  severity: "warning on a critical fastener, else information",
  safety: false,
  title: "A torque at the end of its range, within half of what the wrench may be out",
  why: "A wrench that is known to 4 % and clicks at 50 may have pulled 48. Pull to the middle of the range, and what it may be out stays inside. Half of that is taken, which is one standard deviation: most ranges allow for the wrench already, so it only warns, and `accept` says that this one does. A range that is narrower than the wrench is good for says nothing here: no figure would do.",
  wrong: `gauge wrench "Torque wrench"
  uncertainty 4 %
fastener arm-nut "Arm nut"
  torque 50 .. 60 N.m
  locked by split pin 3 x 30 mm
  critical "steering"
  source "Maker's handbook, page 40"
step refit "Arm back"
  undo arm-nut
  tighten arm-nut to 50 N.m by wrench
#                    ^^^^^^ warning torque-doubt
  lock arm-nut new
  done
`,
  right: `gauge wrench "Torque wrench"
  uncertainty 4 %
fastener arm-nut "Arm nut"
  torque 50 .. 60 N.m
  locked by split pin 3 x 30 mm
  critical "steering"
  source "Maker's handbook, page 40"
step refit "Arm back"
  undo arm-nut
  tighten arm-nut to 55 N.m by wrench
  lock arm-nut new
  done
`,
  scope: "job",
  check(context) {
    const lines = byLine<FastenerCell, FastenerMoment>(
      context.story.fasteners,
      (it, cell, index) => it.verb === "tighten" && !it.forNow && isDoubtful(cell, it) && leftSo(cell.history, index),
    );
    for (const { cell, moment, cells, moments, places, action } of lines) {
      const wanted = wantedOf(cell.thing);
      const { gauge, to } = moment;
      if (wanted === undefined || gauge === undefined || to === undefined || action.to === undefined) continue;
      const u = uncertaintyOf(gauge, to.value);
      const by = u === undefined ? "" : ` by ${decimalText(u.div(to.unit.factor), 2)} ${to.unit.spelling}`;
      const cures = cells.map((one, i) => {
        const { seq } = moments[i] as FastenerMoment;
        const next = one.history.find(
          (it) =>
            it.seq > seq &&
            it.verb === "tighten" &&
            it.to !== undefined &&
            isRight(one, it) &&
            !isDoubtful(one, it) &&
            !it.after.lots.some((lot) => lot.tightenedAt === seq),
        );
        return next === undefined ? undefined : { moment: next, planned: next.phase === "planned" && moment.phase === "done" };
      });
      const message = `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "is")} left at ${quantityText(action.to)}, and the wrench may be out${by}: perhaps outside ${wanted.text}. Aim for the middle, or \`accept torque-doubt "why"\`.`;
      context.report(curedReport(context, { ...moment.where, at: action.to.at }, cell.thing.critical ? "warning" : "information", message, cures));
    }
  },
};

/** Inside its range, and not by half of what the wrench may be out (k = 2, so that is its standard uncertainty); in a range that is wide enough for the wrench. */
function isDoubtful(cell: FastenerCell, it: FastenerMoment): boolean {
  const wanted = wantedOf(cell.thing);
  if (wanted === undefined || it.to === undefined || it.gauge === undefined || !isRight(cell, it)) return false;
  const u = uncertaintyOf(it.gauge, it.to.value);
  if (u === undefined || wanted.last.alone || it.to.unit.dimension !== wanted.last.band.unit.dimension) return false;
  return couldBeIn(wanted.last.band, u) && verdict(wanted.last.band, it.to.value, u.div(2)) === "doubt";
}
