// How much of a long sweep is gone through. In three breadths: `npm test` as somebody runs it between two changes, `.ci/run` on each push (SPLITPIN_RUN=1), which goes
// through more, and `.ci/run full` (SPLITPIN_FULL=1), which goes through all. SPLITPIN_SAMPLE says where a sample begins: with
// as many numbers one after the other as it is tried in parts, a sweep is gone through. SPLITPIN_SEED is for numbers that look random, and moves the samples too.

export const isFull = process.env.SPLITPIN_FULL === "1";
/** On each push: whatever is promised to be there is, and what takes long is tried. */
export const isRun = isFull || process.env.SPLITPIN_RUN === "1";
export const sampleSeed = Number(process.env.SPLITPIN_SEED) || 20260504;
const begin = Number(process.env.SPLITPIN_SAMPLE) || sampleSeed;

/** For the name of a test that goes through a sample. */
export const sampleName = isFull ? "all of them" : `a sample, ${process.env.SPLITPIN_SAMPLE === undefined ? "SPLITPIN_SEED" : "SPLITPIN_SAMPLE"}=${begin}`;

/** Of a list every `nth` or fewer, evenly: on a push a third as many, between two changes a thirteenth; at least one of it. Odd, for what stands in pairs. */
export function sampled<T>(list: readonly T[], nth: number): readonly T[] {
  if (isFull) return list;
  const apart = nth * (isRun ? 3 : 13);
  const some = list.filter((_, i) => (i + begin) % apart === 0);
  return some.length > 0 ? some : list.slice(begin % Math.max(1, list.length)).slice(0, 1);
}

/** Of a list of what is tried on each push, every `nth` between two changes, evenly. Where several lists of few are thinned, each `at` another place. */
export function thinned<T>(list: readonly T[], nth: number, at = 0): readonly T[] {
  return isRun ? list : list.filter((_, i) => (i + begin + at) % nth === 0);
}

/** How often something is tried. */
export function times({ plain, run, full }: { readonly plain: number; readonly run: number; readonly full: number }): number {
  return isFull ? full : isRun ? run : plain;
}
