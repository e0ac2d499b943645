// Which readings say nothing of the machine as it is now: a setting that was moved after it was read, a size that was read of the piece that came out.
// Invariant: done work only.
import { isSamePlace } from "../model/same-place.ts";
import type { Job } from "../model/job.ts";
import { ordersOf } from "../model/orders.ts";
import { allWords } from "../model/titles.ts";
import {
  isBetweenPieces,
  isOnBench,
  headOf,
  isOfAllMounted,
  isOfCracks,
  isOfLeaks,
  isOfSize,
  isOfSurface,
  isReadTogether,
  isSeenRunning,
  readWith,
  wordsOf,
} from "../model/read-with.ts";
import { relationsOf } from "../model/relations.ts";
import type { Limit, Part } from "../model/things.ts";
import { bandOf } from "../model/values.ts";
import { readingsOn } from "../story/looked-up.ts";
import { onAt } from "../story/in-place.ts";
import { openedOn } from "../story/opened-on.ts";
import type { FastenerCell, FastenerMoment, Moment, PartCell, PartMoment, Reading, Seen, Story } from "../story/story.ts";
import { type Away, type Coming, comesOn, workedOnLater } from "../story/away.ts";
import { sizedInLater } from "../story/worked-in.ts";
import { type Move, lastMove, lastOffOrOn, lastOpened } from "./moved.ts";
import { placesByShank, pulledAsThen } from "./pulls.ts";
import { holdsWithItIn } from "./read-without.ts";
import { shutAgain } from "./squashed.ts";
import { agreeing, midSentence } from "./wording.ts";

/** What moved a setting after it was read, by its line or by its day. */
export function movedSince(story: Story, reading: Reading): Move | undefined {
  const { limit } = reading;
  // What wire showed under a cap is of the bearing as it was shut, and it was shut again the same.
  if (limit.setBy.length === 0 || shutAgain(story, reading) === "same") return undefined;
  if (holdsWithItIn(story, reading)) return undefined;
  const place = placeRead(story.job, reading);
  return latest(reading, [
    lastMove(story, limit.setBy, place),
    lastOffOrOn(story, partsOf(story, limit), place),
    madeTight(story, limit, reading),
    // What it was read with, that came off or was let go after it.
    lastOpened(story, limit.with, place),
  ]);
}

/** A limit that is of no places may be read at some all the same: “left 0.08 mm”. What is at another says nothing of that. */
function placeRead({ kindsOfPlace }: Job, { place, position }: Reading): string {
  if (place !== "" || position === undefined) return place;
  return kindsOfPlace.has(position) ? position : place;
}

/** A part that sets it is set when what holds it is tight: it was slack as this was read, and was tightened since. */
function madeTight(story: Story, limit: Limit, reading: Reading): Move | undefined {
  for (const name of limit.setBy) {
    const thing = story.job.things.get(name.text);
    if (thing?.kind !== "part") continue;
    for (const { text } of thing.heldBy) {
      for (const cell of story.cells(text)) {
        if (cell.kind !== "fastener" || cell.unsure || !isSamePlace(cell.place, placeRead(story.job, reading))) continue;
        const was = cell.history.findLast((it) => it.seq < reading.seq);
        if (was === undefined || was.after.tight) continue;
        const moment = cell.history.find((it) => it.seq > reading.seq && it.phase === "done" && it.verb === "tighten");
        if (moment !== undefined) return { cell, moment };
      }
    }
  }
  return undefined;
}

/** By their days the reading is the older, wherever the lines stand. */
export function datedBefore(reading: Moment, moved: Moment): boolean {
  return reading.day !== undefined && moved.day !== undefined && reading.day < moved.day;
}

/** The latest of these, if it came after the reading, by its line or by its day. */
function latest(reading: Moment, moves: readonly (Move | undefined)[]): Move | undefined {
  let last: Move | undefined;
  for (const it of moves)
    if (it !== undefined && (it.moment.seq > reading.seq || datedBefore(reading, it.moment)) && (last === undefined || it.moment.seq > last.moment.seq))
      last = it;
  return last;
}

