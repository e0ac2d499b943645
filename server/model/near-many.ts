// Which names of a long list are near to one that was written, without going through it for each: two words that are a change or two apart have a form in common that lacks as many letters.
// Invariant: what is found is what nearestNames finds, one change off before two.
import { type Slices, runThrough, someAtOnce } from "../../grammar/slices.ts";
import { countAhead } from "./halving.ts";
import { nearestNames } from "./near.ts";

/**
 * The names nearest to one that was written, of a list that is asked again and again: names that share no shorter form are passed over, so that a long list of names that are all alike is
 * not gone through for each. Most slips are one change off, and where a name is, those that are two off are not looked at.
 */
export function nearestIn(names: readonly string[]): (written: string) => string[] {
  return runThrough(nearingIn(names));
}

/** The same made in slices. */
export function* nearingIn(names: readonly string[]): Slices<(written: string) => string[]> {
  const oneOff = yield* sharing(names, 1);
  const twoOff = yield* sharing(names, 2);
  return (written) => {
    const near = nearestNames(written, oneOff(written), 1);
    return near.length > 0 ? near : nearestNames(written, twoOff(written));
  };
}

/** The names of a list that share a form which lacks up to so many letters with one that is written, in the order of the list. */
function* sharing(names: readonly string[], lacking: 1 | 2): Slices<(written: string) => string[]> {
  const sorted = new Float64Array(sum(names.map((name) => formsOf(name, lacking))));
  // By the first bits of their hashes first, so that no sort is longer than a slice.
  const ends = new Int32Array(shares + 1);
  for (const [i, name] of names.entries()) {
    shorter(name.toLowerCase(), lacking, (hash) => {
      const next = shareOf(hash) + 1;
      ends[next] = (ends[next] as number) + 1;
    });
    if (i % someAtOnce === someAtOnce - 1) yield;
  }
  for (let share = 0; share < shares; share++) ends[share + 1] = (ends[share + 1] as number) + (ends[share] as number);
  const filled = ends.slice(0, shares);
  for (const [i, name] of names.entries()) {
    shorter(name.toLowerCase(), lacking, (hash) => {
      const share = shareOf(hash);
      const at = filled[share] as number;
      filled[share] = at + 1;
      sorted[at] = hash * mostNames + i;
    });
    if (i % someAtOnce === someAtOnce - 1) yield;
  }
  for (let share = 0; share < shares; share++) {
    sorted.subarray(ends[share], ends[share + 1]).sort();
    yield;
  }
  return (written) => {
    const found = new Set<number>();
    shorter(written.toLowerCase(), lacking, (hash) => {
      for (let at = countAhead(sorted, (it) => it < hash * mostNames); at < sorted.length; at++) {
        const i = (sorted[at] as number) - hash * mostNames;
        if (i >= mostNames) break;
        found.add(i);
      }
    });
    return [...found].sort((a, b) => a - b).map((i) => names[i] as string);
  };
}

const shares = 64;
const shareOf = (hash: number) => hash >>> 26;

/** A hash of 32 bits and the place in the list make one whole number that a double holds. */
const mostNames = 2 ** 20;

/** Where names are longer than this, only their beginning is made shorter: it says less, and passes over no more than it may. */
const longestForm = 24;

function formsOf(name: string, lacking: 1 | 2): number {
  const n = Math.min(name.toLowerCase().length, longestForm);
  return 1 + n + (lacking === 2 ? (n * (n - 1)) / 2 : 0);
}

/** By an odd number, so that a letter that falls out is made up for by its inverse, in whole numbers of 32 bits. */
const base = 0x9e3779b1 | 0;
const inverse = inverseOf(base);

/**
 * Each form of a name that lacks up to two of its letters, as a hash: two names that are two changes apart have one in common. The hash is a sum of letters, each by a power of
 * its place, so that one form follows from the sums of the whole in a few steps.
 */
function shorter(name: string, lacking: 1 | 2, tell: (hash: number) => void): void {
  const n = Math.min(name.length, longestForm);
  // What the letters before each place add up to.
  const sums = new Int32Array(n + 1);
  for (let i = 0, power = 1; i < n; i++, power = Math.imul(power, base)) sums[i + 1] = ((sums[i] as number) + Math.imul(name.charCodeAt(i), power)) | 0;
  const between = (from: number, to: number) => ((sums[to] as number) - (sums[from] as number)) | 0;
  const all = sums[n] as number;
  tell(all >>> 0);
  for (let i = 0; i < n; i++) {
    const before = sums[i] as number;
    tell((before + Math.imul(between(i + 1, n), inverse)) >>> 0);
    if (lacking === 2)
      for (let j = i + 1; j < n; j++) tell((before + Math.imul((between(i + 1, j) + Math.imul(between(j + 1, n), inverse)) | 0, inverse)) >>> 0);
  }
}

/** What an odd number is multiplied by to make one, in 32 bits: each round doubles the bits that are right. */
function inverseOf(odd: number): number {
  let it = odd;
  for (let right = 3; right < 32; right *= 2) it = Math.imul(it, 2 - Math.imul(odd, it));
  return it;
}

function sum(list: readonly number[]): number {
  return list.reduce((a, b) => a + b, 0);
}
