// A part that keeps its place comes off unmarked.
import { curedReport } from "../found.ts";
import type { JobRule } from "../rule.ts";
import type { PartCell, PartMoment } from "../../story/story.ts";
import { byLine } from "../by-line.ts";
import { calledAt } from "../wording.ts";

export const rule: JobRule = {
  id: "mark-missing",
  group: "Parts",
  severity: "warning; hint when it was marked after all",
  safety: true,
  title: "A part that keeps its place comes off unmarked",
  why: "Parts that have run together go back where they came from. On the bench left and right look alike: mark them before they come off (dots from a centre punch on a face that does no work, or a label).",
  wrong: `places cylinder cyl-1, cyl-2
part cap "Big end cap"
  each cylinder
  keeps its place
step strip "Caps off"
  remove cap
#        ^^^ warning mark-missing (fix)
  done
`,
  right: `places cylinder cyl-1, cyl-2
part cap "Big end cap"
  each cylinder
  keeps its place
step strip "Caps off"
  mark cap "dots: one and two"
  remove cap
  done
`,
  fixed: `places cylinder cyl-1, cyl-2
part cap "Big end cap"
  each cylinder
  keeps its place
step strip "Caps off"
  mark cap "___"
  remove cap
  done
`,
  scope: "job",
  check(context) {
    const lines = byLine<PartCell, PartMoment>(
      context.story.parts,
      (it, cell) => cell.thing.keepsPlace && !cell.unsure && it.verb === "remove" && !it.before.marked && it.before.on > 0,
    );
    for (const { cell, moment: it, cells, places, action } of lines) {
      const marked = cells.map((one) => {
        const later = one.history.find((other) => other.seq > it.seq && other.verb === "mark");
        return later === undefined ? undefined : { moment: later, planned: later.phase === "planned" && it.phase === "done" };
      });
      const column = action.at.from;
      context.report(
        curedReport(
          context,
          it.where,
          "warning",
          `${calledAt(cell.thing, places)} keeps its place and comes off unmarked. Mark it before it leaves, and write how.`,
          marked,
          [
            {
              title: `Write \`mark ${cell.thing.name}\` above`,
              edits: [{ where: { ...it.where, at: { from: column, to: column } }, text: `mark ${cell.thing.name} "___"\n  ` }],
            },
          ],
        ),
      );
    }
  },
};
