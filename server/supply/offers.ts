// What suppliers offer, what a purchase from an offer comes to, and which offer is taken.
// Invariant: exact, and nothing guessed: a price of which it is not said whether it is each or a pack gives no total.
import { type Slices, runThrough, someAtOnce } from "../../grammar/slices.ts";
import type { Money as WrittenMoney, OfferEntry, ThreadDetail } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import { memo, memoSliced } from "../model/memo.ts";
import { type Fastener, type Supplier, lineOf } from "../model/things.ts";
import { figureValue, quantityText } from "../model/values.ts";
import { type Where, where } from "../model/where.ts";
import { type Exact, compare, one, ratio, zero } from "../quantities/exact.ts";
import { type Money, money, roundedMoney } from "../quantities/money.ts";
import { type Amount, type Item, alike, amountOfItem, itemOf, pieceOf } from "./items.ts";
import { unlikeThread, weakerThan } from "./offered-thread.ts";
import { filesOf } from "./files.ts";
import type { OrderLine } from "./order-lines.ts";
import type { Story } from "../story/story.ts";
import { putInto } from "../model/grouped.ts";

export interface Offer {
  readonly item: Item;
  readonly supplier: OfferSupplier | undefined;
  readonly number?: string;
  readonly price?: Money;
  /** What the price is for; undefined where a pack holds more than one and it is not said. */
  readonly per?: "each" | "pack";
  readonly pack?: Amount;
  /** How many pieces a pack holds of what is needed by length: wire that is sold cut. */
  readonly pieces?: Exact;
  /** As written: `9 d`; the supplier's, where the offer has none of its own. */
  readonly lead?: string;
  /** Other prices from so many on, of pieces or of packs as `per` says, the smallest first. All that is bought at once has the price of how many it is. */
  readonly breaks?: readonly PriceBreak[];
  /** Its thread is not the fastener's own: it is not bought. */
  readonly unlike: boolean;
  /** Its thread, where it says one. */
  readonly thread?: Pick<ThreadDetail, "thread" | "grade" | "class">;
  readonly quoted?: { readonly day: string; readonly where: Where };
  /** Paid besides and given back for the old one: reckoned as the price is, for each or for a pack. */
  readonly exchange?: Money;
  /** Not the maker's own: what differs. */
  readonly equalTo?: string;
  readonly where: Where;
  /** It is what an order on hold asks for, and no more of it than that. */
  readonly onHold?: { readonly line: OrderLine; readonly amount: Amount /** And no less. */; readonly all?: true };
  /** The price list that it is from, and the line there. */
  readonly list?: { readonly file: string; readonly line: number };
}

export interface PriceBreak {
  readonly from: Exact;
  readonly price: Money;
}

/** Known by its name and the file that declares it: two jobs may each have a supplier of that name. */
export interface OfferSupplier {
  readonly key: string;
  readonly name: string;
  readonly title: string;
  readonly declared?: Supplier;
  /** As written: for what has no lead of its own. */
  readonly lead?: string;
}

export interface Purchase {
  readonly offer: Offer;
  /** Undefined where the offer doesn't say how much a pack holds of what is needed by quantity. */
  readonly packs?: Exact;
  /** Pieces, or the quantity in the unit of the pack. */
  readonly amount: Amount;
  /** Of the goods alone. */
  readonly total?: Money;
  /** Surcharges for the old ones, where the offer has one. */
  readonly exchange?: Money;
  /** How many surcharges that is. */
  readonly surcharges?: Exact;
}

/** Every offer of every file of these jobs, by the item's key, in the order written. */
export function offersOf(stories: readonly Story[]): ReadonlyMap<string, readonly Offer[]> {
  return runThrough(readingOffers(stories));
}

/** The same in slices. Of one job it is asked again and again. */
export function* readingOffers(stories: readonly Story[]): Slices<ReadonlyMap<string, readonly Offer[]>> {
  const [story, other] = stories;
  return yield* story !== undefined && other === undefined ? offersOfOne.sliced(story) : readAll(stories);
}

const offersOfOne = memoSliced((story: Story) => readAll([story]));

