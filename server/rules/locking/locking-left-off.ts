// Tightened and not locked, while the sheet goes on.
import { relationsOf } from "../../model/relations.ts";
import { adjacentLock } from "../tightenings.ts";
import { lockedSince } from "../../story/put-right.ts";
import { curedReport } from "../found.ts";
import { type JobRule, addLine } from "../rule.ts";
import { countOf } from "../../story/lots.ts";
import { firstBehind } from "../../story/looked-up.ts";
import type { FastenerCell, FastenerMoment, Story } from "../../story/story.ts";
import { byLine } from "../by-line.ts";
import { lockIsNew, lockWords } from "../lock-words.ts";
import { agreeing, calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "locking-left-off",
  group: "Locking",
  severity: "error until it is locked, then hint",
  safety: true,
  title: "Tight, and the sheet goes on to another step, a pause, a release or its end, not locked",
  why: "The nut that is tight and not yet locked is the one that is forgotten at the end of the day. Lock it in the same step, or say `for now` and why.",
  wrong: `fastener hub-nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
step refit "Hub back"
  tighten hub-nut
#         ^^^^^^^ error locking-left-off (fix)
  done
`,
  right: `fastener hub-nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
step refit "Hub back"
  tighten hub-nut
  lock hub-nut new
  done
`,
  fixed: `fastener hub-nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
step refit "Hub back"
  tighten hub-nut
  lock hub-nut new
  note "___"
  done
`,
  scope: "job",
  check(context) {
    const { job, story, report } = context;
    const { adjusting } = relationsOf(job);
    const lines = byLine<FastenerCell, FastenerMoment>(story.fasteners, (it, cell, index) => {
      const kind = cell.thing.locking?.locking.kind;
      if (cell.unsure || kind === undefined || kind === "nothing" || kind === "ambiguous") return false;
      // Turned back behind its locking, it is locked no more.
      const unlocked = it.verb === "let" && it.before.lots.some((lot) => lot.locked);
      if (it.verb !== "tighten" && !unlocked && !(it.verb === "fit" && cell.thing.torque?.none)) return false;
      return (
        !it.forNow &&
        !it.after.locked &&
        (adjacentLock(cell.history, index) === "none" || lockedInPart(cell.history, index) > 0) &&
        (adjusting.has(cell.thing.name) || !lockedTooEarly(cell.history, index))
      );
    });
    for (const { cell, moment, cells, moments, places, action } of lines) {
      const line = `lock ${cell.thing.name}${action.places.map((place) => ` ${place.text}`).join(",")}${lockIsNew(job, cell.thing) ? " new" : ""}`;
      const some = Math.max(...cells.map((it, i) => lockedInPart(it.history, it.history.indexOf(moments[i] as FastenerMoment))));
      const name = some > 0 ? `${calledAt(cell.thing, places)} (${some} of ${cell.total})` : calledAt(cell.thing, places);
      const message = `${name} ${agreeing(cell.thing, "is")} ${moment.verb === "fit" ? "in" : "tight"} but not locked. ${lockWords(job, cell.thing)}${isForTrial(story, moment) ? ', or write `for now "why"` behind it, as of a trial' : ""}.${isPulledAgain(moment) ? " Only tried, and none moved? Say so in a note." : ""}`;
      const cures = cells.map((it, i) => {
        const cure = lockedSince(it, (moments[i] as FastenerMoment).seq);
        // A step that is only planned is judged as a plan: a later planned step that locks it is the cure.
        return moment.phase === "planned" && cure !== undefined ? { ...cure, planned: false } : cure;
      });
      report(curedReport(context, moment.where, "error", message, cures, [addLine(`Add \`${line}\``, moment.where, line)]));
    }
  },
};

/** Tight and locked before. */
function isPulledAgain({ verb, before, phase }: FastenerMoment): boolean {
  return verb === "tighten" && phase === "done" && before.tight && before.locked;
}

/** Done up to be tried, by the words of its step, or by what was tried behind it: it comes off again. */
function isForTrial(story: Story, { verb, seq, phase, visit }: FastenerMoment): boolean {
  if (verb !== "tighten" || phase !== "done" || visit === undefined) return false;
  const { title, details } = visit.entry;
  const said = [title?.value ?? "", ...details.map((it) => (it.kind === "note" ? (it.text?.value ?? "") : ""))].join("\n");
  if (/\b(trial|dry (build|run|assembly)|wire|lead|strip|squash\w*|for a (look|measure)|to (try|measure|read|see))\b/iu.test(said)) return true;
  const next = [firstBehind(story.readings, seq, () => true), firstBehind(story.seen, seq, () => true)].filter((it) => it !== undefined);
  return next.length > 0 && next.every((it) => it.stage === "trial");
}

/** How many of those that it made tight are locked by number behind it, and not all: so many are tight and not locked when the step is over. Others may have been tightened by a line between. */
function lockedInPart(history: readonly FastenerMoment[], index: number): number {
  const it = history[index] as FastenerMoment;
  let last = it;
  let isLocked = false;
  for (let i = index + 1; i < history.length && history[i]?.visit === it.visit && history[i]?.phase === it.phase; i++) {
    last = history[i] as FastenerMoment;
    isLocked ||= last.verb === "lock";
  }
  if (!isLocked) return 0;
  // What is never tight is in by `fit`, and has no line that tightened it.
  return countOf(last.after.lots.filter((lot) => lot.tight && !lot.locked && lot.tightenedAt === (it.verb === "fit" ? undefined : it.seq)));
}

/**
 * The locking went on before the tightening, in the same step: one mistake, said at the lock (`locking-before-torque`). An adjusting nut may be
 * locked slack; of that nothing is said there.
 */
function lockedTooEarly(history: readonly FastenerMoment[], index: number): boolean {
  const it = history[index] as FastenerMoment;
  const before = history[index - 1];
  return (
    it.verb === "tighten" &&
    before?.verb === "lock" &&
    before.where.entry === it.where.entry &&
    (before.after.on === 0 || before.after.lots.some((lot) => lot.locked && !lot.tight))
  );
}
