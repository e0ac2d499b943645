// A clamping nut let back from its torque to reach a slot.
import { relationsOf, setsBearing } from "../../model/relations.ts";
import { quantityText } from "../../model/values.ts";
import { countOf } from "../../story/lots.ts";
import type { FastenerCell, FastenerMoment } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";
import { runOf } from "../tightenings.ts";
import { madeFastAnew } from "../../story/put-right.ts";
import { curedReport } from "../found.ts";
import { byLine } from "../by-line.ts";
import { agreeing, calledAt } from "../wording.ts";

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
  check(context) {
    const { job, story, report } = context;
    const { adjusting } = relationsOf(job);
    const lines = byLine<FastenerCell, FastenerMoment>(
      story.fasteners,
      (it, cell, index) => it.verb === "lock" && !cell.unsure && !adjusting.has(cell.thing.name) && letBack(cell, index) !== undefined,
    );
    for (const { cell, moment, cells, moments, places } of byLine<FastenerCell, FastenerMoment>(
      story.fasteners,
      (it, cell, index) => it.verb === "let" && !cell.unsure && !setsBearing(job, cell.thing) && lockedSo(cell, index) !== undefined,
    )) {
      const lock = lockedSo(cell, cell.history.indexOf(moment));
      const message = (relationsOf(job).sets.get(cell.thing.name) ?? []).some((it) => it.kind === "limit")
        ? `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "was")} let back behind its torque, and nothing says that it is to be. Undo it and start again, or declare \`let back\`.`
        : `${calledAt(cell.thing, places)} clamps, and was let back to be locked. Go on to the next slot, inside its torque, or undo it and start again.`;
      report({
        ...(lock === undefined ? {} : { related: [{ where: lock.where, message: "Locked here." }] }),
        ...curedReport(
          context,
          moment.where,
          "error",
          message,
          cells.map((one, i) => madeFastAnew(one, (moments[i] as FastenerMoment).seq)),
        ),
      });
    }
    for (const { cell, moment, cells, moments, places } of lines) {
      const eased = letBack(cell, cell.history.indexOf(moment));
      if (eased === undefined) continue;
      const { before, last } = eased;
      const at = last.action?.to;
      report({
        related: [
          { where: before.where, message: `Tightened to ${text(before)} here.` },
          { where: moment.where, message: "Locked here." },
        ],
        ...curedReport(
          context,
          at === undefined ? last.where : { ...last.where, at: at.at },
          "error",
          `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "was")} let back from ${text(before)} to ${text(last)} to be locked. Go on to the next slot, inside its torque, or undo it and start again.`,
          cells.map((one, i) => madeFastAnew(one, (moments[i] as FastenerMoment).seq)),
        ),
      });
    }
  },
};

/** The last tightening before the lock at `index` and the higher one before it. */
function letBack(cell: FastenerCell, index: number): { before: FastenerMoment; last: FastenerMoment } | undefined {
  if (index < 1) return undefined;
  const run = runOf(cell.history, index - 1);
  const last = run.at(-1);
  const before = run.slice(0, -1).findLast((was) => was.to !== undefined && last !== undefined && samePieces(cell, was, last));
  if (last?.to === undefined || before?.to === undefined || last.to.unit.dimension !== before.to.unit.dimension) return undefined;
  return last.to.value.compare(before.to.value) < 0 ? { before, last } : undefined;
}

/** The lock that follows with no tightening between. */
function lockedSo(cell: FastenerCell, index: number): FastenerMoment | undefined {
  const next = cell.history.slice(index + 1).find((it) => it.verb === "lock" || it.verb === "tighten" || it.verb === "undo" || it.verb === "fit");
  return next?.verb === "lock" ? next : undefined;
}

/** Where some of several are done up by number, the next line may speak of the others. */
function samePieces(cell: FastenerCell, before: FastenerMoment, last: FastenerMoment): boolean {
  if (before.count >= cell.total || last.count >= cell.total) return true;
  const at = (lots: FastenerMoment["before"]["lots"]) => countOf(lots.filter((lot) => lot.tightenedAt === before.seq));
  return at(last.before.lots) > at(last.after.lots);
}

function text(it: FastenerMoment): string {
  return it.action?.to === undefined ? "" : quantityText(it.action.to);
}