function* readAll(stories: readonly Story[]): Slices<ReadonlyMap<string, readonly Offer[]>> {
  let n = 0;
  const offers = new Map<string, Offer[]>();
  for (const { job, file } of filesOf(stories.map((story) => story.job))) {
    for (const entry of file.sheet.entries) {
      if (entry.kind !== "offer" || entry.fault !== undefined) continue;
      if (++n % someAtOnce === 0) yield;
      const offer = readOffer(job, file.path, entry);
      if (offer === undefined) continue;
      putInto(offers, offer.item.key, offer);
    }
  }
  return offers;
}

/** Bought so that at least `shortfall` comes: whole packs, whole pieces, and no fewer than the offer has a price for. */
export function purchase(offer: Offer, shortfall: Amount): Purchase {
  const size = packFor(offer, shortfall);
  // A quantity from an offer that tells no quantity: how many to buy can't be said.
  if (size === undefined) return { offer, amount: shortfall };
  const packs = shortfall.value.div(size.value).ceil();
  const least = leastPacks(offer, size);
  return bought(offer, compare(packs, least) < 0 ? least : packs, size);
}

/** So many packs of `size` of an offer, and what they come to. */
export function bought(offer: Offer, packs: Exact, size: Amount): Purchase {
  const amount: Amount = { value: packs.mul(size.value), ...(size.unit === undefined ? {} : { unit: size.unit }) };
  const times = packs.mul(timesPerPack(offer, size));
  const back =
    offer.exchange === undefined || offer.per === undefined
      ? {}
      : { exchange: roundedMoney({ amount: offer.exchange.amount.mul(times), code: offer.exchange.code }), surcharges: times };
  const price = priceOf(offer, times);
  if (price === undefined || offer.per === undefined) return { offer, packs, amount, ...back };
  return { offer, packs, amount, total: roundedMoney({ amount: price.amount.mul(times), code: price.code }), ...back };
}

/** What one pack of it holds, counted as what is short is: a single piece where it names none. Undefined where that can't be said. */
export function packFor(offer: Offer, like: Amount): Amount | undefined {
  const { pack } = offer;
  if (pack !== undefined && alike(pack, like) && compare(pack.value, zero) > 0) return pack;
  return like.unit === undefined ? { value: one } : undefined;
}

/** How often the price is paid for one pack. */
export function timesPerPack(offer: Offer, size: Amount): Exact {
  if (offer.per !== "each") return one;
  return size.unit === undefined ? size.value : (offer.pieces ?? one);
}

/** The price where so many are bought at once. */
export function priceOf(offer: Offer, times: Exact): Money | undefined {
  let price = offer.price;
  for (const it of offer.breaks ?? []) if (compare(it.from, times) <= 0) price = it.price;
  return price;
}

/** From so many packs on each price of the offer holds, the smallest number first. */
export function pricesByPacks(offer: Offer, size: Amount): { readonly from: Exact; readonly price: Money }[] {
  const out = offer.price === undefined ? [] : [{ from: one, price: offer.price }];
  for (const it of offer.breaks ?? []) {
    const from = it.from.div(timesPerPack(offer, size)).ceil();
    const last = out.at(-1);
    if (last !== undefined && compare(last.from, from) >= 0) out[out.length - 1] = { from: last.from, price: it.price };
    else out.push({ from, price: it.price });
  }
  return out;
}

function leastPacks(offer: Offer, size: Amount): Exact {
  return pricesByPacks(offer, size)[0]?.from ?? zero;
}

/** What so many pieces of an order cost, as offered by its supplier: whole packs where it sells by the pack. */
export function worth(offer: Offer, amount: Amount): Money | undefined {
  return purchase(offer, amount).total;
}

export function readMoney(written: WrittenMoney | undefined): Money | undefined {
  return written === undefined ? undefined : moneyMade(written);
}

const moneyMade = memo(({ figure, currency }: WrittenMoney): Money | undefined => {
  if (currency === undefined || figure.comma === true) return undefined;
  const read = money(figure.text, currency.text);
  return read.kind === "money" ? { amount: read.amount, code: read.code } : undefined;
});

/** Its thread is another than the fastener's, or it is weaker. */
export function goesNowhereOn(fastener: Pick<Fastener, "threads">, offered: Pick<ThreadDetail, "thread" | "grade" | "class">): boolean {
  return offered.thread !== undefined && (unlikeThread(fastener, offered.thread) ?? weakerThan(fastener, offered)) !== undefined;
}

