// Every figure that an entry writes, with what belongs there: quantities in lists that may share a unit, ranges, amounts of money, plain figures.
// Invariant: one walk of an entry, remembered with it; lines that can't be read are left out, for their fault has been said.
import type { Detail, Entry, Expression, Figure, Item, LetBack, Locking, Money, Name, Quantity, Range, ThreadDetail } from "../../../../grammar/tree.ts";
import type { Dimension } from "../../../quantities/units.ts";
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
const ratio: readonly Dimension[] = ["ratio"];
const angle: readonly Dimension[] = ["angle"];
const temperature: readonly Dimension[] = ["temperature"];
const anything: readonly Dimension[] = [];

function* collect(entry: Entry): Slices<Figures> {
  const groups: FigureGroup[] = [];
  const ranges: RangeAt[] = [];
  const money: MoneyAt[] = [];
  const codes: { row: number; code: Name }[] = [];
  const all: FigureAt[] = [];
  const lockings: LockingAt[] = [];
  const threads: ThreadDetail[] = [];

  if (entry.fault === undefined) ofHead();
  for (let i = 0; i < entry.details.length; i++) {
    const detail = entry.details[i] as Detail;
    if (detail.fault === undefined) ofDetail(detail);
    if (i % someAtOnce === someAtOnce - 1) yield;
  }
  return { groups, ranges, money, codes, all, lockings, threads };

  function plain(figure: Figure | undefined, row: number, reading = false): void {
    if (figure !== undefined) all.push({ row, figure, reading });
  }
  function list(
    quantities: readonly Quantity[],
    row: number,
    wants: readonly Dimension[],
    more: Pick<FigureGroup, "by" | "item"> & { bare?: boolean; reading?: boolean } = {},
  ): void {
    if (quantities.length === 0) return;
    const { bare = false, reading = false, ...rest } = more;
    groups.push({ row, list: quantities, wants, bare, ...rest });
    for (const it of quantities) plain(it.figure, row, reading);
  }
  function one(
    quantity: Quantity | undefined,
    row: number,
    wants: readonly Dimension[],
    more: Pick<FigureGroup, "by" | "item"> & { bare?: boolean } = {},
  ): void {
    if (quantity !== undefined) list([quantity], row, wants, more);
  }
  function range(it: Range | undefined, row: number, keyword: string, wants: readonly Dimension[], by?: FigureGroup["by"]): void {
    if (it === undefined) return;
    ranges.push({ row, range: it, keyword });
    list(quantitiesOf(it), row, it.kind === "fit" && wants.length === 0 ? length : wants, by === undefined ? {} : { by });
  }
  function cash(it: Money | undefined, row: number, rate = false): void {
    if (it === undefined) return;
    money.push({ row, money: it, rate });
    plain(it.figure, row);
  }
  function back(it: LetBack | undefined, row: number): void {
    plain(it?.flats, row);
    plain(it?.turns, row);
    one(it?.angle, row, angle);
  }
  function locking(it: Locking | undefined, row: number): void {
    if (it === undefined) return;
    lockings.push({ row, locking: it });
    list(it.size, row, length);
  }
  function amount(quantity: Quantity | undefined, item: Item | undefined, row: number): void {
    if (item?.kind === "locking") locking(item.locking, row);
    one(quantity, row, anything, item === undefined ? { bare: true } : { by: "item", item, bare: true });
  }
  function expression(it: Expression | undefined, row: number): void {
    if (it === undefined) return;
    if (it.kind === "quantity") one(it.quantity, row, anything, { bare: true });
    else if (it.kind === "negate") expression(it.operand, row);
    else if (it.kind === "binary") {
      expression(it.left, row);
      expression(it.right, row);
    } else if (it.kind === "call") for (const argument of it.arguments) expression(argument, row);
  }

  function ofHead(): void {
    switch (entry.kind) {
      case "rate":
        cash(entry.one, 0, true);
        cash(entry.is, 0, true);
        return;
      case "finding":
        return plain(entry.count, 0);
      case "stock":
      case "need":
        return amount(entry.amount, entry.item, 0);
      case "offer":
        if (entry.item?.kind === "locking") locking(entry.item.locking, 0);
        return;
      case "release":
        return one(entry.counter, 0, running);
      default:
    }
  }

  function ofDetail(detail: Detail): void {
    const row = detail.row;
    switch (detail.kind) {
      case "currency":
        if (detail.code !== undefined) codes.push({ row, code: detail.code });
        return;
      case "counter":
        return one(detail.quantity, row, running);
      case "each":
      case "qty":
        return plain(detail.count, row);
      case "rated":
        return one(detail.load, row, load);
      case "mass":
        return one(detail.mass, row, mass);
      case "thread":
        threads.push(detail);
        plain(detail.grade, row);
        return plain(detail.class, row);
      case "torque":
        range(detail.range, row, "torque", torque);
        // A stage may be one figure alone, so a bare one is no range that lacks its other end.
        for (const it of detail.stages ?? []) if (it.kind !== "bare") ranges.push({ row, range: it, keyword: "torque" });
        list((detail.stages ?? []).flatMap(quantitiesOf), row, torque);
        if (detail.angle !== undefined) list(quantitiesOf(detail.angle), row, angle);
        return plain(detail.k, row);
      case "locked":
        locking(detail.locking, row);
        return plain(detail.serves, row);
      case "recheck-after":
        return one(detail.after, row, running);
      case "capacity":
        return one(detail.quantity, row, fluidAmount);
      case "new":
      case "worn":
      case "set":
        return range(detail.range, row, detail.kind, anything, "limit");
      case "spread":
      case "ovality":
      case "taper":
        return one(detail.max, row, anything, { by: "limit" });
      case "equals":
        return expression(detail.expression, row);
      case "resolution":
        return one(detail.quantity, row, anything, { by: "gauge" });
      case "uncertainty":
        one(detail.percent, row, ratio);
        return one(detail.quantity, row, anything, { by: "gauge" });
      case "range":
        return range(detail.range, row, "range", anything, "gauge");
      case "checked":
        return plain(detail.months, row);
      case "takes":
        return one(detail.time, row, time);
      case "action":
        for (const thing of detail.things) plain(thing.count, row);
        plain(detail.standCount, row);
        one(detail.rated, row, load);
        one(detail.load, row, load);
        one(detail.amount, row, fluidAmount);
        list(detail.stages ?? (detail.to === undefined ? [] : [detail.to]), row, torque);
        one(detail.angle, row, angle);
        one(detail.temperature, row, temperature);
        back(detail.back, row);
        return locking(detail.with, row);
      case "let-back":
        return back(detail.back, row);
      case "reading":
        return list(detail.figures, row, anything, { by: "limit", reading: true });
      case "is":
        for (const condition of detail.conditions) {
          plain(condition.count, row);
          one(condition.amount, row, fluidAmount);
        }
        return;
      case "freight":
        cash(detail.money, row);
        return cash(detail.freeOver, row);
      case "duty":
      case "tax":
        return one(detail.percent, row, ratio);
      case "lead":
        return one(detail.time, row, time);
      case "price":
      case "exchange":
      case "least-order":
        return cash(detail.money, row);
      case "price-from":
        plain(detail.from, row);
        return cash(detail.money, row);
      case "pack":
        return one(
          detail.amount,
          row,
          anything,
          entry.kind === "offer" && entry.item !== undefined ? { by: "item", item: entry.item, bare: true } : { bare: true },
        );
      case "item":
        amount(detail.amount, detail.item, row);
        return cash(detail.price, row);
      case "received":
        for (const it of detail.items) amount(it.amount, it.item, row);
        return;
      case "test":
        return one(detail.load, row, load);
      case "work":
        plain(detail.count, row);
        return cash(detail.price, row);
      case "have":
      case "fitted":
        list(
          detail.stacks.map((it) => it.thickness),
          row,
          length,
        );
        for (const stack of detail.stacks) plain(stack.count, row);
        return;
      case "effect":
        return plain(detail.figure, row);
      case "recheck":
        one(detail.after, row, running);
        return one(detail.doneAt, row, running);
      default:
        return;
    }
  }
}
