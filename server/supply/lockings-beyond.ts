// New pins, washers and wire that went in, and more of them than ever came: by their days, against what was counted and what orders brought.
// Invariant: speaks only of locking that some order or some count names, or that is offered by somebody who was ordered from; and only where every order and count can be
// read. What the sheet says nothing of lay in a tin.
import type { Entry } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import { type Where, where } from "../model/where.ts";
import { type Exact, ratio, zero } from "../quantities/exact.ts";
import { isFoundOpen } from "../story/standing.ts";
import type { Cell, FastenerCell, FastenerMoment, PieceMoment, Story } from "../story/story.ts";
import { countOf } from "../story/lots.ts";
import { isRead, offeredByAnOrdered } from "./beyond-orders.ts";
import { type Amount, type Item, alike, dimensionOfAmount, isFromABottle, itemOf, lockingItem, wireLength } from "./items.ts";
import type { OrderLine } from "./order-lines.ts";
import { type Shelf, firstBeyond, shelfOf } from "./shelf.ts";
import { grouped } from "../model/grouped.ts";

export interface LockingBeyond {
  readonly cell: FastenerCell;
  /** The first line that takes more than there was. */
  readonly moment: FastenerMoment;
  readonly item: Item;
  /** All that was used up to there, this line with it. */
  readonly used: Amount;
  /** The order that brings it later, or not yet; undefined where it brought too few, or there is none. */
  readonly late: OrderLine | undefined;
  /** An order or a count that names it, or the offer of it. */
  readonly named: Where;
  readonly neverOrdered: boolean;
}

interface Taken {
  readonly item: Item;
  readonly amount: Amount;
  readonly moment: FastenerMoment;
  readonly cell: FastenerCell;
}

export function lockingsBeyond(story: Story): LockingBeyond[] {
  const { job } = story;
  const entries = job.files.flatMap(({ sheet }) => sheet.entries);
  if (!entries.some((it) => it.kind === "order" || it.kind === "stock") || !entries.every(isRead)) return [];
  const taken = story.fasteners.flatMap((cell) => takenFor(story, cell));
  const byKey = grouped(taken, (it) => it.item.key);
  if (byKey.size === 0) return [];
  const shelf = shelfOf([story]);
  const out: LockingBeyond[] = [];
  for (const [key, list] of byKey) {
    const [first] = list;
    if (first === undefined) continue;
    const named = namedAt(job, shelf, key);
    const offered = named === undefined ? offeredByAnOrdered(story, shelf, key) : undefined;
    const at = named ?? offered;
    const dimension = dimensionOfAmount(first.amount);
    if (at === undefined || inWords(entries, first.item) || shelf.otherwise(key, dimension) || list.some((it) => !alike(it.amount, first.amount))) continue;
    const uses = [...list].sort((a, b) => a.moment.seq - b.moment.seq);
    const index = firstBeyond(shelf, key, dimension, uses);
    const over = uses[index];
    if (over === undefined) continue;
    const used = uses.slice(0, index + 1).reduce<Exact>((sum, it) => sum.add(it.amount.value), zero);
    const late = shelf.lines.find(
      (it) =>
        it.item.key === key &&
        it.status !== "cancelled" &&
        it.status !== "returned" &&
        (it.status !== "received" || (it.day !== undefined && over.moment.day !== undefined && it.day > over.moment.day)),
    );
    out.push({
      cell: over.cell,
      moment: over.moment,
      item: first.item,
      used: { ...first.amount, value: used },
      late,
      named: at,
      neverOrdered: named === undefined,
    });
  }
  return out;
}

/** What each `lock … new` of done work took: those that it newly locked, those that one locking serves together. */
function takenFor(story: Story, cell: FastenerCell): Taken[] {
  const { job } = story;
  if (cell.unsure) return [];
  const out: Taken[] = [];
  let last: { taken: Taken; fasteners: number } | undefined;
  for (const moment of cell.history) {
    if (moment.verb === "undo" || moment.verb === "slacken" || isFoundOpen(moment)) last = undefined;
    const locking = moment.with ?? cell.thing.locking?.locking;
    if (moment.verb !== "lock" || !moment.isNew || moment.phase !== "done" || locking === undefined) continue;
    // A part that locks, and of which a line says that it was fitted new, is counted with the parts.
    if (locking.part !== undefined && story.cells(locking.part.text).some(isFittedNew)) continue;
    const item = lockingItem(job, locking);
    const newly = countOf(moment.after.lots.filter((it) => it.locked)) - countOf(moment.before.lots.filter((it) => it.locked));
    if (item === undefined || isFromABottle(item) || newly <= 0) continue;
    const own = cell.thing.locking?.locking;
    const serves = own !== undefined && own.kind === locking.kind && own.part?.text === locking.part?.text ? Math.max(1, cell.thing.locking?.serves ?? 1) : 1;
    const length = wireLength(locking) ?? (own?.kind === locking.kind ? wireLength(own) : undefined);
    // Wire of which nobody says how much a place takes.
    if (locking.kind === "lock wire" && length === undefined) continue;
    const amountFor = (fasteners: number): Amount => {
      const pieces = ratio(Math.ceil(fasteners / serves));
      return length === undefined ? { value: pieces } : { ...length, value: length.value.mul(pieces) };
    };
    if (last !== undefined && last.taken.item.key === item.key) {
      out.pop();
      last = { taken: { item, amount: amountFor(last.fasteners + newly), moment, cell }, fasteners: last.fasteners + newly };
    } else last = { taken: { item, amount: amountFor(newly), moment, cell }, fasteners: newly };
    out.push(last.taken);
  }
  return out;
}

function isFittedNew(cell: Cell): boolean {
  return (cell.kind === "part" || cell.kind === "fastener") && (cell.history as readonly PieceMoment[]).some((it) => it.isNew && it.phase === "done");
}

function namedAt(job: Job, shelf: Shelf, key: string): Where | undefined {
  const line = shelf.lines.find((it) => it.item.key === key);
  if (line !== undefined) return line.where;
  for (const { path, sheet } of job.files)
    for (const entry of sheet.entries)
      if (entry.kind === "stock" && itemOf(job, entry.item)?.key === key) return where(path, entry, 0, entry.item?.at ?? entry.keyword);
  return undefined;
}

/** Some order or count says in words what may be the same: “assorted split pins”. */
function inWords(entries: readonly Entry[], item: Item): boolean {
  const words = item.written
    .toLowerCase()
    .replace(/[^\p{L} ]/gu, " ")
    .split(" ")
    .filter((it) => it.length > 2);
  const says = (text: string | undefined) => text !== undefined && words.some((word) => text.toLowerCase().includes(word));
  return entries.some((entry) => {
    if (entry.kind === "stock") return entry.item?.kind === "text" && says(entry.item.text.value);
    return entry.kind === "order" && entry.details.some((it) => it.kind === "item" && it.item?.kind === "text" && says(it.item.text.value));
  });
}
