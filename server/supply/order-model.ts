// All that is short and all that is offered as one program in whole numbers: how many packs of each offer to buy, so that goods, surcharges, carriage, duty and tax
// come to the least. A thing may be split among sellers and packs, and more may be bought of it than is short where that earns a lower price or free carriage.
// Invariant: what `bills.ts` would add up for a choice is what the program makes of it, in the smallest coins of the currency that all is reckoned in.
// Sums in other currencies stand at their rate, in binary floats: whoever asks adds up again exactly.
import { putInto } from "../model/grouped.ts";
import { type Exact, compare, one, ratio, zero } from "../quantities/exact.ts";
import { currencyDigits } from "../quantities/money.ts";
import { type Terms, termsOf } from "./bills.ts";
import type { Amount } from "./items.ts";
import { type Offer, type OfferSupplier, type Purchase, bought, packFor, pricesByPacks, purchase, timesPerPack } from "./offers.ts";
import type { Column, Program, Row } from "./solver.ts";

/** One thing that is short, and the offers that may serve. */
export interface Wanted {
  readonly short: Amount;
  readonly offers: readonly Offer[];
}

export interface OrderModel {
  readonly program: Program;
  /** For each seller, 1 where anything is bought of it. */
  readonly used: readonly { readonly column: number; readonly supplier: OfferSupplier | undefined }[];
  /** Money in the smallest coins: the cost of each column. */
  readonly money: readonly number[];
  /** Columns that are 1 where a thing is bought from an offer without a price that counts. */
  readonly unpriced: readonly number[];
  /** The place, among the leads that there are, of the longest that is waited for; and how many there are. */
  readonly latest: { readonly column: number; readonly leads: number };
  /** All sums of money are whole numbers of coins. */
  readonly whole: boolean;
  /** What is bought for each thing, by the values of the columns. */
  purchases(values: readonly number[]): (readonly Purchase[])[];
}

/** How prices are reckoned. */
export interface Reckoning {
  /** All is reckoned in it. */
  readonly currency: string | undefined;
  /** What one of a currency counts for. */
  worth(code: string): Exact;
  /** Its price can be set against the others. */
  compared(offer: Offer): boolean;
  leadOf(offer: Offer): Exact | undefined;
}

