// Which offer to take for each thing that is short, all of them together: the cheapest, from the fewest suppliers, or what is all there soonest.
// Invariant: each thing is bought whole from one offer, in whole packs, and no more of it than that. Every figure that decides is exact, and nothing is called the cheapest
// that was not proved to be. Prices in a currency without a rate on the sheets are compared with one another only.
import { type Exact, compare, one, ratio, zero } from "../quantities/exact.ts";
import { currencyDigits } from "../quantities/money.ts";
import { quantity } from "../quantities/quantity.ts";
import { type LeastCost, type Purchases, type Seller, leastCost } from "./purchases.ts";
import { type OfferSupplier, type Purchase, cheapestGoods } from "./offers.ts";
import { billsOf, termsOf } from "./bills.ts";
import { currencyOfSheets, rateBetween, ratesOf } from "./rates.ts";
import type { Story } from "../story/story.ts";

export const waysToChoose = ["cheapest", "fewest", "soonest"] as const;
export type Way = (typeof waysToChoose)[number];

/** What a way of buying comes to: all of it in one currency, unrounded. */
export interface Outcome {
  readonly total: Exact;
  readonly parcels: number;
  /** Of what takes longest, as written; undefined where nothing that is bought has a lead. */
  readonly lead: string | undefined;
}

export interface ChoiceMade {
  readonly way: Way;
  /** One for each thing, in their order; undefined where nobody offers it. */
  readonly taken: readonly (Purchase | undefined)[];
  readonly currency: string | undefined;
  readonly outcome: Outcome;
  /** The best of all other ways of buying, by the same measure; undefined where there is no other. */
  readonly next?: Outcome;
  /** Each thing from its own cheapest offer, freight not counted. */
  readonly oneByOne: Outcome;
  readonly proved: boolean;
  /** Where it is not proved: so much dearer than the least that could be, at most; undefined where a parcel fewer might do. */
  readonly atMostOver: Exact | undefined;
  /** Currencies that could not be compared, for want of a rate. */
  readonly apart: readonly string[];
}

/** `wants`: for each thing that is short, what would serve, as it would be bought. */
export function chooseAll(way: Way, wants: readonly (readonly Purchase[])[], stories: readonly Story[]): ChoiceMade {
  const rates = ratesOf(stories);
  const priced = wants.flatMap((options) => options.flatMap((it) => it.total?.code ?? []));
  const currency = currencyOfSheets(stories) ?? priced[0];
  const worth = (code: string) => (currency === undefined ? undefined : rateBetween(rates, code, currency)?.factor);
  const apart = [...new Set(priced)].filter((code) => worth(code) === undefined);

  const candidates = wants.map((options) => eligible(way, options, worth));
  const places = candidates.flatMap((options, i) => (options.length > 0 ? [i] : []));
  const items = places.map((i) => candidates[i] as readonly Purchase[]);
  const latest = way === "soonest" ? earliestLast(items) : undefined;
  const inTime = items.map((options) => (latest === undefined ? options : thoseBy(options, latest)));

  const problem = problemOf(way, inTime, worth);
  const found: LeastCost = inTime.length === 0 ? { picks: [], cost: 0n, proved: true, atLeast: 0n } : leastCost(problem);
  const boughtBy = (picks: readonly number[]) => picks.map((pick, i) => inTime[i]?.[pick] as Purchase);
  const taken: (Purchase | undefined)[] = wants.map(() => undefined);
  for (const [k, it] of boughtBy(found.picks).entries()) taken[places[k] as number] = it;
  const outcome = outcomeOf(boughtBy(found.picks), worth);
  return {
    way,
    taken,
    currency,
    outcome,
    ...(found.next === undefined ? {} : { next: outcomeOf(boughtBy(found.next.picks), worth) }),
    oneByOne: outcomeOf(
      items.flatMap((options) => cheapestGoods(options) ?? []),
      worth,
    ),
    proved: found.proved,
    atMostOver: found.cost - found.atLeast < problem.parcel ? ratio(found.cost - found.atLeast, problem.unit) : undefined,
    apart,
  };
}

