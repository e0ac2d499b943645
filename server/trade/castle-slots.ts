// Slots of a castle nut: how many, how far the nut moves from one to the next, and which way to go to reach one.
// Invariant: the rule for a clamping nut and for one that adjusts a bearing are opposite, and neither is ever given for the other.
import { type Exact, compare, ratio } from "../quantities/exact.ts";
import type { Mark, Sourced } from "./source.ts";
import type { Thread } from "./thread.ts";

const slotRows: readonly { readonly from: number; readonly to: number; readonly slots: number; readonly source: string; readonly mark: Mark }[] = [
  { from: 4, to: 39, slots: 6, source: "DIN 935", mark: "table" },
  // Eight and ten rest on one data set.
  { from: 42, to: 68, slots: 8, source: "DIN 935, one data set", mark: "table" },
  { from: 72, to: 100, slots: 10, source: "DIN 935, one data set", mark: "table" },
];

/** Slots of a metric castle nut by its nominal size in mm. Undefined between and outside the table's sizes. */
export function slotsOf(majorMm: Exact): (Sourced & { readonly slots: number; readonly degrees: number }) | undefined {
  const row = slotRows.find((it) => compare(majorMm, ratio(it.from)) >= 0 && compare(majorMm, ratio(it.to)) <= 0);
  return row === undefined ? undefined : { slots: row.slots, degrees: 360 / row.slots, source: row.source, mark: row.mark };
}

/** How far the nut moves along the thread from one slot to the next, in mm: pitch over slots. */
export function travelPerSlot(thread: Thread, slots: number): Exact | undefined {
  return Number.isInteger(slots) && slots > 0 ? thread.pitchMm.div(slots) : undefined;
}

/** The smallest turn that brings a slot to a hole, in degrees. Two holes at 90° across a bolt halve the step of a nut with six slots: gcd(60°, 90°). */
export function smallestTurn(slots: number, holes: 1 | 2): number | undefined {
  if (!Number.isInteger(slots) || slots <= 0) return undefined;
  if (holes === 1) return 360 / slots;
  return ratio(360, slots).gcd(90).valueOf();
}

export interface SlotRule extends Sourced {
  readonly joint: "clamping" | "adjusting";
  readonly words: string;
}

export const slotRules: Readonly<Record<SlotRule["joint"], SlotRule>> = {
  clamping: {
    joint: "clamping",
    words:
      "Tighten to the low end of the torque range, then go on to the next slot, and not past the high end. Where no slot comes up in the range, change the washer or the nut. Never slacken to reach a slot.",
    source: "common practice; US FAA AC 43.13-1B as quoted",
    mark: "table",
  },
  adjusting: {
    joint: "adjusting",
    words: "A bearing that the nut adjusts: seat it, then go BACK to the next slot, and measure the float. The maker's figure rules.",
    source: "common practice of bearing makers",
    mark: "table",
  },
};
