// The parts order of one job or of several: what to get, how many, from whom, at what price, and which lines ask for it.
// Invariant: a plain value, worked out here and drawn elsewhere. Money and quantities are exact, and leave as decimal strings; nothing is invented.
import type { Entry } from "../../../grammar/tree.ts";
import type { Files } from "../../model/files.ts";
import { type Job, buildJob } from "../../model/job.ts";
import { pricesOf } from "../../supply/prices.ts";
import type { Where } from "../../model/where.ts";
import { type Exact, plainText, zero } from "../../quantities/exact.ts";
import { type Amount, type Item, amountText, figureOf, lockingItem } from "../../supply/items.ts";
import type { Choosing } from "../../supply/choose.ts";
import { placed } from "../../supply/need.ts";
import type { NotOrdered } from "../../supply/not-ordered.ts";
import { type Purchase, packFor, priceOf, supplierNamed, timesPerPack } from "../../supply/offers.ts";
import { type SendBack, sendBackOf } from "../../supply/send-back.ts";
import type { Story } from "../../story/story.ts";
import { type SupplyRow, type WaitingRow, supplyOf } from "../../supply/supply.ts";
import type { SurplusLine } from "../../supply/surplus.ts";
import { walk } from "../../story/walk.ts";
import { type WorkOut, workOutOf } from "../../supply/work-out.ts";
import { type Slip, slipsOf } from "../../rules/slips.ts";
import { moneyFigure } from "../draw/money-figure.ts";
import { type OrderChoice, choiceOf } from "./choice.ts";
import { type OrderOnHold, onHoldOf } from "./on-hold.ts";
import { type OrderSums, sumsOf } from "./sums.ts";
import { type OrderTogether, togetherOf } from "./job-by-job.ts";

/** One line of a sheet that asks for something. `line` counts from 1. */
export interface OrderReason {
  readonly file: string;
  readonly line: number;
  readonly text: string;
}

/** One thing to get. Figures are decimal strings, null where there is none to give. */
export interface OrderRow {
  /** The declared name, or the locking or text as written. */
  readonly item: string;
  readonly name: string;
  readonly makersNumber: string | null;
  readonly places: readonly { readonly place: string; readonly amount: string | null }[];
  /** Null where it is needed and nobody has said how much. */
  readonly need: string | null;
  readonly stock: string;
  /** Placed or sent. */
  readonly onOrder: string;
  /** On hold, as far as it is needed: not ordered, and in the sums as if it were sent. */
  readonly held: string;
  /** The unit of the four above; null for pieces. */
  readonly unit: string | null;
  /** Beyond what is on hold, rounded up to packs: in pieces, or in the unit of the pack. */
  readonly toOrder: string | null;
  readonly orderUnit: string | null;
  readonly packs: string | null;
  /** `25`, `400 ml`: what a pack holds, where the offer says so. */
  readonly pack: string | null;
  /** Each sale of which it is made up: by seller, offer and pack. What follows here tells of the only one; of several it is null where they differ. */
  readonly lots: readonly OrderLot[];
  /** Null: nobody offers it, or it is bought of several. */
  readonly supplier: string | null;
  readonly supplierName: string | null;
  /** The supplier's number for it. */
  readonly number: string | null;
  readonly unitPrice: string | null;
  /** What the price is for; null where the offer leaves it open. */
  readonly per: "each" | "pack" | null;
  /** Of the goods; surcharges, freight and duty stand in the sums by supplier. */
  readonly total: string | null;
  readonly currency: string | null;
  /** Surcharges that come back for the old ones; null where there are none. */
  readonly exchange: string | null;
  readonly exchangeCurrency: string | null;
  /** How much each job wants, by the file of its sheet. */
  readonly jobs: readonly { readonly file: string; readonly title: string | null; readonly amount: string | null }[];
  /** As written: `9 d`. */
  readonly lead: string | null;
  /** The row of the price list that the offer is from. */
  readonly priceList: { readonly file: string; readonly line: number } | null;
  /** Status, in words. */
  readonly standing: "to order" | "on hold" | "in stock" | "on order" | "in stock and on order" | "no source" | "amount not known";
  readonly notes: readonly string[];
  readonly why: readonly OrderReason[];
}

