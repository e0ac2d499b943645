// Slackened, or put on by hand, and not tight when the machine is released.
import { relationsOf } from "../../model/relations.ts";
import type { FastenerCell, FastenerMoment } from "../../story/story.ts";
import { isFoundOpen } from "../../story/standing.ts";
import { byLine } from "../by-line.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "left-slack",
  group: "Tightness",
  severity: "error at release",
  safety: true,
  title: "Slackened, or fitted and not tightened, when the machine is released",
  why: "A nut that was only run on by hand looks like one that is tight. Tighten it and write the figure; a pin or a key that is never tight is declared `torque none`.",
  wrong: `fastener cap-bolt "Cap bolt"
step refit "Cap back"
  slacken cap-bolt
#         ^^^^^^^^ error left-slack
  done
release by "A. Moor" 2026-05-10
`,
  right: `fastener cap-bolt "Cap bolt"
step refit "Cap back"
  slacken cap-bolt
  tighten cap-bolt
  done
release by "A. Moor" 2026-05-10
`,
  scope: "job",
  check({ job, story, report }) {
    if (story.release === undefined) return;
    const { adjusting } = relationsOf(job);
    const lastOf = (cell: FastenerCell) =>
      cell.history.findLast((it) => it.phase === "done" && (it.verb === "slacken" || it.verb === "let" || it.verb === "fit" || it.verb === "undo"));
    const lines = byLine<FastenerCell, FastenerMoment>(story.fasteners, (it, cell) => {
      if (cell.unsure || cell.now.tight || cell.now.on === 0 || it !== lastOf(cell)) return false;
      // A pin is never tight; one that was let go is as it should be when it is retained again.
      if (cell.thing.torque?.none && (it.verb !== "slacken" || cell.now.locked)) return false;
      // Let back and locked so: that is said at the line that let it back.
      if (it.verb === "let" && cell.history.some((other) => other.phase === "done" && other.seq > it.seq && other.verb === "lock")) return false;
      // What was found loose is said by its own rule until it is tight. One that was called good was slack all the same.
      return !cell.history.some((other) => isFoundOpen(other) && other.seq > it.seq);
    });
    for (const { cell, moment, places } of lines) {
      const set = cell.thing.torque?.none ? "Put it home and lock it" : adjusting.has(cell.thing.name) ? "Set it and lock it" : "Tighten it and lock it";
      report({
        where: moment.where,
        severity: "error",
        message: `${calledAt(cell.thing, places)} ${agreeing(cell.thing, "is")} slack since here. ${set} before the machine is released.`,
      });
    }
  },
};
