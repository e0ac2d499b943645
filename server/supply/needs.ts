// What a job needs that it has not got in its hands: parts, fasteners, locking, fluids, and what its `need` lines ask for.
// Invariant: what is outstanding, and no more. What done work has fitted, locked or filled is told as used, for the shelf to take off.
import { isAt, ordersOf } from "../model/orders.ts";
import { where } from "../model/where.ts";
import { amountOfItem, itemOf } from "./items.ts";
import type { Needs, PlacedNeed } from "./need.ts";
import { needsOfFluids } from "./needs-of-fluids.ts";
import { askForLockingParts, needsOfLocking } from "./needs-of-locking.ts";
import { askedAbout, needsOfPieces } from "./needs-of-pieces.ts";
import { needsOfSetting } from "./needs-of-setting.ts";
import { makeSlots } from "./slots.ts";
import type { Story } from "../story/story.ts";
import { judge } from "../story/verdicts.ts";
import { memoSliced } from "../model/memo.ts";
import { type Slices, someAtOnce } from "../../grammar/slices.ts";

/**
 * The needs of one job, place by place, each with the lines that ask for it.
 * Amounts are exact: pieces, or a quantity in the base unit with the unit to show it in; undefined where a fluid's capacity is not known.
 */
export const needsOf = (story: Story): Needs => needs.whole(story);

/** The same, worked out in slices. */
export const needing = (story: Story): Slices<Needs> => needs.sliced(story);

const needs = memoSliced(workOut);

function* workOut(story: Story): Slices<Needs> {
  const slots = makeSlots(story);
  const asked = askedAbout(story);
  askForLockingParts(story, slots);
  yield;
  const judged = judge(story);
  const pieces = yield* needsOfPieces(story, judged, slots, asked);
  yield;
  const lockings = needsOfLocking(story);
  yield;
  const fluids = needsOfFluids(story, new Set(asked.keys()));
  const lines = yield* askingFor(story);
  const worn = pieces.needed.filter((need) => !isAway(story, need));
  return {
    needed: [...worn, ...needsOfSetting(story, pieces), ...lockings.needed, ...fluids.needed, ...lines],
    used: [...pieces.used, ...lockings.used, ...fluids.used],
    waiting: [...pieces.waiting, ...fluids.waiting],
  };
}

/** A reading alone asks for it, and it is away to be put right, or about to go. */
function isAway(story: Story, need: PlacedNeed): boolean {
  if (need.reasons.length === 0 || need.reasons.some((it) => it.where.entry.kind !== "measure")) return false;
  return (ordersOf(story.job).work.get(need.item.written) ?? []).some(
    ({ status, detail }) => status?.status !== "received" && status?.status !== "cancelled" && status?.status !== "returned" && isAt(detail, need.place),
  );
}

/** `need` lines, of the sheet and of the files that it uses. */
function* askingFor(story: Story): Slices<PlacedNeed[]> {
  const out: PlacedNeed[] = [];
  let n = 0;
  for (const { path, sheet } of story.job.files) {
    for (const entry of sheet.entries) {
      if (++n % someAtOnce === 0) yield;
      if (entry.kind !== "need" || entry.fault !== undefined) continue;
      const item = itemOf(story.job, entry.item);
      const amount = amountOfItem(entry.item, entry.amount);
      if (item === undefined || amount === undefined) continue;
      const at = where(path, entry, 0, entry.item?.at ?? entry.keyword);
      out.push({ item, place: "", amount, reasons: [{ where: at, place: "", text: entry.why?.value ?? "asked for" }] });
    }
  }
  return out;
}