/** So many packs of one offer. Figures are decimal strings, null where there is none to give. */
export interface OrderLot {
  readonly supplier: string | null;
  readonly supplierName: string | null;
  readonly number: string | null;
  readonly quantity: string;
  readonly unit: string | null;
  readonly packs: string | null;
  readonly pack: string | null;
  /** What is paid for each or for a pack where so many are bought. */
  readonly unitPrice: string | null;
  readonly per: "each" | "pack" | null;
  readonly total: string | null;
  readonly currency: string | null;
  readonly exchange: string | null;
  readonly exchangeCurrency: string | null;
  readonly lead: string | null;
  readonly priceList: { readonly file: string; readonly line: number } | null;
  /** The reference of the order on hold that it is of, `""` for one without; null where it is to be ordered. */
  readonly onHold: string | null;
}

/** An error of a sheet that the order is of, or a finding in it of which nothing is decided. */
export interface OrderRemark {
  readonly file: string;
  readonly line: number;
  readonly text: string;
}

/** So many of an order line that nothing asks for. */
export interface OrderSurplus {
  readonly item: string;
  readonly name: string;
  /** The order's reference. */
  readonly order: string;
  readonly status: string;
  readonly quantity: string;
  readonly unit: string | null;
  readonly supplier: string | null;
  readonly supplierName: string | null;
  /** What cancelling it saves; null where no price is known. */
  readonly saves: string | null;
  readonly currency: string | null;
  /** How it can be got rid of: struck out before the order goes, cancelled if the supplier is asked before it is sent, or sent back. */
  readonly cancel: "strike out" | "ask" | "send back";
  /** The day on which it should arrive; null where it has not gone, or nobody says how long it takes. */
  readonly due: string | null;
  /** Carriage that is saved too where the order is cancelled whole, and what becomes due where the rest no longer earns it free; in `freightCurrency`. */
  readonly freightSaved: string | null;
  readonly freightDue: string | null;
  readonly freightCurrency: string | null;
  readonly file: string;
  readonly line: number;
}

/** What an open question may yet add or change. */
export interface OrderWaiting {
  readonly item: string;
  readonly name: string;
  readonly question: string;
  readonly asks: string;
  readonly quantity: string | null;
  readonly unit: string | null;
  /** The quantity is what is on order of it. */
  readonly onOrder: boolean;
  readonly places: readonly string[];
  readonly file: string;
  readonly line: number;
}

/** What is sent back so that a surcharge is returned. */
export interface OrderBack {
  readonly item: string;
  readonly name: string;
  readonly supplier: string | null;
  readonly supplierName: string | null;
  /** How many old ones, or packs of them. */
  readonly quantity: string;
  readonly packs: boolean;
  readonly recovers: string;
  /** What does not come back, for there is nothing to send. */
  readonly lost: string;
  readonly currency: string;
  readonly missing: string;
}

/** What came with an order that did not ask for it. */
export interface OrderNotOrdered {
  readonly item: string;
  readonly name: string;
  readonly order: string;
  readonly supplier: string | null;
  readonly supplierName: string | null;
  readonly quantity: string;
  readonly unit: string | null;
  /** What the same order is still to bring. */
  readonly toCome: readonly { readonly item: string; readonly name: string; readonly quantity: string; readonly unit: string | null }[];
  readonly file: string;
  readonly line: number;
}

/** A price list of which something could not be used. */
export interface OrderList {
  readonly file: string;
  readonly supplierName: string;
  /** Nothing of it was read. */
  readonly unread: boolean;
  /** Rows left out, by their lines. */
  readonly leftOut: readonly number[];
}

