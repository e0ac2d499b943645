// A locking that is used once goes back as it came off.
import type { Locking } from "../../../grammar/tree.ts";
import type { Job } from "../../model/job.ts";
import type { FastenerCell, FastenerMoment } from "../../story/story.ts";
import { usedOnce } from "../../story/used-once.ts";
import { type JobRule, restate } from "../rule.ts";
import { byLine } from "../by-line.ts";
import { calledAt, lockingText } from "../wording.ts";

export const rule: JobRule = {
  id: "locking-reused",
  group: "Locking",
  severity: "error",
  safety: true,
  title: "A locking that is used once goes back without `new`",
  why: "A split pin, a tab washer, a lock wire or a staked collar has been bent once already and breaks where it was bent. It costs pennies: fit a new one each time (maker practice).",
  wrong: `fastener hub-nut "Hub nut, castellated"
  locked by split pin 4 x 40 mm
step refit "Hub back"
  tighten hub-nut
  lock hub-nut
#      ^^^^^^^ error locking-reused (fix)
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
  check({ job, story, report }) {
    const cells = story.cells.bind(story);
    const lines = byLine<FastenerCell, FastenerMoment>(story.fasteners, (it, cell) => {
      const locking = it.with ?? cell.thing.locking?.locking;
      return it.verb === "lock" && !it.isNew && locking !== undefined && usedOnce(job, locking, cell.thing) && !fittedNew(job, cells, cell, it, locking);
    });
    for (const { cell, moment, places, action } of lines) {
      const locking = moment.with ?? cell.thing.locking?.locking;
      if (locking === undefined) continue;
      const at = action.with === undefined ? { from: action.at.to, to: action.at.to } : { from: action.with.at.from, to: action.with.at.from };
      report({
        where: { ...moment.where, at: action.with?.at ?? moment.where.at },
        severity: "error",
        message: `${calledAt(cell.thing, places)} is locked with its old ${lockingText(locking)}. It is used once: fit a new one and write \`new\`.`,
        fixes: [restate("Write `new`", { ...moment.where, at }, action.with === undefined ? " new" : "new ")],
      });
    }
  },
};

/** A new self-locking nut is its own new locking, and a locking part may have been fitted new. */
function fittedNew(
  _job: Job,
  cells: (name: string) => readonly { kind: string; history: readonly { verb: string; seq: number; isNew?: boolean }[] }[],
  cell: FastenerCell,
  lock: FastenerMoment,
  locking: Locking,
): boolean {
  const opened = cell.history.filter((it) => it.seq < lock.seq && (it.verb === "undo" || it.verb === "slacken" || it.verb === "found")).at(-1)?.seq ?? -1;
  const since = (history: readonly { verb: string; seq: number; isNew?: boolean }[]) =>
    history.some((it) => it.verb === "fit" && it.isNew === true && it.seq > opened && it.seq < lock.seq);
  // A new nut brings its own nylon, and metal that was never staked.
  if (locking.kind === "self-locking nut" || locking.kind === "staking") return since(cell.history);
  if (locking.kind === "part" && locking.part !== undefined) return cells(locking.part.text).some((it) => since(it.history));
  return false;
}
