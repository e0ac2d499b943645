// What a job needs that it has not got in its hands: parts, fasteners, locking, fluids, and what its `need` lines ask for.
// Invariant: what is outstanding, and no more. What done work has fitted, locked or filled is told as used, for the shelf to take off.
import { where } from "../model/where.ts";
import { amountOf, itemOf } from "./items.ts";
import type { Needs, PlacedNeed } from "./need.ts";
import { needsOfFluids } from "./needs-of-fluids.ts";
import { askForLockingParts, needsOfLocking } from "./needs-of-locking.ts";
import { askedAbout, needsOfPieces } from "./needs-of-pieces.ts";
import { makeSlots } from "./slots.ts";
import type { Story } from "../story/story.ts";
import { judge } from "../story/verdicts.ts";
import { memo } from "../model/memo.ts";

/**
 * The needs of one job, place by place, each with the lines that ask for it.
 * Amounts are exact: pieces, or a quantity in the base unit with the unit to show it in; undefined where a fluid's capacity is not known.
 */
export const needsOf: (story: Story) => Needs = memo(workOut);

function workOut(story: Story): Needs {
  const slots = makeSlots(story);
  const asked = askedAbout(story);
  askForLockingParts(story, slots);
  const pieces = needsOfPieces(story, judge(story), slots, asked);
  const lockings = needsOfLocking(story);
  const fluids = needsOfFluids(story, new Set(asked.keys()));
  return {
    needed: [...pieces.needed, ...lockings.needed, ...fluids.needed, ...askedFor(story)],
    used: [...pieces.used, ...lockings.used, ...fluids.used],
    waiting: [...pieces.waiting, ...fluids.waiting],
  };
}

/** `need` lines, of the sheet and of the files that it uses. */
export function askedFor(story: Story): PlacedNeed[] {
  return story.job.files.flatMap(({ path, sheet }) =>
    sheet.entries.flatMap((entry) => {
      if (entry.kind !== "need" || entry.fault !== undefined) return [];
      const item = itemOf(story.job, entry.item);
      const amount = amountOf(entry.amount);
      if (item === undefined || amount === undefined) return [];
      return [
        {
          item,
          place: "",
          amount,
          reasons: [{ where: where(path, entry, 0, entry.item?.at ?? entry.keyword), place: "", text: entry.why?.value ?? "asked for" }],
        },
      ];
    }),
  );
}
