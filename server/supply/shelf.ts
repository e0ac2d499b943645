// What the shelf holds and what is on its way: stock as of its day, orders received since, less what done work has used up after that.
// Invariant: a count holds for its day and its shelf and is never below nothing; a line in a file that several jobs use is counted once.
import { grouping, putInto } from "../model/grouped.ts";
import type { Entry, SheetEntry } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import type { JobFile } from "../model/job-files.ts";
import { isMentioned } from "../model/orders.ts";
import { type Exact, compare, zero } from "../quantities/exact.ts";
import type { Dimension } from "../quantities/units.ts";
import { type Amount, type Item, amountOfItem, dimensionOfAmount, itemOf, totalAmount } from "./items.ts";
import { filesOf } from "./files.ts";
import { dayWithWhatCame } from "../story/came-above.ts";
import type { Use } from "./need.ts";
import { needsOf } from "./needs.ts";
import { type OrderLine, linesOfOrder, saysThatItCame } from "./order-lines.ts";
import { Shelves } from "./shelves.ts";
import { neededByThread, shared, threadOfSeller } from "./shelf-by-thread.ts";
import type { Story } from "../story/story.ts";
import { memoSliced } from "../model/memo.ts";
import { type Slices, runThrough, someAtOnce } from "../../grammar/slices.ts";

export interface Shelf {
  /** What is held of an item, in pieces or in the base unit of that dimension. */
  stock(key: string, dimension: Dimension): Exact;
  /** What done work has used beyond what was on the shelf: it can only have come from what is on its way, though no order says so yet. */
  drawnAhead(key: string, dimension: Dimension): Exact;
  /** By how much these uses go beyond what was counted and what came by their days; where one of them has no day, by their lines at least. */
  beyond(key: string, dimension: Dimension, uses: readonly Use[]): Exact;
  /** Lines of orders held, placed or sent, as written. */
  onOrder(key: string): readonly OrderLine[];
  /** Kept on the shelf or on order, but in what can't be compared with the need (pieces of a wire that is needed by length). */
  otherwise(key: string, dimension: Dimension): boolean;
  /** Some of what is there may be of this thread or of another of the same fastener: nobody says. */
  threadUnsaid(key: string): boolean;
  /** Every line of every order, as written. */
  readonly lines: readonly OrderLine[];
}

/** What happens to the shelf, in the order of `at`. */
interface Change {
  readonly at: readonly [day: string, rank: number, position: number];
  readonly kind: "count" | "in" | "out";
  readonly amount: Amount;
  /** The shelf that was counted, as written. */
  readonly shelf?: string;
  /** Where it stands in the job's own sheet; before all of it where it stands in another file. */
  readonly position: number;
  /** It came, and nobody wrote on which day. */
  readonly isUndated?: boolean;
}

/** Within a day: what came in the morning, what was done and counted in the order of the sheet, what was counted at the end of the day. */
const morning = 0;
const inOrder = 1;
const evening = 2;

/** Work of which nobody says the day comes behind every count that has one, better to order one too many than to stand without. */
const someday = "9999";

/** One shelf for all jobs that are given. A file that several of them use is read once, in the words of the first. */
export function shelfOf(stories: readonly Story[]): Shelf {
  const [story, other] = stories;
  return story !== undefined && other === undefined ? ofOne.whole(story) : runThrough(stocked(stories));
}

/** The supply of a job and its plan both ask for it. */
const ofOne = memoSliced((story: Story) => stocked([story]));

/** The same, worked out in slices for those who ask for it afterwards. */
export function* shelving(story: Story): Slices<void> {
  yield* ofOne.sliced(story);
}

