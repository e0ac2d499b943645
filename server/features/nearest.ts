// The word of a list that is nearest to one that was typed, for “is … meant?”.

/** Undefined where nothing is near enough: more than a third of the letters would have to change. */
export function nearest(typed: string, words: Iterable<string>): string | undefined {
  let best: string | undefined;
  let least = Math.max(1, Math.floor(typed.length / 3)) + 1;
  for (const word of words) {
    const distance = lettersApart(typed, word, least);
    if (distance < least) {
      least = distance;
      best = word;
    }
  }
  return best;
}

/** Letters to add, take away, change, or swap with a neighbour (optimal string alignment); `enough` where it is that or more. */
function lettersApart(a: string, b: string, enough: number): number {
  if (Math.abs(a.length - b.length) >= enough) return enough;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + change);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) least = Math.min(least, (before[j - 2] ?? 0) + 1);
      row.push(least);
    }
    before = last;
    last = row;
  }
  return Math.min(last[b.length] ?? enough, enough);
}
