// Shims on two sides at once: what is taken from one goes to the other, so that the bearing keeps its preload while the backlash moves.
// Invariant: the total over both sides stays exactly what it was. Every way of sharing out that keeps it is looked at, or none is offered.
import { type Exact, compare } from "../quantities/exact.ts";
import { type Cost, costBelow, noCost, poolOf, type Shims } from "./shim-pool.ts";
import { inside } from "../quantities/range.ts";
import { type Stack, aimOf, stackOf, totalOf } from "./shims.ts";

export interface TwoSides {
  readonly reading: Exact;
  /** The reading changes by so much for one unit of thickness moved to the first side. */
  readonly effect: Exact;
  readonly low?: Exact;
  readonly high?: Exact;
  readonly target?: Exact;
  readonly first: readonly Shims[];
  readonly second: readonly Shims[];
  readonly drawer: readonly Shims[];
}

export type TwoSidesAnswer =
  | {
      readonly kind: "stacks";
      readonly first: Stack;
      readonly second: Stack /** Thickness moved to the first side. */;
      readonly moved: Exact;
      readonly reading: Exact;
      readonly off: Exact;
    }
  /** Nothing keeps the total and brings the reading inside; the nearest, and how much should be moved. */
  | { readonly kind: "none"; readonly first: Stack; readonly second: Stack; readonly reading: Exact; readonly toMove: Exact }
  | { readonly kind: "too-many" }
  | { readonly kind: "unclear" };

interface Node {
  readonly a: number;
  readonly b: number;
  readonly cost: Cost;
  readonly before?: Node;
  readonly countA: number;
  readonly countB: number;
}

/** So many steps are about half a second to a second on a slow machine. */
const mostSteps = 1_000_000;

/** Nearest to the target, then the fewest shims over both sides, then the fewest thicknesses a side, then the fewest changes. */
export function moveShims(job: TwoSides): TwoSidesAnswer {
  const aim = aimOf({ ...job, fitted: job.first });
  const pool = poolOf([job.first, job.second, job.drawer]);
  if (aim === undefined || pool === undefined) return { kind: "unclear" };
  const now = totalOf(job.first);
  const whole = Number(now.add(totalOf(job.second)).div(pool.step).n);
  // A pair of totals is told by one whole number, which a double must hold.
  if (!Number.isSafeInteger((whole + 1) * (whole + 1))) return { kind: "too-many" };
  const [fittedA, fittedB] = [pool.countsOf(job.first), pool.countsOf(job.second)];
  // Behind each thickness, how much the thinner ones can still add: what can't reach the whole any more is dropped.
  const rest: number[] = [];
  pool.sizes.reduceRight((sum, it, i) => {
    rest[i] = sum;
    return sum + it.size * it.count;
  }, 0);
  let nodes = new Map<number, Node>([[0, { a: 0, b: 0, cost: noCost, countA: 0, countB: 0 }]]);
  let steps = 0;
  for (let i = 0; i < pool.sizes.length; i++) {
    const { size, count } = pool.sizes[i] as { size: number; count: number };
    const next = new Map<number, Node>();
    for (const node of nodes.values()) {
      for (let used = 0; used <= count; used++) {
        const sum = node.a + node.b + used * size;
        if (sum > whole) break;
        if (sum + (rest[i] ?? 0) < whole) continue;
        for (let countA = 0; countA <= used; countA++) {
          steps += 1;
          if (steps > mostSteps) return { kind: "too-many" };
          const countB = used - countA;
          const a = node.a + countA * size;
          const b = node.b + countB * size;
          const cost: Cost = [
            node.cost[0] + used,
            node.cost[1] + (countA > 0 ? 1 : 0) + (countB > 0 ? 1 : 0),
            node.cost[2] + Math.abs(countA - (fittedA[i] ?? 0)) + Math.abs(countB - (fittedB[i] ?? 0)),
          ];
          const key = a * (whole + 1) + b;
          const known = next.get(key);
          if (known === undefined || costBelow(cost, known.cost)) next.set(key, { a, b, cost, before: node, countA, countB });
        }
      }
    }
    nodes = next;
  }
  let best: Node | undefined;
  let bestOff: Exact | undefined;
  for (const node of nodes.values()) {
    const off = aim.offOf(pool.worth(node.a));
    const order = bestOff === undefined ? -1 : compare(off, bestOff);
    if (order < 0 || (order === 0 && costBelow(node.cost, (best as Node).cost))) {
      best = node;
      bestOff = off;
    }
  }
  // The stacks as they stand keep the total, so there is always one.
  if (best === undefined) return { kind: "unclear" };
  const countsA: number[] = [];
  const countsB: number[] = [];
  let at = pool.sizes.length - 1;
  for (let it: Node | undefined = best; it?.before !== undefined; it = it.before) {
    countsA[at] = it.countA;
    countsB[at] = it.countB;
    at -= 1;
  }
  const first = stackOf(pool, countsA, fittedA);
  const second = stackOf(pool, countsB, fittedB);
  const reading = aim.readingOf(first.total);
  if (!inside(job, reading)) return { kind: "none", first, second, reading, toMove: aim.wanted.sub(now) };
  return { kind: "stacks", first, second, moved: first.total.sub(now), reading, off: reading.sub(aim.target) };
}
