// Tightened to a figure outside its range, and left there.
import { bandOf, quantityText, rangeText } from "../../model/values.ts";
import { inside } from "../../quantities/range.ts";
import type { FastenerCell, FastenerMoment } from "../../story/story.ts";
import { curedReport } from "../found.ts";
import type { Cure } from "../../story/put-right.ts";
import type { JobRule } from "../rule.ts";
import { adjacentLock } from "../tightenings.ts";
import { byLine } from "../by-line.ts";
import { calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "torque-outside",
  group: "Tightness",
  severity: "error until it is tightened inside its range, then hint",
  safety: true,
  title: "The last figure before the lock, the next step or the end is outside its range, in whatever units",
  why: "Below its torque a joint works loose; above it the thread or the bolt has been overstretched. A stage on the way up is no fault: only the figure that it is left at counts.",
  wrong: `fastener arm-nut "Steering arm nut"
  torque 45 .. 55 N.m
step refit "Arm back"
  tighten arm-nut to 30 lbf.ft
#                    ^^^^^^^^^ error torque-outside
  done
`,
  right: `fastener arm-nut "Steering arm nut"
  torque 45 .. 55 N.m
step refit "Arm back"
  tighten arm-nut to 20 N.m
  tighten arm-nut to 37 lbf.ft
  done
`,
  scope: "job",
  check(context) {
    const lines = byLine<FastenerCell, FastenerMoment>(context.story.fasteners, (it, cell, index) => {
      const band = bandOf(cell.thing.torque?.range);
      if (it.verb !== "tighten" || it.forNow || band === undefined) return false;
      if (it.action?.to === undefined) return unwritten(cell, index);
      // What is tightened, eased or undone again in the same step was not left so.
      return it.to !== undefined && it.to.unit.dimension === band.unit.dimension && !inside(band, it.to.value) && adjacentLock(cell.history, index) !== "again";
    });
    for (const { cell, moment, cells, places, action } of lines) {
      const band = bandOf(cell.thing.torque?.range);
      const range = cell.thing.torque?.range;
      if (band === undefined || range === undefined) continue;
      const name = calledAt(cell.thing, places);
      const cures = cells.map((one) => cureOf(one, moment));
      if (action.to === undefined || moment.to === undefined) {
        context.report(
          curedReport(
            context,
            moment.where,
            "error",
            `${name} is critical and no torque was written. Tighten it to ${rangeText(range)}, and write the figure.`,
            cures,
          ),
        );
        continue;
      }
      const low = band.low !== undefined && moment.to.value.compare(band.low) < 0;
      const what = low ? "Tighten it to its figure before it is locked" : "Undo it, look at its thread, and tighten it again";
      context.report(
        curedReport(
          context,
          { ...moment.where, at: action.to.at },
          "error",
          `${name} is left at ${quantityText(action.to)}, ${low ? "below" : "above"} its ${rangeText(range)}. ${what}.`,
          cures,
        ),
      );
    }

    /** Without a figure a critical fastener is below its torque. Where it is to be locked, the lock's own rule says so. */
    function unwritten(cell: FastenerCell, index: number): boolean {
      const it = cell.history[index] as FastenerMoment;
      const locking = cell.thing.locking?.locking.kind;
      return (
        cell.thing.critical && !it.forNow && !cell.unsure && (locking === undefined || locking === "nothing") && adjacentLock(cell.history, index) === "none"
      );
    }

    function cureOf(cell: FastenerCell, it: FastenerMoment): Cure | undefined {
      const band = bandOf(cell.thing.torque?.range);
      for (const next of cell.history) {
        if (next.seq <= it.seq) continue;
        if (next.verb === "fit" && next.isNew) continue;
        if (next.verb === "tighten" && next.to !== undefined && band !== undefined && inside(band, next.to.value)) {
          return { moment: next, planned: next.phase === "planned" && it.phase === "done" };
        }
      }
      return undefined;
    }
  },
};
