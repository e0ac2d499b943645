// How far one spelling is from another, for fixes that offer the nearest.
// Invariant: gives up early on words that are too unlike, so that a hostile word costs nothing.

/** Damerau–Levenshtein (adjacent letters exchanged count one), given up beyond `most`. */
export function editDistance(a: string, b: string, most = Number.POSITIVE_INFINITY): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let cost = Math.min((last[j] as number) + 1, (row[j - 1] as number) + 1, (last[j - 1] as number) + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, (before[j - 2] as number) + 1);
      row.push(cost);
    }
    before = last;
    last = row;
  }
  return last[b.length] as number;
}
