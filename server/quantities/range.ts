// A band of what is allowed, and the verdict on a reading by it, with its uncertainty or without.
// Invariant: exact, the limits themselves are allowed; no float and no root decides.
import { type Exact, compare, isNegative, zero } from "./exact.ts";
import type { Unit } from "./units.ts";

/** `low` and `high` in base units; one may be absent. `text` is the range as its writer put it. */
export interface Band {
  readonly low?: Exact;
  readonly high?: Exact;
  readonly unit: Unit;
  readonly text: string;
}

/** An expanded uncertainty (k = 2) in base units, or its square where it is a root of a sum of squares. */
export type Uncertainty = Exact | { readonly squared: Exact };

/** `in`, `out`, `doubt` by ISO 14253-1 where an uncertainty is given; `in-plain`, `out-plain` by comparison alone where none is. */
export type Verdict = "in" | "out" | "doubt" | "in-plain" | "out-plain";

/** Whether x is in the band; at its end is in. */
export function inside(band: Pick<Band, "low" | "high">, x: Exact): boolean {
  return (band.low === undefined || compare(x, band.low) >= 0) && (band.high === undefined || compare(x, band.high) <= 0);
}

/** How far x is out of the band, in base units; 0 inside. */
export function beyond(band: Band, x: Exact): Exact {
  if (band.low !== undefined && compare(x, band.low) < 0) return band.low.sub(x);
  if (band.high !== undefined && compare(x, band.high) > 0) return x.sub(band.high);
  return zero;
}

/**
 * ISO 14253-1: `in` where x ± U lies wholly within the limits, the limits themselves included; `out` where it lies wholly outside, so that x − U
 * at the limit is still doubt; `doubt` between. Without U the plain comparison.
 */
export function verdict(band: Band, x: Exact, uncertainty?: Uncertainty): Verdict {
  if (uncertainty === undefined) return inside(band, x) ? "in-plain" : "out-plain";
  let within = true;
  for (const room of roomIn(band, x)) {
    // `room` is how far x is inside this end; less than none is how far it is beyond.
    const far = "squared" in uncertainty ? compare(room.mul(room), uncertainty.squared) : compare(room.abs(), uncertainty.abs());
    if (isNegative(room)) {
      if (far > 0) return "out";
      within = false;
    } else if (far < 0) within = false;
  }
  return within ? "in" : "doubt";
}

/** Whether a reading with this uncertainty could be `in` at all: the band is at least 2·U wide. */
export function couldBeIn(band: Band, uncertainty: Uncertainty): boolean {
  if (band.low === undefined || band.high === undefined) return true;
  const squared = "squared" in uncertainty ? uncertainty.squared : uncertainty.mul(uncertainty);
  const width = band.high.sub(band.low);
  return compare(squared.mul(4), width.mul(width)) <= 0;
}

function roomIn(band: Band, x: Exact): Exact[] {
  const rooms: Exact[] = [];
  if (band.low !== undefined) rooms.push(x.sub(band.low));
  if (band.high !== undefined) rooms.push(band.high.sub(x));
  return rooms;
}
