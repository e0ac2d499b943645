// What is away: parts sent out to be worked on, and what new parts have come.
// Invariant: an order's last status line holds; without a date it holds from the order's own day on.
import type { Job } from "../model/job.ts";
import { isAt, ordersOf, statusUnread } from "../model/orders.ts";
import { type Where, where } from "../model/where.ts";

export interface Away {
  readonly reference: string;
  readonly where: Where;
  /** Received on a later day than asked about. */
  readonly back?: string;
}

/** The order that has a part away on a day; undefined where it is here. */
export function awayAt(job: Job, name: string, place: string, day: string | undefined): Away | undefined {
  for (const { file, entry, detail, status, sentOn } of ordersOf(job).work.get(name) ?? []) {
    if (!isAt(detail, place) || statusUnread(job, entry)) continue;
    const away = { reference: entry.reference?.value ?? "", where: where(file, entry, detail.row, detail.part?.at ?? detail.keyword) };
    if (status?.status === "sent" && !(sentOn !== undefined && day !== undefined && day < sentOn)) return away;
    if (status?.status === "received" && status.date !== undefined && day !== undefined && day < status.date.text && sentOn !== undefined && day >= sentOn)
      return { ...away, back: status.date.text };
  }
  return undefined;
}

export interface Coming {
  readonly reference: string;
  readonly where: Where;
  /** The day on which it came; undefined where it has not. */
  readonly day?: string;
}

/**
 * The order that a new part is waited for on a day: the only ones for it have not come by then, and none was in stock.
 * Undefined where nothing speaks against its being here.
 */
export function comesOn(job: Job, name: string, day: string | undefined): Coming | undefined {
  const { items, stocked } = ordersOf(job);
  if (stocked.has(name)) return undefined;
  let coming: Coming | undefined;
  for (const { file, entry, detail, status } of items.get(name) ?? []) {
    if (status?.status === "cancelled" || status?.status === "returned") continue;
    if (statusUnread(job, entry)) return undefined;
    const came = status?.status === "received" ? status.date?.text : undefined;
    // Received on a day that nobody wrote, or by this day: it is here.
    if (status?.status === "received" && (came === undefined || day === undefined || came <= day)) return undefined;
    coming ??= {
      reference: entry.reference?.value ?? "",
      where: where(file, entry, detail.row, detail.item?.at ?? detail.keyword),
      ...(came === undefined ? {} : { day: came }),
    };
  }
  return coming;
}
