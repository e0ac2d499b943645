// Needs against the shelf: for each item what is short and where it would be bought, what is on order beyond the need, and what waits for an answer.
// Invariant: the needs of all jobs first, then one shelf; an item that waits for an answer is neither short nor surplus. What is on hold is not ordered: it is bought with
// the rest, of its own supplier at its own price, as long as nothing else is chosen.
import type { Entry } from "../../grammar/tree.ts";
import { kindDeclared } from "../model/declare.ts";
import { type Exact, compare, one, orNothing, zero } from "../quantities/exact.ts";
import { type Unit, unitOf } from "../quantities/units.ts";
import { type Amount, type Item, alike, dimensionOfAmount, inUnitOf, isFromABottle, keyOfThing, lockingKey, totalAmount } from "./items.ts";
import type { PlacedNeed, Reason, Waiting } from "./need.ts";
import { needing, needsOf } from "./needs.ts";
import type { ChoiceMade, Choosing } from "./choose.ts";
import { cheapestGoods, findingCheapest } from "./combine.ts";
import { type OnHold, chosenWithHeld, heldOf, heldPurchases, onHoldOf, withHeld } from "./held.ts";
import { offering, offersFor } from "./listed-offers.ts";
import { type NotOrdered, notOrderedOf } from "./not-ordered.ts";
import type { Offer, Purchase } from "./offers.ts";
import type { Wanted } from "./order-model.ts";
import { filesOf } from "./files.ts";
import type { OrderLine } from "./order-lines.ts";
import { readingPrices } from "./prices.ts";
import type { Draft, SupplyRow } from "./supply-row.ts";
import { type Shelf, shelfOf, shelving } from "./shelf.ts";
import type { Story } from "../story/story.ts";
import { judging } from "../story/verdicts.ts";
import { type SurplusLine, findingSurplus } from "./surplus.ts";
import { memoSliced, once } from "../model/memo.ts";
import { type Slices, carriedOn, runThrough } from "../../grammar/slices.ts";
import { putInto } from "../model/grouped.ts";

/** What is on order of an item is too little. The line is the last of that item. */
export interface ShortLine {
  readonly line: OrderLine;
  readonly row: SupplyRow;
}

export interface WaitingRow {
  readonly item: Item;
  readonly question: string;
  readonly amount: Amount | undefined;
  /** The amount is what is on order, not what was found. */
  readonly onOrder: boolean;
  readonly places: readonly string[];
  readonly where: Waiting["where"];
}

export interface Supply {
  readonly rows: readonly SupplyRow[];
  readonly surplus: readonly SurplusLine[];
  readonly surplusInSlices: () => Slices<readonly SurplusLine[]>;
  readonly short: readonly ShortLine[];
  readonly waiting: readonly WaitingRow[];
  /** What came and was not ordered. */
  readonly notOrdered: readonly NotOrdered[];
  /** How the offers were chosen, where a way was asked for. */
  readonly choice?: ChoiceMade;
  /** The orders on hold, and what they are weighed against. A check never asks, so it is worked out when somebody does. */
  readonly onHold: OnHold | undefined;
  /** What each job would buy by itself, where there are several: the shelf and what is on order serve the first of them first. Worked out when it is asked for. */
  readonly jobByJob: readonly (readonly Purchase[])[] | undefined;
}

/** Without a way to choose, each thing is taken from the seller whose goods are cheapest. */
export function* supplyingAll(stories: readonly Story[], choosing?: Choosing): Slices<Supply> {
  for (const story of stories) yield* supplying(story);
  const [story, other] = stories;
  return story !== undefined && other === undefined && choosing === undefined ? yield* ofOne.sliced(story) : yield* workedOut(stories, choosing);
}

/** So many rows a slice. */
const someRows = 50;

