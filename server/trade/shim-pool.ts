// All the shims that there are, in whole units of the step that their thicknesses share.
// Invariant: whole numbers, small enough for a double to hold exactly; otherwise there is no pool.
import { type Exact, compare, ratio } from "../quantities/exact.ts";

export interface Shims {
  /** mm, or any one unit. */
  readonly thickness: Exact;
  readonly count: number;
}

export interface Pool {
  /** Thickest first; `size` in steps. */
  readonly sizes: readonly { readonly thickness: Exact; readonly size: number; readonly count: number }[];
  readonly step: Exact;
  /** The thickness of so many steps. */
  readonly worth: (sum: number) => Exact;
  /** The largest total worth trying for a wanted one, in steps. */
  readonly limitFor: (wanted: Exact) => number;
  /** How many of each of `sizes` a list of shims holds. */
  readonly countsOf: (list: readonly Shims[]) => number[];
}

/** Pieces, then different thicknesses, then changes. */
export type Cost = readonly [pieces: number, thicknesses: number, changes: number];

export const noCost: Cost = [0, 0, 0];

export function costBelow(a: Cost, b: Cost): boolean {
  return a[0] !== b[0] ? a[0] < b[0] : a[1] !== b[1] ? a[1] < b[1] : a[2] < b[2];
}

/** Undefined where a count is not a whole number, a thickness is not above nothing, or the steps are too many for a double. */
export function poolOf(lists: readonly (readonly Shims[])[]): Pool | undefined {
  const all = lists.flat();
  if (all.some((it) => !Number.isSafeInteger(it.count) || it.count < 0 || compare(it.thickness, ratio(0)) <= 0)) return undefined;
  const counts = new Map<string, { thickness: Exact; count: number }>();
  for (const { thickness, count } of all) {
    const key = thickness.toFraction();
    counts.set(key, { thickness, count: (counts.get(key)?.count ?? 0) + count });
  }
  const kept = [...counts.values()].filter((it) => it.count > 0).sort((a, b) => compare(b.thickness, a.thickness));
  const step = kept.reduce((a, b) => a.gcd(b.thickness), kept[0]?.thickness ?? ratio(1));
  const sizes = kept.map((it) => ({ ...it, size: Number(it.thickness.div(step).n) }));
  if (sizes.some((it) => !Number.isSafeInteger(it.size * it.count))) return undefined;
  const thickest = sizes[0]?.size ?? 0;
  return {
    sizes,
    step,
    worth: (sum) => step.mul(sum),
    limitFor: (wanted) => {
      const steps = wanted.div(step);
      const whole = steps.s < 0n ? 0 : Number(steps.n / steps.d) + 1;
      return whole + thickest;
    },
    countsOf: (list) => {
      const wanted = new Map<string, number>();
      for (const it of list) wanted.set(it.thickness.toFraction(), (wanted.get(it.thickness.toFraction()) ?? 0) + it.count);
      return sizes.map((it) => wanted.get(it.thickness.toFraction()) ?? 0);
    },
  };
}
