// Chance from a seed: the same seed tells the same story on every machine (mulberry32, public domain).

export interface Chance {
  /** True so often: 0 never, 1 always. */
  yes(how: number): boolean;
  /** A whole number from low to high, both among them. */
  whole(low: number, high: number): number;
  one<T>(list: readonly T[]): T;
  some<T>(list: readonly T[], how: number): T[];
}

export function chance(seed: number): Chance {
  let state = (seed * 2654435761) >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  next();
  const whole = (low: number, high: number): number => low + Math.floor(next() * (high - low + 1));
  return {
    yes: (how) => next() < how,
    whole,
    one: <T>(list: readonly T[]): T => {
      if (list.length === 0) throw new Error("nothing to choose from");
      return list[whole(0, list.length - 1)] as T;
    },
    some: (list, how) => list.filter(() => next() < how),
  };
}