function* stocked(stories: readonly Story[]): Slices<Shelf> {
  const changes = new Map<string, Change[]>();
  const lines: OrderLine[] = [];
  const put = (item: Item, change: Change) => {
    putInto(changes, item.key, change);
  };
  const byThread = neededByThread(stories);
  const named = byThread.size === 0 ? (_job: Job, item: Item) => item : threadOfSeller(stories);
  const positions = new Map<Entry, Position>();
  for (const story of stories) story.job.own.sheet.entries.forEach((entry, at) => positions.set(entry, { at, job: story.job }));
  for (const { job, file } of filesOf(stories.map((story) => story.job))) yield* readFile(job, file, lines, put, named, positions);
  const open = new Map<string, OrderLine[]>();
  for (const line of lines) {
    if (line.status !== "held" && line.status !== "placed" && line.status !== "sent") continue;
    putInto(open, line.item.key, line);
  }
  for (const use of stories.flatMap((story) => needsOf(story).used)) {
    const { threaded } = use.item;
    // A new one whose thread no order and no seller names came from among those of which nobody says it.
    const isKnown = threaded === undefined || changes.has(use.item.key) || open.has(use.item.key);
    put(isKnown ? use.item : { ...use.item, key: threaded.unthreaded }, usedUp(use, positions));
  }
  const balances = new Map<string, Balance>();
  for (const [key, list] of changes)
    for (const [dimension, ofIt] of yield* grouping(list, (it) => dimensionOfAmount(it.amount))) balances.set(`${dimension} ${key}`, yield* balancing(ofIt));
  const held = (key: string, dimension: Dimension) => balances.get(`${dimension} ${key}`)?.held ?? zero;
  const lent = sharedByThread(byThread, held, open);
  return {
    lines,
    stock: (key, dimension) => (dimension === "count" ? held(key, dimension).add(lent.stock.get(key) ?? zero) : held(key, dimension)),
    threadUnsaid: (key) => lent.unsaid.has(key),
    drawnAhead: (key, dimension) => balances.get(`${dimension} ${key}`)?.lacking ?? zero,
    beyond: (key, dimension, uses) => {
      const there = (changes.get(key) ?? []).filter((it) => it.kind !== "out" && dimensionOfAmount(it.amount) === dimension);
      const all = [...there, ...uses.map((use) => usedUp(use, positions))];
      const byDay = balance(all).lacking;
      const isUndated = uses.some((use) => use.moment.day === undefined) || there.some((it) => it.isUndated === true);
      if (byDay.n === 0n || !isUndated) return byDay;
      // Of work or a parcel without a day nobody knows which of the two came first, unless the work stands above the parcel.
      const byLine = balance(all.map(({ shelf: _, ...it }) => ({ ...it, at: ["", inOrder, it.position] as const }))).lacking;
      return compare(byLine, byDay) < 0 ? byLine : byDay;
    },
    onOrder: (key) => open.get(key) ?? [],
    otherwise: (key, dimension) =>
      [...(changes.get(key) ?? []).filter((it) => it.kind !== "out"), ...(open.get(key) ?? [])].some((it) => dimensionOfAmount(it.amount) !== dimension),
  };
}

/**
 * Which of these uses, in their order, is the first to go beyond what was there by its day; -1 where none does. One use more never leaves more lying there, so it is
 * looked for by halves.
 */
export function firstBeyond(shelf: Shelf, key: string, dimension: Dimension, uses: readonly Use[]): number {
  const isBeyond = (count: number) => shelf.beyond(key, dimension, uses.slice(0, count)).compare(0) > 0;
  if (!isBeyond(uses.length)) return -1;
  let [enough, short] = [0, uses.length];
  while (short - enough > 1) {
    const half = (enough + short) >> 1;
    if (isBeyond(half)) short = half;
    else enough = half;
  }
  return short - 1;
}

/** Stock and orders that name no thread serve those of which something is needed, one behind the other. What is lent to them is taken off there, and the orders are moved. */
function sharedByThread(
  byThread: ReturnType<typeof neededByThread>,
  held: (key: string, dimension: Dimension) => Exact,
  open: Map<string, OrderLine[]>,
): { readonly stock: ReadonlyMap<string, Exact>; readonly unsaid: ReadonlySet<string> } {
  const stock = new Map<string, Exact>();
  const unsaid = new Set<string>();
  for (const [unthreaded, needs] of byThread) {
    const there = held(unthreaded, "count");
    const unnamed = open.get(unthreaded) ?? [];
    if (there.n === 0n && unnamed.length === 0) continue;
    for (const { item } of needs) unsaid.add(item.key);
    const ordered = (key: string) => totalAmount((open.get(key) ?? []).map((line) => line.amount));
    let wants = needs.map(({ item, amount }) => amount.value.sub(held(item.key, "count")).sub(ordered(item.key)));
    const take = (from: Exact) => {
      const { shares, left } = shared(from, wants);
      wants = wants.map((want, i) => want.sub(shares[i] as Exact));
      return { shares, left };
    };
    const fromStock = take(there);
    for (const [i, { item }] of needs.entries()) stock.set(item.key, fromStock.shares[i] as Exact);
    stock.set(unthreaded, fromStock.left.sub(there));
    const rest: OrderLine[] = [];
    for (const line of unnamed) {
      const { shares, left } = take(line.amount.value);
      for (const [i, { item }] of needs.entries()) {
        const value = shares[i] as Exact;
        if (value.n !== 0n) putInto(open, item.key, { ...line, item, amount: { value } });
      }
      if (left.n !== 0n) rest.push({ ...line, amount: { ...line.amount, value: left } });
    }
    open.set(unthreaded, rest);
  }
  return { stock, unsaid };
}

