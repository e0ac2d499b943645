// What is on order beyond the need and the rest of a pack: how much of which line could be cancelled, what that saves, and what it does to the freight.
// Invariant: what was fitted new and never came from the shelf is one of those ordered, and is not surplus; nothing is while its need is not known.
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import { addDays } from "../quantities/days.ts";
import { type Exact, compare, one, orNothing, zero } from "../quantities/exact.ts";
import { type Money, roundedMoney } from "../quantities/money.ts";
import { termsOf } from "./terms.ts";
import { type Amount, type Item, alike, dimensionOfAmount, inUnitOf, totalAmount } from "./items.ts";
import { leadDays } from "./leads.ts";
import { type Offer, readMoney, supplierNamed, worth } from "./offers.ts";
import type { OrderLine } from "./order-lines.ts";
import type { Shelf } from "./shelf.ts";
import type { Story } from "../story/story.ts";
import type { SupplyRow } from "./supply-row.ts";
import { grouped } from "../model/grouped.ts";

/** So much of an order line could be cancelled. */
export interface SurplusLine {
  readonly line: OrderLine;
  readonly amount: Amount;
  /** Bought by a text, and no line needs it by that text: it may be a kit of what is needed by other names. */
  readonly isUnasked: boolean;
  readonly saves?: Money;
  /** All that is needed of the item, and on order. */
  readonly need: Amount;
  readonly onOrder: Amount;
  readonly stock: Amount;
  /** The day on which it should arrive, by the order's own day and the lead. */
  readonly due?: string;
  /** Cancelled whole, the order needs no carriage: that is saved besides. Told with the order's first line here. */
  readonly freightSaved?: Money;
  /** What is left of the order no longer earns free carriage: that becomes due. Told with the order's first line here. */
  readonly freightDue?: Money;
}

type OffersFor = (item: Item) => readonly Offer[];

/** In slices. */
export function* findingSurplus(
  shelf: Shelf,
  rows: ReadonlyMap<string, SupplyRow>,
  waits: ReadonlySet<string>,
  offers: OffersFor,
  stories: readonly Story[],
): Slices<SurplusLine[]> {
  const ordered = new Map(shelf.lines.map((line) => [line.item.key, line.item]));
  const lines: SurplusLine[] = [];
  let n = 0;
  for (const item of ordered.values()) {
    if (++n % someAtOnce === 0) yield;
    if (!waits.has(item.key)) for (const line of yield* ofItem(shelf, item, rows.get(item.key), offers)) lines.push(line);
  }
  return yield* withFreight(lines, shelf, offers, stories);
}

/** The lines that can still be cancelled first, and of these the ones written last. */
function* ofItem(shelf: Shelf, item: Item, row: SupplyRow | undefined, offersFor: OffersFor): Slices<SurplusLine[]> {
  const open = shelf.onOrder(item.key);
  const [first] = open;
  if (first === undefined || row?.partly === true || (row !== undefined && row.need === undefined)) return [];
  const offers = offersFor(item);
  const like = row?.need ?? first.amount;
  const lines = open.filter((line) => alike(line.amount, like));
  const onOrder = inUnitOf({ value: totalAmount(lines.map((line) => line.amount)) }, like);
  const stock = row?.stock ?? inUnitOf({ value: shelf.stock(item.key, dimensionOfAmount(like)) }, like);
  const need = row?.need ?? inUnitOf({ value: zero }, like);
  // What stock covers of the need is not wanted from orders; stock beyond the need makes no order more needless than it is.
  // What was fitted new and never came from the shelf is one of those ordered: to advise against it would be to cancel what is in the machine.
  let excess = onOrder.value.sub(orNothing(need.value.sub(stock.value))).sub(shelf.drawnAhead(item.key, dimensionOfAmount(like)));
  const isUnasked = first.item.kind === "text" && compare(need.value, zero) === 0;
  const out: SurplusLine[] = [];
  for (const line of [...lines].reverse().sort((a, b) => ease.indexOf(a.status) - ease.indexOf(b.status))) {
    if (compare(excess, zero) <= 0) break;
    if (out.length % someAtOnce === someAtOnce - 1) yield;
    const offer = offerOf(line, offers);
    const size =
      offer?.pack !== undefined && alike(offer.pack, line.amount) && compare(offer.pack.value, zero) > 0
        ? offer.pack.value
        : line.amount.unit === undefined
          ? one
          : undefined;
    const most = compare(excess, line.amount.value) < 0 ? excess : line.amount.value;
    const value = size === undefined ? most : most.div(size).floor().mul(size);
    if (compare(value, zero) <= 0) continue;
    excess = excess.sub(value);
    const amount = inUnitOf({ value }, line.amount);
    const saves = worthOf(line, amount, offer);
    const due = dueOn(line, offer);
    out.push({ line, amount, isUnasked, need, onOrder, stock, ...(saves === undefined ? {} : { saves }), ...(due === undefined ? {} : { due }) });
  }
  const places = new Map(lines.map((line, i) => [line, i]));
  return out.sort((a, b) => (places.get(a.line) as number) - (places.get(b.line) as number));
}
const ease: readonly string[] = ["held", "placed", "sent"];

