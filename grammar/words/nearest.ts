// How far two words lie apart, and which of some words is nearest to one that was typed.
// Invariant: nothing is near unless a slip of one hand explains it: at most two letters, one in a short word.

/** Letters put in, left out, changed, or two neighbours swapped (optimal string alignment). More than `most` comes back as `most + 1`. */
export function wordDistance(a: string, b: string, most = 2): number {
  if (a === b) return 0;
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a.charCodeAt(i - 1) === b.charCodeAt(j - 1);
      let cost = Math.min((last[j] as number) + 1, (row[j - 1] as number) + 1, (last[j - 1] as number) + (same ? 0 : 1));
      const swapped = i > 1 && j > 1 && a.charCodeAt(i - 1) === b.charCodeAt(j - 2) && a.charCodeAt(i - 2) === b.charCodeAt(j - 1);
      if (swapped) cost = Math.min(cost, (before[j - 2] as number) + 1);
      row.push(cost);
      least = Math.min(least, cost);
    }
    if (least > most) return most + 1;
    before = last;
    last = row;
  }
  return last[b.length] as number;
}

export interface Near {
  readonly word: string;
  readonly distance: number;
}

/**
 * The nearest of some words; of equals one that goes on from what is typed, then one that begins with the same letter, for the first is seldom the slip, and else the first. Two letters may be off, one where the word typed has fewer than four.
 * A beginning of two letters and more counts as one letter off; capitals count as nothing.
 */
export function nearestWord(typed: string, words: ReadonlySet<string> | readonly string[]): Near | undefined {
  if (typed.length > 40) return undefined;
  // In a text that is no sheet the same words come again and again, and are looked for in the same lists.
  let known = remembered.get(words);
  if (known === undefined) {
    known = new Map();
    remembered.set(words, known);
  }
  if (known.has(typed)) return known.get(typed);
  if (known.size >= 500) known.clear();
  const near = nearest(typed, words);
  known.set(typed, near);
  return near;
}

const remembered = new WeakMap<object, Map<string, Near | undefined>>();

function nearest(typed: string, words: Iterable<string>): Near | undefined {
  const small = typed.toLowerCase();
  const most = typed.length < 4 ? 1 : 2;
  let best: Near | undefined;
  const likeness = (word: string) => (word.toLowerCase().startsWith(small) ? 2 : word.charAt(0).toLowerCase() === small.charAt(0) ? 1 : 0);
  for (const word of words) {
    const other = word.toLowerCase();
    let distance = wordDistance(small, other, most);
    if (distance > 1 && small.length >= 2 && other.startsWith(small)) distance = 1;
    if (distance <= most && (best === undefined || distance < best.distance || (distance === best.distance && likeness(word) > likeness(best.word))))
      best = { word, distance };
  }
  return best;
}
