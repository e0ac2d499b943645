// Every figure that an entry writes, with what belongs there: quantities in lists that may share a unit, ranges, amounts of money, plain figures.
// Invariant: one walk of an entry, remembered with it; lines that can't be read are left out, for their fault has been said.
import type { Detail, Entry, Figure, Item, LetBack, Locking, Money, Name, Quantity, Range, ThreadDetail } from "../../../../grammar/tree.ts";
import type { Dimension } from "../../../quantities/units.ts";
import { leavesOf } from "../../../model/leaves.ts";
import { quantitiesOf } from "../../../model/values.ts";
import { memoSliced } from "../../../model/memo.ts";
import { type Slices, someAtOnce } from "../../../../grammar/slices.ts";

/** Quantities of one list or range: one unit at the end serves all of them, or each has its own. */
export interface FigureGroup {
  readonly row: number;
  readonly list: readonly Quantity[];
  /** What belongs here by the entry alone; empty where anything measured may stand. */
  readonly wants: readonly Dimension[];
  /** `limit`: the limit's own dimension; `gauge`: the dimension of the gauge; `item`: what the item is counted or measured in. */
  readonly by?: "limit" | "gauge" | "item";
  readonly item?: Item;
  /** A unit need not stand: a count, or a factor in an expression. */
  readonly bare: boolean;
  /** What a machine's counter shows, or runs until something is to be looked at again. */
  readonly counter?: "shows" | "runs";
}

export interface RangeAt {
  readonly row: number;
  readonly range: Range;
  /** The keyword of its line: `torque`, `worn`. */
  readonly keyword: string;
}

export interface MoneyAt {
  readonly row: number;
  readonly money: Money;
  /** A rate of exchange may have more decimals than the currency. */
  readonly rate: boolean;
}

export interface FigureAt {
  readonly row: number;
  readonly figure: Figure;
  /** One of the figures of a reading, where a comma may have been meant to part two. */
  readonly reading: boolean;
}

export interface LockingAt {
  readonly row: number;
  readonly locking: Locking;
}

export interface Figures {
  readonly groups: readonly FigureGroup[];
  readonly ranges: readonly RangeAt[];
  readonly money: readonly MoneyAt[];
  readonly codes: readonly { readonly row: number; readonly code: Name }[];
  /** Every single figure, those of quantities and money too. */
  readonly all: readonly FigureAt[];
  readonly lockings: readonly LockingAt[];
  readonly threads: readonly ThreadDetail[];
}

const figures = memoSliced(collect);

export const figuresOf: (entry: Entry) => Figures = figures.whole;

/** The same, worked out in slices for those who ask for it afterwards. */
export const readingFigures = (entry: Entry): Slices<Figures> => figures.sliced(entry);

const length: readonly Dimension[] = ["length"];
const torque: readonly Dimension[] = ["torque"];
const time: readonly Dimension[] = ["time"];
const mass: readonly Dimension[] = ["mass"];
/** What hangs or stands is weighed, or pulls. */
const load: readonly Dimension[] = ["mass", "force"];
/** Grease is as often weighed as measured. */
export const fluidAmount: readonly Dimension[] = ["volume", "mass"];
/** What a counter on the machine counts: miles or hours. */
const running: readonly Dimension[] = ["length", "time"];
const shows = { counter: "shows" } as const;
const runs = { counter: "runs" } as const;
const ratio: readonly Dimension[] = ["ratio"];
const angle: readonly Dimension[] = ["angle"];
const temperature: readonly Dimension[] = ["temperature"];
const anything: readonly Dimension[] = [];

function* collect(entry: Entry): Slices<Figures> {
  const into = new Collector();
  if (entry.fault === undefined) collectHead(into, entry);
  for (let i = 0; i < entry.details.length; i++) {
    const detail = entry.details[i] as Detail;
    if (detail.fault === undefined) {
      into.row = detail.row;
      (ofDetails[detail.kind] as OfDetail<Detail> | undefined)?.(into, detail, entry);
    }
    if (i % someAtOnce === someAtOnce - 1) yield;
  }
  return into.figures;
}

