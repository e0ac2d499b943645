// What is away: parts sent out to be worked on, and what new parts have come.
// Invariant: an order's last status line holds; without a date it holds from the order's own day on.
import type { OrderEntry, WorkDetail } from "../../grammar/tree.ts";
import { wholeNumber } from "../model/declare.ts";
import { type Job, placesOf } from "../model/job.ts";
import type { Thing } from "../model/things.ts";
import { fastenerAsItStands, partAsItStands } from "./cells.ts";
import { type Ordered, isAt, mentionsOf, ordersOf, statusOf, statusUnread } from "../model/orders.ts";
import { memo } from "../model/memo.ts";
import { type Where, where } from "../model/where.ts";
import { countAt, findingsOf } from "./decisions.ts";
import type { FastenerCell, FastenerMoment, Found, PartCell, PartMoment, Reading, Seen, Story } from "./story.ts";

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

function awayBy(job: Job, { file, entry, detail, status, sentOn }: Ordered<WorkDetail>, day: string | undefined): Away | undefined {
  if (statusUnread(job, entry)) return undefined;
  const away = {
    reference: entry.reference?.value ?? "",
    where: where(file, entry, detail.row, detail.part?.at ?? detail.keyword),
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
export function sentWhileOn(story: Story): { readonly cell: PartCell | FastenerCell; readonly sent: Away }[] {
  const out: { cell: PartCell | FastenerCell; sent: Away }[] = [];
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
      const day = status.status === "received" ? status.date?.text : sentOn;
      const stays = (cell: PartCell | FastenerCell) => !cell.unsure && !cell.thing.implied && !hasBeenOff(cell, day);
      // Where no place is named, one of them was meant; where several are, each of them.
      if (meant.length === 0 || !(detail.places.length > 1 ? meant.some(stays) : meant.every(stays))) continue;
      const cell = meant.find(stays);
      if (cell === undefined || !isTakenApart(story, cell)) continue;
      out.push({ cell, sent: { reference: entry.reference?.value ?? "", where: where(file, entry, detail.row, detail.part?.at ?? detail.keyword) } });
    }
  }
  return out;
}

/** Pieces of which fewer came back than were sent, though all are on; or of which fewer were worked on than a finding wants repaired. */
export interface SentTooFew {
  readonly thing: Thing;
  /** Sent, or to be repaired. */
  readonly wanted: number;
  /** Come back, or worked on. */
  readonly done: number;
  readonly back: boolean;
  readonly where: Where;
  readonly found?: Found;
}

export function sentTooFew(story: Story): SentTooFew[] {
  const { job } = story;
  const out: SentTooFew[] = [];
  for (const [name, all] of ordersOf(job).work) {
    const thing = job.things.get(name);
    const list = all.filter(({ status }) => status?.status !== "cancelled" && status?.status !== "returned");
    const cells = story.cells(name).filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
    if (thing === undefined || list.length === 0 || cells.length === 0 || cells.some((it) => it.unsure || it.thing.implied)) continue;
    if (list.some(({ entry }) => statusUnread(job, entry))) continue;
    const [first] = list as [(typeof list)[number], ...typeof list];
    const at = where(first.file, first.entry, first.detail.row, first.detail.part?.at ?? first.detail.keyword);
    const total = cells.reduce((sum, cell) => sum + cell.total, 0);
    // Without a count all at that place went.
    const sentOf = ({ detail }: (typeof list)[number]) =>
      countEach(detail) ?? cells.filter((cell) => isAt(detail, cell.place)).reduce((sum, cell) => sum + cell.total, 0);
    const sent = list.reduce((sum, it) => sum + sentOf(it), 0);
    const came = cameBack(list);
    // What came of an order came once, for all of its lines that send some.
    function cameBack(all: typeof list): number {
      const lines = new Map<string | OrderEntry, number>();
      for (const it of all) {
        const order = it.entry.reference?.value ?? it.entry;
        lines.set(order, (lines.get(order) ?? 0) + sentOf(it));
      }
      return [...lines].reduce((sum, [order, went]) => {
        const first = all.find(({ entry }) => (entry.reference?.value ?? entry) === order) as (typeof all)[number];
        return sum + backBy(job, first.entry, name, went, undefined);
      }, 0);
    }
    const old = cells.reduce((sum, cell) => sum + cell.now.lots.reduce((n, lot) => n + (lot.isNew ? 0 : lot.count), 0), 0);
    if (came < sent && old + (sent - came) > total) {
      out.push({ thing, wanted: sent, done: came, back: true, where: at });
      continue;
    }
    for (const found of findingsOf(story).get(name) ?? []) {
      if (found.decision?.detail.decision !== "repair") continue;
      const here = cells.filter((cell) => found.places.includes(cell.place));
      const wanted = here.reduce((sum, cell) => sum + countAt(found, cell.place, cell.total).count, 0);
      const meant = list.filter(({ detail }) => here.some((cell) => isAt(detail, cell.place)));
      // Without any count, or of one alone, there is nothing to compare.
      if (wanted < 2 || !meant.some(({ detail }) => detail.count !== undefined || detail.places.length > 0)) continue;
      const worked = meant.reduce((sum, it) => sum + sentOf(it), 0);
      const history = here
        .flatMap((cell) => cell.history as readonly (PartMoment | FastenerMoment)[])
        .filter((it) => it.phase === "done" && it.seq > found.seq);
      const fresh = history.reduce((sum, it) => sum + (it.verb === "fit" && it.isNew ? it.count : 0), 0);
      const mended = history.reduce((sum, it) => sum + (it.verb === "repair" ? it.count : 0), 0);
      // What was worked on here as well as what came back is finished here: it is no other piece.
      const done = worked + fresh + (worked + mended <= wanted ? mended : 0);
      const on = here.reduce((sum, cell) => sum + cell.now.on, 0);
      const later = (findingsOf(story).get(name) ?? []).some(
        (it) => it.seq > found.seq && it.decision !== undefined && it.decision.detail.decision !== "repair",
      );
      if (done < wanted && on > done && !later) {
        out.push({ thing, wanted, done, back: false, where: at, found });
        break;
      }
    }
  }
  return out;
}

