// Locked while slack, or below its torque.
import { lastBefore } from "../../story/looked-up.ts";
import { relationsOf } from "../../model/relations.ts";
import type { JobRule } from "../rule.ts";
import type { FastenerCell, FastenerMoment } from "../../story/story.ts";
import { byLine } from "../by-line.ts";
import { calledAt } from "../wording.ts";
import { wantedOf } from "../../model/torque.ts";

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
    const asked = (cell: FastenerCell) => !cell.unsure && !cell.thing.torque?.none && !adjusting.has(cell.thing.name);
    // One that clamps and is let back to be locked is said where it was let back (`slackened-to-lock`).
    const letBackBefore = (it: FastenerMoment, cell: FastenerCell) =>
      it.before.on > 0 && lastBefore(cell.history, it.seq, (was) => was.verb !== "lock" && was.verb !== "found")?.verb === "let";
    const slack = (it: FastenerMoment) => !it.before.tight || it.before.on === 0;
    for (const { cell, moment, places } of byLine<FastenerCell, FastenerMoment>(
      story.fasteners,
      (it, cell) => it.verb === "lock" && asked(cell) && slack(it) && !letBackBefore(it, cell),
    )) {
      const loosened = lastBefore(
        cell.history,
        moment.seq,
        (was) => was.verb === "undo" || was.verb === "slacken" || was.verb === "fit" || was.verb === "found",
      );
      report({
        where: moment.where,
        severity: "error",
        message: `${calledAt(cell.thing, places)} is locked while it is slack. Tighten it first, then lock it.`,
        ...(loosened === undefined ? {} : { related: [{ where: loosened.where, message: "It was left slack here." }] }),
      });
    }
    const tightenedBefore = (it: FastenerMoment, cell: FastenerCell) => lastBefore(cell.history, it.seq, (was) => was.verb === "tighten");
    const unwritten = (it: FastenerMoment, cell: FastenerCell) => {
      if (it.verb !== "lock" || !asked(cell) || slack(it) || !cell.thing.critical || wantedOf(cell.thing) === undefined) return false;
      const tightened = tightenedBefore(it, cell);
      // Planned with the figure left blank: it is written when it is done.
      return tightened !== undefined && tightened.action?.to === undefined && tightened.action?.blanks === undefined;
    };
    for (const { cell, moment, places } of byLine<FastenerCell, FastenerMoment>(story.fasteners, unwritten)) {
      const tightened = tightenedBefore(moment, cell);
      const wanted = wantedOf(cell.thing);
      if (tightened === undefined || wanted === undefined) continue;
      report({
        where: moment.where,
        severity: "error",
        message: `${calledAt(cell.thing, places)} is locked and no torque was written. Tighten it to ${wanted.text}, write the figure, then lock it.`,
        related: [{ where: tightened.where, message: "Tightened here without a figure." }],
      });
    }
  },
};
