// The orders of a job, by what they are for: parts sent out to be worked on, and new things that are to come.
// Invariant: made once for a job, when first asked for; an order's last status line holds. An order that is written again further down with a status and
// nothing else is the same order, moved on: many write what came on the day that it came.
import { putInto } from "./grouped.ts";
import type { Entry, ItemDetail, OrderEntry, ReceivedDetail, StatusDetail, WorkDetail } from "../../grammar/tree.ts";
import type { Job } from "./job.ts";
import { memo } from "./memo.ts";

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

export const ordersOf: (job: Job) => Orders = memo(collect);

function collect(job: Job): Orders {
  const work = new Map<string, Ordered<WorkDetail>[]>();
  const items = new Map<string, Ordered<ItemDetail>[]>();
  const stocked = new Set<string>();
  for (const { path: file, sheet } of job.files) {
    for (const entry of sheet.entries) {
      if (entry.kind === "stock" && entry.item?.kind === "name") stocked.add(entry.item.name.text);
      if (entry.kind !== "order") continue;
      const status = statusOf(job, entry);
      const sentOn = statusLines(job, entry).find((it) => it.status === "sent")?.date?.text;
      for (const detail of entry.details) {
        if (detail.fault !== undefined) continue;
        if (detail.kind === "work" && detail.part !== undefined)
          putInto(work, detail.part.text, { file, entry, detail, status: cameOf(job, entry, detail.part.text) ?? status, sentOn });
        if (detail.kind === "item" && detail.item?.kind === "name") {
          const came = cameOf(job, entry, detail.item.name.text) ?? status;
          putInto(items, detail.item.name.text, { file, entry, detail, status: wentBack(job, entry, detail, came) ?? came, sentOn });
        }
      }
    }
  }
  return { work, items, stocked };
}

/** That something of an order came, where a `received` line names it: as good as received, how many of them is for the shelf to count. What went back whole is not here. */
function cameOf(job: Job, entry: OrderEntry, name: string): StatusDetail | undefined {
  for (const { details } of mentionsOf(job, entry))
    for (const it of details)
      if (
        it.kind === "received" &&
        it.fault === undefined &&
        !isReturnedSince(job, entry, it) &&
        it.items.some(({ item }) => item?.kind === "name" && item.name.text === name)
      ) {
        const { row, keyword, date } = it;
        return { kind: "status", row, keyword, status: "received", ...(date === undefined ? {} : { date }) } as StatusDetail;
      }
  return undefined;
}

/** The whole order went back to the seller, by a line behind the one that says what came. */
export function isReturnedSince(job: Job, entry: OrderEntry, received: ReceivedDetail): boolean {
  const lines = mentionsOf(job, entry).flatMap(({ details }) => details.filter((it) => it.fault === undefined));
  return lines.slice(lines.indexOf(received)).some((it) => it.kind === "status" && it.status === "returned");
}

/** All of an item that came went back by itself: the status line that says so. */
function wentBack(job: Job, entry: OrderEntry, { item, amount }: ItemDetail, came: StatusDetail | undefined): StatusDetail | undefined {
  if (came?.status !== "received") return undefined;
  const countOf = (it: { readonly amount?: ItemDetail["amount"] }) => Number(it.amount?.figure.text ?? 1);
  const name = written(item);
  const lines = mentionsOf(job, entry).flatMap(({ details }) => details.flatMap((it) => (it.kind === "received" && it.fault === undefined ? it.items : [])));
  const here = lines.filter((it) => written(it.item) === name).reduce((sum, it) => sum + countOf(it), 0);
  let back = 0;
  let last: StatusDetail | undefined;
  for (const part of partsOf(job, entry)) {
    const status = part.details.filter((it): it is StatusDetail => it.kind === "status" && it.fault === undefined).at(-1);
    if (status?.status !== "returned") continue;
    for (const it of part.details) if (it.kind === "item" && it.fault === undefined && written(it.item) === name) back += countOf(it);
    last = status;
  }
  return back > 0 && back >= (here === 0 ? countOf({ amount }) : here) ? last : undefined;
}

/** The status that holds: the last one written. */
export function statusOf(job: Job, entry: OrderEntry): StatusDetail | undefined {
  const lines = statusLines(job, entry);
  return lines[lines.length - 1];
}

/** The status lines of an order that can be read, in the order in which they were written, those of its later mentions among them. */
export function statusLines(job: Job, entry: OrderEntry): readonly StatusDetail[] {
  return [entry, ...(laterOf(job).get(entry) ?? [])].flatMap(({ details }) =>
    details.filter((it): it is StatusDetail => it.kind === "status" && it.fault === undefined),
  );
}

/** Whether an entry orders nothing, and says only what became of an order. */
function isLaterMention(entry: Entry): entry is OrderEntry {
  return (
    entry.kind === "order" && entry.fault === undefined && entry.details.some(saysStatus) && !entry.details.some((it) => !saysStatus(it) && it.kind !== "note")
  );
}

/** A word about an order that stands above: “not yet, I asked”. */
function isOnlyNoted(entry: OrderEntry): boolean {
  return entry.details.length > 0 && entry.details.every((it) => it.kind === "note");
}