function* workedOut(stories: readonly Story[], choosing?: Choosing): Slices<Supply> {
  const shelf = shelfOf(stories);
  yield;
  const offers = offersFor(stories);
  const waiting = waitingRows(stories, shelf);
  yield;
  const unsorted: Draft[] = [];
  for (const needs of needsByItem(stories).values()) if (unsorted.push(yield* draftOf(needs, shelf, offers, stories)) % someRows === 0) yield;
  yield;
  const drafts = yield* inOrder(unsorted, stories);
  yield;
  const wanted = drafts.filter((it) => it.wants !== undefined);
  const choice = choosing === undefined ? undefined : choosing(wanted.map(withHeld), stories, { next: true });
  const takenFor = new Map(wanted.map((it, i) => [it, choice?.taken[i]]));
  const rows: SupplyRow[] = [];
  for (const it of drafts) {
    const purchases = choice === undefined ? yield* asItStands(it) : it.wants === undefined ? [] : chosenWithHeld(it, takenFor.get(it) ?? []);
    if (rows.push(yield* rowOf(it, purchases)) % someRows === 0) yield;
  }
  const byKey = new Map(rows.map((row) => [row.item.key, row]));
  const held = new Set(waiting.map((it) => it.item.key));
  const short = rows.flatMap((row) => {
    const line = shelf.onOrder(row.item.key).at(-1);
    return line !== undefined && row.shortfall !== undefined && compare(row.shortfall.value, zero) > 0 ? [{ line, row }] : [];
  });
  const surplus = carriedOn(findingSurplus(shelf, byKey, held, offers, stories));
  const onHold = once(() => onHoldOf(wanted, rows, stories, choosing, choice));
  const jobByJob = once(() => (stories.length < 2 ? undefined : boughtAlone(wanted, stories, choosing)));
  return {
    rows,
    get surplus() {
      return runThrough(surplus());
    },
    surplusInSlices: surplus,
    short,
    waiting,
    notOrdered: notOrderedOf(shelf),
    ...(choice === undefined ? {} : { choice }),
    get onHold() {
      return onHold();
    },
    get jobByJob() {
      return jobByJob();
    },
  };
}

/** What is on hold, and the rest of what is short from the seller whose goods are cheapest. */
function* asItStands({ row, held, offers }: Draft): Slices<readonly Purchase[]> {
  const short = row.shortfall !== undefined && compare(row.shortfall.value, zero) > 0 ? row.shortfall : undefined;
  return [...(held.length === 0 ? [] : heldPurchases(held)), ...(short === undefined ? [] : yield* findingCheapest(offers, short))];
}

/** What each job would buy by itself. */
function boughtAlone(drafts: readonly Draft[], stories: readonly Story[], choosing: Choosing | undefined): readonly (readonly Purchase[])[] {
  const wants = new Map<string, Wanted[]>(stories.map((story) => [story.job.path, []]));
  for (const { row, wants: all, offers } of drafts) {
    const { need } = row;
    if (all === undefined || need === undefined || offers.length === 0) continue;
    // What is there serves the jobs in their order.
    let before = zero;
    for (const { job, amount } of row.jobs) {
      if (amount === undefined || !alike(amount, need)) continue;
      const covered = orNothing(need.value.sub(all.value).sub(before));
      const value = orNothing(amount.value.sub(covered));
      before = before.add(amount.value);
      if (value.n !== 0n) wants.get(job)?.push({ short: { ...all, value }, offers });
    }
  }
  return [...wants.values()].map((own) =>
    choosing === undefined ? own.flatMap((it) => cheapestGoods(it.offers, it.short)) : choosing(own, stories).taken.flat(),
  );
}

/** The supply of one job, for what is said in its own sheet. */
const ofOne = memoSliced((story: Story) => workedOut([story]));
export const supplyOfOne: (story: Story) => Supply = ofOne.whole;

/** The same, worked out in slices for those who ask for it afterwards. */
export function* supplying(story: Story): Slices<void> {
  yield* judging(story);
  yield* needing(story);
  yield;
  yield* shelving(story);
  yield;
  yield* readingPrices(story.job);
  yield* offering(story);
  yield* ofOne.sliced(story);
  yield;
}

// ---------------------------------------------------------------- rows

