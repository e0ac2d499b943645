// Which of several offers to take for each thing, so that goods, freight and all come to the least: sellers with a fixed cost, some of it waived above a threshold.
// Invariant: whole numbers only. An answer that is called proved is the least of all, and the next is the least of all others; where the search is cut short it says so,
// and how low the least could be at most.

import { type Bound, type Mode, type Work, fine, makeBounds } from "./purchase-bounds.ts";

/** Amounts are whole numbers of one unit, the same for all. */
export interface Seller {
  /** Due where anything is bought of it. */
  readonly always: bigint;
  /** Due besides, unless what is bought counts for more than `freeOver`. */
  readonly freight: bigint;
  readonly freeOver?: bigint;
}

export interface Choice {
  readonly seller: number;
  readonly cost: bigint;
  /** What it counts for towards the seller's threshold. */
  readonly counts: bigint;
}

export interface Purchases {
  readonly sellers: readonly Seller[];
  /** For each thing what it may be bought as: at least one. */
  readonly items: readonly (readonly Choice[])[];
  /** What picks come to to the coin, one choice a thing. It lies within `slack` of the sum of the choices and of what their sellers ask. */
  exact(picks: readonly number[]): bigint;
  readonly slack: bigint;
}

export interface Picked {
  readonly picks: readonly number[];
  readonly cost: bigint;
}

export interface LeastCost extends Picked {
  /** The least of all that differ from it; undefined where there is no other, or the search was cut short. */
  readonly next?: Picked;
  readonly proved: boolean;
  /** No picks come to less; equal to `cost` where it is proved. */
  readonly atLeast: bigint;
}

/** So many choices are looked at before the search is cut short: a second or two. */
export const enoughSteps = 30_000_000;