/** A line about what became of an order, though it may be one that can't be read. */
function saysStatus(it: OrderEntry["details"][number]): boolean {
  return it.kind === "status" || it.kind === "received" || (it.kind === "unread" && it.guess === "status");
}

/** Whether a line can't be read that may have said what became of an order: then nobody can tell whether it has come. */
export function statusUnread(job: Job, entry: OrderEntry): boolean {
  return [entry, ...(laterOf(job).get(entry) ?? [])].some(({ details }) => details.some((it) => it.fault !== undefined && saysStatus(it)));
}

/** The order and its later mentions, in the order written. */
export function mentionsOf(job: Job, entry: OrderEntry): readonly OrderEntry[] {
  return [entry, ...(laterOf(job).get(entry) ?? [])];
}

/** It says what became of an order that stands above it, and is none of its own. */
export function isMentioned(job: Job, entry: OrderEntry): boolean {
  return laterMentions(job).has(entry);
}

const laterMentions = memo((job: Job): ReadonlySet<OrderEntry> => new Set([...laterOf(job).values()].flat()));

/** Parts of an order that are written with their items and how they stand: what came of it, was cancelled, or went back. */
export function partsOf(job: Job, entry: OrderEntry): readonly OrderEntry[] {
  return mentionsIn(job).parts.get(entry) ?? [];
}

/** It names items of that order, and no others, and says that they came, were cancelled or went back. */
function isPartOf(first: OrderEntry, entry: OrderEntry): boolean {
  const last = entry.details.filter((it): it is StatusDetail => it.kind === "status" && it.fault === undefined).at(-1)?.status;
  const ordered = new Set(itemsOf(first));
  return (
    (last === "received" || last === "cancelled" || last === "returned") &&
    !entry.details.some((it) => it.kind === "work") &&
    itemsOf(entry).every((it) => ordered.has(it))
  );
}

function itemsOf(entry: OrderEntry): string[] {
  return entry.details.flatMap((it) => (it.kind === "item" && it.fault === undefined ? [written(it.item)] : []));
}

function written(item: ItemDetail["item"]): string {
  if (item?.kind === "name")
    return [
      item.name.text,
      item.made?.thread?.designation,
      (item.made?.leftHand ?? item.made?.thread?.leftHand) && "LH",
      item.made?.grade && `grade ${item.made.grade.text}`,
      item.made?.class && `class ${item.made.class.text}`,
    ]
      .filter(Boolean)
      .join(" ");
  if (item?.kind === "text") return JSON.stringify(item.text.value);
  if (item?.kind !== "locking") return "";
  return JSON.stringify([
    item.locking.kind,
    item.locking.words,
    item.locking.size.map((it) => [it.figure.text, it.unit?.text]),
    item.locking.grade?.value,
    item.locking.part?.text,
  ]);
}

interface Mentions {
  /** What is written again further down of an order, to say what became of it. */
  readonly later: ReadonlyMap<OrderEntry, readonly OrderEntry[]>;
  readonly parts: ReadonlyMap<OrderEntry, readonly OrderEntry[]>;
  /** What names no supplier, and speaks of no order above, or of one of several. */
  readonly unclear: readonly { readonly file: string; readonly entry: OrderEntry; readonly several: boolean; readonly known: boolean }[];
}

/** Orders without a supplier that nobody can place. */
export function unclearOrders(job: Job): Mentions["unclear"] {
  return mentionsIn(job).unclear;
}

const laterOf = (job: Job) => mentionsIn(job).later;

const mentionsIn = memo((job: Job): Mentions => {
  const later = new Map<OrderEntry, OrderEntry[]>();
  const parts = new Map<OrderEntry, OrderEntry[]>();
  const firsts = new Map<string, OrderEntry>();
  /** By the reference alone. */
  const named = new Map<string, Set<string>>();
  const unclear: Mentions["unclear"][number][] = [];
  for (const { path: file, sheet } of job.files) {
    for (const entry of sheet.entries) {
      if (entry.kind !== "order" || entry.reference === undefined || entry.fault !== undefined) continue;
      const same = named.get(entry.reference.value) ?? new Set<string>();
      named.set(entry.reference.value, same);
      const key = entry.to === undefined && same.size === 1 ? ([...same][0] as string) : JSON.stringify([entry.reference.value, entry.to?.text]);
      const first = firsts.get(key);
      const goesOn = isLaterMention(entry) || isOnlyNoted(entry);
      if (entry.to !== undefined) same.add(key);
      else if (first === undefined || !(goesOn || isPartOf(first, entry))) unclear.push({ file, entry, several: same.size > 1, known: same.size === 1 });
      if (first !== undefined && !goesOn && isPartOf(first, entry)) putInto(parts, first, entry);
      else if (!isLaterMention(entry) && (first === undefined || !isOnlyNoted(entry))) firsts.set(key, entry);
      else if (first !== undefined) putInto(later, first, entry);
    }
  }
  return { later, parts, unclear };
});

/** Whether work ordered for a place is work on the thing at this one. */
export function isAt(detail: WorkDetail, place: string): boolean {
  return detail.places.length === 0 || place === "" || detail.places.some((it) => it.text === place);
}
