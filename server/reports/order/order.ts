// The parts order of one job or of several: what to get, how many, from whom, at what price, and which lines ask for it.
// Invariant: a plain value, worked out here and drawn elsewhere. Money and quantities are exact, and leave as decimal strings; nothing is invented.
import type { Entry } from "../../../grammar/tree.ts";
import type { Files } from "../../model/files.ts";
import { type Job, buildJob } from "../../model/job.ts";
import { pricesOf } from "../../supply/prices.ts";
import type { Where } from "../../model/where.ts";
import { plainText } from "../../quantities/exact.ts";
import { type Amount, type Item, amountText, figureOf, lockingItem } from "../../supply/items.ts";
import type { Way } from "../../supply/choose.ts";
import { placed } from "../../supply/need.ts";
import { supplierNamed } from "../../supply/offers.ts";
import { type SendBack, sendBackOf } from "../../supply/send-back.ts";
import type { Story } from "../../story/story.ts";
import { type SupplyRow, type WaitingRow, supplyOf } from "../../supply/supply.ts";
import type { SurplusLine } from "../../supply/surplus.ts";
import { walk } from "../../story/walk.ts";
import { type WorkOut, workOutOf } from "../../supply/work-out.ts";
import { moneyFigure } from "../draw/money-figure.ts";
import { type OrderChoice, choiceOf } from "./choice.ts";
import { type OrderSums, sumsOf } from "./sums.ts";

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
  readonly onOrder: string;
  /** The unit of the three above; null for pieces. */
  readonly unit: string | null;
  /** Rounded up to packs: in pieces, or in the unit of the pack. */
  readonly toOrder: string | null;
  readonly orderUnit: string | null;
  readonly packs: string | null;
  /** `25`, `400 ml`: what a pack holds, where the offer says so. */
  readonly pack: string | null;
  /** Null: nobody offers it. */
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
  /** How it stands, in words. */
  readonly standing: "to order" | "in stock" | "on order" | "in stock and on order" | "no source" | "amount not known";
  readonly notes: readonly string[];
  readonly why: readonly OrderReason[];
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
  /** How the offers were chosen; null where each thing is taken from the offer whose goods are cheapest. */
  readonly choice: OrderChoice | null;
  readonly back: readonly OrderBack[];
  readonly work: readonly OrderWork[];
  /** Price lists that are not, or not wholly, in this order. */
  readonly lists: readonly OrderList[];
  readonly jobs: readonly { readonly file: string; readonly title: string | null; readonly machine: string | null }[];
  readonly lines: readonly OrderRow[];
  readonly surplus: readonly OrderSurplus[];
  readonly waiting: readonly OrderWaiting[];
}

/**
 * The order of the sheets at `paths`, taken together: the needs of each job, then one shelf. A path that can't be read is left out.
 * `way` chooses among the offers; without one each thing is taken from the offer whose goods are cheapest.
 */
export function partsOrder(files: Files, paths: readonly string[], way?: Way): OrderReport {
  const stories = [...new Set(paths)].flatMap((path) => {
    const job = buildJob(files, path);
    return job === undefined ? [] : [walk(job)];
  });
  const lineOf = lineFinder(stories.map((story) => story.job));
  const supply = supplyOf(stories, way);
  const work = workOutOf(stories);
  const titles = new Map(stories.map((story) => [story.job.path, story.job.sheet?.title?.value ?? null]));
  return {
    jobs: stories.filter((story) => story.job.sheet !== undefined || stories.length === 1).map(headOf),
    lines: supply.rows.map((row) => lineOfOrder(row, lineOf, titles)),
    surplus: supply.surplus.map((it) => surplusOf(it, stories, lineOf)),
    waiting: supply.waiting.map((it) => waitingOf(it, stories, lineOf)),
    choice: supply.choice === undefined ? null : choiceOf(supply.choice),
    back: sendBackOf(supply.rows, stories).map(backOf),
    work: work.map((it) => workOf(it, lineOf)),
    lists: listsOf(stories),
    ...sumsOf(stories, supply.rows, work),
  };
}

interface LineOf {
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
  const { offer, purchase: bought, shortfall } = row;
  const short = shortfall !== undefined && shortfall.value.compare(0) > 0;
  const amount = bought?.amount ?? shortfall;
  const packs = !short ? (shortfall === undefined ? null : "0") : bought?.packs === undefined ? null : plainText(bought.packs);
  return {
    item: row.item.written,
    name: row.item.title,
    makersNumber: row.item.makersNumber ?? null,
    places: row.places.filter((it) => it.place !== "").map(({ place, amount: at }) => ({ place, amount: at === undefined ? null : figureText(at) })),
    need: row.need === undefined ? null : figureText(row.need),
    stock: figureText(row.stock),
    onOrder: figureText(row.onOrder),
    unit: unitText(row.stock),
    toOrder: amount === undefined ? null : short ? figureText(amount) : "0",
    orderUnit: amount === undefined ? unitText(row.stock) : unitText(amount),
    packs,
    pack: offer?.pack === undefined ? null : amountText(offer.pack),
    supplier: offer?.supplier?.name ?? null,
    supplierName: offer?.supplier?.title ?? null,
    number: offer?.number ?? null,
    unitPrice: offer?.price === undefined ? null : moneyFigure(offer.price),
    per: offer?.price === undefined ? null : (offer.per ?? null),
    total: bought?.total === undefined ? null : moneyFigure(bought.total),
    currency: offer?.price?.code ?? null,
    exchange: bought?.exchange === undefined ? null : moneyFigure(bought.exchange),
    exchangeCurrency: bought?.exchange?.code ?? null,
    jobs: row.jobs.map(({ job, amount: of }) => ({ file: job, title: titles.get(job) ?? null, amount: of === undefined ? null : figureText(of) })),
    lead: offer?.lead ?? null,
    priceList: offer?.list ?? null,
    standing: standingOf(row, short),
    notes: notesOf(row, short),
    why: row.reasons.flatMap((reason) => [{ ...lineOf(reason.where), text: reason.text }, ...decidedBelow(reason, row.item, lineOf)]),
  };
}

function standingOf(row: SupplyRow, short: boolean): OrderRow["standing"] {
  if (row.shortfall === undefined) return "amount not known";
  if (short) return row.offer === undefined ? "no source" : "to order";
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
  for (const { supplier } of row.refused) notes.push(`The offer of ${supplier?.title ?? "a supplier"} is left out: its thread is not the fastener's own.`);
  if (short && row.offer !== undefined && row.purchase !== undefined) {
    if (row.purchase.packs === undefined) notes.push("The offer does not say how much a pack holds, so the number of packs and the price are left open.");
    else if (row.offer.price === undefined) notes.push("The offer has no price that can be read.");
    else if (row.offer.per === undefined) notes.push("The offer does not say whether the price is each or a pack, so no total is given.");
  }
  return notes;
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
