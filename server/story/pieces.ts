// How the lots of a thing move: on and off, from the bench, from another place, new; which of them a finding speaks of.
// Invariant: pure but for the cell that a piece is taken from, which loses it; judges nothing.
import type { ActionDetail } from "../../grammar/tree.ts";
import { wholeNumber } from "../model/declare.ts";
import { countAt } from "./decisions.ts";
import {
  type Lot,
  type Note,
  allot,
  asItStands,
  brandNew,
  change,
  countOf,
  faultyFirst,
  isFaulty,
  join,
  meantBy,
  noted,
  readsWorn,
  slackAndFaultyFirst,
  slackened,
  soundFirst,
  take,
} from "./lots.ts";
import type { FastenerCell, FastenerMoment, FastenerState, Found, Moment, PartCell, PartMoment, PartState, Reading, Spot } from "./story.ts";

export function fastenerState(lots: readonly Lot[], bench: readonly Lot[]): FastenerState {
  let [on, forNow, tight, locked] = [0, false, true, true];
  for (const lot of lots) {
    on += lot.count;
    forNow ||= lot.forNow;
    tight &&= lot.tight;
    locked &&= lot.locked;
  }
  return { lots, bench, on, off: countOf(bench), forNow, tight: on > 0 && tight, locked: on > 0 && locked };
}

export function partState(lots: readonly Lot[], bench: readonly Lot[], marked: boolean): PartState {
  return { lots, bench, on: countOf(lots), off: countOf(bench), forNow: lots.some((lot) => lot.forNow), marked };
}

export interface Lots {
  readonly lots: readonly Lot[];
  readonly bench: readonly Lot[];
}

/** So many come off, the faulty first, and lie on the bench. */
export function takenOff({ lots, bench }: Lots, count: number): Lots {
  const { taken, left } = take(lots, count, slackAndFaultyFirst);
  return { lots: left, bench: join(bench, taken.map(off)) };
}

function off(lot: Lot): Lot {
  return { ...slackened(lot), forNow: false, standsIn: false };
}

export interface Fitting extends Lots {
  readonly count: number;
  readonly moved: readonly Lot[];
  readonly over: readonly Lot[];
  readonly beganOff: boolean;
}

/**
 * What a `fit` makes of the lots at its place. `counted`: what the line says; `source`: the cell that the line takes them from, if another; `tight`: what
 * is never tight counts as tight once it is in; `touched`: something has moved it before.
 */
export function fitted(
  cell: PartCell | FastenerCell,
  action: ActionDetail,
  counted: number | undefined,
  source: PartCell | FastenerCell | undefined,
  tight: boolean,
  touched: boolean,
): Fitting {
  const { total, place } = cell;
  const { lots, bench, on } = cell.then;
  const isNew = action.isNew !== undefined;
  const forNow = action.forNowAt !== undefined;
  const ahead = cell.ahead.splice(0);
  const put = (lot: Lot): Lot => ({
    ...lot,
    home: place,
    forNow,
    standsIn: forNow && counted !== undefined,
    tight,
    tightenedAt: undefined,
    letBackAt: undefined,
    locked: false,
    lockedAt: undefined,
    notes: ahead.reduce((notes, note) => notes.with(note), lot.notes),
  });
  const lacking = Math.max(total - on, 0);

  if (isNew) {
    // New ones put in without a word of the old ones coming out take their places.
    const count = counted ?? (lacking === 0 ? total : lacking);
    // One that was bought for another place has the thread of that.
    const fresh = [{ ...brandNew(count, place), madeFor: action.from?.text ?? place }];
    const { taken: over, left } = take(lots, Math.max(0, Math.min(countOf(lots), on + count - total)), oldFirst);
    // What makes up the number has taken the place of the old ones: they are set aside. For now, they are still wanted.
    const { taken: keep, left: gone } = forNow ? { taken: bench, left: noLots } : take(bench, Math.max(0, total - on - count), soundFirst);
    cell.aside = join(cell.aside, [...gone, ...over.map(off)]);
    return { lots: join(over.length > 0 ? left : lots, fresh.map(put)), bench: keep, count, moved: fresh, over, beganOff: false };
  }

  if (source !== undefined) {
    const there = source.then;
    const count = counted ?? Math.min(Math.max(there.off, 1), Math.max(lacking, 1));
    const { taken, left } = take(there.bench, count, soundFirst);
    const aside = take(source.aside, count - countOf(taken), soundFirst);
    source.aside = aside.left;
    const robbed = take(there.lots, count - countOf(taken) - countOf(aside.taken), soundFirst);
    const rest = count - countOf(taken) - countOf(aside.taken) - countOf(robbed.taken);
    replaceState(source, { lots: robbed.left, bench: left });
    const moved = [...taken, ...aside.taken, ...robbed.taken.map(off), ...(rest > 0 ? [asItStands(rest, source.place)] : [])];
    // Two change places: what is still here makes room.
    const out = lacking < count && counted === undefined ? take(lots, count - lacking) : { taken: noLots, left: lots };
    return { lots: join(out.left, moved.map(put)), bench: join(bench, out.taken.map(off)), count, moved, over: noLots, beganOff: false };
  }

  if (!touched && lots.length > 0 && bench.length === 0) {
    // Nothing took it off: it began off.
    const count = counted ?? total;
    const began = take(lots, Math.min(count, total)).taken.map((lot) => ({ ...lot, tight: false, locked: false, lockedAt: undefined }));
    const more = count > countOf(began) ? [asItStands(count - countOf(began), place)] : noLots;
    const left = counted === undefined ? noLots : take(lots, Math.min(count, total)).left.map(off);
    return { lots: join(noLots, [...began, ...more].map(put)), bench: left, count: counted ?? 0, moved: began, over: noLots, beganOff: true };
  }

  const atHand = countOf(bench);
  const count = counted ?? (atHand === 0 ? lacking : Math.min(atHand, lacking));
  // So many for now stand in for those that are no good: another one is used, wherever it comes from.
  const sound = forNow && counted !== undefined ? bench.filter((lot) => !isFaulty(lot)) : bench;
  const bad = sound === bench ? noLots : bench.filter((lot) => isFaulty(lot));
  const { taken, left: rest } = take(sound, sound === bench ? count : Math.max(0, count - countOf(bad)), soundFirst);
  const left = bad.length === 0 ? rest : [...rest, ...bad];
  const found = count - countOf(taken);
  const moved = found > 0 ? [...taken, asItStands(found, place)] : taken;
  // Fitted again where it is: what was in for now stays.
  const stay = counted === undefined && count === 0 ? lots.map((lot) => ({ ...lot, forNow, standsIn: false, locked: false, lockedAt: undefined })) : lots;
  // Where new ones are among those that go back, what is left over has been replaced.
  const whole = left.length > 0 && on + count >= total && !forNow && (moved.some((lot) => lot.isNew) || lots.some((lot) => lot.isNew));
  if (whole) cell.aside = join(cell.aside, left);
  return { lots: join(stay, moved.map(put)), bench: whole ? noLots : left, count, moved: count === 0 ? lots : moved, over: noLots, beganOff: false };
}

