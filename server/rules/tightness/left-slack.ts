// Slackened, or put on by hand, and not tight when the machine is released.
import { relationsOf } from "../../model/relations.ts";
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

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
  reach: "names",
  check({ job, story, report }) {
    if (story.release === undefined) return;
    const { adjusting } = relationsOf(job);
    for (const cell of story.fasteners) {
      if (cell.unsure || cell.now.tight || cell.now.on === 0 || cell.thing.torque?.none) continue;
      const last = cell.history.findLast((it) => it.phase === "done" && (it.verb === "slacken" || it.verb === "fit" || it.verb === "undo"));
      // What was found loose is said by its own rule until it is tight.
      if (last === undefined || cell.history.some((it) => it.verb === "found" && it.seq > last.seq)) continue;
      const set = adjusting.has(cell.thing.name) ? "Set it and lock it" : "Tighten it and lock it";
      report({
        where: last.where,
        severity: "error",
        message: `${called(cell.thing, cell.place)} is slack since here. ${set} before the machine is released.`,
      });
    }
  },
};
