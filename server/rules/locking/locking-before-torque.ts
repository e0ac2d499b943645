// Locked while slack, or below its torque.
import { relationsOf } from "../../model/relations.ts";
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";
import { rangeText } from "../../model/values.ts";

export const rule: JobRule = {
  id: "locking-before-torque",
  group: "Locking",
  severity: "error",
  safety: true,
  title: "Locked while slack or below torque",
  why: "A pin through a slack nut keeps it slack. Tighten to the figure first and write it (`tighten … to …`), then lock. Pins and keys that are never tight (`torque none`) and nuts that set a clearance are left alone.",
  wrong: `fastener arm-nut "Steering arm nut"
  torque 45 .. 55 N.m
  locked by split pin 3.2 x 32 mm
  critical "steering"
step refit "Arm back"
  tighten arm-nut
  lock arm-nut new
#      ^^^^^^^ error locking-before-torque
  done
`,
  right: `fastener arm-nut "Steering arm nut"
  torque 45 .. 55 N.m
  locked by split pin 3.2 x 32 mm
  critical "steering"
step refit "Arm back"
  tighten arm-nut to 50 N.m
  lock arm-nut new
  done
`,
  scope: "job",
  check({ job, story, report }) {
    const { adjusting } = relationsOf(job);
    for (const cell of story.fasteners) {
      if (cell.unsure || cell.thing.torque?.none || adjusting.has(cell.thing.name)) continue;
      cell.history.forEach((it, i) => {
        if (it.verb !== "lock") return;
        const name = called(cell.thing, cell.place);
        if (!it.before.tight || it.before.on === 0) {
          const loosened = cell.history.slice(0, i).findLast((was) => was.verb === "undo" || was.verb === "slacken" || was.verb === "fit" || was.verb === "found");
          report({
            where: it.where,
            severity: "error",
            message: `${name} is locked while it is slack. Tighten it first, then lock it.`,
            ...(loosened === undefined ? {} : { related: [{ where: loosened.where, message: "It was left slack here." }] }),
          });
          return;
        }
        const tightened = cell.history.slice(0, i).findLast((was) => was.verb === "tighten");
        const range = cell.thing.torque?.range;
        if (tightened !== undefined && tightened.action?.to === undefined && cell.thing.critical && range !== undefined) {
          report({
            where: it.where,
            severity: "error",
            message: `${name} is locked and no torque was written. Tighten it to ${rangeText(range)}, write the figure, then lock it.`,
            related: [{ where: tightened.where, message: "Tightened here without a figure." }],
          });
        }
      });
    }
  },
};
