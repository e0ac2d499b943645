// New ones in the machine that no order brought: more than all that was ordered of a thing and neither cancelled nor sent back, and stock besides.
// Invariant: speaks only of what some order names by its name, and only where every order and every count of it can be read. What no order names may have been
// bought over the counter. Where it is in doubt how many there were, there were enough.
import type { Entry } from "../../grammar/tree.ts";
import { grouped } from "../model/grouped.ts";
import type { Job } from "../model/job.ts";
import { memo } from "../model/memo.ts";
import { isAt, ordersOf } from "../model/orders.ts";
import { neverGoesBack } from "../model/things.ts";
import { wordsIn } from "../model/titles.ts";
import { type Where, where } from "../model/where.ts";
import { type Exact, compare, ratio, zero } from "../quantities/exact.ts";
import { findingsOf } from "../story/decisions.ts";
import { countOf } from "../story/lots.ts";
import { type Coming, comesOn } from "../story/away.ts";
import { dayWithWhatCame } from "../story/came-above.ts";
import type { FastenerCell, FastenerMoment, FluidCell, FluidMoment, PartCell, PartMoment, Story } from "../story/story.ts";
import { amountOfItem, itemNamed } from "./items.ts";
import { offersOf } from "./offers.ts";
import { type Shelf, firstBeyond, shelfOf } from "./shelf.ts";

export interface BeyondOrders {
  readonly cell: PartCell | FastenerCell;
  /** The last line that fits one new. */
  readonly moment: PartMoment | FastenerMoment;
  /** How many new ones are on, in pieces; how many went in, of what never goes back. */
  readonly fitted: number;
  /** How many were ordered and neither cancelled nor returned, and counted in stock, in pieces. */
  readonly had: Exact;
  /** `had` is what came: the rest of what was ordered is still on its way. */
  readonly came: boolean;
  /** No more are on than there were: one came off again and a new one went in, which was bought over the counter, or is none. */
  readonly again?: boolean;
  /** Nothing names it but the decision to renew it: it may have been bought over the counter, and nobody wrote that. */
  readonly unnamed?: boolean;
  /** An order that names it, or a count of it; of half a pair that none names, an offer. */
  readonly ordered: Where;
}

export function newBeyondOrders(story: Story): BeyondOrders[] {
  const { job } = story;
  const { items, work } = ordersOf(job);
  const nowhere = renewedFromNowhere(story);
  const named = new Set([...items.keys(), ...countedHere(job), ...fellowsOfferedOnly(story), ...nowhere.keys()]);
  if (named.size === 0 || !job.files.every(({ sheet }) => sheet.entries.every(isRead))) return [];
  const lockings = lockingParts(job);
  const out: BeyondOrders[] = [];
  for (const name of named) {
    const [first] = items.get(name) ?? [];
    const thing = job.things.get(name);
    const at =
      first === undefined
        ? (countedAt(job, name) ?? nowhere.get(name) ?? offeredByAnOrdered(story, shelfOf([story]), itemNamed(job, name).key))
        : where(first.file, first.entry, first.detail.row, first.detail.item?.at ?? first.detail.keyword);
    if (at === undefined || (thing?.kind !== "part" && thing?.kind !== "fastener")) continue;
    // What was sent out, and its place, may well be what went in new there; where no place is named, anywhere.
    const sentOut = (work.get(name) ?? []).filter(({ status }) => status?.status !== "cancelled" && status?.status !== "returned");
    if (sentOut.some(({ detail }) => detail.places.length === 0)) continue;
    // One that locks goes in by `lock`, unless a line says that it was fitted new.
    if (lockings.has(name) && !story.cells(name).some((it) => (it.kind === "part" || it.kind === "fastener") && newFits(it).length > 0)) continue;
    // What is to be made may be made here, after its order was cancelled. What came and was sent back was bought, whatever the decision's word.
    if ((findingsOf(story).get(name) ?? []).some((it) => it.decision?.detail.decision === "make") && !isReturned(job, name)) continue;
    const cells = story
      .cells(name)
      .filter((it): it is PartCell | FastenerCell => (it.kind === "part" || it.kind === "fastener") && !sentOut.some(({ detail }) => isAt(detail, it.place)));
    const fits = cells.flatMap((cell) => newFits(cell).map((moment) => ({ cell, moment }))).sort((a, b) => a.moment.seq - b.moment.seq);
    // A new one that came off again and went back is still one: those that are on are counted, not the lines. What never goes back is used up by each line.
    const on = cells.reduce((sum, cell) => sum + countOf(cell.now.lots.filter((lot) => lot.isNew)), 0);
    const used = fits.reduce((sum, { moment }) => sum + moment.count, 0);
    const [begun] = fits;
    const last = fits.at(-1);
    if (on === 0 || begun === undefined || last === undefined || cells.some((it) => it.unsure) || orderedInWords(job, name)) continue;
    const ordered = piecesOrdered(story, name, Math.max(on, used));
    const stock = stockBefore(job, name, begun.moment);
    if (ordered === undefined || stock === undefined) continue;
    // Some of it came or lay there, and the rest is still on its way: those are all that there are.
    const came = ordered.came.add(stock).compare(0) > 0 && ordered.came.compare(ordered.all) < 0;
    const had = (came ? ordered.came : ordered.all).add(stock);
    if (compare(ratio(on), had) > 0)
      out.push({ ...last, fitted: on, had, came, ordered: at, ...(first === undefined && nowhere.get(name) === at ? { unnamed: true as const } : {}) });
    else if (neverGoesBack(thing) && compare(ratio(used), had) > 0) out.push({ ...last, fitted: used, had, came, again: true, ordered: at });
    else {
      const early = beforeItCame(story, name, fits);
      if (early !== undefined) out.push({ ...early, came: true, ordered: at });
    }
  }
  return out;
}

