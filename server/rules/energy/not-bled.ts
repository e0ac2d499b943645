// Opened, and not bled when the machine is released.
import { isElsewhere } from "../../story/cells.ts";
import type { JobRule } from "../rule.ts";
import type { FluidCell, FluidMoment, PartCell, PartMoment, Story } from "../../story/story.ts";
import { agreeing, called, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "not-bled",
  group: "Energy and support",
  severity: "error at release",
  safety: true,
  title: "Opened and not bled, or bled while a part that it is in was off",
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
      if (!cell.thing.needsBleed || cell.unsure) continue;
      const open = cell.now.airIn ? undefined : fittedSinceBled(story, cell);
      if (open !== undefined)
        report({
          where: open.moment.where,
          severity: "error",
          message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "was")} bled while the ${midSentence(open.part.thing, open.part.place)} ${agreeing(open.part.thing, "was")} off: air is in again. Bleed it with all of it on, and write \`bleed ${cell.thing.name}\`.`,
          related: [{ where: open.bled.where, message: "Bled here." }],
        });
      if (!cell.now.airIn) continue;
      const opened = cell.history.findLast((it) => it.phase === "done" && (it.verb === "drain" || it.verb === "lost"));
      if (opened === undefined) continue;
      report({
        where: opened.where,
        severity: "error",
        message: `${called(cell.thing, cell.place)} ${agreeing(cell.thing, "was")} opened here and not bled since. Bleed it, and write \`bleed ${cell.thing.name}\`.`,
      });
    }
  },
};

/** A part that the fluid is in, and that went on after the last bleeding. */
function fittedSinceBled(story: Story, cell: FluidCell): { readonly part: PartCell; readonly moment: PartMoment; readonly bled: FluidMoment } | undefined {
  const bled = cell.history.findLast((it) => it.phase === "done" && it.verb === "bleed");
  if (bled === undefined) return undefined;
  for (const { text } of cell.thing.in) {
    for (const part of story.cells(text)) {
      if (part.kind !== "part" || part.unsure || isElsewhere(story.job, part.thing, part.place, cell.place)) continue;
      const moment = part.history.find((it) => it.phase === "done" && it.seq > bled.seq && it.verb === "fit" && it.after.on > it.before.on);
      if (moment !== undefined) return { part, moment, bled };
    }
  }
  return undefined;
}
