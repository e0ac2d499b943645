// What is away: parts sent out to be worked on, and what new parts have come.
// Invariant: an order's last status line holds; without a date it holds from the order's own day on.
import type { WorkDetail } from "../../grammar/tree.ts";
import { wholeNumber } from "../model/declare.ts";
import { type Job, placesOf } from "../model/job.ts";
import type { Thing } from "../model/things.ts";
import { fastenerAsItStands, partAsItStands } from "./cells.ts";
import { type Ordered, isAt, ordersOf, statusUnread } from "../model/orders.ts";
import { memo } from "../model/memo.ts";
import { type Where, where } from "../model/where.ts";
import type { FastenerCell, FastenerMoment, Moment, PartCell, PartMoment, Reading, Seen, Story } from "./story.ts";

export interface Away {
  readonly reference: string;
  readonly where: Where;
  /** Received on a later day than asked about. */
  readonly back?: string;
  /** Who has it: the supplier's name. */
  readonly by?: string;
  /** The day that it went. */
  readonly sentOn?: string;
}

/** The order that has a part away on a day; undefined where it is here. */
export function awayAt(job: Job, name: string, place: string, day: string | undefined): Away | undefined {
  for (const ordered of ordersOf(job).work.get(name) ?? []) {
    const away = isAt(ordered.detail, place) ? awayBy(job, ordered, day) : undefined;
    if (away !== undefined) return away;
  }
  return undefined;
}

/** Work on a part that was sent out after a day, and came back since, by an order that stands above a line: what is written there was read before it. */
export function workedOnLater(job: Job, name: string, place: string, day: string, line: Where): Away | undefined {
  const { entries } = job.own.sheet;
  for (const { file, entry, detail, status, sentOn } of ordersOf(job).work.get(name) ?? []) {
    if (!isAt(detail, place) || statusUnread(job, entry) || status?.status !== "received" || detail.count !== undefined) continue;
    const since = sentOn ?? status.date?.text;
    const position = entries.indexOf(entry);
    if (since === undefined || day >= since || position < 0 || position > entries.indexOf(line.entry)) continue;
    return {
      reference: entry.reference?.value ?? "",
      where: where(file, entry, detail.row, detail.part?.at ?? detail.keyword),
      ...(status.date === undefined ? {} : { back: status.date.text }),
    };
  }
  return undefined;
}

/** The order, and the line by which it has the part. */
export function sentBy({ file, entry, detail }: Pick<Ordered<WorkDetail>, "file" | "entry" | "detail">): Away {
  return { reference: entry.reference?.value ?? "", where: where(file, entry, detail.row, detail.part?.at ?? detail.keyword) };
}

function awayBy(job: Job, { file, entry, detail, status, sentOn }: Ordered<WorkDetail>, day: string | undefined): Away | undefined {
  if (statusUnread(job, entry)) return undefined;
  const away = {
    ...sentBy({ file, entry, detail }),
    ...(entry.to === undefined ? {} : { by: entry.to.text }),
    ...(sentOn === undefined ? {} : { sentOn }),
  };
  if (status?.status === "sent" && !(sentOn !== undefined && day !== undefined && day < sentOn)) return away;
  if (status?.status === "received" && status.date !== undefined && day !== undefined && day < status.date.text && sentOn !== undefined && day >= sentOn)
    return { ...away, back: status.date.text };
  return undefined;
}

/** A final reading or look of what an order had away on its day. */
export interface ReadAway {
  readonly of: Reading | Seen;
  readonly name: string;
  readonly away: Away;
}

/** All of it was away; or some of several, and as many figures are written as there are pieces. Where nobody says which were sent, or a new one may have been read, none is told. */
export const readWhileAway: (story: Story) => readonly ReadAway[] = memo((story: Story) => {
  const { job } = story;
  const out: ReadAway[] = [];
  if (ordersOf(job).work.size === 0) return out;
  const finals = story.readings.filter((it) => it.stage === "final");
  /** Under one `measure`, at one place. */
  const figuresWith = (it: Reading) =>
    finals.filter((other) => other.entry === it.entry && other.place === it.place).reduce((sum, other) => sum + other.spots.length, 0);
  for (const it of [...finals, ...story.seen.filter((one) => one.stage === "final")]) {
    for (const name of "limit" in it ? it.limit.of : it.check.of) {
      const away = pieceAway(story, name.text, it.place, it.day, () => ("limit" in it ? figuresWith(it) : 0));
      if (away === undefined) continue;
      out.push({ of: it, name: name.text, away });
      break;
    }
  }
  return out;
});

