// A clamping nut let back from its torque to reach a slot.
import { relationsOf } from "../../model/relations.ts";
import { quantityText } from "../../model/values.ts";
import type { FastenerMoment } from "../../walk/story.ts";
import type { JobRule } from "../rule.ts";
import { runOf } from "../tightenings.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "slackened-to-lock",
  group: "Locking",
  severity: "error",
  safety: true,
  title: "A clamping nut tightened, then let back to a lower figure, then locked",
  why: "A clamping joint is taken on to the next slot, never back: a nut that is eased has lost more clamp than the figure shows. A bearing nut that sets a clearance is the opposite and may go back to its slot (common practice; the maker's instructions rule).",
  wrong: `fastener arm-nut "Steering arm nut"
  torque 45 .. 55 N.m
  locked by split pin 3.2 x 32 mm
step refit "Arm back"
  tighten arm-nut to 54 N.m
  tighten arm-nut to 47 N.m
#                    ^^^^^^ error slackened-to-lock
  lock arm-nut new
  done
`,
  right: `fastener arm-nut "Steering arm nut"
  torque 45 .. 55 N.m
  locked by split pin 3.2 x 32 mm
step refit "Arm back"
  tighten arm-nut to 47 N.m
  tighten arm-nut to 54 N.m
  lock arm-nut new
  done
`,
  scope: "job",
  check({ job, story, report }) {
    const { adjusting } = relationsOf(job);
    for (const cell of story.fasteners) {
      if (cell.unsure || adjusting.has(cell.thing.name)) continue;
      cell.history.forEach((it, i) => {
        if (it.verb !== "lock" || i === 0) return;
        const run = runOf(cell.history, i - 1);
        const last = run.at(-1);
        const before = run.slice(0, -1).findLast((was) => was.to !== undefined);
        if (last?.to === undefined || before?.to === undefined || last.to.unit.dimension !== before.to.unit.dimension || last.to.value.compare(before.to.value) >= 0) return;
        const at = last.action?.to;
        report({
          where: at === undefined ? last.where : { ...last.where, at: at.at },
          severity: "error",
          message: `${called(cell.thing, cell.place)} was at ${text(before)} and is let back to ${text(last)} to be locked. Go on to the next slot, inside its torque, or undo it and tighten it again.`,
          related: [
            { where: before.where, message: `Tightened to ${text(before)} here.` },
            { where: it.where, message: "Locked here." },
          ],
        });
      });
    }
  },
};

function text(it: FastenerMoment): string {
  return it.action?.to === undefined ? "" : quantityText(it.action.to);
}