export function orderModel(asked: readonly Wanted[], { currency, worth, compared, leadOf }: Reckoning): OrderModel {
  const wants = asked.map((it): Wanted => ({ ...it, offers: unlikeOffers(it.offers) }));
  const columns: Column[] = [];
  const rows: Row[] = [];
  let isWhole = true;
  const coins = 10 ** (currencyDigits(currency ?? "") ?? 2);
  const cost = (amount: Exact, code: string): number => {
    const value = amount.mul(worth(code)).mul(coins);
    if (value.d !== 1n) isWhole = false;
    return numberOf(value);
  };
  const column = (money: number, high: number, { whole = true, low = 0 } = {}): number => columns.push({ cost: money, low, high, whole }) - 1;
  const atMost = (high: number, ...terms: Row["terms"]) => rows.push({ low: Number.NEGATIVE_INFINITY, high, terms });
  const atLeast = (low: number, ...terms: Row["terms"]) => rows.push({ low, high: Number.POSITIVE_INFINITY, terms });

  const all = wants.flatMap((it) => it.offers);
  const leads = distinct(all.flatMap((it) => leadOf(it) ?? []));
  const latest = column(0, leads.length, { whole: false });
  const suppliers = [...new Map(all.map((it) => [it.supplier?.key ?? "", it.supplier])).values()];
  const sellers = suppliers.map((supplier) => sellerOf(supplier));
  const sellerAt = new Map(suppliers.map((it, i) => [it?.key ?? "", sellers[i] as Seller]));
  const unpriced: number[] = [];
  const picks = wants.map((want) => want.offers.flatMap((offer) => offered(want, offer)));
  for (const [i, want] of wants.entries()) {
    // In shares of what is short, for that may be a length in millimetres or a count.
    const terms = (picks[i] as Pick[]).map((it) => [it.column, it.size === undefined ? 1 : numberOf(it.size.value.div(want.short.value))] as const);
    atLeast(1 - roundedAway, ...terms);
  }
  for (const seller of sellers) closed(seller);

  return {
    program: { columns, rows },
    used: sellers.map((it) => ({ column: it.used, supplier: it.supplier })),
    money: columns.map((it) => it.cost),
    unpriced,
    latest: { column: latest, leads: leads.length },
    whole: isWhole,
    purchases: (values) => picks.map((list) => purchasesOf(list, values)),
  };

  // ---------------------------------------------------------------- a seller

  function sellerOf(supplier: OfferSupplier | undefined): Seller {
    const terms: Terms = supplier === undefined ? { duty: zero, tax: zero } : termsOf(supplier);
    // An offer that names nobody is in no bill, and comes in no carriage.
    const carriage = supplier === undefined || terms.freight === undefined ? 0 : cost(terms.freight.amount, terms.freight.code);
    const used = column(carriage, 1);
    const free = terms.freeOver === undefined || carriage <= 0 ? undefined : column(-carriage, 1);
    if (free !== undefined) atMost(0, [free, 1], [used, -1]);
    return { supplier, terms, used, free, carriage: carriage * (1 + numberOf(terms.tax)), goods: new Map(), taxed: new Map(), any: [], groups: new Map() };
  }

  /** Whether anything of a lead is bought from a seller: the seller's own column where all of it has one lead. */
  function group(seller: Seller, offer: Offer): number {
    const lead = leadOf(offer);
    if (lead === undefined) return seller.used;
    const rank = leads.findIndex((it) => compare(it, lead) === 0) + 1;
    const known = seller.groups.get(rank);
    if (known !== undefined) return known;
    const own = all.filter((it) => (it.supplier?.key ?? "") === (seller.supplier?.key ?? ""));
    const alone = own.every((it) => {
      const other = leadOf(it);
      return other !== undefined && compare(other, lead) === 0;
    });
    const at = alone ? seller.used : column(0, 1);
    if (!alone) atMost(0, [at, 1], [seller.used, -1]);
    atMost(0, [at, rank], [latest, -1]);
    seller.groups.set(rank, at);
    return at;
  }

  /** What hangs on all that is bought of a seller. */
  function closed(seller: Seller): void {
    const { terms, used, free, supplier } = seller;
    // It is not used where nothing is bought.
    atMost(0, [used, 1], ...seller.any.map((it) => [it, -1] as const));
    if (free !== undefined && terms.freeOver !== undefined) {
      const goods = seller.goods.get(terms.freeOver.code) ?? [];
      // Over the threshold, so a coin more than it.
      const over = terms.freeOver.amount.mul(coinsOf(terms.freeOver.code)).floor().add(1);
      atLeast(0, ...goods.map(([it, n]) => [it, n / numberOf(over)] as const), [free, -1]);
    }
    if (terms.least !== undefined && compare(terms.least.amount, zero) > 0) {
      const goods = seller.goods.get(terms.least.code) ?? [];
      const least = numberOf(terms.least.amount.mul(coinsOf(terms.least.code)));
      if (goods.length > 0) atLeast(0, ...goods.map(([it, n]) => [it, n / least] as const), [used, -1]);
    }
    if (supplier === undefined) return;
    for (const [code, terms_] of seller.goods) share(terms.duty, terms_, code);
    if (terms.tax.n === 0n) return;
    const codes = new Set([...seller.goods.keys(), ...seller.taxed.keys(), ...(terms.freight === undefined ? [] : [terms.freight.code])]);
    for (const code of codes) {
      const base = [...(seller.goods.get(code) ?? []), ...(seller.taxed.get(code) ?? [])];
      if (terms.freight?.code === code) {
        const freight = numberOf(terms.freight.amount.mul(coinsOf(code)));
        base.push([used, freight]);
        if (free !== undefined) base.push([free, -freight]);
      }
      share(terms.tax, base, code);
    }
  }

  /** A share of a sum, rounded half to even to the coin as a bill rounds it: a whole number of coins of which an odd one takes no half. */
  function share(of: Exact, terms: readonly (readonly [number, number])[], code: string): void {
    if (of.n === 0n || terms.length === 0) return;
    const coin = cost(one.div(coinsOf(code)), code);
    const rounded = column(coin, Number.POSITIVE_INFINITY);
    const times = numberOf(of);
    const parts = Number(of.d);
    if (of.d % 2n === 1n) {
      atLeast(-(parts - 1) / (2 * parts), [rounded, 1], ...terms.map(([it, n]) => [it, -n * times] as const));
      return;
    }
    const odd = column(0, 1);
    const half = column(0, Number.POSITIVE_INFINITY);
    rows.push({
      low: 0,
      high: 0,
      terms: [
        [rounded, 1],
        [half, -2],
        [odd, -1],
      ],
    });
    atLeast(-1 / 2, [rounded, 1], [odd, -1 / parts], ...terms.map(([it, n]) => [it, -n * times] as const));
  }

  // ---------------------------------------------------------------- an offer

  function offered({ short }: Wanted, offer: Offer): Pick[] {
    const seller = sellerAt.get(offer.supplier?.key ?? "") as Seller;
    const size = packFor(offer, short);
    const tiers = size === undefined || offer.per === undefined || !compared(offer) ? [] : pricesByPacks(offer, size);
    const open = group(seller, offer);
    if (size === undefined || tiers.length === 0) {
      // Without a price, or without a number of packs, all of it is bought of this offer or none.
      const { exchange } = purchase(offer, short);
      const low = offer.onHold?.all === true ? 1 : 0;
      const it = column(exchange === undefined ? 0 : cost(exchange.amount, exchange.code), 1, { low });
      atMost(0, [it, 1], [open, -1]);
      seller.any.push(it);
      if (exchange !== undefined) putInto(seller.taxed, exchange.code, [it, numberOf(exchange.amount.mul(coinsOf(exchange.code)))]);
      unpriced.push(it);
      return [{ column: it, offer, size: undefined, short }];
    }
    const enough = Number(short.value.div(size.value).ceil().n);
    const most = offer.onHold === undefined ? Number.POSITIVE_INFINITY : Number(offer.onHold.amount.value.div(size.value).floor().n);
    const times = timesPerPack(offer, size);
    const surcharge = offer.exchange === undefined ? 0 : cost(offer.exchange.amount.mul(times), offer.exchange.code);
    const named = seller.supplier !== undefined;
    const out: Pick[] = [];
    for (const [i, tier] of tiers.entries()) {
      const from = Number(tier.from.n);
      const below = tiers[i + 1] === undefined ? Number.POSITIVE_INFINITY : Number((tiers[i + 1] as { from: Exact }).from.n) - 1;
      const price = tier.price.amount.mul(times);
      const paid = named ? cost(price, tier.price.code) + surcharge : 0;
      const coins_ = numberOf(price.mul(coinsOf(tier.price.code)));
      // More than is short is bought only for what it saves: carriage, or a least order that could not be made else.
      const forFree = seller.free === undefined || paid <= 0 ? 0 : Math.floor(seller.carriage / paid);
      const { least } = seller.terms;
      const forLeast = least?.code !== tier.price.code || coins_ <= 0 ? 0 : Math.ceil(numberOf(least.amount.mul(coinsOf(least.code))) / coins_);
      const base = Math.min(most, below, Math.max(enough, from) + forLeast);
      const extra = Math.max(0, Math.min(most, below, base + forFree) - base);
      if (base < from || base <= 0) continue;
      const it = column(paid, base + extra, { low: offer.onHold?.all === true ? base : 0 });
      const more = extra === 0 || seller.free === undefined ? [] : [[seller.free, -extra] as const];
      atMost(0, [it, 1], [open, -base], ...more);
      if (from > 1 || tiers.length > 1) {
        const here = column(0, 1);
        atLeast(0, [it, 1], [here, -from]);
        atMost(0, [it, 1], [here, -(base + extra)]);
        out.push({ column: it, offer, size, short, here });
      } else out.push({ column: it, offer, size, short });
      seller.any.push(it);
      if (!named) continue;
      putInto(seller.goods, tier.price.code, [it, coins_]);
      if (offer.exchange !== undefined)
        putInto(seller.taxed, offer.exchange.code, [it, numberOf(offer.exchange.amount.mul(times).mul(coinsOf(offer.exchange.code)))]);
    }
    const prices = out.flatMap((it) => it.here ?? []);
    if (prices.length > 1) atMost(1, ...prices.map((it) => [it, 1] as const));
    return out;
  }
}

