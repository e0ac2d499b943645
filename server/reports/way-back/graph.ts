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
  const reaches = (from: N, to: N): boolean => {
    const seen = new Set([from]);
    for (const deed of seen) {
      if (deed === to) return true;
      for (const next of before.get(deed) ?? []) seen.add(next);
    }
    return false;
  };
  const graph: Graph<N> = {
    add(deed) {
      before.set(deed, new Set());
    },
    wait(later, first) {
      if (later !== undefined && first !== undefined && later !== first) before.get(later)?.add(first);
    },
    rather(later, first) {
      if (later !== undefined && first !== undefined && !reaches(first, later)) graph.wait(later, first);
    },
    sorted() {
      const out: N[] = [];
      const left = new Set(before.keys());
      while (left.size > 0) {
        const ready = [...left].filter((it) => [...(before.get(it) as Set<N>)].every((first) => !left.has(first)));
        const next = (ready.length > 0 ? ready : [...left]).reduce((a, b) => (b.since > a.since ? b : a));
        out.push(next);
        left.delete(next);
      }
      return out;
    },
  };
  return graph;
}