type GroupBy = Pick<FigureGroup, "by" | "item" | "counter"> & { readonly bare?: boolean };

/** Takes in what the lines of an entry write, each at the row that is set before. */
class Collector {
  row = 0;
  readonly figures = {
    groups: [] as FigureGroup[],
    ranges: [] as RangeAt[],
    money: [] as MoneyAt[],
    codes: [] as { readonly row: number; readonly code: Name }[],
    all: [] as FigureAt[],
    lockings: [] as LockingAt[],
    threads: [] as ThreadDetail[],
  };

  plain(figure: Figure | undefined, reading = false): void {
    if (figure !== undefined) this.figures.all.push({ row: this.row, figure, reading });
  }

  list(list: readonly Quantity[], wants: readonly Dimension[], more: GroupBy = {}, reading = false): void {
    if (list.length === 0) return;
    this.figures.groups.push({ row: this.row, list, wants, bare: false, ...more });
    for (const it of list) this.plain(it.figure, reading);
  }

  one(quantity: Quantity | undefined, wants: readonly Dimension[], more: GroupBy = {}): void {
    if (quantity !== undefined) this.list([quantity], wants, more);
  }

  range(range: Range | undefined, keyword: string, wants: readonly Dimension[], more: GroupBy = {}): void {
    if (range === undefined) return;
    this.figures.ranges.push({ row: this.row, range, keyword });
    this.list(quantitiesOf(range), range.kind === "fit" && wants.length === 0 ? length : wants, more);
  }

  money(money: Money | undefined, rate = false): void {
    if (money === undefined) return;
    this.figures.money.push({ row: this.row, money, rate });
    this.plain(money.figure);
  }

  letBack(it: LetBack | undefined): void {
    this.plain(it?.flats);
    this.plain(it?.turns);
    this.one(it?.angle, angle);
  }

  locking(locking: Locking | undefined): void {
    if (locking === undefined) return;
    this.figures.lockings.push({ row: this.row, locking });
    this.list(locking.size, length);
  }

  amount(quantity: Quantity | undefined, item: Item | undefined): void {
    if (item?.kind === "locking") this.locking(item.locking);
    this.one(quantity, anything, item === undefined ? { bare: true } : { by: "item", item, bare: true });
  }
}

function collectHead(into: Collector, entry: Entry): void {
  switch (entry.kind) {
    case "rate":
      into.money(entry.one, true);
      into.money(entry.is, true);
      return;
    case "finding":
      return into.plain(entry.count);
    case "stock":
    case "need":
      return into.amount(entry.amount, entry.item);
    case "offer":
      if (entry.item?.kind === "locking") into.locking(entry.item.locking);
      return;
    case "release":
      return into.one(entry.counter, running, shows);
    default:
  }
}

const ofLimit: GroupBy = { by: "limit" };
const ofGauge: GroupBy = { by: "gauge" };

type OfDetail<D extends Detail> = (into: Collector, it: D, entry: Entry) => void;

const count: OfDetail<Extract<Detail, { kind: "each" | "qty" }>> = (into, it) => into.plain(it.count);
const limitRange: OfDetail<Extract<Detail, { kind: "new" | "worn" | "set" }>> = (into, it) => into.range(it.range, it.kind, anything, ofLimit);
const mostOfLimit: OfDetail<Extract<Detail, { kind: "spread" | "ovality" | "taper" }>> = (into, it) => into.one(it.max, anything, ofLimit);
const percent: OfDetail<Extract<Detail, { kind: "duty" | "tax" }>> = (into, it) => into.one(it.percent, ratio);
const price: OfDetail<Extract<Detail, { kind: "price" | "exchange" | "least-order" }>> = (into, it) => into.money(it.money);
const stacks: OfDetail<Extract<Detail, { kind: "have" | "fitted" }>> = (into, it) => {
  into.list(
    it.stacks.map((stack) => stack.thickness),
    length,
  );
  for (const stack of it.stacks) into.plain(stack.count);
};