function pieceAway(story: Story, name: string, place: string, day: string | undefined, figuresWith: () => number): Away | undefined {
  const { job } = story;
  const thing = job.things.get(name);
  if (day === undefined || (thing?.kind !== "part" && thing?.kind !== "fastener")) return undefined;
  const places = placesOf(job, thing);
  if (place === "" && places.length > 1) return undefined;
  // It may be the one that took its place that was read.
  if (story.cells(name).some((cell) => cell.kind !== "fluid" && cell.kind !== "hazard" && cell.history.some((it) => "isNew" in it && it.isNew)))
    return undefined;
  const each = thing.perPlace ?? 1;
  let gone = 0;
  let by: Away | undefined;
  for (const ordered of ordersOf(job).work.get(name) ?? []) {
    const { detail } = ordered;
    const away = isAt(detail, place) ? awayBy(job, ordered, day) : undefined;
    if (away === undefined) continue;
    const count = wholeNumber(detail.count?.text);
    const alone = detail.places.length > 0 || places.length === 1;
    // Sent without a place where there are several, nobody says which; but all of them are all.
    if (!alone && (count === undefined || count < each * places.length)) continue;
    gone += alone ? (count ?? each) : each;
    by ??= away;
  }
  if (gone === 0 || gone >= each) return by;
  const figures = figuresWith();
  return figures > 1 && figures > each - gone && figures <= each ? by : undefined;
}

/**
 * What was sent is another piece than those that are on: new ones were on, all of them, on the day that it went and before it came back; or where nobody says when it went, they went
 * in before it came back and have not been off since. The old one is welded up for the shelf.
 */
export function isForTheShelf(cell: PartCell | FastenerCell, { sentOn, back }: Pick<Away, "sentOn" | "back">): boolean {
  const history = (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done");
  const isWhole = ({ after }: PartMoment | FastenerMoment) => after.on >= cell.total && after.lots.every((lot) => lot.isNew);
  if (sentOn !== undefined) {
    const went = history.findLast((it) => it.day !== undefined && it.day <= sentOn);
    const came = back === undefined ? went : history.findLast((it) => it.day !== undefined && it.day < back);
    return went !== undefined && isWhole(went) && came !== undefined && isWhole(came);
  }
  const fit = history.findLast((it) => it.verb === "fit" && it.isNew);
  return fit?.day !== undefined && back !== undefined && fit.day < back && history.every((it) => it.seq < fit.seq || isWhole(it));
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
export function sentWhileOn(story: Story): { readonly cell: PartCell | FastenerCell; readonly sent: Away; readonly off?: Moment }[] {
  const out: { cell: PartCell | FastenerCell; sent: Away; off?: Moment }[] = [];
  for (const [name, list] of ordersOf(story.job).work) {
    const cells = story.cells(name).filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
    for (const { file, entry, detail, status, sentOn } of list) {
      if ((status?.status !== "sent" && status?.status !== "received") || statusUnread(story.job, entry)) continue;
      const known = cells.filter((cell) => isAt(detail, cell.place));
      const thing = story.job.things.get(name);
      // A place that nothing in the sheet has touched.
      const untouched = detail.places
        .filter(({ text }) => !known.some((cell) => cell.place === text) && isDeclared(story.job, thing, text))
        .flatMap(({ text }) => asItStands(thing, text) ?? []);
      const meant = [...known, ...(known.length > 0 && detail.places.length < 2 ? [] : untouched)];
      const back = status.status === "received" ? status.date?.text : undefined;
      const day = sentOn ?? back;
      const stays = (cell: PartCell | FastenerCell) => !cell.unsure && !cell.thing.implied && !hasBeenOff(cell, day);
      // Where no place is named, one of them was meant; where several are, each of them.
      if (meant.length === 0 || !(detail.places.length > 1 ? meant.some(stays) : meant.every(stays))) continue;
      const cell = meant.find(stays);
      if (cell === undefined || !isTakenApart(story, cell)) continue;
      const off = hasBeenOff(cell, back)
        ? (cell.history as readonly (PartMoment | FastenerMoment)[]).find(({ before, after }) => after.on < before.on)
        : undefined;
      // Another one went on: it may have been that which was worked on, from the shelf.
      if (off !== undefined && cell.now.lots.every((lot) => lot.isNew)) continue;
      out.push({ cell, sent: sentBy({ file, entry, detail }), ...(off === undefined ? {} : { off }) });
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
