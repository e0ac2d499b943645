// Tightened to a figure outside its range, and left there.
import { bandOf, quantityText, rangeText } from "../../model/values.ts";
import { inside } from "../../quantities/range.ts";
import type { FastenerCell, FastenerMoment } from "../../walk/story.ts";
import { curedReport } from "../found.ts";
import type { Cure } from "../../walk/put-right.ts";
import type { JobRule } from "../rule.ts";
import { adjacentLock } from "../tightenings.ts";
import { called } from "../wording.ts";

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
    for (const cell of context.story.fasteners) {
      const band = bandOf(cell.thing.torque?.range);
      const range = cell.thing.torque?.range;
      if (band === undefined || range === undefined) continue;
      cell.history.forEach((it, i) => {
        const to = it.action?.to;
        if (it.verb === "tighten" && to === undefined && unwritten(cell, i)) {
          context.report(curedReport(context, it.where, "error", `${called(cell.thing, cell.place)} is critical and no torque was written. Tighten it to ${rangeText(range)}, and write the figure.`, [cureOf(cell, it)]));
          return;
        }
        if (it.verb !== "tighten" || it.to === undefined || to === undefined || it.forNow || it.to.unit.dimension !== band.unit.dimension || inside(band, it.to.value)) return;
        // A nut found to have been let back is said so once, by the rule that knows why.
        if (adjacentLock(cell.history, i) === "again") return;
        const low = band.low !== undefined && it.to.value.compare(band.low) < 0;
        const what = low ? "Tighten it to its figure before it is locked" : "Undo it, look at the thread and the bolt, and tighten it again";
        context.report(
          curedReport(context, { ...it.where, at: to.at }, "error", `${called(cell.thing, cell.place)} is left at ${quantityText(to)}, ${low ? "below" : "above"} its ${rangeText(range)}. ${what}.`, [cureOf(cell, it)]),
        );
      });
    }

    /** Without a figure a critical fastener is below its torque. Where it is to be locked, the lock's own rule says so. */
    function unwritten(cell: FastenerCell, index: number): boolean {
      const it = cell.history[index] as FastenerMoment;
      const locking = cell.thing.locking?.locking.kind;
      return cell.thing.critical && !it.forNow && !cell.unsure && (locking === undefined || locking === "nothing") && adjacentLock(cell.history, index) === "none";
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
