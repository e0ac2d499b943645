// Random numbers that come again: one seed, one story.

export interface Random {
  /** A whole number from 0 below `n`. */
  below(n: number): number;
  chance(p: number): boolean;
  pick<T>(list: readonly T[]): T;
  shuffled<T>(list: readonly T[]): T[];
}

/** mulberry32, by T. Ettinger, in the public domain. */
export function random(seed: number): Random {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const below = (n: number) => Math.floor(next() * n);
  return {
    below,
    chance: (p) => next() < p,
    pick: (list) => {
      if (list.length === 0) throw new Error("Nothing to pick from");
      return list[below(list.length)] as (typeof list)[number];
    },
    shuffled: (list) => {
      const out = [...list];
      for (let i = out.length - 1; i > 0; i--) {
        const k = below(i + 1);
        [out[i], out[k]] = [out[k] as (typeof out)[number], out[i] as (typeof out)[number]];
      }
      return out;
    },
  };
}