/**
 * The first line by which more new ones are in than had come by that day, where some had come: the rest came later. Undefined where one went in twice, or where a figure
 * may have meant packs.
 */
function beforeItCame(
  story: Story,
  name: string,
  fits: readonly { readonly cell: PartCell | FastenerCell; readonly moment: PartMoment | FastenerMoment }[],
): Pick<BeyondOrders, "cell" | "moment" | "fitted" | "had"> | undefined {
  const { job } = story;
  const item = itemNamed(job, name);
  const { key } = item;
  if ((offersOf([story]).get(key) ?? []).some((it) => it.pack !== undefined)) return undefined;
  const shelf = shelfOf([story]);
  const lines = (linesByKey(shelf).get(key) ?? []).filter((it) => it.status !== "cancelled" && it.status !== "returned");
  // None had come: that is said of the order.
  if (lines.some((it) => it.item.key !== key || it.amount.unit !== undefined) || !lines.some((it) => it.status === "received")) return undefined;
  if (isFittedAgain(fits)) return undefined;
  const uses = fits.map(({ moment }) => ({ item, amount: { value: ratio(moment.count) }, moment }));
  const index = firstBeyond(shelf, key, "count", uses);
  const fit = fits[index];
  if (fit === undefined) return undefined;
  const fitted = fits.slice(0, index + 1).reduce((sum, { moment }) => sum + moment.count, 0);
  return { ...fit, fitted, had: ratio(fitted).sub(shelf.beyond(key, "count", uses.slice(0, index + 1))) };
}

/** More went in than are in: one came off again, or was spoilt. */
function isFittedAgain(fits: readonly { readonly cell: PartCell | FastenerCell; readonly moment: PartMoment | FastenerMoment }[]): boolean {
  const cells = new Set(fits.map(({ cell }) => cell));
  const on = [...cells].reduce((sum, cell) => sum + countOf(cell.now.lots.filter((lot) => lot.isNew)), 0);
  return fits.reduce((sum, { moment }) => sum + moment.count, 0) > on;
}

function isReturned(job: Job, name: string): boolean {
  return (ordersOf(job).items.get(name) ?? []).some(({ status }) => status?.status === "returned");
}

/** Somebody offers it of whom other things were ordered: then it was to be bought, and no line says that it was. */
export function offeredByAnOrdered(story: Story, shelf: Shelf, key: string): Where | undefined {
  const offers = offersOf([story]).get(key) ?? [];
  return offers.find(({ supplier }) => supplier !== undefined && cameFrom(shelf).has(supplier.name))?.where;
}

const cameFrom = memo((shelf: Shelf) => new Set(shelf.lines.filter((line) => line.status === "received").map((line) => line.supplier)));

/** What is matched with something that came, has a price of its own with somebody of whom other things came, and stands in no order: one half of a pair was forgotten. */
function fellowsOfferedOnly(story: Story): readonly string[] {
  const { job } = story;
  const { items } = ordersOf(job);
  const names: string[] = [];
  for (const thing of job.things.values()) {
    if (thing.kind !== "part") continue;
    const pairs = thing.matchedWith.flatMap(({ text }) => [
      [thing.name, text],
      [text, thing.name],
    ]);
    for (const [name, fellow] of pairs as [string, string][]) {
      const came = (items.get(fellow) ?? []).filter(({ status }) => status?.status === "received");
      if (items.has(name) || came.length === 0 || came.some(({ entry }) => entry.details.some((it) => it.kind === "note" && ofBoth.test(it.text?.value ?? ""))))
        continue;
      if (offeredByAnOrdered(story, shelfOf([story]), itemNamed(job, name).key) !== undefined) names.push(name);
    }
  }
  return names;
}

