// What may be bought of an offer, in the program of an order: so many packs of it at each of its prices, or all that is short.
import { type Exact, compare, ratio } from "../quantities/exact.ts";
import { putInto } from "../model/grouped.ts";
import type { Amount } from "./items.ts";
import { type Offer, type Purchase, bought, packFor, pricesByPacks, purchase, timesPerPack } from "./offers.ts";
import { type OrderProgram, coinsOf, numberOf } from "./order-program.ts";
import type { Seller } from "./order-sellers.ts";

/** A column that says how many packs are bought of an offer. */
export interface Pick {
  readonly column: number;
  readonly offer: Offer;
  /** What a pack holds; undefined where all that is short is bought without a number of packs that is known. */
  readonly size: Amount | undefined;
  readonly short: Amount;
  /** 1 where it is bought at this one of its prices. */
  readonly here?: number;
}

/** The program as offers are written into it. */
export interface Offering {
  readonly program: OrderProgram;
  /** All that is offered of anything. */
  readonly all: readonly Offer[];
  /** All leads that there are, the shortest first. */
  readonly leads: readonly Exact[];
  /** The place among them of the longest that is waited for. */
  readonly latest: number;
  readonly unpriced: number[];
  compared(offer: Offer): boolean;
  leadOf(offer: Offer): Exact | undefined;
  sellerOf(offer: Offer): Seller;
}

export function picksOf(offering: Offering, short: Amount, offer: Offer): Pick[] {
  const seller = offering.sellerOf(offer);
  const size = packFor(offer, short);
  const tiers = size === undefined || offer.per === undefined || !offering.compared(offer) ? [] : pricesByPacks(offer, size);
  const open = isOpen(offering, seller, offer);
  if (size === undefined || tiers.length === 0) return [allOrNone(offering, seller, open, short, offer)];
  const out: Pick[] = [];
  for (const [i, tier] of tiers.entries()) {
    const next = tiers[i + 1];
    const below = next === undefined ? Number.POSITIVE_INFINITY : Number(next.from.n) - 1;
    const pick = atPrice(offering, seller, open, { offer, size, short }, { ...tier, below, isOnly: tiers.length === 1 });
    if (pick !== undefined) out.push(pick);
  }
  const prices = out.flatMap((it) => it.here ?? []);
  if (prices.length > 1) offering.program.atMost(1, ...prices.map((it) => [it, 1] as const));
  return out;
}

/** The column that says whether anything of its lead is bought from its seller: the seller's own where all of it has one lead. */
function isOpen({ program, all, leads, latest, leadOf }: Offering, seller: Seller, offer: Offer): number {
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
  const at = alone ? seller.used : program.column(0, 1);
  if (!alone) program.atMost(0, [at, 1], [seller.used, -1]);
  program.atMost(0, [at, rank], [latest, -1]);
  seller.groups.set(rank, at);
  return at;
}

/** Without a price, or without a number of packs, all of it is bought of this offer or none. */
function allOrNone({ program, unpriced }: Offering, seller: Seller, open: number, short: Amount, offer: Offer): Pick {
  const { exchange } = purchase(offer, short);
  const low = offer.onHold?.all === true ? 1 : 0;
  const it = program.column(exchange === undefined ? 0 : program.cost(exchange.amount, exchange.code), 1, { low });
  program.atMost(0, [it, 1], [open, -1]);
  seller.any.push(it);
  if (exchange !== undefined) putInto(seller.taxed, exchange.code, [it, numberOf(exchange.amount.mul(coinsOf(exchange.code)))]);
  unpriced.push(it);
  return { column: it, offer, size: undefined, short };
}

/** One of its prices: from so many packs, and below so many. */
type Tier = ReturnType<typeof pricesByPacks>[number] & { readonly below: number; readonly isOnly: boolean };

/** So many packs at one of its prices; undefined where nobody would buy so many. */
function atPrice(
  { program }: Offering,
  seller: Seller,
  open: number,
  { offer, size, short }: { readonly offer: Offer; readonly size: Amount; readonly short: Amount },
  tier: Tier,
): Pick | undefined {
  const times = timesPerPack(offer, size);
  const surcharge = offer.exchange === undefined ? 0 : program.cost(offer.exchange.amount.mul(times), offer.exchange.code);
  const isNamed = seller.supplier !== undefined;
  const price = tier.price.amount.mul(times);
  const paid = isNamed ? program.cost(price, tier.price.code) + surcharge : 0;
  const coins = numberOf(price.mul(coinsOf(tier.price.code)));
  const { from, base, extra } = packsAt(seller, { offer, size, short }, tier, paid, coins);
  if (base < from || base <= 0) return undefined;
  const it = program.column(paid, base + extra, { low: offer.onHold?.all === true ? base : 0 });
  const more = extra === 0 || seller.free === undefined ? [] : [[seller.free, -extra] as const];
  program.atMost(0, [it, 1], [open, -base], ...more);
  const here = from > 1 || !tier.isOnly ? program.column(0, 1) : undefined;
  if (here !== undefined) {
    program.atLeast(0, [it, 1], [here, -from]);
    program.atMost(0, [it, 1], [here, -(base + extra)]);
  }
  seller.any.push(it);
  if (isNamed) {
    putInto(seller.goods, tier.price.code, [it, coins]);
    if (offer.exchange !== undefined)
      putInto(seller.taxed, offer.exchange.code, [it, numberOf(offer.exchange.amount.mul(times).mul(coinsOf(offer.exchange.code)))]);
  }
  return { column: it, offer, size, short, ...(here === undefined ? {} : { here }) };
}

/** How many packs are bought at most of one price: those that are short; and more only for what that saves, free carriage or a least order that could not be made else. */
function packsAt(
  seller: Seller,
  { offer, size, short }: { readonly offer: Offer; readonly size: Amount; readonly short: Amount },
  tier: Tier,
  paid: number,
  coins: number,
): { readonly from: number; readonly base: number; readonly extra: number } {
  const from = Number(tier.from.n);
  const enough = Number(short.value.div(size.value).ceil().n);
  const most = offer.onHold === undefined ? Number.POSITIVE_INFINITY : Number(offer.onHold.amount.value.div(size.value).floor().n);
  const forFree = seller.free === undefined || paid <= 0 ? 0 : Math.floor(seller.carriage / paid);
  const { least } = seller.terms;
  const forLeast = least?.code !== tier.price.code || coins <= 0 ? 0 : Math.ceil(numberOf(least.amount.mul(coinsOf(least.code))) / coins);
  const base = Math.min(most, tier.below, Math.max(enough, from) + forLeast);
  return { from, base, extra: Math.max(0, Math.min(most, tier.below, base + forFree) - base) };
}

/** What is bought by these, at the values of their columns. */
export function purchasesOf(picks: readonly Pick[], values: readonly number[]): Purchase[] {
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
