// How far one spelling is from another, for fixes that offer the nearest.
// Invariant: gives up early on words that are too unlike, so that a hostile word costs nothing.

/** Damerau–Levenshtein (adjacent letters exchanged count one), given up beyond `most`: only what lies within so many letters of the diagonal is looked at. */
export function editDistance(written: string, meant: string, most = Number.POSITIVE_INFINITY): number {
  if (Math.abs(written.length - meant.length) > most) return most + 1;
  // What both begin and end with takes no change.
  let from = 0;
  let [aEnd, bEnd] = [written.length, meant.length];
  while (from < aEnd && from < bEnd && written.charCodeAt(from) === meant.charCodeAt(from)) from++;
  while (aEnd > from && bEnd > from && written.charCodeAt(aEnd - 1) === meant.charCodeAt(bEnd - 1)) {
    aEnd--;
    bEnd--;
  }
  const [a, b] = [written.slice(from, aEnd), meant.slice(from, bEnd)];
  let before: number[] = [];
  let last: number[] = [];
  // Rows are kept by their offset from the diagonal where there is a bound, and whole where there is none.
  const band = Math.min(most, Math.max(a.length, b.length));
  const width = 2 * band + 1;
  const beyond = band + 1;
  for (let i = 0; i <= a.length; i++) {
    const row: number[] = new Array(width).fill(beyond);
    let least = beyond;
    for (let k = 0; k < width; k++) {
      const j = i + k - band;
      if (j < 0 || j > b.length) continue;
      let cost = i === 0 ? j : j === 0 ? i : beyond;
      if (i > 0 && j > 0) {
        cost = Math.min(last[k + 1] ?? beyond, row[k - 1] ?? beyond) + 1;
        cost = Math.min(cost, (last[k] as number) + (a[i - 1] === b[j - 1] ? 0 : 1));
        if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, (before[k] as number) + 1);
      }
      row[k] = cost;
      if (cost < least) least = cost;
    }
    // An exchange reaches back two rows.
    if (least >= beyond && i > 0 && last.every((it) => it >= beyond)) return beyond;
    before = last;
    last = row;
  }
  return last[b.length - a.length + band] as number;
}