/** Critical, decided to be renewed, and new ones are in; others that were decided so came by an order that was made for them, and no order, count or offer names this. */
function renewedFromNowhere(story: Story): ReadonlyMap<string, Where> {
  const { items, work, stocked } = ordersOf(story.job);
  const decided = [...findingsOf(story)].flatMap(([name, all]) => {
    const by = all.find((it) => it.decision?.detail.decision === "renew");
    return by?.decision === undefined || wordsIn(by.entry).some((it) => gotFrom.test(it)) ? [] : [{ name, at: by.decision.where }];
  });
  const came = decided.filter(({ name }) => (items.get(name) ?? []).some(({ status }) => status?.status === "received"));
  const out = new Map<string, Where>();
  if (came.length === 0) return out;
  for (const { name, at } of decided) {
    const thing = story.job.things.get(name);
    if (thing?.kind === "part" && thing.critical && !items.has(name) && !work.has(name) && !stocked.has(name) && !isToldWhence(story, name)) out.set(name, at);
  }
  return out;
}

function isToldWhence(story: Story, name: string): boolean {
  return story
    .cells(name)
    .some((cell) => cell.kind === "part" && newFits(cell).some(({ visit }) => visit !== undefined && wordsIn(visit.entry).some((it) => gotFrom.test(it))));
}

/** Where one comes from that was not ordered. */
const gotFrom =
  /\b(from (the |a |an |his |her |our |my |\p{Lu})|off (the|an?) (spare|other|donor|scrap)|spares?|shelf|donor|bought|paid|counter|made|turned up|given|gift|lent|swapped|exchange\w*|had (it|one|them|two)|in stock|drawer|stores?)\b/u;

const ofBoth = /\b(pairs?|sets?|both|complete|together|matched|with)\b/i;

/** An order or a count of which a line can't be read may have said that more came. */
export function isRead(entry: Entry): boolean {
  if (entry.kind === "order") return entry.fault === undefined && entry.details.every((it) => it.fault === undefined);
  return entry.kind !== "stock" || entry.fault === undefined;
}

/** Parts that lock another: they go in by `lock`, and are counted there unless they are fitted by a line of their own. */
function lockingParts(job: Job): ReadonlySet<string> {
  const names = new Set<string>();
  for (const thing of job.things.values()) {
    const part = thing.kind === "fastener" ? thing.locking?.locking.part : undefined;
    if (part !== undefined) names.add(part.text);
  }
  return names;
}

function newFits(cell: PartCell | FastenerCell): (PartMoment | FastenerMoment)[] {
  return (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.verb === "fit" && it.isNew && it.phase === "done");
}

/** Some order asks in words for what may be the same thing. */
function orderedInWords(job: Job, name: string): boolean {
  const thing = job.things.get(name);
  const words = wordsOrdered(job);
  if (words.length === 0) return false;
  const titles = [name, thing?.title ?? "", thing !== undefined && "number" in thing ? (thing.number ?? "") : ""].map(plain).filter((it) => it !== "");
  return words.some((text) => titles.some((title) => text.includes(title) || title.includes(text)));
}

function plain(text: string): string {
  return text
    .normalize("NFC")
    .toLowerCase()
    .replace(/[\s-]+/g, " ")
    .trim();
}

/**
 * Undefined where it can't be told in pieces. Where an offer is by the pack, a figure may well have meant packs, and is taken so where it is no more than one above twice the packs
 * that went in: nobody who needs one pack orders five.
 */
function piecesOrdered(story: Story, name: string, used: number): { readonly all: Exact; readonly came: Exact } | undefined {
  const { job } = story;
  const { key } = itemNamed(job, name);
  if ((ordersOf(job).items.get(name) ?? []).some(({ detail }) => amountOfItem(detail.item, detail.amount) === undefined)) return undefined;
  let pack = ratio(1);
  for (const offer of offersOf([story]).get(key) ?? []) {
    if (offer.pack === undefined) continue;
    if (offer.pack.unit !== undefined) return undefined;
    if (compare(offer.pack.value, pack) > 0) pack = offer.pack.value;
  }
  let sum = zero;
  let came = zero;
  for (const line of linesByKey(shelfOf([story])).get(key) ?? []) {
    if (line.status === "cancelled" || line.status === "returned") continue;
    if (line.amount.unit !== undefined) return undefined;
    sum = sum.add(line.amount.value);
    if (line.status === "received") came = came.add(line.amount.value);
  }
  const isPacks = compare(sum, ratio(used).div(pack).ceil().mul(2).add(1)) <= 0;
  return isPacks ? { all: sum.mul(pack), came: came.mul(pack) } : { all: sum, came };
}

