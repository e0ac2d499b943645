// The orders of a job, by what they are for: parts sent out to be worked on, and new things that are to come.
// Invariant: made once for a job, when first asked for; an order's last status line holds.
import type { ItemDetail, OrderEntry, StatusDetail, WorkDetail } from "../../grammar/tree.ts";
import type { Job } from "./job.ts";

export interface Ordered<D> {
  readonly file: string;
  readonly entry: OrderEntry;
  readonly detail: D;
  readonly status: StatusDetail | undefined;
  /** The day on which it was sent, where a status line says so. */
  readonly sentOn: string | undefined;
}

export interface Orders {
  /** part -> the work ordered on it */
  readonly work: ReadonlyMap<string, readonly Ordered<WorkDetail>[]>;
  /** name of a part, fastener or fluid -> the items ordered of it */
  readonly items: ReadonlyMap<string, readonly Ordered<ItemDetail>[]>;
  /** Names of which some stock was counted. */
  readonly stocked: ReadonlySet<string>;
}

const remembered = new WeakMap<Job, Orders>();

export function ordersOf(job: Job): Orders {
  let orders = remembered.get(job);
  if (orders === undefined) {
    orders = collect(job);
    remembered.set(job, orders);
  }
  return orders;
}

function collect(job: Job): Orders {
  const work = new Map<string, Ordered<WorkDetail>[]>();
  const items = new Map<string, Ordered<ItemDetail>[]>();
  const stocked = new Set<string>();
  for (const { path: file, sheet } of job.files) {
    for (const entry of sheet.entries) {
      if (entry.kind === "stock" && entry.item?.kind === "name") stocked.add(entry.item.name.text);
      if (entry.kind !== "order") continue;
      const status = statusOf(entry);
      const sentOn = entry.details.find((it): it is StatusDetail => it.kind === "status" && it.status === "sent")?.date?.text;
      for (const detail of entry.details) {
        if (detail.fault !== undefined) continue;
        if (detail.kind === "work" && detail.part !== undefined) put(work, detail.part.text, { file, entry, detail, status, sentOn });
        if (detail.kind === "item" && detail.item?.kind === "name") put(items, detail.item.name.text, { file, entry, detail, status, sentOn });
      }
    }
  }
  return { work, items, stocked };
}

/** The status that holds: the last one written. */
export function statusOf(entry: OrderEntry): StatusDetail | undefined {
  let last: StatusDetail | undefined;
  for (const detail of entry.details) if (detail.kind === "status" && detail.fault === undefined) last = detail;
  return last;
}

function put<T>(map: Map<string, T[]>, key: string, value: T): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [value]);
  else list.push(value);
}

/** Whether work ordered for a place is work on the thing at this one. */
export function isAt(detail: WorkDetail, place: string): boolean {
  return detail.place === undefined || place === "" || detail.place.text === place;
}