type Balance = Pick<Shelves, "held" | "lacking">;

function balance(changes: readonly Change[]): Balance {
  return runThrough(balancing(changes));
}

function* balancing(changes: readonly Change[]): Slices<Balance> {
  const dated = changes.some((it) => it.kind === "count" && it.at[0] !== "");
  const sorted = changes
    .map((it) => (it.kind === "out" && it.at[0] === "" && dated ? { ...it, at: [someday, ...it.at.slice(1)] as unknown as Change["at"] } : it))
    .sort(byTime);
  const shelves = new Shelves();
  for (const [i, { kind, amount, shelf, at }] of sorted.entries()) {
    if (i % someAtOnce === someAtOnce - 1) yield;
    if (kind === "out") shelves.isUsed(amount.value);
    else if (kind === "in") shelves.comes(amount.value);
    else shelves.isCounted(amount.value, shelf, at[0]);
  }
  return shelves;
}

function byTime(a: Change, b: Change): number {
  if (a.at[0] !== b.at[0]) return a.at[0] < b.at[0] ? -1 : 1;
  return a.at[1] - b.at[1] || a.at[2] - b.at[2];
}

interface Position {
  readonly at: number;
  readonly job: Job;
}

function usedUp(use: Use, positions: ReadonlyMap<Entry, Position>): Change {
  const position = positions.get(use.moment.where.entry);
  const day = position === undefined ? use.moment.day : dayWithWhatCame(position.job, use.moment);
  return { kind: "out", amount: use.amount, at: [day ?? "", inOrder, position?.at ?? 0], position: position?.at ?? 0 };
}

function* readFile(
  job: Job,
  file: JobFile,
  lines: OrderLine[],
  put: (item: Item, change: Change) => void,
  threaded: (job: Job, item: Item, supplier: string | undefined) => Item,
  positions: ReadonlyMap<Entry, Position>,
): Slices<void> {
  let day: string | undefined;
  const received: OrderLine[] = [];
  let newest: string | undefined;
  const daysBelow = file.path === job.path ? daysBehind(file.sheet.entries) : undefined;
  for (const [position, entry] of file.sheet.entries.entries()) {
    if (position % someAtOnce === someAtOnce - 1) yield;
    if (entry.kind === "day") day = entry.date?.text ?? day;
    if (entry.kind === "sheet") day = opened(entry) ?? day;
    if (entry.kind === "stock" && entry.fault === undefined) {
      const item = itemOf(job, entry.item);
      const amount = amountOfItem(entry.item, entry.amount);
      if (item === undefined || amount === undefined) continue;
      const written = entry.date?.text;
      // Between the days of its date it stands where it was counted; anywhere else that is read as the evening.
      const inPlace = written !== undefined && day !== undefined && day <= written && written <= (daysBelow?.[position] ?? "");
      const at: Change["at"] =
        written !== undefined
          ? [written, inPlace ? inOrder : evening, position]
          : day !== undefined
            ? [day, inOrder, position]
            : ["", file.path === job.path ? inOrder : morning, position];
      const shelf = entry.where === undefined ? {} : { shelf: entry.where.value };
      put(item, { kind: "count", amount, ...shelf, at, position: positions.get(entry)?.at ?? -1 });
      if (newest === undefined || at[0] > newest) newest = at[0];
    }
    if (entry.kind === "order" && entry.fault === undefined && !isMentioned(job, entry)) {
      for (const named of linesOfOrder(job, file.path, entry, day)) {
        const line = { ...named, item: threaded(job, named.item, named.supplier) };
        lines.push(line);
        if (line.status === "received") received.push(line);
      }
    }
  }
  // Received on a day that nobody has written: it came, and no count is known to hold it already.
  for (const line of received)
    put(line.item, {
      kind: "in",
      amount: line.amount,
      at: line.day === undefined ? [newest ?? "", evening + 1, 0] : [line.day, morning, 0],
      position: positions.get(saysThatItCame(job, line))?.at ?? -1,
      isUndated: line.day === undefined,
    });
}

/** For each entry the day that is written next below it; undefined where none is. */
function daysBehind(entries: readonly Entry[]): readonly (string | undefined)[] {
  const out: (string | undefined)[] = [];
  let next: string | undefined;
  for (let i = entries.length - 1; i >= 0; i--) {
    const entry = entries[i] as Entry;
    out[i] = next;
    if (entry.kind === "day") next = entry.date?.text ?? next;
  }
  return out;
}

function opened(entry: SheetEntry): string | undefined {
  const detail = entry.details.find((it) => it.kind === "opened");
  return detail?.kind === "opened" ? detail.date?.text : undefined;
}
