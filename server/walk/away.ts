// What is away: parts sent out to be worked on, and what new parts have come.
// Invariant: an order's last status line holds; without a date it holds from the order's own day on.
import type { OrderEntry, StatusDetail } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import { type Where, where } from "../model/where.ts";

export interface Away {
  readonly reference: string;
  readonly where: Where;
  /** Received on a later day than asked about. */
  readonly back?: string;
}

/** The order that has a part away on a day; undefined where it is here. */
export function awayAt(job: Job, name: string, place: string, day: string | undefined): Away | undefined {
  for (const file of job.files) {
    for (const entry of file.sheet.entries) {
      if (entry.kind !== "order") continue;
      const status = statusOf(entry);
      for (const detail of entry.details) {
        if (detail.kind !== "work" || detail.part?.text !== name) continue;
        if (detail.place !== undefined && place !== "" && detail.place.text !== place) continue;
        const sent = sentOn(entry);
        const away = { reference: entry.reference?.value ?? "", where: where(file.path, entry, detail.row, detail.part.at) };
        if (status?.status === "sent" && !(sent !== undefined && day !== undefined && day < sent)) return away;
        if (status?.status === "received" && status.date !== undefined && day !== undefined && day < status.date.text && sent !== undefined && day >= sent) return { ...away, back: status.date.text };
      }
    }
  }
  return undefined;
}

/** The status that holds: the last one written. */
export function statusOf(entry: OrderEntry): StatusDetail | undefined {
  let last: StatusDetail | undefined;
  for (const detail of entry.details) if (detail.kind === "status" && detail.fault === undefined) last = detail;
  return last;
}

function sentOn(entry: OrderEntry): string | undefined {
  for (const detail of entry.details) if (detail.kind === "status" && detail.status === "sent") return detail.date?.text;
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
  let coming: Coming | undefined;
  for (const file of job.files) {
    for (const entry of file.sheet.entries) {
      if (entry.kind === "stock" && entry.item?.kind === "name" && entry.item.name.text === name) return undefined;
      if (entry.kind !== "order") continue;
      const status = statusOf(entry);
      if (status?.status === "cancelled" || status?.status === "returned") continue;
      for (const detail of entry.details) {
        if (detail.kind !== "item" || detail.item?.kind !== "name" || detail.item.name.text !== name) continue;
        const came = status?.status === "received" ? status.date?.text : undefined;
        // Received on a day that nobody wrote, or by this day: it is here.
        if (status?.status === "received" && (came === undefined || day === undefined || came <= day)) return undefined;
        coming ??= { reference: entry.reference?.value ?? "", where: where(file.path, entry, detail.row, detail.item.at), ...(came === undefined ? {} : { day: came }) };
      }
    }
  }
  return coming;
}