/** More of the old ones on than are here: the rest of what an order sent out came on a later day. */
export interface FittedTooMany {
  readonly cell: PartCell | FastenerCell;
  readonly moment: PartMoment | FastenerMoment;
  readonly away: number;
  readonly total: number;
  readonly sent: Away;
}

/** Of what was sent out, and came back on several days, the first `fit` of each thing that needs more than had come by its day. What never came is told by `sentTooFew`. */
export function fittedTooMany(story: Story): FittedTooMany[] {
  const { job } = story;
  const out: FittedTooMany[] = [];
  for (const [name, all] of ordersOf(job).work) {
    const list = all.filter(({ entry, sentOn }) => sentOn !== undefined && !statusUnread(job, entry) && (receivedLines(job, entry, name)?.length ?? 0) > 0);
    const cells = story.cells(name).filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
    if (list.length === 0 || cells.some((it) => it.unsure || it.thing.implied)) continue;
    const total = cells.reduce((sum, cell) => sum + cell.total, 0);
    const wentBy = new Map<OrderEntry, { went: number; readonly ordered: (typeof list)[number] }>();
    for (const ordered of list) {
      const { detail, entry } = ordered;
      const went = countEach(detail) ?? cells.filter((cell) => isAt(detail, cell.place)).reduce((sum, cell) => sum + cell.total, 0);
      const known = wentBy.get(entry);
      if (known === undefined) wentBy.set(entry, { went, ordered });
      else known.went += went;
    }
    if ([...wentBy].some(([entry, { went }]) => backBy(job, entry, name, went, undefined) < went)) continue;
    const oldOn = new Map<PartCell | FastenerCell, number>(cells.map((cell) => [cell, cell.total]));
    const moments = cells.flatMap((cell) => (cell.history as readonly (PartMoment | FastenerMoment)[]).map((moment) => ({ cell, moment })));
    for (const { cell, moment } of moments.sort((a, b) => a.moment.seq - b.moment.seq)) {
      if (moment.phase !== "done") continue;
      oldOn.set(
        cell,
        moment.after.lots.reduce((sum, lot) => sum + (lot.isNew ? 0 : lot.count), 0),
      );
      if (moment.verb !== "fit" || moment.isNew || moment.day === undefined) continue;
      const { day } = moment;
      const on = [...oldOn.values()].reduce((sum, it) => sum + it, 0);
      const gone = [...wentBy.values()].map(({ went, ordered: it }) => ({
        it,
        away: (it.sentOn as string) <= day ? went - backBy(job, it.entry, name, went, day) : 0,
      }));
      const away = gone.reduce((sum, it) => sum + it.away, 0);
      const first = gone.find((it) => it.away > 0)?.it;
      if (first === undefined || on + away <= total) continue;
      const { file, entry, detail } = first;
      const sent = { reference: entry.reference?.value ?? "", where: where(file, entry, detail.row, detail.part?.at ?? detail.keyword) };
      out.push({ cell, moment, away, total, sent });
      break;
    }
  }
  return out;
}

/** A count is of each place that the line names. */
function countEach({ count, places }: WorkDetail): number | undefined {
  const each = wholeNumber(count?.text);
  return each === undefined ? undefined : each * Math.max(1, places.length);
}

/** Of what an order sent out, how many are back on a day, or in the end: what its `received` lines name, and all where its status says that it came or no line names any. */
function backBy(job: Job, entry: OrderEntry, name: string, went: number, day: string | undefined): number {
  const isBy = (date: string | undefined) => day === undefined || date === undefined || date <= day;
  const status = statusOf(job, entry);
  if (status?.status === "received" && isBy(status.date?.text)) return went;
  const lines = receivedLines(job, entry, name);
  if (lines === undefined || (lines.length === 0 && status?.status !== "received")) return went;
  return Math.min(
    went,
    lines.reduce((sum, it) => sum + (isBy(it.day) ? it.count : 0), 0),
  );
}

/** What the `received` lines of an order say of a thing; undefined where one says no number. */
function receivedLines(job: Job, entry: OrderEntry, name: string): { readonly count: number; readonly day: string | undefined }[] | undefined {
  const out: { count: number; day: string | undefined }[] = [];
  for (const { details } of mentionsOf(job, entry)) {
    for (const it of details) {
      if (it.kind !== "received" || it.fault !== undefined) continue;
      for (const { item, amount } of it.items) {
        if (item?.kind !== "name" || item.name.text !== name) continue;
        const count = wholeNumber(amount?.figure.text);
        if (count === undefined) return undefined;
        out.push({ count, day: it.date?.text });
      }
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
