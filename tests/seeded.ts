// Numbers that look random and are the same on every machine; which they were is told where a test fails.

let seeds: number[] = [];

/** Numbers from a seed: mulberry32, public domain. */
export function seeded(seed: number): (below: number) => number {
  seeds.push(seed);
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 4294967296) * below);
  };
}

/** Those asked for since this was last called, in their order: the last is the one that a test failed with. */
export function takeSeeds(): readonly number[] {
  const taken = seeds;
  seeds = [];
  return taken;
}