/** What a setting is of, and the parts that the fasteners hold which set it: it was read with all of them on. */
function partsOf(story: Story, limit: Limit): readonly string[] {
  const { holds } = relationsOf(story.job);
  return [...limit.of.map((name) => name.text), ...limit.setBy.flatMap((name) => (holds.get(name.text) ?? []).map((part) => part.name))];
}

/** What the piece that a size was read of had still to go through on the day of the reading, though the line stands below it: it had not come, or was not worked on yet. */
export interface NotYet {
  readonly cell: PartCell | FastenerCell;
  readonly order: Away;
  /** It was the new one, and not the old one come back. */
  readonly isNew: boolean;
  /** It was worked on in this one, which was away. */
  readonly with?: Part;
}

export function readBeforeItCame(story: Story, { limit, place, day, seq, where: at }: Reading): NotYet | undefined {
  if (day === undefined) return undefined;
  for (const name of limit.of) {
    for (const cell of story.cells(name.text)) {
      if ((cell.kind !== "part" && cell.kind !== "fastener") || cell.unsure || (cell.place !== place && cell.place !== "" && place !== "")) continue;
      const came = cameLater(story, cell, seq, day);
      if (came?.day !== undefined) return { cell, order: { reference: came.reference, where: came.where, back: came.day }, isNew: true };
      const work = isOfNew(cell, seq) ? undefined : workedOnLater(story.job, name.text, cell.place, day, at);
      if (work !== undefined) return { cell, order: work, isNew: false };
      const inIt = sizedInLater(story.job, name.text, cell.place, day, at);
      if (inIt !== undefined) return { cell, order: inIt, isNew: false, with: inIt.in };
    }
  }
  return undefined;
}

