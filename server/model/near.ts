// Names that are so near to one another that one is likely a slip for the other.
// Invariant: names that differ by their number alone (`bolt-1`, `bolt-2`) are never near: a series is named so on purpose.
import { editDistance } from "../quantities/spelling.ts";

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
