// Shims: from a reading, what it should be and what is in the drawer, the stack that comes nearest with the fewest shims.
// Invariant: exact, in whole units of the thinnest step that all thicknesses share. A drawer too large to try whole is said to be so, never guessed at.
import { type Exact, compare, orNothing, zero } from "../quantities/exact.ts";
import { inside } from "../quantities/range.ts";
import { type Cost, type Pool, type Shims, costBelow, noCost, poolOf } from "./shim-pool.ts";

export interface ShimJob {
  readonly reading: Exact;
  /** The reading changes by so much for one unit of thickness put in; negative where shims make it less. Not 0. */
  readonly effect: Exact;
  /** What the reading may be. One end may be absent. */
  readonly low?: Exact;
  readonly high?: Exact;
  /** What is aimed at; the middle of the band where unsaid. */
  readonly target?: Exact;
  /** What is in now, and what lies in the drawer besides. */
  readonly fitted: readonly Shims[];
  readonly drawer: readonly Shims[];
}

export interface Stack {
  /** Thickest first. */
  readonly shims: readonly Shims[];
  readonly total: Exact;
  readonly pieces: number;
  /** What goes in (+) and comes out (−) against what was fitted. */
  readonly change: readonly Shims[];
}

export type ShimAnswer =
  | { readonly kind: "stack"; readonly stack: Stack; readonly reading: Exact /** From the target. */; readonly off: Exact }
  /** Nothing in the drawer brings it inside. `nearest` is the best there is; one shim of `get` on top of `onto` would bring it to the target, from `getLeast` to `getMost` inside. */
  | {
      readonly kind: "none";
      readonly nearest: Stack;
      readonly reading: Exact;
      readonly get?: Exact;
      readonly getLeast?: Exact;
      readonly getMost?: Exact;
      readonly onto?: Stack;
      /** Total thickness that would be right. Below zero: the shims can't cure it. */
      readonly wanted: Exact;
    }
  /** More stacks than can be tried in good time. */
  | { readonly kind: "too-many" }
  /** No effect, no band and no target, or a count that is not a whole number. */
  | { readonly kind: "unclear" };

/**
 * The stack that comes nearest to the target; of those as near the one with the fewest shims, then the fewest thicknesses (equal shims are preferred),
 * then the fewest changes. Where the band has one end and no target is given, every stack inside is as near as another.
 */
export function bestStack(job: ShimJob): ShimAnswer {
  const aim = aimOf(job);
  const pool = poolOf([job.fitted, job.drawer]);
  if (aim === undefined || pool === undefined) return { kind: "unclear" };
  const fitted = pool.countsOf(job.fitted);
  const sums = stacksUpTo(pool, fitted, aim.wanted);
  if (sums === undefined) return { kind: "too-many" };
  let best: Node | undefined;
  let bestOff: Exact | undefined;
  for (const node of sums.values()) {
    const off = aim.offOf(pool.worth(node.sum));
    const order = bestOff === undefined ? -1 : compare(off, bestOff);
    if (order < 0 || (order === 0 && costBelow(node.cost, (best as Node).cost))) {
      best = node;
      bestOff = off;
    }
  }
  const node = best as Node;
  const stack = stackOf(pool, countsIn(pool, node), fitted);
  const reading = aim.readingOf(stack.total);
  if (inside(job, reading)) return { kind: "stack", stack, reading, off: reading.sub(aim.target) };
  return { kind: "none", nearest: stack, reading, wanted: aim.wanted, ...toGet(job, aim, pool, sums, fitted) };
}

export interface Aim {
  readonly target: Exact;
  /** Total thickness that brings the reading to the target. */
  readonly wanted: Exact;
  readonly readingOf: (total: Exact) => Exact;
  /** How far from right a total is: from the target, or from the band where it has one end and no target was given. */
  readonly offOf: (total: Exact) => Exact;
}

/** What is aimed at, as a total thickness. `from` is the thickness that is in now. */
export function aimOf(job: Pick<ShimJob, "reading" | "effect" | "low" | "high" | "target" | "fitted">): Aim | undefined {
  const { reading, effect, low, high } = job;
  const target = job.target ?? (low !== undefined && high !== undefined ? low.add(high).div(2) : (low ?? high));
  if (effect.n === 0n || target === undefined) return undefined;
  const now = totalOf(job.fitted);
  const wanted = now.add(target.sub(reading).div(effect));
  const readingOf = (total: Exact) => reading.add(effect.mul(total.sub(now)));
  const oneEnd = job.target === undefined && (low === undefined || high === undefined);
  const offOf = (total: Exact) => (oneEnd && inside(job, readingOf(total)) ? zero : readingOf(total).sub(target).abs());
  return { target, wanted, readingOf, offOf };
}