/** The supplier of this name in a job. */
export function supplierNamed(job: Job, name: string): OfferSupplier {
  const thing = job.things.get(name);
  if (thing?.kind !== "supplier" || thing.implied) return { key: name, name, title: thing?.title ?? name };
  const time = lineOf(thing, "lead")?.detail.time;
  return { key: `${name} of ${thing.file}`, name, title: thing.title ?? name, declared: thing, ...(time === undefined ? {} : { lead: quantityText(time) }) };
}

function readOffer(job: Job, file: string, entry: OfferEntry): Offer | undefined {
  const item = itemOf(job, entry.item);
  if (item === undefined) return undefined;
  const supplier = entry.from === undefined ? undefined : supplierNamed(job, entry.from.text);
  const thing = entry.item?.kind === "name" ? job.things.get(entry.item.name.text) : undefined;
  const offer: { -readonly [K in keyof Offer]: Offer[K] } = { item, supplier, unlike: false, where: where(file, entry, 0, entry.item?.at ?? entry.keyword) };
  let each = false;
  let aPack = false;
  const breaks: (PriceBreak & { readonly per: Offer["per"] })[] = [];
  for (const detail of entry.details) {
    if (detail.fault !== undefined) continue;
    switch (detail.kind) {
      case "number":
        if (detail.text !== undefined) offer.number = detail.text.value;
        break;
      case "price": {
        const price = readMoney(detail.money);
        if (price !== undefined) offer.price = price;
        each = detail.each !== undefined;
        aPack = detail.aPack !== undefined;
        break;
      }
      case "price-from": {
        const price = readMoney(detail.money);
        const from = figureValue(detail.from);
        if (price !== undefined && from !== undefined && compare(from, zero) > 0)
          breaks.push({ from, price, per: detail.each !== undefined ? "each" : detail.aPack !== undefined ? "pack" : undefined });
        break;
      }
      case "pack": {
        const pack = amountOfItem(entry.item, detail.amount);
        if (pack !== undefined) offer.pack = pack;
        if (pack?.unit !== undefined && detail.amount?.unit === undefined) offer.pieces = figureValue(detail.amount?.figure) ?? one;
        break;
      }
      case "thread":
        offer.thread = detail;
        if (thing?.kind === "fastener") offer.unlike ||= goesNowhereOn(thing, detail);
        break;
      case "lead":
        if (detail.time !== undefined) offer.lead = quantityText(detail.time);
        break;
      case "exchange": {
        const surcharge = readMoney(detail.money);
        if (surcharge !== undefined) offer.exchange = surcharge;
        break;
      }
      case "equal":
        if (detail.text !== undefined) offer.equalTo = detail.text.value;
        break;
      case "quoted":
        if (detail.date !== undefined) offer.quoted = { day: detail.date.text, where: where(file, entry, detail.row, detail.date.at) };
        break;
      default:
    }
  }
  if (offer.lead === undefined && supplier?.lead !== undefined) offer.lead = supplier.lead;
  // Wire that is named by its length is sold by the piece.
  const piece = pieceOf(entry.item);
  if (offer.pack === undefined && piece !== undefined) [offer.pack, offer.pieces] = [piece, one];
  const firstBreak = breaks.find((it) => it.per !== undefined)?.per;
  const pieces: Amount | undefined = offer.pieces === undefined ? offer.pack : { value: offer.pieces };
  const per = each ? "each" : aPack ? "pack" : (firstBreak ?? meantBy(pieces));
  if (per !== undefined) offer.per = per;
  // A price for so many packs says nothing of a price for so many pieces.
  const alikeBreaks = breaks.filter((it) => (it.per ?? per) === per && (offer.price === undefined || it.price.code === offer.price.code));
  if (alikeBreaks.length > 0) offer.breaks = alikeBreaks.map(({ from, price }) => ({ from, price })).sort((a, b) => compare(a.from, b.from));
  return offer;
}

/** A price alone: of one piece where a pack is no more than one, of the pack where it holds a quantity; else it might be either. */
export function meantBy(pack: Amount | undefined): Offer["per"] {
  if (pack === undefined || (pack.unit === undefined && compare(pack.value, ratio(1)) <= 0)) return "each";
  return pack.unit === undefined ? undefined : "pack";
}
