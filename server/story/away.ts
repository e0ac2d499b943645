// What is away: parts sent out to be worked on, and what new parts have come.
// Invariant: an order's last status line holds; without a date it holds from the order's own day on.
import { type Job, placesOf } from "../model/job.ts";
import type { Thing } from "../model/things.ts";
import { fastenerAsItStands, partAsItStands } from "./cells.ts";
import { isAt, ordersOf, statusUnread } from "../model/orders.ts";
import { type Where, where } from "../model/where.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Story } from "./story.ts";

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

/**
 * Pieces that an order sent out or got back, and that never came off by then, though others of their assembly did: the work was ordered of the wrong one,
 * or never done. What nothing in the sheet moves is left alone, and so is what lay in a box when the job began.
 */
export function sentWhileOn(story: Story): { readonly cell: PartCell | FastenerCell; readonly sent: Away }[] {
  const out: { cell: PartCell | FastenerCell; sent: Away }[] = [];
  for (const [name, list] of ordersOf(story.job).work) {
    const cells = story.cells(name).filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
    for (const { file, entry, detail, status, sentOn } of list) {
      if ((status?.status !== "sent" && status?.status !== "received") || statusUnread(story.job, entry)) continue;
      const known = cells.filter((cell) => isAt(detail, cell.place));
      const thing = story.job.things.get(name);
      // A place that nothing in the sheet has touched.
      const untouched = detail.place === undefined || !isDeclared(story.job, thing, detail.place.text) ? undefined : asItStands(thing, detail.place.text);
      const meant = known.length > 0 || untouched === undefined ? known : [untouched];
      const day = status.status === "received" ? status.date?.text : sentOn;
      const stays = (cell: PartCell | FastenerCell) => !cell.unsure && !cell.thing.implied && !hasBeenOff(cell, day);
      // Where no place is named, one of them was meant.
      if (meant.length === 0 || !meant.every(stays)) continue;
      const [cell] = meant;
      if (cell === undefined || !isTakenApart(story, cell)) continue;
      out.push({ cell, sent: { reference: entry.reference?.value ?? "", where: where(file, entry, detail.row, detail.part?.at ?? detail.keyword) } });
    }
  }
  return out;
}

function isDeclared(job: Job, thing: Thing | undefined, place: string): boolean {
  return thing !== undefined && "placeKind" in thing && placesOf(job, thing).includes(place);
}

function asItStands(thing: Thing | undefined, place: string): PartCell | FastenerCell | undefined {
  return thing?.kind === "part" ? partAsItStands(thing, place) : thing?.kind === "fastener" ? fastenerAsItStands(thing, place) : undefined;
}

/** Off at some time up to this day; what began off was so from the start. */
function hasBeenOff(cell: PartCell | FastenerCell, day: string | undefined): boolean {
  return (cell.history as readonly (PartMoment | FastenerMoment)[]).some(
    (it) =>
      it.phase === "done" &&
      (it.after.on < cell.total || it.before.on < cell.total || it.beganOff || it.isNew) &&
      (day === undefined || it.day === undefined || it.day <= day || it.beganOff),
  );
}

/** Its fellow at another place, what is before it or what it is behind, came off: the sheet writes down what it takes off. */
function isTakenApart(story: Story, cell: PartCell | FastenerCell): boolean {
  const names = new Set([cell.thing.name]);
  if (cell.kind === "part") for (const name of [...cell.thing.heldBy, ...cell.thing.behind]) names.add(name.text);
  return [...names].some((name) =>
    story
      .cells(name)
      .some(
        (it) =>
          (it.kind === "part" || it.kind === "fastener") &&
          it !== cell &&
          (it.history as readonly (PartMoment | FastenerMoment)[]).some((was) => was.phase === "done" && was.after.on < was.before.on),
      ),
  );
}
