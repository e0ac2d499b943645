// Tightened to a figure outside its range, and left there.
import { type Tightness, type Wanted, backText, pullsOf, stagesSkipped, tightenedText, turnsOf, wantedOf } from "../../model/torque.ts";
import { lineOf } from "../../model/things.ts";
import type { FastenerCell, FastenerMoment } from "../../story/story.ts";
import { curedReport } from "../found.ts";
import { measured } from "../../model/values.ts";
import { type Cure, isRight, tightnessAt } from "../../story/put-right.ts";
import { turnedBack, turnedOn } from "../../story/turned.ts";
import type { JobRule } from "../rule.ts";
import { adjacentLock, leftSo, runOf } from "../tightenings.ts";
import { byLine } from "../by-line.ts";
import { agreeing, calledAt, listed } from "../wording.ts";

export const rule: JobRule = {
  id: "torque-outside",
  group: "Tightness",
  severity: "error until it is tightened inside its range, then hint; a stage left out of what is not critical is a warning",
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
      if (it.verb === "let") return !backRight(cell, it) && leftSo(cell.history, index);
      if (it.verb !== "tighten" || it.forNow) return false;
      if (lineOf(cell.thing, "let-back") !== undefined && !cell.unsure && leftSo(cell.history, index, true)) return true;
      if (wantedOf(cell.thing) === undefined) return false;
      if (it.action?.to === undefined) return unwritten(cell, index);
      // What is tightened, eased or undone again in the same step was not left so.
      return (!isRight(cell, it) || skippedAt(cell, index).length > 0) && leftSo(cell.history, index);
    });
    for (const { cell, moment, cells, moments, places, action } of lines) {
      const wanted = wantedOf(cell.thing);
      const name = calledAt(cell.thing, places);
      const back = backText(cell.thing);
      if (back !== undefined && (moment.verb === "let" || wanted === undefined || isRight(cell, moment))) {
        const message =
          moment.verb === "let"
            ? `${name} ${agreeing(cell.thing, "is")} to be let back ${back}${cells.some((one, i) => isAgain(one, moments[i] as FastenerMoment)) ? ", and was let back before" : ""}. Tighten it once more, and let it back by that.`
            : `${name} must be let back ${back} after its torque. Let it back before locking it.`;
        const cures = cells.map((one, i) => backSince(one, moments[i] as FastenerMoment));
        context.report(
          curedReport(context, moment.verb === "let" ? { ...moment.where, at: action.back?.at ?? moment.where.at } : moment.where, "error", message, cures),
        );
        continue;
      }
      if (wanted === undefined) continue;
      const skipped = action.to === undefined || !isRight(cell, moment) ? [] : skippedAt(cell, cell.history.indexOf(moment));
      if (skipped.length > 0) {
        const cures = cells.map((one, i) => stagedSince(one, moments[i] as FastenerMoment));
        const message = `${name} ${agreeing(cell.thing, "is")} pulled to ${tightenedText(action)} without ${skipped.length === 1 ? "its stage" : "its stages"} of ${listed(skipped)}: ${wanted.text}. Undo it and go through the stages; or write them, if done.`;
        const said = curedReport(context, { ...moment.where, at: action.to?.at ?? moment.where.at }, cell.thing.critical ? "error" : "warning", message, cures);
        context.report(said);
        continue;
      }
      const cures = cells.map((one, i) => cureOf(one, moments[i] as FastenerMoment));
      if (action.to === undefined || moment.to === undefined) {
        context.report(
          curedReport(
            context,
            moment.where,
            "error",
            `${name} ${agreeing(cell.thing, "is")} critical and no torque was written. Tighten it to ${wanted.text}, and write the figure.`,
            cures,
          ),
        );
        continue;
      }
      const how = tightnessAt(cell, moment, wanted) ?? "unread";
      const at = how === "turned-less" || how === "turned-more" ? (action.angle ?? action.to).at : action.to.at;
      if (cells.every((one, i) => isUnderWay(one, moments[i] as FastenerMoment))) {
        const message = `${name} ${agreeing(cell.thing, "is")} at ${tightenedText(action)} so far: ${wanted.text}. ${how === "low" ? "Tighten it to its figure" : "Turn it as far as that"} before it is locked.`;
        context.report(curedReport(context, { ...moment.where, at }, "error", message, cures));
        continue;
      }
      const left =
        how === "turned-more" && isTurnedAgain(cell, moment)
          ? `${name} ${agreeing(cell.thing, "was")} turned on once before, and is turned further than its ${wanted.text}. Undo it and fit a new one.`
          : `${name} ${agreeing(cell.thing, "is")} left at ${tightenedText(action)}, ${said(how, wanted)}`;
      context.report(curedReport(context, { ...moment.where, at }, "error", left, cures));
    }

    /** Pulled to a stage that is asked for, and the rest is still to come: the sheet is under way, and nothing was done to it since. */
    function isUnderWay(cell: FastenerCell, it: FastenerMoment): boolean {
      const wanted = wantedOf(cell.thing);
      if (wanted === undefined || it.phase !== "done" || it.action === undefined || cell.history.some((next) => next.seq > it.seq && next.phase === "done"))
        return false;
      if (context.story.release !== undefined) return false;
      const how = tightnessAt(cell, it, wanted);
      return how === "not-turned" || (how === "low" && stagesSkipped(wanted, pullsOf(it.action)).length < wanted.before.length);
    }

    /** Without a figure a critical fastener is below its torque. Where it is to be locked, the lock's own rule says so. */
    function unwritten(cell: FastenerCell, index: number): boolean {
      const it = cell.history[index] as FastenerMoment;
      const locking = cell.thing.locking?.locking.kind;
      return (
        cell.thing.critical &&
        !it.forNow &&
        !cell.unsure &&
        (locking === undefined || locking === "nothing") &&
        adjacentLock(cell.history, index) !== "lock" &&
        leftSo(cell.history, index)
      );
    }

    /** Tightened since to what is asked for, every one of those that this line left. */
    function cureOf(cell: FastenerCell, it: FastenerMoment): Cure | undefined {
      for (const next of cell.history) {
        if (next.seq <= it.seq || next.verb !== "tighten" || next.action?.to === undefined || next.to === undefined || !isRight(cell, next)) continue;
        if (next.after.lots.some((lot) => lot.tightenedAt === it.seq)) continue;
        return { moment: next, planned: next.phase === "planned" && it.phase === "done" };
      }
      return undefined;
    }
  },
};