/** The old ones that a new one takes the place of: those before the new, the faulty before the sound. */
function oldFirst(lot: Lot): number {
  return (lot.isNew ? 2 : 0) + faultyFirst(lot);
}

/** Takes pieces from a cell without a moment of its own: the line is told at the place where they went. */
function replaceState(cell: PartCell | FastenerCell, { lots, bench }: Lots): void {
  if (cell.kind === "fastener") cell.then = fastenerState(lots, bench);
  else cell.then = partState(lots, bench, cell.then.marked);
}

/** What a finding makes of the lots at a place: gone, one more, or with a note of it. */
export function foundSo(cell: PartCell | FastenerCell, found: Found): Lots {
  let { lots, bench } = cell.then as Lots;
  const { count } = countAt(found, cell.place, cell.total);
  const { count: said } = found;
  let rest = said === undefined ? undefined : count;
  let all = true;
  for (const { condition } of found.conditions) {
    if (condition.kind === "missing") {
      const gone = wholeNumber(condition.count?.text) ?? (said === undefined ? cell.total : count);
      const from = take(lots, gone);
      lots = from.left;
      bench = take(bench, gone - countOf(from.taken)).left;
      // It speaks of those that are gone, and of no others.
      if (condition.count !== undefined || said !== undefined) all = found.conditions.length > 1;
    } else if (condition.kind === "extra") {
      // Those that came off beyond what was known are out already.
      const more = Math.max(0, (wholeNumber(condition.count?.text) ?? 1) - (cameOffBeyond(cell)?.more ?? 0));
      if (more > 0) lots = join(lots, [asItStands(more, cell.place)]);
      all = found.conditions.length > 1;
    }
  }
  if (!all || rest === 0) return { lots, bench };
  const note: Note = { kind: "found", seq: found.seq, found };
  const loose = found.conditions.some(({ condition }) => condition.kind === "loose");
  const unlocked = found.conditions.some(({ condition }) => condition.kind === "unlocked" || condition.kind === "undrilled");
  const say = (lot: Lot): Lot => {
    const it = noted(lot, note);
    return loose || unlocked
      ? {
          ...it,
          tight: it.tight && !loose,
          tightenedAt: loose ? undefined : it.tightenedAt,
          locked: it.locked && !unlocked,
          lockedAt: unlocked ? undefined : it.lockedAt,
          fresh: it.fresh && !unlocked,
        }
      : it;
  };
  const there = countOf(lots) + countOf(bench);
  rest = rest === undefined ? there : Math.min(rest, there);
  if (rest === there) return { lots: join(noLots, lots.map(say)), bench: join(noLots, bench.map(say)) };
  // What is loose or not locked is on; else those in the hand are looked at before those that are in.
  const rank = meantBy(found);
  const both = loose || unlocked ? [...lots, ...bench] : [...bench, ...lots];
  const counts = allot(both, rest, rank);
  const countOfLot = new Map<Lot, number>();
  // A lot that is there twice counts as at its first place.
  for (const [i, lot] of both.entries()) if (!countOfLot.has(lot)) countOfLot.set(lot, counts[i] as number);
  const part = (list: readonly Lot[]) =>
    join(
      noLots,
      list.flatMap((lot) => {
        const some = countOfLot.get(lot) ?? 0;
        const split: Lot[] = [];
        if (some < lot.count) split.push({ ...lot, count: lot.count - some });
        if (some > 0) split.push(say({ ...lot, count: some }));
        return split;
      }),
    );
  return { lots: part(lots), bench: part(bench) };
}

