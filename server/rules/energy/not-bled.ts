// Opened, and not bled when the machine is released.
import { isElsewhere } from "../../story/cells.ts";
import { headOf } from "../../model/read-with.ts";
import { allWords } from "../../model/titles.ts";
import type { JobRule } from "../rule.ts";
import type { FluidCell, FluidMoment, PartCell, PartMoment, Story } from "../../story/story.ts";
import { agreeing, called, midSentence } from "../wording.ts";

export const rule: JobRule = {
  id: "not-bled",
  group: "Energy and support",
  severity: "error at release",
  safety: true,
  title: "Opened and not bled, or bled while a part that it is in, or what its pistons press, was off",
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
  return pressedOut(story, cell, bled);
}

/**
 * Brakes bled with their shoes or pads off: at the first stroke of the pedal nothing keeps the pistons in their cylinders, and air comes in where they come out. A clamp, as the step
 * tells, keeps them in; a drum may be off, for the shoes on their springs do.
 */
function pressedOut(story: Story, cell: FluidCell, bled: FluidMoment): ReturnType<typeof fittedSinceBled> {
  const isInWheels = cell.thing.in.some(({ text }) => {
    const it = story.job.things.get(text);
    return it?.kind === "part" && /\b(wheel|brake|slave)[- ]cylinders?\b|\bcall?ipers?\b/iu.test(allWords(it));
  });
  const { title, details = [] } = bled.visit?.entry ?? {};
  const texts = [
    title?.value,
    ...details.map((it) => (it.kind === "note" || it.kind === "action" || it.kind === "tool" || it.kind === "caution" ? it.text?.value : undefined)),
  ];
  if (!isInWheels || texts.some((it) => keptIn.test(it ?? ""))) return undefined;
  for (const part of story.parts) {
    const words = allWords(part.thing);
    if (
      part.unsure ||
      !pressed.has(headOf(part.thing) ?? "") ||
      !/\bbrak/iu.test(`${words} ${part.thing.criticalWhat ?? ""}`) ||
      /\bhand|parking/iu.test(words)
    )
      continue;
    if (isElsewhere(story.job, part.thing, part.place, cell.place)) continue;
    const next = part.history.find((it) => it.phase === "done" && it.seq > bled.seq && it.after.on !== it.before.on);
    if (next?.verb === "fit" && next.before.on === 0) return { part, moment: next, bled };
  }
  return undefined;
}

const pressed: ReadonlySet<string> = new Set(["shoe", "pad"]);
const keptIn = /\b(clamp\w*|cramp\w*|strap\w*|wir(e|ed)|bands?|wedg\w*|clips?|held (in|back)|blocks?|stop(s|ped)?)\b/iu;