/** What it comes to: in the currency that all is reckoned in, what has no rate into it left out. */
function outcomeOf(purchases: readonly Purchase[], worth: Worth): Outcome {
  let total = zero;
  for (const it of billsOf(purchases)) total = total.add(it.total.mul(worth(it.currency) ?? zero));
  let last: Purchase | undefined;
  for (const it of purchases) {
    const [lead, longest] = [leadOf(it), last === undefined ? undefined : leadOf(last)];
    if (lead !== undefined && (longest === undefined || compare(lead, longest) > 0)) last = it;
  }
  return { total, parcels: suppliersOf(purchases).length, lead: last?.offer.lead };
}

type Worth = (code: string) => Exact | undefined;

/** What is priced and can be compared, where there is any; else what is priced in the first currency; else all. For fewest parcels, all may serve. */
function eligible(way: Way, options: readonly Purchase[], worth: Worth): readonly Purchase[] {
  const named = options.filter((it) => it.offer.supplier !== undefined);
  if (named.length > 0 && named.length < options.length) return eligible(way, named, worth);
  if (way === "fewest") return options;
  const compared = options.filter((it) => it.total !== undefined && worth(it.total.code) !== undefined);
  if (compared.length > 0) return compared;
  const first = options.find((it) => it.total !== undefined)?.total?.code;
  return first === undefined ? options : options.filter((it) => it.total?.code === first);
}

// ---------------------------------------------------------------- when

/** The lead of what is bought, in seconds: an offer's own, else its supplier's. */
export function leadOf({ offer }: Purchase): Exact | undefined {
  const [, figure, unit] = /^(\S+) (.+)$/.exec(offer.lead ?? "") ?? [];
  const time = figure === undefined || unit === undefined ? undefined : quantity(figure, unit);
  return time?.unit.dimension === "time" ? time.value : undefined;
}

/** The day on which all can be there at the earliest hangs on the thing that takes longest. What nobody gives a lead for binds nothing. */
function earliestLast(items: readonly (readonly Purchase[])[]): Exact | undefined {
  let last: Exact | undefined;
  for (const options of items) {
    let soonest: Exact | undefined;
    for (const it of options) {
      const lead = leadOf(it);
      if (lead !== undefined && (soonest === undefined || compare(lead, soonest) < 0)) soonest = lead;
    }
    if (soonest !== undefined && (last === undefined || compare(soonest, last) > 0)) last = soonest;
  }
  return last;
}

function thoseBy(options: readonly Purchase[], latest: Exact): readonly Purchase[] {
  const inTime = options.filter((it) => {
    const lead = leadOf(it);
    return lead !== undefined && compare(lead, latest) <= 0;
  });
  return inTime.length > 0 ? inTime : options;
}

// ---------------------------------------------------------------- as whole numbers

