// Came off, and is not back when the machine is released.
import { wholeNumber } from "../../model/declare.ts";
import { discardedAt, findingsOf } from "../../story/decisions.ts";
import { completeSince, countFound } from "../../story/put-right.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story } from "../../story/story.ts";
import type { JobRule } from "../rule.ts";
import { agreeing, called } from "../wording.ts";

export const rule: JobRule = {
  id: "part-left-over",
  group: "Parts",
  severity: "error at release",
  safety: true,
  title: "Came off and not back, nor replaced",
  why: "What is left on the bench was somewhere when the work began. Fit it, or decide `discard` in a finding and say why it is not needed.",
  wrong: `part guard "Belt guard"
step strip "Guard off"
  remove guard
#        ^^^^^ error part-left-over
  done
release by "A. Moor" 2026-05-10
`,
  right: `part guard "Belt guard"
step strip "Guard off"
  remove guard
  done
step refit "Guard on"
  fit guard
  done
release by "A. Moor" 2026-05-10
`,
  scope: "job",
  check({ story, report }) {
    if (story.release === undefined) return;
    for (const cell of [...story.parts, ...story.fasteners]) {
      if (cell.now.on >= cell.total || cell.unsure) continue;
      const off = (cell.history as (PartMoment | FastenerMoment)[]).findLast((it) => it.phase === "done" && it.after.on < it.before.on);
      // What was found missing is said by its own rule until it is there.
      if (off === undefined || off.verb === "found") continue;
      const short = cell.total - cell.now.on - missingStill(story, cell) - discardedAt(story, cell);
      if (short <= 0) continue;
      report({
        where: off.where,
        severity: "error",
        message: `${called(cell.thing, cell.place)} came off and ${agreeing(cell.thing, "is")} not back${cell.total > 1 ? ` (${short} of ${cell.total})` : ""}. ${agreeing(cell.thing, "it") === "it" ? "Fit it, or say in a finding why it is discarded" : "Fit them, or say in a finding why they are discarded"}.`,
      });
    }
  },
};

/** How many were found missing and are so still: another rule speaks of these. */
function missingStill(story: Story, cell: PartCell | FastenerCell): number {
  let most = 0;
  for (const found of findingsOf(story).get(cell.thing.name) ?? []) {
    if (!found.places.includes(cell.place)) continue;
    const missing = found.conditions.find(({ condition }) => condition.kind === "missing");
    if (missing === undefined) continue;
    const cure = completeSince(cell, found.seq);
    if (cure === undefined || cure.planned) most += wholeNumber(missing.condition.count?.text) ?? countFound(cell, found);
  }
  return most;
}
