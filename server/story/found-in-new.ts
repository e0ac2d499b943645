// A fault found in what came to take the place of the faulty one: fitting that one cures the first and not the second.
// Invariant: told only where no more came than were wanted, none later, and none was in stock.
import { wholeNumber } from "../model/declare.ts";
import { ordersOf } from "../model/orders.ts";
import { findingsOf } from "./decisions.ts";
import { countFound } from "./put-right.ts";
import type { FastenerCell, FastenerMoment, Found, PartCell, PartMoment, Story } from "./story.ts";

/** The place is empty, the old one's fault was told before, and the new one had come by the day of this finding: it is of that. */
export function isOfTheNew(story: Story, cell: PartCell | FastenerCell, found: Found): boolean {
  const { name } = cell.thing;
  const { items, stocked } = ordersOf(story.job);
  const ordered = items.get(name) ?? [];
  if (found.day === undefined || ordered.length === 0 || stocked.has(name)) return false;
  const before = (findingsOf(story).get(name) ?? []).filter(
    (it) =>
      it.seq < found.seq &&
      it.places.includes(cell.place) &&
      it.day !== undefined &&
      it.day < (found.day as string) &&
      wantsAnother.has(it.decision?.detail.decision ?? ""),
  );
  const [first] = before;
  if (first === undefined) return false;
  const history = cell.history as readonly (PartMoment | FastenerMoment)[];
  const last = history.findLast((it) => it.seq < found.seq && it.verb !== "found");
  if (last === undefined || last.after.on > 0 || history.some((it) => it.verb === "fit" && it.isNew && it.seq < found.seq)) return false;
  let came = 0;
  for (const { detail, status } of ordered) {
    if (status?.status === "cancelled" || status?.status === "returned") continue;
    const day = status?.status === "received" ? status.date?.text : undefined;
    const count = detail.amount === undefined ? 1 : wholeNumber(detail.amount.figure.text);
    // Another came later, or may have; or it can't be read how many there were.
    if (day === undefined || day > found.day || count === undefined) return false;
    if (first.day !== undefined && day >= first.day) came += count;
  }
  const wanted = [...new Set(before.flatMap((it) => it.places))].length * countFound(cell, first);
  return came > 0 && came <= wanted;
}

const wantsAnother: ReadonlySet<string> = new Set(["renew", "exchange", "discard", "make"]);