/** `unit`: so many of the whole numbers make one of the currency. `parcel`: what is put on each parcel so that fewer of them come before any price. */
function problemOf(way: Way, items: readonly (readonly Purchase[])[], worth: Worth): Purchases & { unit: bigint; parcel: bigint } {
  // A currency without a rate counts by its own figures: what is bought in it is never weighed against another.
  const rate = (code: string): Exact => worth(code) ?? (way === "fewest" ? zero : one);
  const suppliers = suppliersOf(items.flat());
  const index = new Map(suppliers.map((it, i) => [it?.key ?? "", i]));
  const terms = suppliers.map((it) => (it === undefined ? { duty: zero } : termsOf(it)));

  const linear = items.map((options) =>
    options.map((it) => {
      const seller = index.get(it.offer.supplier?.key ?? "") as number;
      // An offer that names nobody is in no sum.
      if (it.offer.supplier === undefined) return { seller, counts: zero, cost: zero, compared: false };
      const goods = it.total === undefined ? zero : it.total.amount.mul(rate(it.total.code));
      const surcharge = it.exchange === undefined ? zero : it.exchange.amount.mul(rate(it.exchange.code));
      const term = terms[seller];
      const counts = it.total !== undefined && term?.freeOver?.code === it.total.code ? it.total.amount : zero;
      return {
        seller,
        counts,
        cost: goods.add(goods.mul(term?.duty ?? zero)).add(surcharge),
        compared: it.total !== undefined && worth(it.total.code) !== undefined,
      };
    }),
  );
  const freights = terms.map((it) => (it.freight === undefined ? zero : it.freight.amount.mul(rate(it.freight.code))));
  // Duty is rounded by supplier and currency: by half a coin either way.
  const dutiable = new Map<string, string>();
  const codes = new Set(terms.flatMap((it) => it.freight?.code ?? []));
  for (const it of items.flat()) {
    if (it.exchange !== undefined) codes.add(it.exchange.code);
    if (it.total === undefined || it.offer.supplier === undefined) continue;
    codes.add(it.total.code);
    if (terms[index.get(it.offer.supplier.key) as number]?.duty.n !== 0n) dutiable.set(`${it.offer.supplier.key} ${it.total.code}`, it.total.code);
  }
  const coin = (code: string) => rate(code).div(ratio(10n ** BigInt(currencyDigits(code) ?? 2)));
  const half = [...dutiable.values()].reduce((sum, code) => sum.add(coin(code).div(ratio(2))), zero);
  const unit = common([...linear.flat().map((it) => it.cost), ...[...codes].map(coin), half]);
  const whole = (it: Exact) => (it.s < 0n ? -1n : 1n) * ((it.n * unit) / it.d);
  const units = terms.map((it, s) =>
    common([...(it.freeOver === undefined ? [] : [it.freeOver.amount]), ...linear.flat().flatMap((one) => (one.seller === s ? [one.counts] : []))]),
  );
  const all = linear.flat().reduce((sum, it) => sum + whole(it.cost), 0n) + freights.reduce((sum, it) => sum + whole(it), 0n) + 1n;
  // A price that is not known or can't be compared comes behind any that can, a parcel more behind all prices.
  const unknown = way === "fewest" ? 2n * all + 2n * whole(half) : 0n;
  const parcel = way === "fewest" ? unknown * BigInt(items.length + 1) + all : 0n;
  const sellers = suppliers.map((_, s): Seller => {
    const over = terms[s]?.freeOver;
    const it = { always: parcel, freight: whole(freights[s] ?? zero) };
    return over === undefined ? it : { ...it, freeOver: (over.amount.n * (units[s] as bigint)) / over.amount.d };
  });
  return {
    sellers,
    unit,
    parcel: parcel === 0n ? all + 2n * whole(half) + 1n : parcel,
    slack: whole(half),
    items: linear.map((options) =>
      options.map((it) => ({
        seller: it.seller,
        cost: whole(it.cost) + (it.compared ? 0n : unknown),
        counts: (it.counts.n * (units[it.seller] as bigint)) / it.counts.d,
      })),
    ),
    exact(picks) {
      const purchases = picks.map((pick, i) => items[i]?.[pick] as Purchase);
      let total = zero;
      for (const it of billsOf(purchases)) total = total.add(it.total.mul(rate(it.currency)));
      const apart = picks.filter((pick, i) => linear[i]?.[pick]?.compared === false).length;
      return whole(total) + parcel * BigInt(suppliersOf(purchases).length) + unknown * BigInt(apart);
    },
  };
}

/** In the order in which they are first named; an offer that names nobody is of one nobody. */
function suppliersOf(purchases: readonly Purchase[]): (OfferSupplier | undefined)[] {
  return [...new Map(purchases.map((it) => [it.offer.supplier?.key ?? "", it.offer.supplier])).values()];
}

/** The least whole number that makes whole numbers of all. */
function common(list: readonly Exact[]): bigint {
  let out = 1n;
  for (const { d } of list) out = (out / gcd(out, d)) * d;
  return out;
}

function gcd(a: bigint, b: bigint): bigint {
  while (b !== 0n) [a, b] = [b, a % b];
  return a;
}
