// Who waits for whom in a circle: told of steps that a sheet orders so, and taken out of the path that decides.

/** The sets of those each of which waits for all the others, by their index, and each that waits for itself; by Tarjan's method without recursion: a long sheet is not a deep one. */
export function circlesOf(after: readonly (readonly number[])[]): number[][] {
  const index: (number | undefined)[] = after.map(() => undefined);
  const low: number[] = after.map(() => 0);
  const held = new Set<number>();
  const stack: number[] = [];
  const circles: number[][] = [];
  let next = 0;
  for (const root of after.keys()) {
    if (index[root] !== undefined) continue;
    const trail: { i: number; at: number }[] = [{ i: root, at: 0 }];
    while (trail.length > 0) {
      const here = trail[trail.length - 1] as { i: number; at: number };
      const { i } = here;
      if (here.at === 0) {
        index[i] = low[i] = next++;
        stack.push(i);
        held.add(i);
      }
      const j = after[i]?.[here.at++];
      if (j !== undefined) {
        if (index[j] === undefined) trail.push({ i: j, at: 0 });
        else if (held.has(j)) low[i] = Math.min(low[i] as number, index[j]);
        continue;
      }
      trail.pop();
      const parent = trail.at(-1);
      if (parent !== undefined) low[parent.i] = Math.min(low[parent.i] as number, low[i] as number);
      if (low[i] !== index[i]) continue;
      const set: number[] = [];
      for (;;) {
        const k = stack.pop() as number;
        held.delete(k);
        set.push(k);
        if (k === i) break;
      }
      if (set.length > 1 || after[i]?.includes(i)) circles.push(set.sort((a, b) => a - b));
    }
  }
  return circles.sort((a, b) => (a[0] as number) - (b[0] as number));
}
