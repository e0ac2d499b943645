// The lines of an order: what is held, placed, sent, come or gone back of each item that it names.
// Invariant: each piece stands in one line; what came, was cancelled or went back by itself is a line of its own, and the order's own line is what is left.
import type { Entry, ItemDetail, Money, OrderEntry, StatusDetail } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import { isReturnedSince, mentionsOf, partsOf, statusOf } from "../model/orders.ts";
import { type Where, where } from "../model/where.ts";
import { type Exact, compare, one } from "../quantities/exact.ts";
import { type Amount, type Item, amountOfItem, dimensionOfAmount, itemOf } from "./items.ts";
import { sinceOf } from "./leads.ts";

export type Status = NonNullable<StatusDetail["status"]>;

/** One `item` line of an order. */
export interface OrderLine {
  /** The day from which its lead runs. */
  readonly since?: string;
  readonly item: Item;
  readonly amount: Amount;
  readonly status: Status;
  readonly day?: string;
  readonly reference?: string;
  /** The supplier's name, as written. */
  readonly supplier?: string;
  readonly price?: Money;
  readonly where: Where;
  readonly entry: OrderEntry;
  /** So much of it came with the order, and the order does not ask for it, or not for so many. */
  readonly notOrdered?: Amount;
}

/**
 * An order without a status that can be read is as good as held: it is there, and nothing says that it went. What came of it, was cancelled or went back by itself is a
 * line of its own, and the order's own line is what is left.
 */
export function linesOfOrder(job: Job, file: string, entry: OrderEntry, today: string | undefined): OrderLine[] {
  const status = statusOf(job, entry);
  // What was written further down came on another day than this one.
  const day = status?.date?.text ?? (status === undefined || entry.details.includes(status) ? today : undefined);
  const since = sinceOf(job, entry);
  const common = {
    entry,
    ...(since === undefined ? {} : { since }),
    ...(entry.reference === undefined ? {} : { reference: entry.reference.value }),
    ...(entry.to === undefined ? {} : { supplier: entry.to.text }),
  };
  const parts = partsOf(job, entry).flatMap((part) => linesOfOrder(job, file, part, undefined));
  const came = lessReturned(receivedBy(job, file, entry, today, common), parts);
  const gone = [...came, ...parts];
  const out: OrderLine[] = [];
  for (const detail of entry.details) {
    if (detail.kind !== "item" || detail.fault !== undefined) continue;
    const item = itemOf(job, detail.item);
    const whole = amountOfItem(detail.item, detail.amount);
    if (item === undefined || whole === undefined) continue;
    const amount = { ...whole, value: lessened(item, whole, gone) };
    if (amount.value.n === 0n && whole.value.n !== 0n) continue;
    out.push({
      ...common,
      item,
      amount,
      status: status?.status ?? "held",
      where: where(file, entry, detail.row, spanOf(detail)),
      ...(day === undefined ? {} : { day }),
      ...(detail.price === undefined ? {} : { price: detail.price }),
    });
  }
  const named = new Set(entry.details.flatMap((it) => (it.kind === "item" ? (itemOf(job, it.item)?.key ?? []) : [])));
  // What is left of what came once every line of the order has taken its own was not ordered. An order that names nothing may have ordered anything.
  const notOrdered = (amount: Amount | undefined) => (named.size === 0 || amount === undefined || amount.value.n === 0n ? {} : { notOrdered: amount });
  return [...out, ...came.map((it, i) => ({ ...it, ...notOrdered(gone[i]?.amount) }))];
}

/** What the `received` lines of an order and of its later mentions say that came. */
function receivedBy(job: Job, file: string, entry: OrderEntry, today: string | undefined, common: Pick<OrderLine, "entry">): OrderLine[] {
  return mentionsOf(job, entry).flatMap((mention) =>
    mention.details.flatMap((detail) => {
      if (detail.kind !== "received" || detail.fault !== undefined) return [];
      const day = detail.date?.text ?? (mention === entry ? today : undefined);
      const status = isReturnedSince(job, entry, detail) ? "returned" : "received";
      return detail.items.flatMap((it): OrderLine[] => {
        const item = asOrdered(job, entry, itemOf(job, it.item));
        const amount = amountOfItem(it.item, it.amount) ?? { value: one };
        const at = where(file, mention, detail.row, it.item.at ?? detail.keyword);
        return item === undefined ? [] : [{ ...common, item, amount, status, where: at, ...(day === undefined ? {} : { day }) }];
      });
    }),
  );
}

/** What came less what of it went back to the seller by itself: that is here no more. */
function lessReturned(came: readonly OrderLine[], parts: readonly OrderLine[]): OrderLine[] {
  const back = parts.filter((it) => it.status === "returned");
  if (back.length === 0) return [...came];
  return came.map((it) => ({ ...it, amount: { ...it.amount, value: lessened(it.item, it.amount, back) } })).filter((it) => it.amount.value.n !== 0n);
}

/** What came of a fastener without a word of its thread is of the one thread that the order asks for. */
function asOrdered(job: Job, entry: OrderEntry, came: Item | undefined): Item | undefined {
  if (came?.kind !== "fastener" || came.threaded !== undefined) return came;
  const asked = entry.details.flatMap((it) => (it.kind === "item" && it.fault === undefined ? (itemOf(job, it.item) ?? []) : []));
  const own = new Map(asked.filter((it) => it.key === came.key || it.threaded?.unthreaded === came.key).map((it) => [it.key, it]));
  return own.size === 1 ? [...own.values()][0] : came;
}

/** The amount of a line less what is gone of it. What is gone is shared out among the lines of one item, the first of them first. */
function lessened(item: Item, amount: Amount, gone: OrderLine[]): Exact {
  let left = amount.value;
  for (const [i, it] of gone.entries()) {
    if (it.item.key !== item.key || dimensionOfAmount(it.amount) !== dimensionOfAmount(amount)) continue;
    const taken = compare(it.amount.value, left) < 0 ? it.amount.value : left;
    left = left.sub(taken);
    gone[i] = { ...it, amount: { ...it.amount, value: it.amount.value.sub(taken) } };
  }
  return left;
}

/** The item and how many: what a person would strike out. */
function spanOf(detail: ItemDetail): Where["at"] {
  const from = (detail.item?.at ?? detail.keyword).from;
  return { from, to: detail.amount?.at.to ?? detail.item?.at.to ?? detail.keyword.to };
}

/** The entry that says so: the order, or what is written of it further down. */
export function saysThatItCame(job: Job, { where: { entry: own }, entry }: OrderLine): Entry {
  const last =
    own === entry ? mentionsOf(job, entry).findLast((it) => it.details.some((detail) => detail.kind === "status" && detail.fault === undefined)) : own;
  return last ?? entry;
}
