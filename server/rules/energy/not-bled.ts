// Opened, and not bled when the machine is released.
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "not-bled",
  group: "Energy and support",
  severity: "error at release",
  safety: true,
  title: "Opened and not bled",
  why: "Air in a brake or clutch line is a pedal that goes to the floor. Bleed it, pump it, and look at the level again; have the brakes passed by somebody licensed where the law asks it.",
  wrong: `fluid brake-fluid "Brake fluid"
  bleed
step strip "Line off"
  drain brake-fluid
#       ^^^^^^^^^^^ error not-bled
  fill brake-fluid
  done
release by "A. Moor" 2026-05-10
`,
  right: `fluid brake-fluid "Brake fluid"
  bleed
step strip "Line off and on"
  drain brake-fluid
  fill brake-fluid
  bleed brake-fluid
  done
release by "A. Moor" 2026-05-10
`,
  scope: "job",
  check({ story, report }) {
    if (story.release === undefined) return;
    for (const cell of story.fluids) {
      if (!cell.thing.needsBleed || !cell.now.airIn || cell.unsure) continue;
      const opened = cell.history.findLast((it) => it.phase === "done" && (it.verb === "drain" || it.verb === "lost"));
      if (opened === undefined) continue;
      report({
        where: opened.where,
        severity: "error",
        message: `${called(cell.thing, cell.place)} was opened here and not bled since. Bleed it, and write \`bleed ${cell.thing.name}\`.`,
      });
    }
  },
};
