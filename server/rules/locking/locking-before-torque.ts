// Locked while slack, below its torque, or by a part that is not on yet.
import { type Cure, lockedSince, madeFastAnew } from "../../story/put-right.ts";
import { countOf } from "../../story/lots.ts";
import { lastBefore } from "../../story/looked-up.ts";
import { relationsOf, setsBearing } from "../../model/relations.ts";
import { isSamePlace } from "../../model/same-place.ts";
import { onAt } from "../../story/in-place.ts";
import type { JobContext, JobRule } from "../rule.ts";
import type { FastenerCell, FastenerMoment, PartCell } from "../../story/story.ts";
import { curedReport } from "../found.ts";
import { byLine } from "../by-line.ts";
import { agreeing, calledAt } from "../wording.ts";
import { wantedOf } from "../../model/torque.ts";

export const rule: JobRule = {
  id: "locking-before-torque",
  group: "Locking",
  severity: "error",
  safety: true,
  title: "Locked while slack or below torque, or by a part that is not on yet",
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
  check(context) {
    const { job, story, report } = context;
    const { adjusting } = relationsOf(job);
    const asked = (cell: FastenerCell) => !cell.unsure && !cell.thing.torque?.none && !adjusting.has(cell.thing.name);
    // One that clamps and is let back to be locked is said where it was let back (`slackened-to-lock`); one that sets a bearing is as tight as it was before.
    const letBackBefore = (it: FastenerMoment, cell: FastenerCell) =>
      it.before.on > 0 &&
      !setsBearing(job, cell.thing) &&
      lastBefore(cell.history, it.seq, (was) => was.verb !== "lock" && was.verb !== "found")?.verb === "let";
    // By number, as they are done up one after the other, those that are tight and not locked yet are meant.
    const ready = ({ before }: FastenerMoment) => countOf(before.lots.filter((lot) => lot.tight && !lot.locked));
    const slack = (it: FastenerMoment) => it.before.on === 0 || (!it.before.tight && (it.count >= it.before.on || ready(it) < it.count));
    for (const { cell, moment, cells, moments, places } of byLine<FastenerCell, FastenerMoment>(
      story.fasteners,
      (it, cell) => it.verb === "lock" && asked(cell) && slack(it) && !letBackBefore(it, cell),
    )) {
      const loosened = lastBefore(
        cell.history,
        moment.seq,
        (was) => was.verb === "undo" || was.verb === "slacken" || was.verb === "fit" || was.verb === "found",
      );
      const message = `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "is")} locked while it is slack. Tighten it first, then lock it.`;
      report({
        ...(loosened === undefined ? {} : { related: [{ where: loosened.where, message: "It was left slack here." }] }),
        ...curedReport(context, moment.where, "error", message, since(cells, moments)),
      });
    }
    // Piece by piece: those that were pulled to a figure behind it say nothing of the one that was left out.
    const unfigured = (it: FastenerMoment, cell: FastenerCell) => {
      if (it.verb !== "lock" || !asked(cell) || slack(it) || !cell.thing.critical || wantedOf(cell.thing) === undefined) return undefined;
      const behind = it.after.lots.flatMap(({ lockedAt, tightenedAt }) =>
        lockedAt === it.seq && tightenedAt !== undefined ? [lastBefore(cell.history, tightenedAt + 1, () => true)] : [],
      );
      // Planned with the figure left blank: it is written when it is done.
      return [lastBefore(cell.history, it.seq, (was) => was.verb === "tighten"), ...behind].find(
        (was) => was?.verb === "tighten" && was.action?.to === undefined && was.action?.blanks === undefined,
      );
    };
    for (const { cell, moment, cells, moments, places } of byLine<FastenerCell, FastenerMoment>(
      story.fasteners,
      (it, cell) => unfigured(it, cell) !== undefined,
    )) {
      const tightened = unfigured(moment, cell);
      const wanted = wantedOf(cell.thing);
      if (tightened === undefined || wanted === undefined) continue;
      const message = `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "is")} locked and no torque was written. Tighten it to ${wanted.text}, write the figure, then lock it.`;
      report({
        related: [{ where: tightened.where, message: "Tightened here without a figure." }],
        ...curedReport(context, moment.where, "error", message, since(cells, moments)),
      });
    }
    beforeItsPart(context);
  },
};

/** What locks it goes on behind the line that says that it is locked by it: nothing was there to turn up. */
function beforeItsPart(context: JobContext): void {
  const { story } = context;
  const fitsAfter = (it: FastenerMoment, cell: FastenerCell) => {
    const locking = it.verb === "lock" && !cell.unsure ? (it.with ?? cell.thing.locking?.locking) : undefined;
    if (locking?.kind !== "part" || locking.part === undefined) return undefined;
    const parts = story.cells(locking.part.text).filter((one): one is PartCell => one.kind === "part" && isSamePlace(one.place, cell.place));
    const fits = parts.map((one) => (one.unsure || onAt(one, it.seq) > 0 ? undefined : one.history.find((was) => was.seq > it.seq && was.verb === "fit")));
    return fits.length > 0 && fits.every((fit) => fit !== undefined && fit.phase === it.phase) ? fits[0] : undefined;
  };
  for (const { cell, moment, cells, moments, places } of byLine<FastenerCell, FastenerMoment>(story.fasteners, (it, one) => fitsAfter(it, one) !== undefined)) {
    const fit = fitsAfter(moment, cell);
    const part = moment.with?.part ?? cell.thing.locking?.locking.part;
    if (fit === undefined || part === undefined) continue;
    context.report({
      related: [{ where: fit.where, message: "It goes on here." }],
      ...curedReport(
        context,
        moment.where,
        "error",
        `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "is")} locked by \`${part.text}\`, which goes on later. Fit that first, then lock it.`,
        cells.map((one, i) => lockedSince(one, fitsAfter(moments[i] as FastenerMoment, one)?.seq ?? fit.seq)),
      ),
    });
  }
}

/** Undone since, tightened and locked: it was over. */
function since(cells: readonly FastenerCell[], moments: readonly FastenerMoment[]): (Cure | undefined)[] {
  return cells.map((cell, i) => madeFastAnew(cell, (moments[i] as FastenerMoment).seq));
}