/** Parts, fasteners, locking, fluids, the rest; each in the order of its declarations, then as first needed. */
function* inOrder(rows: readonly Draft[], stories: readonly Story[]): Slices<Draft[]> {
  const ranks = new Map<string, number>();
  for (const { job, file } of filesOf(stories.map((story) => story.job))) {
    for (const [i, entry] of file.sheet.entries.entries()) {
      if (i % manyNeeds === manyNeeds - 1) yield;
      if (kindDeclared(entry) === undefined) continue;
      const name = (entry as { name?: { text: string } }).name?.text;
      const thing = name === undefined ? undefined : job.things.get(name);
      if (thing === undefined || thing.entry !== entry) continue;
      ranks.set(keyOfThing(thing.name, thing), ranks.size);
      // Locking stands in the order of the fasteners that declare it.
      if (thing.kind !== "fastener" || thing.locking === undefined || thing.locking.locking.kind === "part") continue;
      const key = lockingKey(thing.locking.locking);
      if (!ranks.has(key)) ranks.set(key, ranks.size);
    }
  }
  yield;
  const rank = ({ row }: Draft) => ranks.get(row.item.threaded?.unthreaded ?? row.item.key) ?? Number.MAX_SAFE_INTEGER;
  return rows
    .map((it) => ({ it, kind: kinds.indexOf(it.row.item.kind), rank: rank(it) }))
    .sort((a, b) => a.kind - b.kind || a.rank - b.rank)
    .map(({ it }) => it);
}
const kinds: readonly Item["kind"][] = ["part", "fastener", "locking", "fluid", "shims", "text"];

/** What a job needs of an item at a place. */
interface JobNeed extends PlacedNeed {
  readonly job: string;
}

function needsByItem(stories: readonly Story[]): Map<string, JobNeed[]> {
  const byItem = new Map<string, JobNeed[]>();
  // A `need` line in a file that several jobs use asks once, for the first of them.
  const homes = new Map(filesOf(stories.map((story) => story.job)).map(({ job, file }) => [file.path, job]));
  for (const story of stories) {
    for (const need of needsOf(story).needed) {
      const line = need.reasons[0]?.where;
      if (line?.entry.kind === "need" && homes.get(line.file) !== story.job) continue;
      putInto(byItem, need.item.key, { ...need, job: story.job.path });
    }
  }
  return byItem;
}

function* rowOf({ row, wants, offers }: Draft, purchases: readonly Purchase[]): Slices<SupplyRow> {
  const [first] = purchases;
  if (wants !== undefined && first !== undefined) return { ...row, purchases, offer: first.offer };
  const wanted = row.need === undefined || row.need.value.n === 0n ? { ...row.stock, value: one } : row.need;
  // Of a few offers it is looked for when somebody asks.
  if (offers.length > manyOffers) return { ...row, purchases, offer: (yield* findingCheapest(offers, wanted))[0]?.offer };
  const would = once(() => cheapestGoods(offers, wanted)[0]?.offer);
  return {
    ...row,
    get offer() {
      return would();
    },
  };
}

const manyOffers = 100;

/** What thousands ask for of one thing is added up in slices. */
const manyNeeds = 1000;

