// One row of the parts order: how it stands, each sale of which it is made up, what is to be known of it, and the lines that ask for it.
// Invariant: a figure that the sales of a row do not share is null; nothing is invented.
import { plainText, sumOf } from "../../quantities/exact.ts";
import type { Job } from "../../model/job.ts";
import { type Item, amountText, lockingItem } from "../../supply/items.ts";
import { type Purchase, packFor, priceOf, timesPerPack } from "../../supply/offers.ts";
import type { SupplyRow } from "../../supply/supply-row.ts";
import { moneyFigure } from "../draw/money-figure.ts";
import { figureText, unitText } from "./amount-figure.ts";
import type { LineOf } from "./lines-of.ts";
import type { OrderLot, OrderReason, OrderRow } from "./order-report.ts";

export function lineOfOrder(row: SupplyRow, lineOf: LineOf, titles: ReadonlyMap<string, string | null>): OrderRow {
  const { offer, shortfall, purchases } = row;
  const lots = purchases.map(lotOf);
  const fresh = purchases.filter((it) => it.offer.onHold === undefined);
  const short = fresh.length > 0 || (shortfall !== undefined && shortfall.value.compare(0) > 0 && purchases.length === 0);
  const amount = fresh.length === 0 ? shortfall : { ...(fresh[0] as Purchase).amount, value: sumOf(fresh.map((it) => it.amount.value)) };
  const newLots = lots.filter((it) => it.onHold === null);
  const shown = newLots.length > 0 ? newLots : lots;
  const one = <K extends keyof OrderLot>(key: K, otherwise: OrderLot[K]): OrderLot[K] => {
    const [first, ...more] = shown;
    return first === undefined ? otherwise : more.every((it) => it[key] === first[key]) ? first[key] : (null as OrderLot[K]);
  };
  const priced = lots.filter((it) => it.total !== null);
  const codes = new Set(priced.map((it) => it.currency));
  const suppliers = new Set(lots.map((it) => it.supplierName));
  const bothKinds = lots.length > newLots.length && newLots.length > 0;
  return {
    item: row.item.written,
    name: row.item.title,
    makersNumber: row.item.makersNumber ?? null,
    places: row.places.filter((it) => it.place !== "").map(({ place, amount: at }) => ({ place, amount: at === undefined ? null : figureText(at) })),
    need: row.need === undefined ? null : figureText(row.need),
    stock: figureText(row.stock),
    onOrder: figureText(row.onOrder),
    held: figureText(row.held),
    unit: unitText(row.stock),
    toOrder: amount === undefined ? null : short ? figureText(amount) : "0",
    orderUnit: amount === undefined ? unitText(row.stock) : unitText(amount),
    packs: !short ? (shortfall === undefined ? null : "0") : newLots.length === 1 ? (newLots[0] as OrderLot).packs : null,
    pack: one("pack", offer?.pack === undefined ? null : amountText(offer.pack)),
    lots,
    supplier: suppliers.size > 1 ? null : one("supplier", offer?.supplier?.name ?? null),
    supplierName: suppliers.size > 1 ? null : one("supplierName", offer?.supplier?.title ?? null),
    number: one("number", offer?.number ?? null),
    unitPrice: bothKinds ? null : one("unitPrice", offer?.price === undefined ? null : moneyFigure(offer.price)),
    per: bothKinds ? null : one("per", offer?.price === undefined ? null : (offer.per ?? null)),
    total:
      priced.length === 0 || priced.length < lots.length || codes.size > 1
        ? null
        : moneyFigure({ amount: sumOf(purchases.flatMap((it) => it.total?.amount ?? [])), code: [...codes][0] ?? "" }),
    currency: lots.length > 0 && codes.size > 1 ? null : one("currency", offer?.price?.code ?? null),
    exchange: exchangeOf(purchases),
    exchangeCurrency: purchases.find((it) => it.exchange !== undefined)?.exchange?.code ?? null,
    jobs: row.jobs.map(({ job, amount: of }) => ({ file: job, title: titles.get(job) ?? null, amount: of === undefined ? null : figureText(of) })),
    lead: one("lead", offer?.lead ?? null),
    priceList: one("priceList", offer?.list ?? null),
    standing: standingOf(row, short),
    notes: notesOf(row, short),
    why: row.reasons.flatMap((reason) => [{ ...lineOf(reason.where), text: reason.text }, ...decidedBelow(reason, row.item, lineOf)]),
  };
}

function lotOf({ offer, packs, amount, total, exchange }: Purchase): OrderLot {
  const size = packFor(offer, amount);
  const times = packs === undefined || size === undefined ? undefined : packs.mul(timesPerPack(offer, size));
  const price = times === undefined ? offer.price : (priceOf(offer, times) ?? offer.price);
  return {
    supplier: offer.supplier?.name ?? null,
    supplierName: offer.supplier?.title ?? null,
    number: offer.number ?? null,
    quantity: figureText(amount),
    unit: unitText(amount),
    packs: packs === undefined ? null : plainText(packs),
    pack: offer.pack === undefined ? null : amountText(offer.pack),
    unitPrice: price === undefined ? null : moneyFigure(price),
    per: price === undefined ? null : (offer.per ?? null),
    total: total === undefined ? null : moneyFigure(total),
    currency: price?.code ?? null,
    exchange: exchange === undefined ? null : moneyFigure(exchange),
    exchangeCurrency: exchange?.code ?? null,
    lead: offer.lead ?? null,
    priceList: offer.list ?? null,
    onHold: offer.onHold === undefined ? null : (offer.onHold.line.reference ?? ""),
  };
}

