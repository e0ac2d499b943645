// How far a fastener has been turned on behind its torque, or let back behind it, since it was last slack: two lines of one nut add up.
// Invariant: pure; of the very pieces that a line means, as the walk counts them.
import { measured } from "../model/values.ts";
import { turnsOf } from "../model/torque.ts";
import type { Exact } from "../quantities/exact.ts";
import type { Measured } from "../quantities/quantity.ts";
import { type Lot, latestFirst, slackFirst, take } from "./lots.ts";
import type { FastenerCell, FastenerMoment } from "./story.ts";

/** So far in all; undefined where it was not turned, or where a figure can't be read. */
export function turnedOn(cell: FastenerCell, it: FastenerMoment): Measured | undefined {
  return totals(cell).on.get(it.seq);
}

/** In turns, in all; undefined where a line does not say how far. */
export function turnedBack(cell: FastenerCell, it: FastenerMoment): Exact | undefined {
  return totals(cell).back.get(it.seq);
}

interface Totals {
  readonly length: number;
  /** Only where an angle was ever written. */
  readonly on: Map<number, Measured>;
  readonly back: Map<number, Exact | undefined>;
}

const known = new WeakMap<FastenerCell, Totals>();

function totals(cell: FastenerCell): Totals {
  const before = known.get(cell);
  if (before?.length === cell.history.length) return before;
  const all: Totals = { length: cell.history.length, on: new Map(), back: new Map() };
  for (const it of cell.history) {
    const on = it.verb === "tighten" ? sumOn(it, all) : undefined;
    if (on !== undefined) all.on.set(it.seq, on);
    if (it.verb === "let") all.back.set(it.seq, sumBack(it, all));
  }
  known.set(cell, all);
  return all;
}

function sumOn(it: FastenerMoment, { on }: Totals): Measured | undefined {
  const own = measured(it.action?.angle);
  if (on.size === 0) return own;
  const meant = take([...it.before.lots, ...it.moved], it.count, slackFirst).taken;
  const was = first(meant, (lot) => (lot.tight && lot.tightenedAt !== undefined ? on.get(lot.tightenedAt) : undefined));
  if (own === undefined || was === undefined || own.unit.dimension !== was.unit.dimension) return own ?? was;
  return { ...own, value: own.value.add(was.value) };
}

function sumBack(it: FastenerMoment, { back }: Totals): Exact | undefined {
  const own = turnsOf(it.action?.back);
  const again = take(it.before.lots, it.count, latestFirst).taken.find((lot) => lot.letBackAt !== undefined);
  if (again === undefined) return own;
  const was = back.get(again.letBackAt as number);
  return own === undefined || was === undefined ? undefined : own.add(was);
}

function first<T>(lots: readonly Lot[], of: (lot: Lot) => T | undefined): T | undefined {
  for (const lot of lots) {
    const it = of(lot);
    if (it !== undefined) return it;
  }
  return undefined;
}