/** Work that a part is, or is to be, sent out for. */
export interface OrderWork {
  readonly part: string;
  readonly name: string;
  readonly place: string | null;
  readonly what: string;
  readonly order: string;
  readonly status: "held" | "placed" | "sent";
  readonly supplier: string | null;
  readonly supplierName: string | null;
  readonly price: string | null;
  readonly currency: string | null;
  readonly file: string;
  readonly line: number;
}

export interface OrderReport extends OrderSums {
  /** What is at error in the sheets: what is ordered from them may be wrong. */
  readonly errors: readonly OrderRemark[];
  /** Found, and not decided: it may have to be ordered yet. */
  readonly undecided: readonly OrderRemark[];
  /** Orders on hold of which something is needed; null where there are none. */
  readonly onHold: OrderOnHold | null;
  /** What one order of all jobs comes to beside an order for each; null where there is one job, or nothing to compare. */
  readonly jobByJob: OrderTogether | null;
  /** How the offers were chosen; null where each thing is taken from the offer whose goods are cheapest. */
  readonly choice: OrderChoice | null;
  readonly back: readonly OrderBack[];
  readonly work: readonly OrderWork[];
  /** It came, and was not what was ordered. */
  readonly notOrdered: readonly OrderNotOrdered[];
  /** Price lists that are not, or not wholly, in this order. */
  readonly lists: readonly OrderList[];
  readonly jobs: readonly { readonly file: string; readonly title: string | null; readonly machine: string | null }[];
  readonly lines: readonly OrderRow[];
  readonly surplus: readonly OrderSurplus[];
  readonly waiting: readonly OrderWaiting[];
}

/**
 * The order of the sheets at `paths`, taken together: the needs of each job, then one shelf. A path that can't be read is left out.
 * `choosing` chooses among the offers; without it each thing is taken from the seller whose goods are cheapest.
 */
export function partsOrder(files: Files, paths: readonly string[], choosing?: Choosing): OrderReport {
  const stories = [...new Set(paths)].flatMap((path) => {
    const job = buildJob(files, path);
    return job === undefined ? [] : [walk(job)];
  });
  const lineOf = lineFinder(stories.map((story) => story.job));
  const supply = supplyOf(stories, choosing);
  const remarks = remarksOf(stories, lineOf);
  const work = workOutOf(stories);
  const titles = new Map(stories.map((story) => [story.job.path, story.job.sheet?.title?.value ?? null]));
  return {
    ...remarks,
    jobs: stories.filter((story) => story.job.sheet !== undefined || stories.length === 1).map(headOf),
    lines: supply.rows.map((row) => lineOfOrder(row, lineOf, titles)),
    surplus: supply.surplus.map((it) => surplusOf(it, stories, lineOf)),
    waiting: supply.waiting.map((it) => waitingOf(it, stories, lineOf)),
    choice: supply.choice === undefined ? null : choiceOf(supply.choice),
    onHold: supply.onHold === undefined ? null : onHoldOf(supply.onHold, stories, supply.choice, lineOf),
    jobByJob: togetherOf(supply, stories),
    back: sendBackOf(supply.rows, stories).map(backOf),
    work: work.map((it) => workOf(it, lineOf)),
    notOrdered: supply.notOrdered.map((it) => notOrderedIn(it, stories, lineOf)),
    lists: listsOf(stories),
    ...sumsOf(stories, supply.rows, work),
  };
}

export interface LineOf {
  (where: Where): { file: string; line: number };
  /** The entry above it in its file, and a job that knows both. */
  above(entry: Entry): { readonly entry: Entry | undefined; readonly job: Job } | undefined;
}

function lineFinder(jobs: readonly Job[]): LineOf {
  const starts = new Map<Entry, { line: number; above: { entry: Entry | undefined; job: Job } }>();
  for (const job of jobs)
    for (const { sheet } of job.files)
      for (const [i, entry] of sheet.entries.entries()) starts.set(entry, { line: sheet.starts[i] ?? 0, above: { entry: sheet.entries[i - 1], job } });
  const lineOf = (where: Where) => ({ file: where.file, line: (starts.get(where.entry)?.line ?? 0) + where.row + 1 });
  return Object.assign(lineOf, { above: (entry: Entry) => starts.get(entry)?.above });
}