function* draftOf(needs: readonly JobNeed[], shelf: Shelf, offers: (item: Item) => readonly Offer[], stories: readonly Story[]): Slices<Draft> {
  const { item } = needs[0] as JobNeed;
  const first = needs.find((it) => it.amount?.unit !== undefined)?.amount ?? needs.find((it) => it.amount !== undefined)?.amount;
  const like: Amount = first ?? (item.kind === "fluid" ? { value: zero, unit: unitOf("ml") as Unit } : { value: zero });
  const counted = needs.filter((it) => it.amount !== undefined && alike(it.amount, like));
  const all = yield* adding(counted.map((it) => it.amount as Amount));
  const bottle = isFromABottle(item);
  const need = first === undefined ? undefined : inUnitOf({ value: bottle && compare(all, one) > 0 ? one : all }, like);
  const dimension = dimensionOfAmount(like);
  // Of a bottle on the shelf nobody counts the drops.
  const inBottles = bottle && shelf.otherwise(item.key, dimension);
  const stock = inUnitOf({ value: inBottles ? one : shelf.stock(item.key, dimension) }, like);
  const open = shelf.onOrder(item.key).filter((line) => alike(line.amount, like));
  const onOrder = inUnitOf({ value: totalAmount(open.filter((line) => line.status !== "held").map((line) => line.amount)) }, like);
  const missing = need === undefined ? undefined : inUnitOf({ value: orNothing(need.value.sub(stock.value).sub(onOrder.value)) }, like);
  const wants = missing !== undefined && compare(missing.value, zero) > 0 ? missing : undefined;
  const offered = offers(item);
  // What would not go on its thread is no source, however cheap.
  const list = offered.filter((offer) => !offer.unlike);
  const held = wants !== undefined && open.some((it) => it.status === "held") ? heldOf(open, wants, list, stories) : [];
  const onHold = inUnitOf({ value: totalAmount(held.map((it) => it.amount)) }, like);
  if (needs.length > manyNeeds) yield;
  const places = summed(needs, (it) => it.place).map(([place, amount]) => ({ place, amount }));
  if (needs.length > manyNeeds) yield;
  const jobs = summed(needs, (it) => it.job).map(([job, amount]) => ({ job, amount }));
  if (needs.length > manyNeeds) yield;
  const row: SupplyRow = {
    item: { ...item, written: firstWritten(needs) },
    need,
    partly: counted.length < needs.length,
    places,
    jobs,
    reasons: distinct(needs.flatMap((it) => it.reasons)),
    stock,
    onOrder,
    held: onHold,
    shortfall: missing === undefined ? undefined : inUnitOf({ value: orNothing(missing.value.sub(onHold.value)) }, like),
    unlike: !inBottles && shelf.otherwise(item.key, dimension),
    threadUnsaid: shelf.threadUnsaid(item.key),
    refused: offered.filter((offer) => offer.unlike),
    purchases: [],
    offer: undefined,
  };
  return { row, wants, held, offers: list };
}

/** Written `1/8` here and `0.125` there, it is shown as the first that needs it writes it. */
function firstWritten(needs: readonly PlacedNeed[]): string {
  return (needs[0] as PlacedNeed).item.written;
}

/** Amounts added up by what the needs have in common; what can't be added up leaves the first. */
function summed(needs: readonly JobNeed[], by: (need: JobNeed) => string): [string, Amount | undefined][] {
  const sums = new Map<string, Amount | undefined>();
  for (const need of needs) {
    const other = sums.get(by(need));
    const { amount } = need;
    const both = other !== undefined && amount !== undefined && alike(other, amount) ? { ...other, value: other.value.add(amount.value) } : (other ?? amount);
    sums.set(by(need), both);
  }
  return [...sums];
}

/** A line is named once for a place, by the first thing that it does there. */
function distinct(reasons: readonly Reason[]): Reason[] {
  const seen = new Map<Entry, Set<string>>();
  return reasons.filter(({ where, place }) => {
    const here = seen.get(where.entry) ?? new Set();
    seen.set(where.entry, here);
    const key = `${where.row} ${place}`;
    return !here.has(key) && here.add(key);
  });
}

// ---------------------------------------------------------------- waiting

function waitingRows(stories: readonly Story[], shelf: Shelf): WaitingRow[] {
  const rows = new Map<string, WaitingRow>();
  for (const it of stories.flatMap((story) => needsOf(story).waiting)) {
    const key = `${it.item.key} ${it.question}`;
    const before = rows.get(key);
    const ordered = shelf.onOrder(it.item.key);
    const [first] = ordered;
    const amount =
      it.amount ??
      (first === undefined
        ? undefined
        : { ...first.amount, value: totalAmount(ordered.flatMap((line) => (alike(line.amount, first.amount) ? [line.amount] : []))) });
    if (before === undefined)
      rows.set(key, {
        item: it.item,
        question: it.question,
        amount,
        onOrder: it.amount === undefined && first !== undefined,
        places: it.places,
        where: it.where,
      });
    else if (before.amount !== undefined && it.amount !== undefined && !before.onOrder && alike(before.amount, it.amount)) {
      rows.set(key, { ...before, amount: { ...before.amount, value: before.amount.value.add(it.amount.value) }, places: [...before.places, ...it.places] });
    }
  }
  return [...rows.values()];
}

/** The same in slices. */
function* adding(amounts: readonly Amount[]): Slices<Exact> {
  let sum = zero;
  for (const [i, it] of amounts.entries()) {
    sum = sum.add(it.value);
    if (i % manyNeeds === manyNeeds - 1) yield;
  }
  return sum;
}
