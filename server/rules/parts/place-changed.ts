// A part that keeps its place goes back at another.
import type { JobRule } from "../rule.ts";
import { called } from "../wording.ts";

export const rule: JobRule = {
  id: "place-changed",
  group: "Parts",
  severity: "error",
  safety: true,
  title: "A part that keeps its place goes back at another",
  why: "It has worn to its neighbours where it was, and fits nobody else's. Put it back where it came from, or renew it.",
  wrong: `places cylinder cyl-1, cyl-2
part cap "Big end cap"
  each cylinder
  keeps its place
step refit "Caps on"
  fit cap cyl-1 from cyl-2
#                    ^^^^^ error place-changed
  done
`,
  right: `places cylinder cyl-1, cyl-2
part cap "Big end cap"
  each cylinder
  keeps its place
step refit "Caps on"
  fit cap cyl-1 from cyl-1
  done
`,
  scope: "job",
  check({ story, report }) {
    for (const cell of story.parts) {
      if (!cell.thing.keepsPlace) continue;
      for (const it of cell.history) {
        if (it.verb !== "fit" || it.from === undefined || it.from === cell.place || it.isNew || it.action?.from === undefined) continue;
        report({
          where: { ...it.where, at: it.action.from.at },
          severity: "error",
          message: `${called(cell.thing)} keeps its place, and the one from ${it.from} goes in at ${cell.place}. Put it back where it came from, or fit a new one.`,
        });
      }
    }
  },
};