/**
 * The lines below a finding that ask for something, where a finding stands above it that would ask for the same: without its first line they would be that one's, and go
 * on asking. So all that is named taken away, the row is gone.
 */
function decidedBelow({ where, place }: SupplyRow["reasons"][number], item: Item, lineOf: LineOf): OrderReason[] {
  const { entry } = where;
  const above = lineOf.above(entry);
  if (entry.kind !== "finding" || where.row !== 0 || above?.entry?.kind !== "finding") return [];
  if (!asksFor(above.entry.of?.text, item, above.job)) return [];
  return entry.details.flatMap((detail) => {
    const at = lineOf({ ...where, row: detail.row });
    if (detail.kind === "decision" && (detail.decision === "renew" || detail.decision === "exchange")) return [{ ...at, text: placed(place, "decided here") }];
    return detail.kind === "is" && detail.conditions.some((it) => asking.has(it.kind)) ? [{ ...at, text: placed(place, "found so here") }] : [];
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

function headOf(story: Story): OrderReport["jobs"][number] {
  const { sheet, path } = story.job;
  const machine = sheet?.details.find((it) => it.kind === "machine");
  return { file: path, title: sheet?.title?.value ?? null, machine: machine?.kind === "machine" ? (machine.text?.value ?? null) : null };
}

function lineOfOrder(row: SupplyRow, lineOf: LineOf, titles: ReadonlyMap<string, string | null>): OrderRow {
  const { offer, shortfall, purchases } = row;
  const lots = purchases.map(lotOf);
  const fresh = purchases.filter((it) => it.offer.onHold === undefined);
  const short = fresh.length > 0 || (shortfall !== undefined && shortfall.value.compare(0) > 0 && purchases.length === 0);
  const amount = fresh.length === 0 ? shortfall : { ...(fresh[0] as Purchase).amount, value: sum(fresh.map((it) => it.amount.value)) };
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
        : moneyFigure({ amount: sum(purchases.flatMap((it) => it.total?.amount ?? [])), code: [...codes][0] ?? "" }),
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
  return moneyFigure({ amount: sum(list.map((it) => it.amount)), code: first.code });
}

function sum(values: readonly Exact[]): Exact {
  return values.reduce((all, it) => all.add(it), zero);
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

/** The slips of the sheets, and what is found in them and not decided; what is said of a file that several jobs use is told once. */
function remarksOf(stories: readonly Story[], lineOf: LineOf): Pick<OrderReport, "errors" | "undecided"> {
  const told = new Set<string>();
  const remark = ({ where, message }: Slip): OrderRemark[] => {
    const it = { ...lineOf(where), text: message };
    const key = JSON.stringify(it);
    return told.has(key) ? [] : told.add(key) && [it];
  };
  const slips = stories.map((story) => slipsOf(story, (where) => lineOf(where).line));
  return { errors: slips.flatMap((it) => it.errors.flatMap(remark)), undecided: slips.flatMap((it) => it.undecided.flatMap(remark)) };
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
    .add(sum(purchases.map((it) => it.amount.value)))
    .sub(need.value);
  return purchases.some(({ offer, packs, amount }) => packs !== undefined && offer.onHold === undefined && over.compare(amount.value.div(packs)) >= 0);
}

function surplusOf(it: SurplusLine, stories: readonly Story[], lineOf: LineOf): OrderSurplus {
  const { line, amount, saves, freightSaved, freightDue } = it;
  const job = stories.find((story) => story.job.files.some((file) => file.path === line.where.file))?.job;
  const supplier = line.supplier === undefined || job === undefined ? undefined : supplierNamed(job, line.supplier);
  return {
    item: line.item.written,
    name: line.item.title,
    order: line.reference ?? "",
    status: line.status,
    quantity: figureText(amount),
    unit: unitText(amount),
    supplier: line.supplier ?? null,
    supplierName: supplier?.title ?? null,
    saves: saves === undefined ? null : moneyFigure(saves),
    currency: saves?.code ?? null,
    cancel: line.status === "sent" ? "send back" : line.status === "placed" ? "ask" : "strike out",
    due: it.due ?? null,
    freightSaved: freightSaved === undefined ? null : moneyFigure(freightSaved),
    freightDue: freightDue === undefined ? null : moneyFigure(freightDue),
    freightCurrency: (freightSaved ?? freightDue)?.code ?? null,
    ...lineOf(line.where),
  };
}

function waitingOf(it: WaitingRow, stories: readonly Story[], lineOf: LineOf): OrderWaiting {
  const question = stories.flatMap((story) => story.job.things.get(it.question) ?? []).find((thing) => thing.kind === "question");
  return {
    item: it.item.written,
    name: it.item.title,
    question: it.question,
    asks: question?.title ?? it.question,
    quantity: it.amount === undefined ? null : figureText(it.amount),
    unit: it.amount === undefined ? null : unitText(it.amount),
    onOrder: it.onOrder,
    places: it.places,
    ...lineOf(it.where),
  };
}

function listsOf(stories: readonly Story[]): OrderList[] {
  const lists = new Map<string, OrderList>();
  for (const { job } of stories) {
    for (const { supplier, written, path, list } of pricesOf(job)) {
      const unread = list === undefined || list.faults.some((it) => it.whole);
      if (!unread && list.faults.length === 0) continue;
      const key = `${supplier.name} of ${supplier.file} ${path ?? written}`;
      if (lists.has(key)) continue;
      lists.set(key, { file: path ?? written, supplierName: supplier.title ?? supplier.name, unread, leftOut: unread ? [] : list.faults.map((it) => it.line) });
    }
  }
  return [...lists.values()];
}

function backOf({ row, offer, count, packs, recovers, lost, missing }: SendBack): OrderBack {
  return {
    item: row.item.written,
    name: row.item.title,
    supplier: offer.supplier?.name ?? null,
    supplierName: offer.supplier?.title ?? null,
    quantity: plainText(count),
    packs,
    recovers: moneyFigure(recovers),
    lost: moneyFigure(lost),
    currency: recovers.code,
    missing: plainText(missing),
  };
}

function notOrderedIn({ line, amount, toCome }: NotOrdered, stories: readonly Story[], lineOf: LineOf): OrderNotOrdered {
  const job = stories.find((story) => story.job.files.some((file) => file.path === line.where.file))?.job;
  const supplier = line.supplier === undefined || job === undefined ? undefined : supplierNamed(job, line.supplier);
  return {
    item: line.item.written,
    name: line.item.title,
    order: line.reference ?? "",
    supplier: line.supplier ?? null,
    supplierName: supplier?.title ?? null,
    quantity: figureText(amount),
    unit: unitText(amount),
    toCome: toCome.map((it) => ({ item: it.item.written, name: it.item.title, quantity: figureText(it.amount), unit: unitText(it.amount) })),
    ...lineOf(line.where),
  };
}

function workOf({ item, place, what, status, price, supplier, reference, where }: WorkOut, lineOf: LineOf): OrderWork {
  return {
    part: item.written,
    name: item.title,
    place: place === "" ? null : place,
    what,
    order: reference ?? "",
    status,
    supplier: supplier?.name ?? null,
    supplierName: supplier?.title ?? null,
    price: price === undefined ? null : moneyFigure(price),
    currency: price?.code ?? null,
    ...lineOf(where),
  };
}

function figureText(amount: Amount): string {
  return plainText(figureOf(amount));
}

function unitText(amount: Amount): string | null {
  return amount.unit?.spelling ?? null;
}