/** What each kind of line writes; those that write no figure are not here. */
const ofDetails: { readonly [K in Detail["kind"]]?: OfDetail<Extract<Detail, { kind: K }>> } = {
  currency(into, it) {
    if (it.code !== undefined) into.figures.codes.push({ row: it.row, code: it.code });
  },
  counter: (into, it) => into.one(it.quantity, running, shows),
  each: count,
  qty: count,
  rated: (into, it) => into.one(it.load, load),
  mass: (into, it) => into.one(it.mass, mass),
  thread(into, it) {
    into.figures.threads.push(it);
    into.plain(it.grade);
    into.plain(it.class);
  },
  torque(into, { range, stages = [], angle: further, k }) {
    into.range(range, "torque", torque);
    // A stage may be one figure alone, so a bare one is no range that lacks its other end.
    for (const it of stages) if (it.kind !== "bare") into.figures.ranges.push({ row: into.row, range: it, keyword: "torque" });
    into.list(stages.flatMap(quantitiesOf), torque);
    if (further !== undefined) into.list(quantitiesOf(further), angle);
    into.plain(k);
  },
  locked(into, it) {
    into.locking(it.locking);
    into.plain(it.serves);
  },
  "recheck-after": (into, it) => into.one(it.after, running, runs),
  capacity: (into, it) => into.one(it.quantity, fluidAmount),
  new: limitRange,
  worn: limitRange,
  set: limitRange,
  spread: mostOfLimit,
  ovality: mostOfLimit,
  taper: mostOfLimit,
  equals(into, { expression }) {
    for (const it of expression === undefined ? [] : leavesOf(expression)) if (it.kind === "quantity") into.one(it.quantity, anything, { bare: true });
  },
  resolution: (into, it) => into.one(it.quantity, anything, ofGauge),
  uncertainty(into, it) {
    into.one(it.percent, ratio);
    into.one(it.quantity, anything, ofGauge);
  },
  range: (into, it) => into.range(it.range, "range", anything, ofGauge),
  checked: (into, it) => into.plain(it.months),
  takes: (into, it) => into.one(it.time, time),
  action(into, it) {
    for (const thing of it.things) into.plain(thing.count);
    into.plain(it.standCount);
    into.one(it.rated, load);
    into.one(it.load, load);
    into.one(it.amount, fluidAmount);
    into.list(it.stages ?? (it.to === undefined ? [] : [it.to]), torque);
    into.one(it.angle, angle);
    into.one(it.temperature, temperature);
    into.letBack(it.back);
    into.locking(it.with);
  },
  "let-back": (into, it) => into.letBack(it.back),
  reading: (into, it) => into.list(it.figures, anything, ofLimit, true),
  is(into, it) {
    for (const condition of it.conditions) {
      into.plain(condition.count);
      into.one(condition.amount, fluidAmount);
    }
  },
  freight(into, it) {
    into.money(it.money);
    into.money(it.freeOver);
  },
  duty: percent,
  tax: percent,
  lead: (into, it) => into.one(it.time, time),
  price,
  exchange: price,
  "least-order": price,
  "price-from"(into, it) {
    into.plain(it.from);
    into.money(it.money);
  },
  pack: (into, it, entry) =>
    into.one(it.amount, anything, entry.kind === "offer" && entry.item !== undefined ? { by: "item", item: entry.item, bare: true } : { bare: true }),
  item(into, it) {
    into.amount(it.amount, it.item);
    into.money(it.price);
  },
  received(into, { items }) {
    for (const it of items) into.amount(it.amount, it.item);
  },
  test: (into, it) => into.one(it.load, load),
  work(into, it) {
    into.plain(it.count);
    into.money(it.price);
  },
  have: stacks,
  fitted: stacks,
  effect: (into, it) => into.plain(it.figure),
  recheck(into, it) {
    into.one(it.after, running, runs);
    into.one(it.doneAt, running, shows);
  },
};
