// What waits for what, and an order that keeps to it.
// Invariant: never hangs. Of what waits for each other in a circle, that with the greatest `since` goes first.

/** `since`: what is free goes in the falling order of it. */
export interface Node {
  readonly since: number;
}

export interface Graph<N extends Node> {
  add(deed: N): void;
  /** `later` waits for `first`, where there are both. */
  wait(later: N | undefined, first: N | undefined): void;
  /** The same, unless it would close a circle. */
  rather(later: N | undefined, first: N | undefined): void;
  sorted(): N[];
}

export function makeGraph<N extends Node>(): Graph<N> {
  const before = new Map<N, Set<N>>();
  const after = new Map<N, Set<N>>();
  const graph: Graph<N> = {
    add(deed) {
      before.set(deed, new Set());
      after.set(deed, after.get(deed) ?? new Set());
    },
    wait(later, first) {
      if (later === undefined || first === undefined || later === first) return;
      const firsts = before.get(later);
      if (firsts === undefined) return;
      firsts.add(first);
      const laters = after.get(first);
      if (laters === undefined) after.set(first, new Set([later]));
      else laters.add(later);
    },
    rather(later, first) {
      // What waits for it already is not looked for along thousands of others.
      if (later === undefined || first === undefined || before.get(later)?.has(first) === true) return;
      if (!waitsFor(before, after, first, later)) graph.wait(later, first);
    },
    sorted: () => sorted(before, after),
  };
  return graph;
}

/** Looked for from both ends by turns: where either has no more, it does not. Of a long chain one end is mostly near. */
function waitsFor<N>(before: ReadonlyMap<N, ReadonlySet<N>>, after: ReadonlyMap<N, ReadonlySet<N>>, from: N, to: N): boolean {
  const down = new Set([from]);
  const up = new Set([to]);
  const downwards = down.values();
  const upwards = up.values();
  for (;;) {
    const lower = downwards.next();
    if (lower.done === true) return false;
    if (lower.value === to) return true;
    for (const next of before.get(lower.value) ?? []) down.add(next);
    const upper = upwards.next();
    if (upper.done === true) return false;
    if (upper.value === from) return true;
    for (const next of after.get(upper.value) ?? []) up.add(next);
  }
}

function sorted<N extends Node>(before: ReadonlyMap<N, ReadonlySet<N>>, after: ReadonlyMap<N, ReadonlySet<N>>): N[] {
  // By `since`, and what was added first before what was added later: what is free goes by its place in this.
  const ranked = [...before.keys()].map((deed, i) => ({ deed, i })).sort((a, b) => b.deed.since - a.deed.since || a.i - b.i);
  const rankOf = new Map(ranked.map(({ deed }, rank) => [deed, rank]));
  const waits = new Map([...before].map(([deed, firsts]) => [deed, [...firsts].filter((it) => before.has(it)).length]));
  const free = lowestFirst();
  for (const [rank, { deed }] of ranked.entries()) if (waits.get(deed) === 0) free.put(rank);
  const out = new Set<N>();
  let circle = 0;
  while (out.size < ranked.length) {
    // Nothing is free: of what is left, the foremost.
    while (free.isEmpty() && out.has((ranked[circle] as { deed: N }).deed)) circle++;
    const { deed } = ranked[free.isEmpty() ? circle : free.take()] as { deed: N };
    out.add(deed);
    for (const later of after.get(deed) ?? []) {
      const still = (waits.get(later) ?? 0) - 1;
      waits.set(later, still);
      if (still === 0 && !out.has(later)) free.put(rankOf.get(later) as number);
    }
  }
  return [...out];
}

/** Numbers of which the lowest is taken first, as a binary heap. */
function lowestFirst(): { put(it: number): void; take(): number; isEmpty(): boolean } {
  const heap: number[] = [];
  const at = (i: number) => heap[i] ?? Number.POSITIVE_INFINITY;
  const exchange = (i: number, j: number) => {
    [heap[i], heap[j]] = [at(j), at(i)];
  };
  return {
    isEmpty: () => heap.length === 0,
    put(it) {
      let i = heap.push(it) - 1;
      for (let up = (i - 1) >> 1; i > 0 && at(up) > it; up = (i - 1) >> 1) {
        exchange(i, up);
        i = up;
      }
    },
    take() {
      const least = at(0);
      const end = heap.pop() as number;
      if (heap.length === 0) return least;
      heap[0] = end;
      for (let i = 0; ; ) {
        const down = at(2 * i + 1) <= at(2 * i + 2) ? 2 * i + 1 : 2 * i + 2;
        if (at(down) >= at(i)) return least;
        exchange(i, down);
        i = down;
      }
    },
  };
}
