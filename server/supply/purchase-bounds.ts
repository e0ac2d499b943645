// How little a purchase can come to at least, while it is settled which sellers are asked: what the search rests on.
// Invariant: no bound is higher than what any picks come to; whole numbers only.
import type { Choice, Seller } from "./purchases.ts";

/** Whether a seller is asked, and whether its freight is then due. */
export type Mode = "open question" | "closed" | "paying" | "free";

export interface OpenChoice extends Choice {
  readonly pick: number;
}

export interface Bound {
  readonly low: bigint;
  readonly picks: readonly number[];
  readonly worth: readonly bigint[];
}

/** Parts of a unit that worths and bounds are reckoned in. */
export const fine = 1024n;

/** How much was looked at. */
export interface Work {
  steps: number;
}

/** What the search has found: bounds are bettered against it, and what they come upon is told to it. */
export interface Found {
  best(): bigint | undefined;
  consider(picks: readonly number[]): void;
}

export interface Bounds {
  bound(modes: readonly Mode[], worth: readonly bigint[], rounds: number): Bound | undefined;
  fixedOf(modes: readonly Mode[]): bigint;
  coversOf(modes: readonly Mode[], lists: readonly (readonly Choice[])[]): Cover[];
  extraOf(cover: Cover, counted: bigint, depth: number): bigint | undefined;
}

export function makeBounds(items: readonly (readonly Choice[])[], sellers: readonly Seller[], work: Work, found: Found): Bounds {
  return { bound, fixedOf, coversOf, extraOf };

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
    work.steps += items.length;
    let most: bigint | undefined;
    let kept = worth;
    let tried = worth;
    for (let round = 0; ; round++) {
      const it = lowest(modes, open, tried);
      found.consider(it.picks);
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
        work.steps += 1;
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
    const gap = (found.best() ?? 0n) * fine - value;
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
          work.steps += 1;
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
      work.steps += 1;
      const part = it.most < wanting ? it.most : wanting;
      extra += (part * it.extra) / it.gain;
      wanting -= part;
      if (wanting === 0n) return extra;
    }
    return undefined;
  }
}

interface Lowest {
  readonly value: bigint;
  readonly counts: readonly bigint[];
  readonly used: readonly boolean[];
  readonly picks: readonly number[];
}

interface Bargain {
  readonly depth: number;
  readonly extra: bigint;
  readonly gain: bigint;
  readonly most: bigint;
}

export interface Cover {
  readonly seller: number;
  readonly over: bigint;
  /** What the cheapest choices of all from a depth on count for. */
  readonly left: readonly bigint[];
  readonly bargains: readonly Bargain[];
}

function sum(list: readonly bigint[]): bigint {
  return list.reduce((a, b) => a + b, 0n);
}
