// Made safe for the work, and not restored when the machine is released.
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "hazard-left-safe",
  group: "Energy and support",
  severity: "error at release where something must be back first, else information",
  safety: true,
  title: "Made safe for the work, and not restored when the machine is released",
  why: "A spring that is still screwed down, a guard's supply that is still off or a blocked fuel line is a machine that does not do what its driver expects. Restore it and write so; where it stays off on purpose, say so in a `note` and release it when it is back. What nothing must be back before (oil that was hot, a pressure let off) comes back by itself; of that it is only told.",
  wrong: `fastener cover-screw "Cover screw"
hazard mains "Mains to the motor"
  safe before cover-screw
  restore after cover-screw
step strip "Cover off and on"
  safe mains "plug out"
#      ^^^^^ error hazard-left-safe
  undo cover-screw
  tighten cover-screw
  done
release by "A. Moor" 2026-05-10
`,
  right: `fastener cover-screw "Cover screw"
hazard mains "Mains to the motor"
  safe before cover-screw
  restore after cover-screw
step strip "Cover off and on"
  safe mains "plug out"
  undo cover-screw
  tighten cover-screw
  restore mains
  done
release by "A. Moor" 2026-05-10
`,
  scope: "job",
  check({ story, report }) {
    if (story.release === undefined) return;
    for (const cell of story.hazards) {
      if (cell.now || cell.unsure) continue;
      const made = cell.history.findLast((it) => it.phase === "done" && it.verb === "safe");
      if (made === undefined) continue;
      // A sheet that says what must be back before it is live again says that it has to be live again.
      const wanted = cell.thing.restoreAfter.length > 0;
      report({
        where: made.where,
        severity: wanted ? "error" : "information",
        message: `${called(cell.thing)}: made safe here and not restored. Write \`restore ${cell.thing.name}\` ${wanted ? "when it is" : "if it has to be"}.`,
      });
    }
  },
};