export function totalOf(shims: readonly Shims[]): Exact {
  return shims.reduce((sum, it) => sum.add(it.thickness.mul(it.count)), zero);
}

interface Node {
  readonly sum: number;
  readonly cost: Cost;
  /** The stack without the shims of this thickness. */
  readonly before?: Node;
  readonly index: number;
  readonly count: number;
}

/** So many steps are about half a second to a second on a slow machine. */
const mostSteps = 500_000;

/**
 * The cheapest stack for every total that can be made, up to the first beyond the wanted one: a total that lies further above it by a whole shim is worse
 * than itself without that shim. Undefined where there are too many to try.
 */
function stacksUpTo(pool: Pool, fitted: readonly number[], wanted: Exact): Map<number, Node> | undefined {
  const limit = pool.limitFor(wanted);
  let sums = new Map<number, Node>([[0, { sum: 0, cost: noCost, index: -1, count: 0 }]]);
  let steps = 0;
  for (let index = 0; index < pool.sizes.length; index++) {
    const { size, count } = pool.sizes[index] as { size: number; count: number };
    const next = new Map<number, Node>();
    for (const node of sums.values()) {
      for (let k = 0; k <= count; k++) {
        const sum = node.sum + k * size;
        if (sum > limit) break;
        steps += 1;
        if (steps > mostSteps) return undefined;
        const cost: Cost = [node.cost[0] + k, node.cost[1] + (k > 0 ? 1 : 0), node.cost[2] + Math.abs(k - (fitted[index] ?? 0))];
        const known = next.get(sum);
        if (known === undefined || costBelow(cost, known.cost)) next.set(sum, { sum, cost, before: node, index, count: k });
      }
    }
    sums = next;
  }
  return sums;
}

function countsIn(pool: Pool, node: Node): number[] {
  const counts = pool.sizes.map(() => 0);
  for (let it: Node | undefined = node; it !== undefined && it.index >= 0; it = it.before) counts[it.index] = it.count;
  return counts;
}

/** A stack from its counts, thickest first, with what goes in and comes out against what was fitted. */
export function stackOf(pool: Pool, counts: readonly number[], fitted: readonly number[]): Stack {
  const at = (i: number) => pool.sizes[i]?.thickness ?? zero;
  const shims = counts.flatMap((count, i) => (count === 0 ? [] : [{ thickness: at(i), count }]));
  const change = counts.flatMap((count, i) => (count === (fitted[i] ?? 0) ? [] : [{ thickness: at(i), count: count - (fitted[i] ?? 0) }]));
  return { shims, total: totalOf(shims), pieces: counts.reduce((a, b) => a + b, 0), change };
}

/** The one shim that would do, on top of the thickest stack that leaves room for a shim no thinner than the thinnest there is; else on the thickest below. */
function toGet(job: ShimJob, aim: Aim, pool: Pool, sums: ReadonlyMap<number, Node>, fitted: readonly number[]) {
  if (compare(aim.wanted, zero) <= 0) return {};
  const thinnest = pool.sizes.at(-1)?.thickness ?? zero;
  const onto = highestUpTo(sums, pool, aim.wanted.sub(thinnest)) ?? highestUpTo(sums, pool, aim.wanted);
  if (onto === undefined || compare(pool.worth(onto.sum), aim.wanted) === 0) return {};
  const below = pool.worth(onto.sum);
  const ends = [job.low, job.high].filter((it) => it !== undefined).map((end) => aim.wanted.add(end.sub(aim.target).div(job.effect)).sub(below));
  const ordered = ends.sort(compare);
  const [first, last] = ordered;
  return {
    get: aim.wanted.sub(below),
    ...(ordered.length === 2 && first !== undefined && last !== undefined ? { getLeast: orNothing(first), getMost: last } : {}),
    onto: stackOf(pool, countsIn(pool, onto), fitted),
  };
}

function highestUpTo(sums: ReadonlyMap<number, Node>, pool: Pool, total: Exact): Node | undefined {
  let highest: Node | undefined;
  for (const node of sums.values()) if ((highest === undefined || node.sum > highest.sum) && compare(pool.worth(node.sum), total) <= 0) highest = node;
  return highest;
}
