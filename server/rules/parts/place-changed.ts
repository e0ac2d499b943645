// A part that keeps its place goes back at another.
import { findingsOf } from "../../story/decisions.ts";
import type { PartCell, PartMoment, Story } from "../../story/story.ts";
import { allSince } from "../../story/put-right.ts";
import { curedReport } from "../found.ts";
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
  check(context) {
    const { story, report } = context;
    for (const cell of story.parts) {
      if (!cell.thing.keepsPlace) continue;
      for (const it of cell.history) {
        if (it.verb !== "fit" || it.from === undefined || it.from === cell.place || it.isNew || it.action?.from === undefined) continue;
        if (isExchanged(story, cell, it)) continue;
        report(
          curedReport(
            context,
            { ...it.where, at: it.action.from.at },
            "error",
            `${called(cell.thing)} keeps its place, and the one from ${it.from} goes in at ${cell.place}. Put it back where it came from, or fit a new one.`,
            [allSince(cell, it.seq, ({ madeFor }) => madeFor === cell.place)],
          ),
        );
      }
    }
  },
};

/** Found swapped at either of the two places, and put where it belongs: once, for a second exchange swaps them again. */
function isExchanged(story: Story, cell: PartCell, { seq, from }: PartMoment): boolean {
  const found = (findingsOf(story).get(cell.thing.name) ?? []).findLast(
    (it) =>
      it.seq < seq &&
      (it.places.includes(cell.place) || it.places.includes(from ?? "") || it.entry.place === undefined) &&
      it.conditions.some(({ condition }) => condition.kind === "swapped"),
  );
  return (
    found !== undefined &&
    !cell.history.some(
      (it) => it.seq > found.seq && it.seq < seq && it.verb === "fit" && it.phase === "done" && it.from !== undefined && it.from !== cell.place,
    )
  );
}