export function leastCost(problem: Purchases, most = enoughSteps): LeastCost {
  const { items, slack } = problem;
  const reach = problem.sellers.map((_, s) => sum(items.map((choices) => largest(choices.map((it) => (it.seller === s ? it.counts : 0n))))));
  const sellers = problem.sellers.map((it, s): Seller => {
    const attainable = it.freeOver !== undefined && it.freight > 0n && (reach[s] as bigint) > it.freeOver;
    return attainable ? it : { always: it.always, freight: it.freight };
  });
  const work: Work = { steps: 0 };
  const { bound, fixedOf, coversOf, extraOf } = makeBounds(items, sellers, work, { best: () => best?.cost, consider });
  let best: Picked | undefined;
  let next: Picked | undefined;

  const start: Mode[] = sellers.map((it) => (it.always + it.freight === 0n ? "paying" : "open question"));
  const nothing = sellers.map(() => 0n);
  const first = bound(start, nothing, 0);
  if (first !== undefined) polish(first.picks);
  const root = bound(start, nothing, 60);
  if (best !== undefined) polish((best as Picked).picks);
  /** The least bound of all that was left unlooked at. */
  let left: bigint | undefined;
  if (root !== undefined) branch(start, root);
  const { picks, cost } = best ?? { picks: items.map(() => 0), cost: problem.exact(items.map(() => 0)) };
  const atLeast = left === undefined || left - slack > cost ? cost : left - slack;
  // Of what was not looked at the second best may be one.
  return { picks, cost, ...(next === undefined || left !== undefined ? {} : { next }), proved: atLeast === cost, atLeast };

  // ---------------------------------------------------------------- what was found

  function consider(picks: readonly number[]): void {
    work.steps += 1;
    if (best !== undefined && same(best.picks, picks)) return;
    if (next !== undefined && (same(next.picks, picks) || hopeless(roughly(picks).cost))) return;
    const it: Picked = { picks: [...picks], cost: problem.exact(picks) };
    if (best === undefined || it.cost < best.cost) [best, next] = [it, best];
    else if (next === undefined || it.cost < next.cost) next = it;
  }

  /** What picks come to but for the rounding, and what is bought of each seller. */
  function roughly(picks: readonly number[]): { cost: bigint; bought: Bought[] } {
    const bought = sellers.map((): Bought => ({ things: 0, counts: 0n }));
    let cost = 0n;
    for (const [i, pick] of picks.entries()) {
      const choice = (items[i] as readonly Choice[])[pick] as Choice;
      const of = bought[choice.seller] as Bought;
      cost += choice.cost;
      of.things += 1;
      of.counts += choice.counts;
    }
    for (const [s, of] of bought.entries()) cost += due(s, of);
    return { cost, bought };
  }

  function due(s: number, { things, counts }: Bought): bigint {
    if (things === 0) return 0n;
    const seller = sellers[s] as Seller;
    return seller.freeOver !== undefined && counts > seller.freeOver ? seller.always : seller.always + seller.freight;
  }

  /** Is there nothing below here that is less than the second best? */
  function hopeless(low: bigint): boolean {
    return next !== undefined && low - slack >= next.cost;
  }

  /** Single things bought elsewhere, and single sellers left out, for as long as that helps. */
  function polish(from: readonly number[]): void {
    consider(from);
    for (let round = 0; round < 50; round++) {
      const before = best as Picked;
      const { cost, bought } = roughly(before.picks);
      for (const [i, choices] of items.entries()) {
        const now = before.picks[i] as number;
        for (let c = 0; c < choices.length && work.steps < most / 4; c++) {
          work.steps += 1;
          if (c === now) continue;
          const change = moved(choices[now] as Choice, choices[c] as Choice, bought);
          if (!hopeless(cost + change)) consider(before.picks.map((it, at) => (at === i ? c : it)));
        }
      }
      for (let s = 0; s < sellers.length && work.steps < most / 4; s++) {
        const without = bound(
          start.map((mode, at) => (at === s ? "closed" : mode)),
          nothing,
          0,
        );
        if (without !== undefined) consider(without.picks);
      }
      if (best === before) return;
    }
  }

  /** What one thing bought otherwise changes. */
  function moved(from: Choice, to: Choice, bought: readonly Bought[]): bigint {
    let change = to.cost - from.cost;
    const [a, b] = [bought[from.seller] as Bought, bought[to.seller] as Bought];
    if (from.seller === to.seller) return change + due(from.seller, { things: a.things, counts: a.counts - from.counts + to.counts }) - due(from.seller, a);
    change += due(from.seller, { things: a.things - 1, counts: a.counts - from.counts }) - due(from.seller, a);
    return change + due(to.seller, { things: b.things + 1, counts: b.counts + to.counts }) - due(to.seller, b);
  }

  // ---------------------------------------------------------------- the search: first the sellers, then the things

  function branch(modes: readonly Mode[], above: Bound): void {
    if (work.steps > most) return leave(above.low);
    const it = bound(modes, above.worth, 6);
    if (it === undefined || hopeless(it.low)) return;
    consider(it.picks);
    const used = new Set(it.picks.map((pick, i) => ((items[i] as readonly Choice[])[pick] as Choice).seller));
    let at = -1;
    for (const [s, mode] of modes.entries()) {
      if (mode !== "open question") continue;
      const better = at < 0 || (used.has(s) !== used.has(at) ? used.has(s) : asks(s) > asks(at));
      if (better) at = s;
    }
    if (at < 0) return assign(modes, it);
    const open: Mode[] = (sellers[at] as Seller).freeOver === undefined ? ["paying"] : ["free", "paying"];
    const order: Mode[] = used.has(at) ? [...open, "closed"] : ["closed", ...open];
    for (const mode of order)
      branch(
        modes.map((before, s) => (s === at ? mode : before)),
        it,
      );
  }

  function leave(low: bigint): void {
    if (left === undefined || low < left) left = low;
  }

  function asks(s: number): bigint {
    const seller = sellers[s] as Seller;
    return seller.always + seller.freight;
  }

  /** Every seller open or closed: the things one after another, those first that have most to lose. */
  function assign(modes: readonly Mode[], above: Bound): void {
    const before = best;
    const it = bound(modes, above.worth, 60);
    if (it === undefined || hopeless(it.low)) return;
    if (best !== undefined && best !== before) polish(best.picks);
    // Reckoned with what each choice counts for towards thresholds, in parts of a unit.
    const lists = items.map((choices) =>
      choices
        .map((choice, pick) => ({ ...choice, pick, net: choice.cost * fine - (it.worth[choice.seller] as bigint) * choice.counts }))
        .filter((choice) => modes[choice.seller] !== "closed")
        .sort((a, b) => (a.net < b.net ? -1 : a.net > b.net ? 1 : a.pick - b.pick)),
    );
    const regret = (i: number) => (lists[i]?.[1]?.net ?? 0n) - (lists[i]?.[0]?.net ?? 0n);
    const order = items.map((_, i) => i).sort((a, b) => (regret(a) > regret(b) ? -1 : regret(a) < regret(b) ? 1 : a - b));
    const rest: bigint[] = [0n];
    for (const i of [...order].reverse()) rest.unshift((rest[0] as bigint) + (lists[i]?.[0]?.net ?? 0n));
    const least: bigint[] = [0n];
    for (const i of [...order].reverse()) least.unshift((least[0] as bigint) + leastOf(lists[i] ?? []));
    let fixed = fixedOf(modes) * fine;
    for (const [s, mode] of modes.entries()) if (mode === "free") fixed += (it.worth[s] as bigint) * ((sellers[s]?.freeOver ?? 0n) + 1n);
    const covers = coversOf(
      modes,
      order.map((i) => lists[i] ?? []),
    );
    const picks = items.map(() => 0);
    const counted = sellers.map(() => 0n);
    deeper(0, fixed, fixedOf(modes));

    function deeper(depth: number, spent: bigint, paid: bigint): void {
      work.steps += covers.length + 1;
      const low = (spent + (rest[depth] as bigint)) / fine;
      if (hopeless(low)) return;
      if (work.steps > most) return leave(low);
      for (const cover of covers) {
        const extra = extraOf(cover, counted[cover.seller] as bigint, depth);
        if (extra === undefined || hopeless(paid + (least[depth] as bigint) + extra)) return;
      }
      const i = order[depth];
      if (i === undefined) return consider(picks);
      for (const choice of lists[i] ?? []) {
        // They stand in the order of their cost: what is hopeless with this one is with all behind it.
        if (hopeless((spent + choice.net + (rest[depth + 1] as bigint)) / fine)) break;
        picks[i] = choice.pick;
        counted[choice.seller] = (counted[choice.seller] as bigint) + choice.counts;
        deeper(depth + 1, spent + choice.net, paid + choice.cost);
        counted[choice.seller] = (counted[choice.seller] as bigint) - choice.counts;
      }
    }
  }
}

/** Of one seller. */
interface Bought {
  things: number;
  counts: bigint;
}

function leastOf(list: readonly Choice[]): bigint {
  let least: bigint | undefined;
  for (const { cost } of list) if (least === undefined || cost < least) least = cost;
  return least ?? 0n;
}

function same(a: readonly number[], b: readonly number[]): boolean {
  return a.every((it, i) => it === b[i]);
}

function sum(list: readonly bigint[]): bigint {
  return list.reduce((a, b) => a + b, 0n);
}

function largest(list: readonly bigint[]): bigint {
  let most = 0n;
  for (const it of list) if (it > most) most = it;
  return most;
}
