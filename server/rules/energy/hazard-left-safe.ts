// Made safe for the work, and not restored when the machine is released.
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "hazard-left-safe",
  group: "Energy and support",
  severity: "error at release",
  safety: true,
  title: "Made safe for the work, and not restored when the machine is released",
  why: "A spring that is still screwed down, a guard's supply that is still off or a blocked fuel line is a machine that does not do what its driver expects. Restore it and write so; where it stays off on purpose, say so in a `note` and release it when it is back.",
  wrong: `fastener cover-screw "Cover screw"
hazard mains "Mains to the motor"
  safe before cover-screw
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
step strip "Cover off and on"
  safe mains "plug out"
  undo cover-screw
  tighten cover-screw
  restore mains
  done
release by "A. Moor" 2026-05-10
`,
  scope: "job",
  reach: "names",
  check({ story, report }) {
    if (story.release === undefined) return;
    for (const cell of story.hazards) {
      if (cell.now || cell.unsure) continue;
      const made = cell.history.findLast((it) => it.phase === "done" && it.verb === "safe");
      if (made === undefined) continue;
      report({
        where: made.where,
        severity: "error",
        message: `${called(cell.thing)}: made safe here and not restored. Write \`restore ${cell.thing.name}\` when it is.`,
      });
    }
  },
};