/** Without those that sell the same at the same price as one before them: a list of prices may have a hundred rows of one pin, and the search would weigh each. */
function unlikeOffers(offers: readonly Offer[]): readonly Offer[] {
  const seen = new Set<string>();
  return offers.filter((it) => {
    if (it.breaks !== undefined || it.onHold !== undefined) return true;
    const { supplier, pack, pieces, price, exchange, per, lead } = it;
    const sums = [price, exchange].map((sum) => `${sum?.amount.toFraction()} ${sum?.code}`);
    const key = [supplier?.key, pack?.value.toFraction(), pack?.unit?.name, pieces?.toFraction(), ...sums, per, lead].join("\n");
    return !seen.has(key) && seen.add(key);
  });
}

/** A quantity and its packs are compared in binary floats: this much is no want. It is counted again exactly. */
const roundedAway = 1e-9;

interface Seller {
  readonly supplier: OfferSupplier | undefined;
  readonly terms: Terms;
  readonly used: number;
  readonly free: number | undefined;
  /** What free carriage saves, in coins. */
  readonly carriage: number;
  /** By currency, in its coins. */
  readonly goods: Map<string, [column: number, coins: number][]>;
  /** Surcharges, the same. */
  readonly taxed: Map<string, [column: number, coins: number][]>;
  readonly any: number[];
  readonly groups: Map<number, number>;
}

interface Pick {
  readonly column: number;
  readonly offer: Offer;
  /** What a pack holds; undefined where all that is short is bought without a number of packs that is known. */
  readonly size: Amount | undefined;
  readonly short: Amount;
  readonly here?: number;
}

function purchasesOf(picks: readonly Pick[], values: readonly number[]): Purchase[] {
  const out: Purchase[] = [];
  const packs = new Map<Offer, { size: Amount; packs: bigint }>();
  for (const it of picks) {
    const n = BigInt(Math.round(values[it.column] ?? 0));
    if (n === 0n) continue;
    if (it.size === undefined) out.push(purchase(it.offer, it.short));
    else packs.set(it.offer, { size: it.size, packs: (packs.get(it.offer)?.packs ?? 0n) + n });
  }
  for (const [offer, it] of packs) out.push(bought(offer, ratio(it.packs), it.size));
  return out;
}

function distinct(values: readonly Exact[]): Exact[] {
  const sorted = [...values].sort(compare);
  return sorted.filter((it, i) => i === 0 || compare(it, sorted[i - 1] as Exact) !== 0);
}

function coinsOf(code: string): Exact {
  return ratio(10n ** BigInt(currencyDigits(code) ?? 2));
}

function numberOf(value: Exact): number {
  return (value.s < 0n ? -1 : 1) * (Number(value.n) / Number(value.d));
}