/** How many new ones came by orders and did not go back; undefined where it can't be told in pieces, or where a figure may have meant packs. */
export function piecesCame(story: Story, name: string): Exact | undefined {
  if ((offersOf([story]).get(itemNamed(story.job, name).key) ?? []).some((it) => it.pack !== undefined)) return undefined;
  return piecesOrdered(story, name, 0)?.came;
}

/** What was counted before the first new one went in; undefined where it was counted afterwards, for then nobody knows how many there were. */
function stockBefore(job: Job, name: string, begun: PartMoment | FastenerMoment): Exact | undefined {
  const from = job.own.sheet.entries.indexOf(begun.where.entry);
  let sum = zero;
  for (const { path, position, entry } of stocksIn(job)) {
    if (!isOf(entry, name)) continue;
    const amount = amountOfItem(entry.item, entry.amount);
    const day = entry.date?.text;
    const later = day !== undefined && begun.day !== undefined ? day >= begun.day : path === job.path && position > from;
    if (amount === undefined || amount.unit !== undefined || later) return undefined;
    sum = sum.add(amount.value);
  }
  return sum;
}

/** What this sheet counts in stock by its name: whoever counted it says how many there were. */
function countedHere(job: Job): readonly string[] {
  return stocksIn(job).flatMap(({ path, entry }) => (path === job.path && entry.item?.kind === "name" ? [entry.item.name.text] : []));
}

function countedAt(job: Job, name: string): Where | undefined {
  const stock = stocksIn(job).find(({ path, entry }) => path === job.path && isOf(entry, name));
  return stock === undefined ? undefined : where(stock.path, stock.entry, 0, stock.entry.keyword);
}

/** Lines of orders by what is ordered, of whatever thread. */
const linesByKey = memo((shelf: Shelf) => grouped(shelf.lines, (it) => it.item.threaded?.unthreaded ?? it.item.key));

const stocksIn = memo((job: Job) =>
  job.files.flatMap(({ path, sheet }) => sheet.entries.flatMap((entry, position) => (entry.kind === "stock" ? [{ path, position, entry }] : []))),
);

/** What orders name in words of their own, and by no name. */
const wordsOrdered = memo((job: Job) =>
  job.files.flatMap(({ sheet }) =>
    sheet.entries.flatMap((entry) =>
      entry.kind !== "order" ? [] : entry.details.flatMap((it) => (it.kind === "item" && it.item?.kind === "text" ? [plain(it.item.text.value)] : [])),
    ),
  ),
);

function isOf(entry: Extract<Entry, { kind: "stock" }>, name: string): boolean {
  return entry.item?.kind === "name" && entry.item.name.text === name;
}

/** A fluid that was filled in, and of which no order had come by then; nothing of it was in stock. */
export interface FluidBeyond {
  readonly cell: FluidCell;
  readonly moment: FluidMoment;
  readonly coming: Coming | undefined;
  /** Nothing names it but the decision to renew it: it may have been bought over the counter, and nobody wrote that. */
  readonly unnamed?: boolean;
  /** An order that names it, or a count of it; of half a pair that none names, an offer. */
  readonly ordered: Where;
}

export function fluidsBeyond(story: Story): FluidBeyond[] {
  const { job } = story;
  const { items, stocked } = ordersOf(job);
  const out: FluidBeyond[] = [];
  const said = new Set<string>();
  for (const cell of story.fluids) {
    const { name } = cell.thing;
    const [first] = items.get(name) ?? [];
    if (first === undefined || cell.unsure || stocked.has(name) || said.has(name) || orderedInWords(job, name)) continue;
    const isOff = (items.get(name) ?? []).every(({ status }) => status?.status === "cancelled" || status?.status === "returned");
    const moment = cell.history.find(
      (it) => it.verb === "fill" && it.phase === "done" && (isOff || comesOn(job, name, dayWithWhatCame(job, it)) !== undefined),
    );
    if (moment === undefined) continue;
    said.add(name);
    const at = where(first.file, first.entry, first.detail.row, first.detail.item?.at ?? first.detail.keyword);
    out.push({ cell, moment, coming: isOff ? undefined : comesOn(job, name, dayWithWhatCame(job, moment)), ordered: at });
  }
  return out;
}
