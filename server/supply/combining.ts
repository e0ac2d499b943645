// How so much of a thing is best bought of one seller, its packs and singles combined.
// Invariant: exact. Among like sums the one with the fewest different packs, then the first written.
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import { type Exact, compare, ratio, zero } from "../quantities/exact.ts";
import type { Amount } from "./items.ts";
import { type Offer, type Purchase, bought, packFor, pricesByPacks, purchase } from "./offers.ts";

/** More ways than this to share a thing among packs are not gone through: then it is bought as one kind of pack. */
const mostWays = 50_000;

/** The packs of one seller that hold at least so much and come to the least; undefined where none of them has a price. */
export function* combining(offers: readonly Offer[], short: Amount): Slices<readonly Purchase[] | undefined> {
  const priced: { readonly offer: Offer; readonly size: Amount; readonly tiers: ReturnType<typeof pricesByPacks> }[] = [];
  for (const [i, offer] of offers.entries()) {
    if (i % someAtOnce === someAtOnce - 1) yield;
    const size = packFor(offer, short);
    if (size !== undefined && purchase(offer, short).total !== undefined) priced.push({ offer, size, tiers: pricesByPacks(offer, size) });
  }
  if (priced.length === 0) return undefined;
  // The largest first: fewer of them are gone through.
  const sorted = [...priced].sort((a, b) => compare(b.size.value, a.size.value));
  const whole = (value: Exact, size: Amount) => value.div(size.value).ceil();
  const ways = sorted.slice(0, -1).reduce((n, it) => n * (Number(whole(short.value, it.size).n) + 1 + it.tiers.length), 1);
  let best: { list: readonly Purchase[]; sum: Exact } | undefined;
  const offer = (list: readonly Purchase[]) => {
    const sum = sumOf(list);
    const order = best === undefined ? -1 : compare(sum, best.sum);
    if (best === undefined || order < 0 || (order === 0 && list.length < best.list.length)) best = { list, sum };
  };
  for (const [i, it] of priced.entries()) {
    for (const packs of counts(it, short.value)) offer([bought(it.offer, packs, it.size)]);
    if (i % someAtOnce === someAtOnce - 1) yield;
  }
  let tried = 0;
  if (sorted.length > 1 && ways <= mostWays) yield* share(0, short.value, []);
  return best?.list;

  /** So many of one kind that they suffice, or so many more that a lower price holds. */
  function counts(it: (typeof priced)[number], left: Exact): Exact[] {
    const enough = whole(left, it.size);
    const least = it.tiers[0]?.from ?? enough;
    const from = compare(enough, least) < 0 ? least : enough;
    return [from, ...it.tiers.flatMap((tier) => (compare(tier.from, from) > 0 ? [tier.from] : []))];
  }

  function* share(at: number, left: Exact, list: readonly Purchase[]): Slices<void> {
    if (++tried % someAtOnce === 0) yield;
    const it = sorted[at];
    if (it === undefined || compare(left, zero) <= 0) {
      if (compare(left, zero) <= 0 && list.length > 1) offer(list);
      return;
    }
    if (best !== undefined && list.length > 0 && compare(sumOf(list), best.sum) >= 0) return;
    const last = at === sorted.length - 1;
    const enough = Number(whole(left, it.size).n);
    const few = last ? [] : Array.from({ length: enough }, (_, n) => ratio(n));
    const least = it.tiers[0]?.from ?? zero;
    for (const packs of [...few, ...counts(it, left)]) {
      if (packs.n === 0n) yield* share(at + 1, left, list);
      else if (compare(packs, least) >= 0) yield* share(at + 1, left.sub(packs.mul(it.size.value)), [...list, bought(it.offer, packs, it.size)]);
    }
  }
}

export function sumOf(list: readonly Purchase[]): Exact {
  return list.reduce((sum, it) => (it.total === undefined ? sum : sum.add(it.total.amount)), zero);
}