function offerOf(line: OrderLine, offers: readonly Offer[]): Offer | undefined {
  return offers.find((it) => it.supplier?.name === line.supplier);
}

/** The line's own price is for each piece. */
function worthOf(line: OrderLine, amount: Amount, offer: Offer | undefined): Money | undefined {
  const own = readMoney(line.price);
  if (own !== undefined) return amount.unit === undefined ? roundedMoney({ amount: own.amount.mul(amount.value), code: own.code }) : undefined;
  return offer === undefined ? undefined : worth(offer, amount);
}

function dueOn(line: OrderLine, offer: Offer | undefined): string | undefined {
  const since = line.status === "held" ? undefined : line.since;
  const days = offer?.lead === undefined ? undefined : leadDays(offer.lead);
  return since === undefined || days === undefined ? undefined : addDays(since, days);
}

// ---------------------------------------------------------------- what it does to the freight

/** Told of orders that have not gone yet, where every line has a price in the currency of the freight. */
function* withFreight(list: readonly SurplusLine[], shelf: Shelf, offersFor: OffersFor, stories: readonly Story[]): Slices<SurplusLine[]> {
  const told = new Set<OrderLine["entry"]>();
  const linesOf = grouped(shelf.lines, (line) => line.entry);
  const byLine = new Map([...list].reverse().map((it) => [it.line, it]));
  const out: SurplusLine[] = [];
  let n = 0;
  for (const it of list) {
    out.push(freightOf(it));
    if (++n % someAtOnce === 0) yield;
  }
  return out;

  function freightOf(it: SurplusLine): SurplusLine {
    const { entry, status, where, supplier } = it.line;
    if (status === "sent" || supplier === undefined || told.has(entry)) return it;
    told.add(entry);
    const job = stories.find((story) => story.job.files.some((file) => file.path === where.file))?.job;
    const { freight, freeOver } = job === undefined ? {} : termsOf(supplierNamed(job, supplier));
    if (freight === undefined) return it;
    let goods = zero;
    let left = zero;
    let whole = !entry.details.some((detail) => detail.kind === "work");
    for (const line of linesOf.get(entry) ?? []) {
      const cancelled = byLine.get(line);
      const price = worthOf(line, line.amount, offerOf(line, offersFor(line.item)));
      if (price?.code !== freight.code || (cancelled !== undefined && cancelled.saves === undefined)) return it;
      goods = goods.add(price.amount);
      left = left.add(price.amount).sub(cancelled?.saves?.amount ?? zero);
      if (cancelled === undefined || compare(cancelled.amount.value, line.amount.value) < 0) whole = false;
    }
    const isFree = (amount: Exact) => freeOver?.code === freight.code && compare(amount, freeOver.amount) > 0;
    if (whole) return isFree(goods) ? it : { ...it, freightSaved: freight };
    return isFree(goods) && !isFree(left) ? { ...it, freightDue: freight } : it;
  }
}