/** All that is read at that point of the sheet is new: what is in or, where it is off, what goes in next. */
function isOfNew(cell: PartCell | FastenerCell, seq: number): boolean {
  const history = (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done");
  const isOff = onAt(cell, seq) === 0;
  const end = history.findIndex((it) => (isOff ? it.seq > seq && it.after.on < it.before.on : it.seq >= seq));
  const state = history[(end < 0 ? history.length : end) - 1]?.after;
  return state !== undefined && state.on >= cell.total && state.lots.every((lot) => lot.isNew);
}

/** The order by which what is read at that point of the sheet came later than a day, where all of it is new. */
function cameLater(story: Story, cell: PartCell | FastenerCell, seq: number, day: string): Coming | undefined {
  return isOfNew(cell, seq) ? comesOn(story.job, cell.thing.name, day) : undefined;
}

/**
 * The new piece, or the one from another place, that a final is dated before, though it stands below it: the old one was still in on that day. Whether the new one lay there
 * by then (`come`).
 */
export function readOfTheOld(
  story: Story,
  reading: Reading,
): { readonly cell: PartCell | FastenerCell; readonly moment: PartMoment | FastenerMoment; readonly come: boolean } | undefined {
  const { day } = reading;
  if (day === undefined) return undefined;
  for (const name of reading.limit.of) {
    for (const cell of story.cells(name.text)) {
      if ((cell.kind !== "part" && cell.kind !== "fastener") || (cell.place !== reading.place && cell.place !== "" && reading.place !== "")) continue;
      const history = (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done" && it.seq < reading.seq);
      const moment = history.findLast((it) => it.verb === "fit" && (it.isNew || it.from !== undefined));
      if (moment?.day === undefined || moment.day <= day) continue;
      const off = history.findLast((it) => it.seq < moment.seq && it.after.on < it.before.on);
      // Off by then: it was read of the new one, before that went in. What is read with it in was read of neither.
      const isIn = readWith(story.job, reading.limit).includes(cell.thing) || isReadTogether(reading.limit);
      if (off?.day !== undefined && off.day <= day && !isIn) continue;
      // Tried on the bench when it had come, and the old one was still in.
      const come = moment.verb === "fit" && moment.isNew && isOfPiece(reading.limit) && hadCome(story.job, name.text, day);
      if (!isIn && come && isTriedOut(story.job, reading)) continue;
      return { cell, moment, come: come && !isIn };
    }
  }
  return undefined;
}

/** What was done on a later day than a reading or a look that stands below it. */
export interface LaterThan {
  readonly cell?: PartCell | FastenerCell;
  /** `came off on 2026-03-02` of the cell; a whole clause without one. */
  readonly what: string;
  readonly moment?: Moment;
}

/**
 * A final that is dated before the sheet was opened, before what it is of came off or was worked on, before it was found as it was, or before that could run which it
 * shows only as it runs: it says how it was then, whatever line it stands on. Undefined where nothing says so.
 */
export function saysHowItWas(story: Story, it: Reading | Seen): LaterThan | undefined {
  const { day } = it;
  if (day === undefined) return undefined;
  const thing = "limit" in it ? it.limit : it.check;
  const opened = openedOn(story);
  if (opened !== undefined && day < opened) return { what: `the sheet was opened on ${opened}` };
  // Its own day is the sheet's, and the step above it says another: it was read on that evening, or later.
  const isUndated = it.entry.date === undefined;
  const later = (was: Moment) => was.phase === "done" && was.seq < it.seq && was.day !== undefined && was.day > day && !(isUndated && saysItsDay(was));
  const here = (place: string) => isSamePlace(place, it.place);
  for (const name of thing.of) {
    const all = story.cells(name.text).filter((cell): cell is PartCell | FastenerCell => cell.kind === "part" || cell.kind === "fastener");
    const own = all.filter((cell) => here(cell.place));
    // Boxes by their sides and a limit by corners: which is whose nobody knows, and the one that came off first speaks for all.
    for (const cell of own.length > 0 ? own : firstOff(all)) {
      if (cell.unsure) continue;
      const history = cell.history as readonly (PartMoment | FastenerMoment)[];
      // Off twice, it may have been read between: the first time counts.
      const off = history.find((was) => was.phase === "done" && was.seq < it.seq && was.after.on < was.before.on && was.verb !== "found");
      // Or tried on the bench when the new one had come, and the old one was still in.
      const isOnBench =
        "limit" in it &&
        isOfPiece(it.limit) &&
        isTriedOut(story.job, it) &&
        hadCome(story.job, name.text, day) &&
        history.some((was) => later(was) && was.verb === "fit" && was.isNew);
      if (off !== undefined && later(off) && !isOnBench) return { cell, what: `came off on ${off.day ?? ""}`, moment: off };
      const worked = history.findLast((was) => was.verb === "repair" && later(was));
      if (worked !== undefined) return { cell, what: `was worked on on ${worked.day ?? ""}`, moment: worked };
      const came = "check" in it && onAt(cell, it.seq) === 0 && !isTestedBySeller(story, it) ? cameLater(story, cell, it.seq, day)?.day : undefined;
      if (came !== undefined) return { cell, what: `came new on ${came}` };
      const isMounted = "limit" in it && (isOfRunning(it.limit) || (isBetweenPieces(it.limit) && !isTriedOut(story.job, it)));
      const on = isMounted ? history.findLast((was) => was.verb === "fit" && later(was)) : undefined;
      if (on !== undefined) return { cell, what: `went in on ${on.day ?? ""}`, moment: on };
    }
  }
  // What is in, or tight, as it is read, was not yet on that day.
  const sets = new Set(thing.setBy.map((it) => it.text));
  for (const name of thing.setBy.length > 0 ? thing.with.map((it) => it.text).filter((it) => !sets.has(it)) : readWith(story.job, thing).map((it) => it.name)) {
    for (const cell of story.cells(name)) {
      if ((cell.kind !== "part" && cell.kind !== "fastener") || cell.unsure || !here(cell.place)) continue;
      const history = cell.history as readonly (PartMoment | FastenerMoment)[];
      if ("limit" in it && wasInThatDay(it.limit, cell, day)) continue;
      const went = history.findLast((was) => later(was) && (was.verb === "fit" || (was.verb === "tighten" && "tight" in was.before && !was.before.tight)));
      if (went !== undefined) return { cell, what: `${went.verb === "fit" ? "went in" : "was tightened"} on ${went.day ?? ""}`, moment: went };
    }
  }
  const found = "limit" in it ? readingsOn(story, thing.name).find((was) => was.stage === "found" && was.place === it.place && later(was)) : undefined;
  if (found !== undefined) return { what: `it was found so on ${found.day ?? ""}`, moment: found };
  return undefined;
}

/** A size that was read with it in and at its torque, on a day on which it was: apart and together again, or with new bolts at that torque, it is the same. */
function wasInThatDay(limit: Limit, cell: PartCell | FastenerCell, day: string): boolean {
  if (limit.setBy.length > 0 || !isOfSize(limit)) return false;
  const history = (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done");
  const last = history.findLast((it) => it.day !== undefined && it.day <= day);
  if (last === undefined) return false;
  if (cell.kind === "fastener") return !placesByShank(cell.thing) && pulledAsThen(cell, last.seq);
  return (
    last.after.on >= cell.total &&
    !history.some((it) => it.seq > last.seq && (it.verb === "repair" || (it.verb === "fit" && (it.isNew || it.from !== undefined))))
  );
}

function saysItsDay({ visit }: Moment): boolean {
  return visit?.entry.details.some((it) => it.kind === "done" && it.date !== undefined) === true;
}

/** Tested for cracks by the house that sent it, as its certificate says: before it came, and it was that one. */
function isTestedBySeller({ job }: Story, { check, entry }: Seen): boolean {
  const by = wordsOf(entry.by?.value ?? "");
  if (by.length === 0 || !isOfCracks(check)) return false;
  return [...job.things.values()].some((it) => it.kind === "supplier" && by.includes(wordsOf(it.title ?? it.name)[0] ?? ""));
}

function firstOff(cells: readonly (PartCell | FastenerCell)[]): readonly (PartCell | FastenerCell)[] {
  const seqOf = (cell: PartCell | FastenerCell) =>
    (cell.history as readonly (PartMoment | FastenerMoment)[]).find((it) => it.phase === "done" && it.after.on < it.before.on)?.seq;
  return cells.filter((cell) => seqOf(cell) !== undefined && cells.every((it) => (seqOf(it) ?? Number.POSITIVE_INFINITY) >= (seqOf(cell) ?? 0)));
}

/** Was anything done above this line? */
export function isBelowWork(story: Story, { seq }: Moment): boolean {
  return [...story.parts, ...story.fasteners].some((cell) =>
    (cell.history as readonly (PartMoment | FastenerMoment)[]).some((it) => it.phase === "done" && it.seq < seq && it.verb !== "found"),
  );
}

/** A hazard that was still made safe on the day of a final which shows only with it live, and was restored on a later day above it: a speed, a run, a leak under pressure. */
export function liveOnlyLater(story: Story, it: Reading | Seen): LaterThan | undefined {
  const { day } = it;
  if (day === undefined) return undefined;
  const text = "check" in it ? `${allWords(it.check)} ${it.entry.text?.value ?? ""}` : "";
  const runs = "limit" in it ? isOfRunning(it.limit) || isOfHolding(it.limit) : isSeenRunning(it.check);
  const leaks = "check" in it && !isOfSurface(it.check) && isOfLeaks(text);
  const hangs = "limit" in it && weighs.test(it.limit.title ?? "");
  const turns = "check" in it && !isOfSurface(it.check) && turning.test(it.check.title ?? "");
  if (!runs && !leaks && !turns && !hangs) return undefined;
  for (const cell of story.hazards) {
    const what = allWords(cell.thing);
    if (cell.unsure || (!runs && !(leaks && presses.test(what)) && !(turns && drives.test(what)) && !(hangs && weighs.test(what)))) continue;
    const restored = cell.history.findLast((was) => was.verb === "restore" && was.phase === "done" && was.seq < it.seq);
    if (restored?.day === undefined || restored.day <= day) continue;
    const safe = cell.history.findLast((was) => was.verb === "safe" && was.seq < restored.seq);
    if (safe?.day !== undefined && safe.day <= day)
      return { what: `${midSentence(cell.thing)} ${agreeing(cell.thing, "was")} restored on ${restored.day}`, moment: restored };
  }
  return undefined;
}

/** How a weight hangs, which nobody reads while it stands on its pin. */
const weighs = /\b(counter)?-?weights?\b/i;

/** What presses on a joint, and shows whether it leaks. Our own list. */
const presses = /\b(water|head|steam|air|pressure|hydraulics?|oil|fuel|petrol|gas|vacuum)\b/i;

/** How it runs, which nobody sees with its drive shut off. What runs true is spun by hand. */
const turning = /^runs (level|quiet\w*|smooth\w*|cool|warm|free of|without|with no)\b/i;
/** What drives a machine, by the words of a hazard. */
export const drives = /\b(drive|motor|engine|power|mains|current|belt|steam)\b/i;

/** What can be told of a piece by itself: not how it runs, holds, or stands to others. */
function isOfPiece(limit: Limit): boolean {
  return limit.setBy.length === 0 && limit.with.length === 0 && !isOfAllMounted(limit) && !isOfRunning(limit);
}

/** Read out of the machine: the sheet says so, or it is what nobody reads in it, the pull of a spring at a length, its free length. */
function isTriedOut(job: Job, { limit, entry }: Reading): boolean {
  const said = entry.details.map((it) => ((it.kind === "note" || it.kind === "because") && it.text !== undefined ? it.text.value : ""));
  const words = [allWords(limit), ...said].join("\n");
  if (out.test(words) || isOnBench(words)) return true;
  const dimension = (bandOf(limit.worn) ?? bandOf(limit.new))?.unit.dimension;
  return dimension === "force" || limit.of.some(({ text }) => headOf(job.things.get(text) ?? limit) === "spring");
}

const out =
  /\b(bench|vice|surface plate|out of (the|its|her)|not in yet|still out|(in|on) (the|its) (box|shelf|hand|tester|scales?|balance)|as (it|they) came|when (it|they) came|before (it|they) (goes|go|went) in|new ones?|unfitted|free length)\b/iu;

/** Received by that day, as the sheet says. */
export function hadCome(job: Job, name: string, day: string): boolean {
  return (ordersOf(job).items.get(name) ?? []).some(({ status }) => status?.status === "received" && status.date !== undefined && status.date.text <= day);
}

/** What nothing shows on the bench: a speed, a power, the heat of a run. */
function isOfRunning(limit: Limit): boolean {
  const dimension = (bandOf(limit.set) ?? bandOf(limit.worn) ?? bandOf(limit.new))?.unit.dimension;
  return dimension !== undefined && ofRunning.has(dimension);
}

/** A pull or a torque that the whole holds or gives, of no piece that lies on a bench. */
function isOfHolding(limit: Limit): boolean {
  if (limit.of.length > 0 || limit.setBy.length > 0 || limit.with.length > 0) return false;
  const dimension = (bandOf(limit.worn) ?? bandOf(limit.new))?.unit.dimension;
  return (dimension === "force" || dimension === "torque") && holding.test(allWords(limit));
}

const holding = /\b(holds?|holding|brak\w*|pulls?|pulling|slips?|effort|pedal|lever)\b/i;

const ofRunning: ReadonlySet<string> = new Set(["speed", "rotation", "power", "temperature"]);
