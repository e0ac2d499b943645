// Came off, and is not back when the machine is released.
import { findingsOf } from "../../walk/decisions.ts";
import type { FastenerMoment, PartMoment } from "../../walk/story.ts";
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

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
  reach: "names",
  check({ story, report }) {
    if (story.release === undefined) return;
    for (const cell of [...story.parts, ...story.fasteners]) {
      if (cell.now.on >= cell.total || cell.unsure) continue;
      const discarded = (findingsOf(story).get(cell.thing.name) ?? []).some(
        (found) => found.places.includes(cell.place) && found.decision?.detail.decision === "discard",
      );
      // What holds a wheel or steers is not left off on a word.
      if (discarded && !cell.thing.critical) continue;
      const off = (cell.history as (PartMoment | FastenerMoment)[]).findLast((it) => it.phase === "done" && it.after.on < it.before.on);
      // What was found missing is said by its own rule until it is there.
      if (off === undefined || off.verb === "found") continue;
      const short = cell.total - cell.now.on;
      report({
        where: off.where,
        severity: "error",
        message: `${called(cell.thing, cell.place)} came off and is not back${cell.total > 1 ? ` (${short} of ${cell.total})` : ""}. Fit it, or say in a finding why it is discarded.`,
      });
    }
  },
};