function exchangeOf(purchases: readonly Purchase[]): string | null {
  const list = purchases.flatMap((it) => it.exchange ?? []);
  const [first] = list;
  if (first === undefined || list.some((it) => it.code !== first.code)) return null;
  return moneyFigure({ amount: sumOf(list.map((it) => it.amount)), code: first.code });
}

function standingOf(row: SupplyRow, short: boolean): OrderRow["standing"] {
  if (row.shortfall === undefined) return "amount not known";
  if (short) return row.offer === undefined ? "no source" : "to order";
  if (row.purchases.length > 0) return "on hold";
  const held = row.stock.value.compare(0) > 0;
  const coming = row.onOrder.value.compare(0) > 0;
  // What stock covers alone is not said to hang on a parcel.
  if (held && row.need !== undefined && row.stock.value.compare(row.need.value) >= 0) return "in stock";
  return held && coming ? "in stock and on order" : coming ? "on order" : "in stock";
}

function notesOf(row: SupplyRow, short: boolean): string[] {
  const notes: string[] = [];
  if (row.need === undefined) notes.push("How much is needed is not known: give it a capacity.");
  else if (row.partly) notes.push("More may be needed: the amount of some of it is not known, or is given in another way.");
  if (row.unlike) notes.push("Some stock or orders of it are counted in another way (pieces, a length, a volume), and are not taken off.");
  if (row.threadUnsaid)
    notes.push("Nobody says which thread is in stock or on order: look before you rely on it. What a seller offers in one thread only is known by its offer.");
  if (row.item.threaded !== undefined)
    for (const { offer } of short ? row.purchases : [])
      if (offer.thread === undefined)
        notes.push(`The offer of ${offer.supplier?.title ?? "a supplier"} does not say its thread: ask for ${row.item.threaded.text}.`);
  // Of several threads each seller's offer is for one of them, and the rows of the others need not say so.
  const serves = row.item.threaded !== undefined && row.purchases.length > 0;
  for (const { supplier } of serves ? [] : row.refused)
    notes.push(`The offer of ${supplier?.title ?? "a supplier"} is left out: its thread is not the fastener's own.`);
  for (const { offer, packs, total } of short ? row.purchases : []) {
    if (packs === undefined) notes.push("The offer does not say how much a pack holds, so the number of packs and the price are left open.");
    else if (offer.price === undefined && offer.breaks === undefined) notes.push("The offer has no price that can be read.");
    else if (total === undefined) notes.push("The offer does not say whether the price is each or a pack, so no total is given.");
  }
  if (isMoreThanShort(row)) notes.push("It is more than is short: so many come to less than as many as are short, for the price or for the carriage.");
  return [...new Set(notes)];
}

/** A pack fewer of what is bought would do. */
function isMoreThanShort({ need, stock, onOrder, purchases }: SupplyRow): boolean {
  if (need === undefined || purchases.length === 0) return false;
  const over = stock.value
    .add(onOrder.value)
    .add(sumOf(purchases.map((it) => it.amount.value)))
    .sub(need.value);
  return purchases.some(({ offer, packs, amount }) => packs !== undefined && offer.onHold === undefined && over.compare(amount.value.div(packs)) >= 0);
}

/**
 * The lines below a finding that ask for something, where a finding stands above it that would ask for the same: without its first line they would be that one's, and go
 * on asking. So all that is named taken away, the row is gone.
 */
function decidedBelow({ where, text }: SupplyRow["reasons"][number], item: Item, lineOf: LineOf): OrderReason[] {
  const { entry } = where;
  const above = lineOf.above(entry);
  if (entry.kind !== "finding" || where.row !== 0 || above?.entry?.kind !== "finding") return [];
  if (!asksFor(above.entry.of?.text, item, above.job)) return [];
  return entry.details.flatMap((detail) => {
    const at = lineOf({ ...where, row: detail.row });
    if (detail.kind === "decision" && (detail.decision === "renew" || detail.decision === "exchange")) return [{ ...at, text }];
    return detail.kind === "is" && detail.conditions.some((it) => asking.has(it.kind)) ? [{ ...at, text }] : [];
  });
}
/** Whether a finding of that thing may ask for the item: the thing itself, a match of it, or what locks it. */
function asksFor(name: string | undefined, item: Item, job: Job): boolean {
  const thing = name === undefined ? undefined : job.things.get(name);
  if (thing === undefined || thing.name === item.written) return thing !== undefined;
  if (thing.kind === "fastener" && thing.locking !== undefined) return lockingItem(job, thing.locking.locking)?.key === item.key;
  const other = job.things.get(item.written);
  return (
    thing.kind === "part" &&
    other?.kind === "part" &&
    [...thing.matchedWith, ...other.matchedWith].some((it) => it.text === thing.name || it.text === other.name)
  );
}

const asking: ReadonlySet<string> = new Set(["missing", "damaged", "unlocked", "undrilled"]);
