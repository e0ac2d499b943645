// What is made of several readings: mean, span, standard deviation, and the forms that a pin or a bore may have worn to.
// Invariant: exact up to the last root, which is rounded only to be shown.
import { type Exact, compare, rootTo, sumOf } from "./exact.ts";

/** Undefined of nothing. */
export function mean(list: readonly Exact[]): Exact | undefined {
  return list.length === 0 ? undefined : sumOf(list).div(list.length);
}

export function least(list: readonly Exact[]): Exact | undefined {
  return list.reduce<Exact | undefined>((a, b) => (a === undefined || compare(b, a) < 0 ? b : a), undefined);
}

export function greatest(list: readonly Exact[]): Exact | undefined {
  return list.reduce<Exact | undefined>((a, b) => (a === undefined || compare(b, a) > 0 ? b : a), undefined);
}

/** Widest less narrowest: run-out, spread, and at one position of a round part its ovality. Undefined of nothing. */
export function span(list: readonly Exact[]): Exact | undefined {
  const low = least(list);
  const high = greatest(list);
  return low === undefined || high === undefined ? undefined : high.sub(low);
}

/** Taper: the span of the means at the positions along a part. Undefined unless two positions have readings. */
export function taper(positions: readonly (readonly Exact[])[]): Exact | undefined {
  const means = positions.map(mean).filter((it) => it !== undefined);
  return means.length < 2 ? undefined : span(means);
}

/** Sample standard deviation (n − 1) to so many decimals. Undefined of fewer than two. */
export function standardDeviation(list: readonly Exact[], places: number): Exact | undefined {
  const middle = mean(list);
  if (middle === undefined || list.length < 2) return undefined;
  const squares = list.map((it) => it.sub(middle)).map((it) => it.mul(it));
  return rootTo(sumOf(squares).div(list.length - 1), places);
}

/** Rate of taper of a cone, ISO 1119: difference of the diameters over the length between them. Undefined over no length. */
export function conicity(largeDiameter: Exact, smallDiameter: Exact, length: Exact): Exact | undefined {
  return length.n === 0n ? undefined : largeDiameter.sub(smallDiameter).div(length);
}

/** Radial roundness of a journal with two lobes: half of its ovality. Other forms of out-of-round hide from a two-point gauge. */
export function roundnessOfOval(ovalityMeasured: Exact): Exact {
  return ovalityMeasured.div(2);
}