/** The last line that took some off, where it took more than were known to be on; nothing has been fitted since. */
export function cameOffBeyond(cell: PartCell | FastenerCell, below = Number.POSITIVE_INFINITY): { readonly seq: number; readonly more: number } | undefined {
  const history: readonly (PartMoment | FastenerMoment)[] = cell.history;
  const last = history.findLast((it) => it.seq < below && it.phase === "done" && (it.verb === "remove" || it.verb === "undo" || it.verb === "fit"));
  if (last === undefined || last.verb === "fit" || last.before.on === 0 || last.count <= last.before.on) return undefined;
  return { seq: last.seq, more: last.count - last.before.on };
}

/** Worked on: those that are faulty first, all where no count is given, wherever they lie. */
export function repaired({ lots, bench }: Lots, count: number | undefined, moment: Moment, text = ""): Lots {
  const note: Note = { kind: "repair", seq: moment.seq, moment, text };
  const mend = (lot: Lot) => noted(lot, note);
  if (count === undefined) return { lots: lots.map(mend), bench: bench.map(mend) };
  const first = Math.min(count, countOf(bench));
  return { bench: change(bench, first, mend, faultyFirst), lots: count > first ? change(lots, count - first, mend, faultyFirst) : lots };
}

/**
 * A reading is of the pieces that are on, or else of those on the bench; a final one of an empty place is of what is fitted there next. As many figures
 * as pieces: each is of one.
 */
export function readSo(cell: PartCell | FastenerCell, reading: Reading, alone: boolean): void {
  const { lots, bench, on } = cell.then;
  const note: Note = { kind: "read", seq: reading.seq, reading, spot: undefined, inPlace: on > 0 };
  if (on === 0 && (reading.stage === "final" || bench.length === 0)) {
    if (reading.stage === "final") cell.ahead.push(note);
    return;
  }
  const list = on > 0 ? lots : bench;
  const each = alone && reading.spots.length > 1 && reading.spots.length === countOf(list);
  const next = each ? spotsInTurn(list, reading) : undefined;
  const read = next
    ? list.flatMap((lot) => Array.from({ length: lot.count }, () => noted({ ...lot, count: 1 }, { ...note, spot: next(lot) })))
    : list.map((lot) => (isOfBefore(cell, lot, reading) ? lot : noted(lot, note)));
  replaceState(cell, on > 0 ? { lots: read, bench } : { lots, bench: read });
}

/**
 * The figures in the order of the pieces. Whoever looks first and measures then has no word for which piece it was: those that were found worn have the figures past wear, and of the rest
 * those that were found sound sooner than those with another fault, for which they go back no more.
 */
function spotsInTurn(list: readonly Lot[], reading: Reading): (lot: Lot) => Spot | undefined {
  const spots = [...reading.spots];
  const isFound = (lot: Lot) => isFaulty(lot) && lot.notes.some((it) => it.kind === "found");
  if (reading.stage !== "found" || !list.some(isFound) || list.some((lot) => lot.notes.some((it) => it.kind === "read" && it.spot !== undefined)))
    return () => spots.shift();
  const foundWorn = (lot: Lot) =>
    isFound(lot) && lot.notes.some((it) => it.kind === "found" && it.found.conditions.some(({ condition }) => condition.kind === "worn"));
  const past = spots.filter((spot) => readsWorn(reading, spot));
  const others = spots.filter((spot) => !past.includes(spot));
  const ofWorn = past.splice(0, countOf(list.filter(foundWorn)));
  return (lot) => (foundWorn(lot) ? (ofWorn.shift() ?? others.shift()) : isFound(lot) ? (others.shift() ?? past.shift()) : (past.shift() ?? others.shift()));
}

/**
 * As found, and written below its repair of a later day, or below the new one, which went in on a later day, or on that day and has its final reading. A day of its
 * own is meant: what a sheet goes on under may be a day that nobody changed. Most such are told before by `inOrderOfDays`.
 */
function isOfBefore(cell: PartCell | FastenerCell, lot: Lot, { stage, limit, entry }: Reading): boolean {
  const day = entry.date?.text;
  if (stage !== "found" || day === undefined) return false;
  if (lot.notes.repairedAfter(day)) return true;
  if (!lot.isNew) return false;
  const fit = (cell.history as readonly (PartMoment | FastenerMoment)[]).findLast((it) => it.verb === "fit" && it.isNew);
  if (fit?.day === undefined || fit.day < day) return false;
  return fit.day > day || lot.notes.hasFinal(limit);
}

const noLots: readonly Lot[] = [];