/** The stages that this run left out. */
function skippedAt(cell: FastenerCell, index: number): readonly string[] {
  const wanted = wantedOf(cell.thing);
  const it = cell.history[index];
  if (wanted === undefined || wanted.before.length === 0 || it?.action?.to === undefined || it.to === undefined) return none;
  const run = runOf(cell.history, index, true);
  const skipped = stagesSkipped(
    wanted,
    run.flatMap((was) => (was.action === undefined ? [] : pullsOf(was.action))),
  );
  return skipped.length > 0 ? skipped : stagesOfSome(cell, wanted, run);
}

/** The stages to which fewer were pulled than to the last figure: of eight that were slack, seven to 6 N.m and all to 10. */
function stagesOfSome(cell: FastenerCell, wanted: Wanted, run: readonly FastenerMoment[]): readonly string[] {
  const [first] = run;
  if (first === undefined || cell.unsure || cell.total < 2) return none;
  const slack = cell.total - first.before.lots.reduce((sum, lot) => (lot.tight ? sum + lot.count : sum), 0);
  const pulled = (is: (was: FastenerMoment) => boolean) => run.reduce((sum, was) => (is(was) ? sum + was.count : sum), 0);
  const left = Math.min(
    slack,
    pulled((was) => isRight(cell, was)),
  );
  return wanted.before.flatMap((stage) => {
    const met = pulled((was) => was.action !== undefined && stagesSkipped({ ...wanted, before: [stage] }, pullsOf(was.action)).length === 0);
    return met < left ? [stage.band.text] : [];
  });
}

const none: readonly never[] = [];

/** Undone or slackened since, and pulled up by its stages, every one of those that this line left. */
function stagedSince(cell: FastenerCell, it: FastenerMoment): Cure | undefined {
  const index = cell.history.findIndex(
    (next, i) =>
      next.seq > it.seq &&
      next.verb === "tighten" &&
      isRight(cell, next) &&
      skippedAt(cell, i).length === 0 &&
      !next.after.lots.some((lot) => lot.tightenedAt === it.seq),
  );
  const next = cell.history[index];
  return next === undefined ? undefined : { moment: next, planned: next.phase === "planned" && it.phase === "done" };
}

/** Let back since as far as it is to be, every one of those that this line left. */
function backSince(cell: FastenerCell, it: FastenerMoment): Cure | undefined {
  const next = cell.history.find(
    (other) =>
      other.seq > it.seq &&
      other.verb === "let" &&
      backRight(cell, other) &&
      !other.after.lots.some((lot) => lot.letBackAt === it.seq || (lot.tightenedAt === it.seq && lot.letBackAt === undefined)),
  );
  return next === undefined ? undefined : { moment: next, planned: next.phase === "planned" && it.phase === "done" };
}

/** Let back as far as is declared, in all, or nothing is declared. */
function backRight(cell: FastenerCell, it: FastenerMoment): boolean {
  const asked = turnsOf(lineOf(cell.thing, "let-back")?.detail.back);
  const done = turnedBack(cell, it);
  return asked === undefined || done === undefined || asked.compare(done) === 0;
}

/** A line of its own let it back before this one. */
function isAgain(cell: FastenerCell, it: FastenerMoment): boolean {
  const [own, all] = [turnsOf(it.action?.back), turnedBack(cell, it)];
  return own !== undefined && all !== undefined && own.compare(all) !== 0;
}

function isTurnedAgain(cell: FastenerCell, it: FastenerMoment): boolean {
  const [own, all] = [measured(it.action?.angle), turnedOn(cell, it)];
  return all !== undefined && (own === undefined || own.value.compare(all.value) !== 0);
}

function said(how: Tightness, wanted: Wanted): string {
  switch (how) {
    case "low":
      return `below its ${wanted.text}. Tighten it to its figure before it is locked.`;
    case "not-turned":
    case "turned-less":
      return `and it is to be turned further: ${wanted.text}. Turn it as far as that before it is locked.`;
    case "turned-more":
      return `turned further than its ${wanted.text}. Undo it, look at its thread, and tighten it again.`;
    default:
      return `above its ${wanted.text}. Undo it, look at its thread, and tighten it again.`;
  }
}
