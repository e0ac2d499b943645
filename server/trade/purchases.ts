// Which of several offers to take for each thing, so that goods, freight and all come to the least: sellers with a fixed cost, some of it waived above a threshold.
// Invariant: whole numbers only. An answer that is called proved is the least of all, and the next is the least of all others; where the search is cut short it says so,
// and how low the least could be at most.

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

type Mode = "open question" | "closed" | "paying" | "free";

export function leastCost(problem: Purchases, most = enoughSteps): LeastCost {
  const { items, slack } = problem;
  const reach = problem.sellers.map((_, s) => sum(items.map((choices) => largest(choices.map((it) => (it.seller === s ? it.counts : 0n))))));
  const sellers = problem.sellers.map((it, s): Seller => {
    const attainable = it.freeOver !== undefined && it.freight > 0n && (reach[s] as bigint) > it.freeOver;
    return attainable ? it : { always: it.always, freight: it.freight };
  });
  let steps = 0;
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
    steps += 1;
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
        for (let c = 0; c < choices.length && steps < most / 4; c++) {
          steps += 1;
          if (c === now) continue;
          const change = moved(choices[now] as Choice, choices[c] as Choice, bought);
          if (!hopeless(cost + change)) consider(before.picks.map((it, at) => (at === i ? c : it)));
        }
      }
      for (let s = 0; s < sellers.length && steps < most / 4; s++) {
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
    if (steps > most) return leave(above.low);
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
      steps += covers.length + 1;
      const low = (spent + (rest[depth] as bigint)) / fine;
      if (hopeless(low)) return;
      if (steps > most) return leave(low);
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

  // ---------------------------------------------------------------- how low it can be

  /**
   * No picks with these sellers come to less than `low`; undefined where there are none. `picks` are the cheapest offers, freight not looked at.
   * `worth` is what a unit that counts towards a threshold is reckoned at: any figures give a true bound, good ones a high one, and they are bettered a few times.
   */
  function bound(modes: readonly Mode[], worth: readonly bigint[], rounds: number): Bound | undefined {
    const open: OpenChoice[][] = [];
    const picks: number[] = [];
    for (const choices of items) {
      const list: OpenChoice[] = [];
      let least: OpenChoice | undefined;
      for (const [pick, choice] of choices.entries()) {
        if (modes[choice.seller] === "closed") continue;
        const it = { ...choice, pick };
        list.push(it);
        if (least === undefined || it.cost < least.cost) least = it;
      }
      if (least === undefined) return undefined;
      open.push(list);
      picks.push(least.pick);
    }
    steps += items.length;
    let most: bigint | undefined;
    let kept = worth;
    let tried = worth;
    for (let round = 0; ; round++) {
      const it = lowest(modes, open, tried);
      consider(it.picks);
      if (most === undefined || it.value > most) [most, kept] = [it.value, tried];
      if (round >= rounds) break;
      const better = bettered(modes, tried, it);
      if (better === undefined) break;
      tried = better;
    }
    let low = (most as bigint) / fine;
    for (const cover of coversOf(modes, open)) {
      const extra = extraOf(cover, 0n, 0);
      if (extra === undefined) return undefined;
      const least = open.reduce((sum, list, i) => sum + (list.find((it) => it.pick === picks[i]) as OpenChoice).cost, 0n);
      const whole = least + fixedOf(modes) + extra;
      if (whole > low) low = whole;
    }
    return { low, picks, worth: kept };
  }

  /**
   * The bound that these worths give, in parts of a unit. What falls short of a threshold that is to be passed is paid at its worth; where it is an open question, the freight
   * is at least the worth of what falls short. The rest is a lower bound on things and on what their sellers ask: each thing offers to pay more for itself, up to the price
   * elsewhere, and what it offers beyond a seller's price goes to what that seller asks, until that is met (Erlenkotter, "A dual-based procedure for uncapacitated
   * facility location", Operations Research 26, 1978).
   */
  function lowest(modes: readonly Mode[], open: readonly (readonly OpenChoice[])[], worth: readonly bigint[]): Lowest {
    let value = fixedOf(modes) * fine;
    const asked = sellers.map((it, s) => {
      const w = worth[s] as bigint;
      if (modes[s] === "free") value += w * ((it.freeOver ?? 0n) + 1n);
      if (modes[s] !== "open question") return 0n;
      if (it.freeOver === undefined) return (it.always + it.freight) * fine;
      const short = w * (it.freeOver + 1n);
      return it.always * fine + (short < it.freight * fine ? short : it.freight * fine);
    });
    const counts = sellers.map(() => 0n);
    const used = sellers.map(() => false);
    const picks: number[] = [];
    for (const list of open) {
      // By seller, the least that each asks for the thing.
      const levels: { seller: number; cost: bigint; counts: bigint; pick: number }[] = [];
      for (const it of list) {
        steps += 1;
        const cost = it.cost * fine - (worth[it.seller] as bigint) * it.counts;
        const level = levels.find((other) => other.seller === it.seller);
        if (level === undefined) levels.push({ seller: it.seller, cost, counts: it.counts, pick: it.pick });
        else if (cost < level.cost) [level.cost, level.counts, level.pick] = [cost, it.counts, it.pick];
      }
      levels.sort((a, b) => (a.cost < b.cost ? -1 : a.cost > b.cost ? 1 : 0));
      let offer = (levels[0] as (typeof levels)[number]).cost;
      let reached = 0;
      for (;;) {
        while (reached < levels.length && (levels[reached] as (typeof levels)[number]).cost <= offer) reached++;
        let raise = reached < levels.length ? (levels[reached] as (typeof levels)[number]).cost - offer : undefined;
        for (let k = 0; k < reached; k++) {
          const left = asked[(levels[k] as (typeof levels)[number]).seller] as bigint;
          if (raise === undefined || left < raise) raise = left;
        }
        if (raise === undefined || raise <= 0n) break;
        let met = false;
        for (let k = 0; k < reached; k++) {
          const { seller } = levels[k] as (typeof levels)[number];
          asked[seller] = (asked[seller] as bigint) - raise;
          if (asked[seller] === 0n) met = true;
        }
        offer += raise;
        if (met) break;
      }
      value += offer;
      // It would be bought of a seller that has all that it asks.
      const from = levels.slice(0, reached).find((it) => asked[it.seller] === 0n) ?? (levels[0] as (typeof levels)[number]);
      counts[from.seller] = (counts[from.seller] as bigint) + from.counts;
      used[from.seller] = true;
      picks.push(from.pick);
    }
    return { value, counts, used, picks };
  }

  /**
   * Worth more where too little is bought of a seller to pass its threshold, less where more than enough is; undefined where nothing is left to better.
   * So far as the bound stands below the best that is known, by the square of what falls short or is over (Polyak's step).
   */
  function bettered(modes: readonly Mode[], worth: readonly bigint[], { value, counts, used }: Lowest): bigint[] | undefined {
    const short = sellers.map((it, s) => {
      const asked = it.freeOver !== undefined && (modes[s] === "free" || (modes[s] === "open question" && used[s]));
      return asked ? (it.freeOver as bigint) + 1n - (counts[s] as bigint) : 0n;
    });
    const square = sum(short.map((it) => it * it));
    const gap = (best === undefined ? 0n : best.cost * fine) - value;
    if (square === 0n || gap <= 0n) return undefined;
    let changed = false;
    const out = worth.map((before, s) => {
      const seller = sellers[s] as Seller;
      const cap = modes[s] === "free" || seller.freeOver === undefined ? undefined : (seller.freight * fine) / (seller.freeOver + 1n);
      let after = before + (gap * (short[s] as bigint)) / square;
      if (after < 0n) after = 0n;
      if (cap !== undefined && after > cap) after = cap;
      if (after !== before) changed = true;
      return after;
    });
    return changed ? out : undefined;
  }

  function fixedOf(modes: readonly Mode[]): bigint {
    let fixed = 0n;
    for (const [s, mode] of modes.entries()) {
      const seller = sellers[s] as Seller;
      if (mode === "paying") fixed += seller.always + seller.freight;
      if (mode === "free") fixed += seller.always;
    }
    return fixed;
  }

  /** For each seller whose freight is to be free: what each thing would cost more for what it then counts, the best bargains first. */
  function coversOf(modes: readonly Mode[], lists: readonly (readonly Choice[])[]): Cover[] {
    return sellers.flatMap((seller, s) => {
      if (modes[s] !== "free" || seller.freeOver === undefined) return [];
      const anyway: bigint[] = [];
      const bargains: Bargain[] = [];
      for (const [depth, list] of lists.entries()) {
        let least: Choice | undefined;
        for (const it of list) if (least === undefined || it.cost < least.cost) least = it;
        const has = least?.seller === s ? least.counts : 0n;
        anyway.push(has);
        let extra = 0n;
        let gain = 0n;
        let most = 0n;
        for (const it of list) {
          steps += 1;
          if (it.seller !== s || it.counts <= has || least === undefined) continue;
          const [more, counts] = [it.cost - least.cost, it.counts - has];
          if (counts > most) most = counts;
          if (gain === 0n || more * gain < extra * counts) [extra, gain] = [more, counts];
        }
        if (most > 0n) bargains.push({ depth, extra, gain, most });
      }
      bargains.sort((a, b) => (a.extra * b.gain < b.extra * a.gain ? -1 : a.extra * b.gain > b.extra * a.gain ? 1 : 0));
      const left: bigint[] = [0n];
      for (const it of [...anyway].reverse()) left.unshift((left[0] as bigint) + it);
      return [{ seller: s, over: seller.freeOver, left, bargains }];
    });
  }

  /** What it costs at least to get a seller's goods over its threshold, as if each bargain could be had in part; undefined where they can't get there. */
  function extraOf(cover: Cover, counted: bigint, depth: number): bigint | undefined {
    let wanting = cover.over + 1n - counted - (cover.left[depth] as bigint);
    if (wanting <= 0n) return 0n;
    let extra = 0n;
    for (const it of cover.bargains) {
      if (it.depth < depth) continue;
      steps += 1;
      const part = it.most < wanting ? it.most : wanting;
      extra += (part * it.extra) / it.gain;
      wanting -= part;
      if (wanting === 0n) return extra;
    }
    return undefined;
  }
}

interface OpenChoice extends Choice {
  readonly pick: number;
}

interface Bound {
  readonly low: bigint;
  readonly picks: readonly number[];
  readonly worth: readonly bigint[];
}

/** Of one seller. */
interface Bought {
  things: number;
  counts: bigint;
}

interface Lowest {
  readonly value: bigint;
  readonly counts: readonly bigint[];
  readonly used: readonly boolean[];
  readonly picks: readonly number[];
}

/** Parts of a unit that worths and bounds are reckoned in. */
const fine = 1024n;

interface Bargain {
  readonly depth: number;
  readonly extra: bigint;
  readonly gain: bigint;
  readonly most: bigint;
}

interface Cover {
  readonly seller: number;
  readonly over: bigint;
  /** What the cheapest choices of all from a depth on count for. */
  readonly left: readonly bigint[];
  readonly bargains: readonly Bargain[];
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
