// How much of a long sweep is gone through: all of it with SPLITPIN_FULL=1, as `.ci/run` asks, else an even sample. SPLITPIN_SEED says where the sample begins.

export const isFull = process.env.SPLITPIN_FULL === "1";
export const sampleSeed = Number(process.env.SPLITPIN_SEED) || 20260504;

/** For the name of a test that goes through a sample. */
export const sampleName = isFull ? "all of them" : `a sample, SPLITPIN_SEED=${sampleSeed}`;

/** Every `nth` of a list, evenly. */
export function sampled<T>(list: readonly T[], nth: number): readonly T[] {
  return isFull ? list : list.filter((_, i) => (i + sampleSeed) % nth === 0);
}
