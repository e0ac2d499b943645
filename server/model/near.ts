// Names that are so near to one another that one is likely a slip for the other.
// Invariant: names that differ by their number alone (`bolt-1`, `bolt-2`) are never near: a series is named so on purpose.
import { type Slices, runThrough, someAtOnce } from "../../grammar/slices.ts";
import { editDistance } from "../quantities/spelling.ts";
import { countAhead } from "./halving.ts";

/**
 * The names nearest to one that was written, at most three and all as near: two letters off (or `within` so many), one where either is under four letters, and one where the
 * only word of them that differs is a short one: `stay-bolt` and `strap-bolt` are two bolts.
 */
export function nearestNames(written: string, names: Iterable<string>, within = 2): string[] {
  const mask = lettersOf(written);
  let least = within;
  let best: string[] = [];
  for (const name of names) {
    const most = Math.min(written.length < 4 || name.length < 4 ? 1 : 2, least);
    // A letter that one has and the other lacks takes a change, and a change mends two of them at the most.
    if (Math.abs(name.length - written.length) > most || bits(lettersOf(name) ^ mask) > 2 * most) continue;
    if (name === written || sameSeries(name, written)) continue;
    if (most > 1 && inShortWord(written, name) && editDistance(written.toLowerCase(), name.toLowerCase(), 1) > 1) continue;
    const distance = editDistance(written.toLowerCase(), name.toLowerCase(), most);
    if (distance > most) continue;
    if (distance < least) best = [];
    least = distance;
    if (best.length < 3) best.push(name);
  }
  return best;
}

/**
 * The same of a list that is asked again and again: names that share no shorter form are passed over, so that a long list of names that are all alike is
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

/** As many words each, which differ in one alone, and that has so few letters in both that two of them make another word. */
function inShortWord(written: string, name: string): boolean {
  const [a, b] = [written.split("-"), name.split("-")];
  if (a.length !== b.length) return false;
  const unlike = a.flatMap((word, i) => (word === b[i] ? [] : [Math.max(word.length, (b[i] as string).length)]));
  return unlike.length === 1 && (unlike[0] as number) <= shortWord;
}

const shortWord = 5;

const masks = new Map<string, number>();

/** One bit for each of 32 kinds of letter. */
function lettersOf(name: string): number {
  let mask = masks.get(name);
  if (mask === undefined) {
    mask = 0;
    const small = name.toLowerCase();
    for (let i = 0; i < small.length; i++) mask |= 1 << (small.charCodeAt(i) & 31);
    if (masks.size > 20_000) masks.clear();
    masks.set(name, mask);
  }
  return mask;
}

function bits(mask: number): number {
  let count = 0;
  for (let rest = mask; rest !== 0; rest &= rest - 1) count++;
  return count;
}

/** `bolt-1` and `bolt-12`, `stud-a` and `stud-b`, `bolt` and `bolt-2`: the same but for what numbers them. */
function sameSeries(a: string, b: string): boolean {
  return sameBut(number, a, b) || sameBut(letter, a, b);
}

function sameBut(pattern: RegExp, a: string, b: string): boolean {
  const stemA = pattern.exec(a)?.[1];
  const stemB = pattern.exec(b)?.[1];
  return (stemA ?? a) === (stemB ?? b) && (stemA !== undefined || stemB !== undefined);
}

const number = /^(.+?)-?\d+$/;
const letter = /^(.+)-\p{L}$/u;
