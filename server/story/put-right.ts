// Whether a fault that was found has been put right since, where, and whether only a planned step will do it.
// Invariant: only done work cures; a planned cure is named and cures nothing.
import { memo } from "../model/memo.ts";
import { allWords } from "../model/titles.ts";
import { isSamePlace } from "../model/same-place.ts";
import { measured } from "../model/values.ts";
import { countAhead } from "../model/halving.ts";
import { addsMetal, isOtherWork, joinsNothing, leavesCrack, mendsNothing, onlyCuts } from "./worked-in.ts";
import type { ConditionKind, WorkDetail } from "../../grammar/tree.ts";
import type { FastenerCell, FastenerMoment, FastenerState, FluidCell, Found, Moment, PartCell, PartMoment, Seen, Story } from "./story.ts";
import { type Tightness, type Wanted, tightnessOf, wantedOf } from "../model/torque.ts";
import { type Ordered, isAt, mentionsOf, ordersOf } from "../model/orders.ts";
import { headOf, isOfCracks, isOfLeaks, isOfShape, showsNoCrack, tellsCrack, tellsOfShape, wordsOf } from "../model/read-with.ts";
import type { Check, Limit } from "../model/things.ts";
import { where } from "../model/where.ts";
import { countAt, findingsOf } from "./decisions.ts";
import { hasReason, reasonsUnder, wordsBehind } from "./finding-words.ts";
import type { Lot } from "./lots.ts";
import { isOpen } from "./standing.ts";
import { firstBehind, seenOf, verdictsOf } from "./looked-up.ts";
import { turnedOn } from "./turned.ts";
import { judge } from "./verdicts.ts";

export interface Cure {
  readonly moment: Moment;
  readonly planned: boolean;
}

/**
 * The moment since `seq` from which the fastener stands on, tight and locked to the end of what is done; else the first planned one.
 * Made fast and undone again is open again.
 */
export function madeFast(cell: FastenerCell, seq: number): Cure | undefined {
  let since: FastenerMoment | undefined;
  for (const it of cell.history) {
    if (it.seq <= seq || it.verb === "found") continue;
    const fast = !isOpen(cell, it.after) && !it.after.forNow && toTorque(cell, it.after);
    if (it.phase === "done") since = fast ? (since ?? it) : undefined;
    else if (fast && since === undefined) return { moment: it, planned: true };
  }
  return since === undefined ? undefined : { moment: since, planned: false };
}

/** Each of them was left at what is asked for, since it was last off or slack; a critical one by a figure. */
function toTorque(cell: FastenerCell, state: FastenerState): boolean {
  const wanted = wantedOf(cell.thing);
  if (wanted === undefined) return true;
  return state.lots.every(({ tightenedAt }) => {
    const tightened = tightenedAt === undefined ? undefined : cell.history.find((it) => it.seq === tightenedAt);
    return tightened === undefined || isRight(cell, tightened);
  });
}

/** A tightening that may be left so. A figure that can't be compared is left to the rules of units. */
export function isRight(cell: FastenerCell, it: FastenerMoment): boolean {
  const wanted = wantedOf(cell.thing);
  if (wanted === undefined) return true;
  if (it.action?.to === undefined) return !cell.thing.critical;
  const how = tightnessAt(cell, it, wanted);
  return how === undefined || how === "right" || how === "unread";
}

/** How a tightening left it, with what it was turned on before; undefined where its figure can't be read. */
export function tightnessAt(cell: FastenerCell, it: FastenerMoment, wanted: Wanted): Tightness | undefined {
  if (it.to === undefined) return undefined;
  const turned = turnedOn(cell, it);
  return tightnessOf(wanted, it.to, turned === undefined && it.action?.angle !== undefined ? "unread" : turned);
}

/** The first moment since `seq` at which it is locked, all that is tight of it: or of a kind that is never tight. */
export function lockedSince(cell: FastenerCell, seq: number): Cure | undefined {
  return first(cell.history, seq, (it) => it.verb === "lock" && it.after.lots.every((lot) => lot.locked || !lot.tight));
}

/** The first moment since this locking at which all are locked, and none by it: opened and locked again, or a new one put in its place. */
export function lockedAnew(cell: FastenerCell, lock: FastenerMoment): Cure | undefined {
  return first(cell.history, lock.seq, ({ after }) => after.locked && !after.lots.some((lot) => lot.lockedAt === lock.seq));
}

/** The first moment since `seq` at which all are on, at their torque and locked, all of it done since. */
export function madeFastAnew(cell: FastenerCell, seq: number): Cure | undefined {
  const neverTight = cell.thing.torque?.none === true;
  const since = (lot: Lot) => (lot.lockedAt ?? -1) > seq && (neverTight || (lot.tightenedAt ?? -1) > seq);
  return first(cell.history, seq, ({ after }) => !isOpen(cell, after) && after.lots.every(since) && toTorque(cell, after));
}

/** The first moment since `seq` at which all are on, and of each this holds. */
export function allSince(cell: FastenerCell | PartCell, seq: number, is: (lot: Lot, at: number) => boolean): Cure | undefined {
  return first<FastenerMoment | PartMoment>(
    cell.history as readonly (FastenerMoment | PartMoment)[],
    seq,
    (it) => (it.verb === "fit" || it.verb === "tighten" || it.verb === "repair") && it.after.on >= cell.total && it.after.lots.every((lot) => is(lot, it.seq)),
  );
}

/** The first moment since `seq` at which so many new ones have taken the place of what was found. */
export function renewedSince(cell: FastenerCell | PartCell, seq: number, count = 1): Cure | undefined {
  let fitted = 0;
  return first<FastenerMoment | PartMoment>(cell.history, seq, (it) => {
    // New ones that go on where none was taken off take the place of all.
    if (it.verb === "fit" && it.isNew) fitted += it.count > 0 ? it.count : cell.total;
    return it.verb === "fit" && it.isNew && fitted >= count;
  });
}

/**
 * Renewed since, the very pieces that the finding speaks of: none of them is on any more, nor lies on the bench to go back, and as many others have come.
 * One new blade does not mend the other.
 */
export function renewedAsFound(cell: FastenerCell | PartCell, found: Found): Cure | undefined {
  if (!carries(cell, found)) return renewedSince(cell, found.seq, countFound(cell, found));
  let fresh: number | undefined;
  const isFresh = (it: FastenerMoment | PartMoment) => it.verb === "fit" && it.isNew;
  const freshFrom = () =>
    (fresh ??= first(cell.history as readonly (FastenerMoment | PartMoment)[], found.seq, isFresh)?.moment.seq ?? Number.POSITIVE_INFINITY);
  return throughout(
    cell,
    found.seq,
    (it) => !isThere(it, (lot) => speaksOf(lot, found)) && (it.after.on + it.after.off >= cell.total || it.seq >= freshFrom()),
  );
}

/** Repaired since, every one of those that the finding speaks of. */
export function repairedAsFound(cell: FastenerCell | PartCell, found: Found): Cure | undefined {
  if (!carries(cell, found)) return repairedSince(cell, found.seq);
  const serves = servesFor(found);
  const mended = (lot: Lot) =>
    lot.notes.repairedSince(found.seq) && (serves === anyWork || lot.notes.some((note) => note.kind === "repair" && note.seq > found.seq && serves(note.text)));
  return throughout(cell, found.seq, (it) => isThere(it, (lot) => speaksOf(lot, found)) && !isThere(it, (lot) => speaksOf(lot, found) && !mended(lot)));
}

/** The finding speaks of pieces that were there, and not of what is missing. */
function carries(cell: FastenerCell | PartCell, found: Found): boolean {
  const history = cell.history as readonly (FastenerMoment | PartMoment)[];
  let i = firstSince(history, found.seq - 1);
  while (i < history.length && history[i]?.found !== found) i++;
  const it = history[i];
  return it !== undefined && isThere(it, (lot) => speaksOf(lot, found));
}

export function speaksOf(lot: Lot, found: Found): boolean {
  return lot.notes.tells(found);
}

/** Is such a piece on, or on the bench, behind this moment? */
function isThere({ after }: FastenerMoment | PartMoment, is: (lot: Lot) => boolean): boolean {
  return after.lots.some(is) || after.bench.some(is);
}

/**
 * The moment since `seq` from which it is so to the end of what is done; else the first planned one. Looked for from the end: of most that is not so, the
 * last moment says it.
 */
function throughout(cell: FastenerCell | PartCell, seq: number, is: (moment: FastenerMoment | PartMoment) => boolean): Cure | undefined {
  const history = cell.history as readonly (FastenerMoment | PartMoment)[];
  let planned = history.length;
  while (planned > 0 && history[planned - 1]?.phase === "planned") planned--;
  let since: FastenerMoment | PartMoment | undefined;
  for (let i = planned - 1; i >= 0; i--) {
    const it = history[i] as FastenerMoment | PartMoment;
    if (it.seq <= seq || !is(it)) break;
    since = it;
  }
  if (since !== undefined) return { moment: since, planned: false };
  const moment = history.slice(planned).find((it) => it.seq > seq && is(it));
  return moment === undefined ? undefined : { moment, planned: true };
}

/** Index of the first moment behind `seq`. */
function firstSince(history: readonly Moment[], seq: number): number {
  return countAhead(history, (it) => it.seq <= seq);
}

/** How many at this place a finding speaks of; all, where it does not say. */
export function countFound(cell: FastenerCell | PartCell, found: Found): number {
  return countAt(found, cell.place, cell.total).count || cell.total;
}

/** The first repair since `seq`. */
export function repairedSince(cell: FastenerCell | PartCell, seq: number): Cure | undefined {
  return first<FastenerMoment | PartMoment>(cell.history, seq, (it) => it.verb === "repair");
}

/** The first repair, or fitting of any kind, since `seq`. */
export function fitOrRepair(cell: FastenerCell | PartCell, seq: number): Cure | undefined {
  return first<FastenerMoment | PartMoment>(cell.history, seq, (it) => it.verb === "repair" || it.verb === "fit");
}

/** Since `seq` so many went on again after they were off, by a line that fits them; a nut goes on by being tightened. */
export function refittedSince(cell: FastenerCell | PartCell, seq: number, count = 1): Cure | undefined {
  let back = 0;
  return first<FastenerMoment | PartMoment>(cell.history, seq, (it) => {
    if (it.verb !== "fit" && it.verb !== "tighten") return false;
    back += Math.max(0, it.after.on - it.before.on);
    return back >= count && it.after.on > it.before.on;
  });
}

/** Since `seq` so many have come from another place: one of a pair that is swapped does not put the other right. */
export function changedOver(cell: FastenerCell | PartCell, seq: number, count = 1): Cure | undefined {
  let came = 0;
  return first<FastenerMoment | PartMoment>(cell.history, seq, (it) => {
    if (it.verb !== "fit" || it.from === undefined || it.from === cell.place) return false;
    came += it.count;
    return came >= count;
  });
}

/** The first moment since `seq` at which all that should be there is on. */
export function completeSince(cell: FastenerCell | PartCell, seq: number): Cure | undefined {
  return first<FastenerMoment | PartMoment>(cell.history, seq, (it) => (it.verb === "fit" || it.verb === "tighten") && it.after.on >= cell.total);
}

/**
 * The first filling since `seq`, after it was drained or lost; it may have been looked at in the can. Whether it was filled up is for another rule to
 * say.
 */
export function refilledSince(cell: FluidCell, seq: number, full = false): Cure | undefined {
  const last = cell.history.findLast((it) => it.seq <= seq);
  let drained = last !== undefined && !last.after.full;
  return first(cell.history, seq, (it) => {
    if (it.verb === "lost" || (it.verb === "drain" && !isDrop(cell, it))) drained = true;
    return it.verb === "fill" && drained && (!full || it.after.full);
  });
}

/** Less than half of what it takes was let out: what was in it is in it still. */
function isDrop({ thing }: FluidCell, { action }: FluidCell["history"][number]): boolean {
  const [out, all] = [measured(action?.amount), measured(thing.capacity)];
  return out !== undefined && all !== undefined && out.unit.dimension === all.unit.dimension && out.value.mul(2).compare(all.value) < 0;
}

/** Found so, no paint, no wash and no balancing mends it, nor makes it the one that belongs there. */
const ofMetal: ReadonlySet<ConditionKind> = new Set(["cracked", "broken", "bent", "stripped", "sheared", "wrong"]);

/** Where work on its metal was decided on, paint is not that work. */
const ofSurface: ReadonlySet<ConditionKind> = new Set(["worn", "pitted", "scored", "loose"]);

/** Of the words of work, here or outside: whether it may have put right what was found. What is rusty is cleaned and painted, and a leak may stop at a clean face. */
export function servesFor({ thing, conditions, decision }: Found): (work: string) => boolean {
  const is = (kinds: ReadonlySet<ConditionKind>) => conditions.some(({ condition }) => kinds.has(condition.kind));
  const how = decision?.detail.how?.value ?? "";
  // Where new metal was decided on, what only takes some off is the fitting of it, and no cure.
  if (addsMetal(how)) return (work) => mayMend(work) && !onlyCuts(withoutFitting(work)) && !isOtherWork(how, work);
  if (is(ofMetal) || (is(ofSurface) && how.trim() !== "" && mayMend(how)))
    return (work) => mayMend(work) && !isOtherWork(how, work) && !joinsNothing(thing, work);
  return conditions.some(({ condition }) => condition.kind === "leaking") ? mayStopLeak : anyWork;
}

/** Said of how it bears and where the oil runs, and nothing that was put on: “to blue”, “oil grooves cut”, “oil hole through”. */
function withoutFitting(work: string): string {
  return work
    .replace(/\b(in )?to (the )?(blue|pin|journal|shaft|crank\w*|size)\b|\b(scraped|bedded|let|blued) in\b/giu, (it) =>
      /^(scraped|bedded|let|blued)/iu.test(it) ? "scraped" : " ",
    )
    .replace(/\b(oil[- ]?)(grooves?|holes?|ways?|pockets?)( (cut|through|clear\w*|open\w*|eased|relieved|and|edges?))*/giu, "scraped")
    .replace(/\b(grooves?|edges?|corners?|holes?) (cut|eased|relieved|through|broken)\b/giu, "scraped");
}

function mayStopLeak(work: string): boolean {
  return mayMend(work) || /\b(clean|wash)/iu.test(work);
}

/** Work sent out on it that came back since, of which the words serve. */
export function workBack(
  story: Story,
  { thing, place }: PartCell | FastenerCell,
  day: string | undefined,
  serves: (work: string) => boolean = anyWork,
): Ordered<WorkDetail> | undefined {
  return (ordersOf(story.job).work.get(thing.name) ?? []).find(
    ({ detail, status }) =>
      status?.status === "received" &&
      isAt(detail, place) &&
      serves(detail.text?.value ?? "") &&
      (day === undefined || status.date === undefined || status.date.text >= day),
  );
}

export function backFromWork(...asked: Parameters<typeof workBack>): boolean {
  return workBack(...asked) !== undefined;
}

function anyWork(): boolean {
  return true;
}

/** Whoever had it outside since a day cleared it, by the words of the work. */
export function isClearedOutside(story: Story, cell: PartCell, day: string | undefined): boolean {
  return backFromWork(story, cell, day, (work) => clears.test(work));
}

const clears =
  /\b(re-?cor(e|ed|ing)|new core|clean(ed|ing)?|rodded|rod out|flush(ed)?|boil(ed)?( out)?|blown? (out|through)|blow (out|through)|clear(ed)?|unblock(ed)?|drill(ed)?|wash(ed)?|strip(ped)?|re-?build|rebuilt|overhaul(ed)?|recondition(ed)?)\b/iu;

/** Of its words: it may have mended the metal. */
export function mayMend(work: string): boolean {
  return !mendsNothing(work);
}

/** Whether what bears this name at a place was renewed or worked on behind a reading or a finding, or is to be; sent out work that may have mended it counts. */
export function isAnewSince(story: Story, name: string, place: string, at: Told): boolean {
  return anewSince(story, name, place, at) !== undefined;
}

interface Told {
  readonly seq: number;
  readonly day: string | undefined;
}

/** The number of the moment from which it is so: of work that came back, that of what was told, for it has no line in the story. */
export function anewSince(story: Story, name: string, place: string, { seq, day }: Told): number | undefined {
  const anew = (it: PartMoment | FastenerMoment) => it.verb === "repair" || (it.verb === "fit" && it.isNew);
  for (const cell of story.cells(name)) {
    if ((cell.kind !== "part" && cell.kind !== "fastener") || (cell.place !== place && cell.place !== "" && place !== "")) continue;
    const here = first<PartMoment | FastenerMoment>(cell.history, seq, anew);
    if (here !== undefined) return here.moment.seq;
    if (day !== undefined && backFromWork(story, cell, day, mayMend)) return refittedSince(cell, seq)?.moment.seq ?? seq;
  }
  return undefined;
}

/** What a look must be of: of anything, or of the very fault, where the work done on it by itself puts no such fault right. */
/**
 * Where what was done mends nothing: for the crack, or how true it is. Of what was mended: for a crack beside the weld, how true it was set; any, where no more is known of it.
 */
export type Look = "any" | "crack" | "shape" | "weld" | "set";

/** The look that is wanted at a place after this was found, and work was done on what it speaks of. */
export function lookWanted(story: Story, cell: PartCell | FastenerCell, found: Found): Look {
  const is = (kind: ConditionKind) => found.conditions.some(({ condition }) => condition.kind === kind);
  const cracked = is("cracked") || is("broken");
  if (!cracked && !is("bent")) return "any";
  const works = worksOn(story, cell, found);
  if (works.length === 0) return "any";
  const said = [allWords(cell.thing), ...wordsBehind(found), ...reasonsUnder(found)].join(" ");
  if (cracked && works.every((it) => onlyCuts(it) || leavesCrack(it, said))) return "crack";
  const isOurs = cell.thing.critical && works.length === repairsOf(cell).filter((it) => it.seq > found.seq && mayMend(it.action?.text?.value ?? "")).length;
  if (cracked) return isOurs && is("cracked") && works.every((it) => joins.test(it) && !tellsOfTheLook.test(it)) ? "weld" : "any";
  // Between centres or on a table it comes out true.
  if (works.some((it) => byMachine.test(it))) return "any";
  const isSet = isOurs && works.every((it) => (setsTrue.test(it) || onlyCuts(it)) && !/\d/u.test(it));
  return works.every(onlyCuts) ? "shape" : isSet ? "set" : "any";
}

const byMachine = /\b(re-?)?(ground|grind|turn|skim|machin|mill)/iu;
/** It closes a crack with metal, which may crack again beside it, or takes it out, which may leave its end in. */
const joins =
  /\b(weld\w*|braz\w*|bronz\w*|solder\w*|veed?|stitch\w*|fusion|filled)\b|\b(dressed|stoned|ground|filed|cut|blended|scraped|polished) (it |them |the \w+ )?out\b/iu;
/** The work itself says how it came out. */
export const tellsOfTheLook = /\b(dyed?|magnetic\w*|mpi|x-?ray\w*|ultra-?so\w*|tested|certificate|no (line|crack)s?|sound|inspect\w*|passed)\b/iu;
const setsTrue = /\b(straight\w*|set|bent|press\w*|jig|cold|trued)\b/iu;

/** The words of what was done since, here and outside, that may have mended the metal. */
function worksOn(story: Story, cell: PartCell | FastenerCell, found: Found): string[] {
  const here = repairsOf(cell).flatMap((it) => (it.seq > found.seq ? [it.action?.text?.value ?? ""] : []));
  const back = (ordersOf(story.job).work.get(cell.thing.name) ?? []).flatMap(({ detail, status }) =>
    status?.status === "received" && isAt(detail, cell.place) && (found.day === undefined || status.date === undefined || status.date.text >= found.day)
      ? [detail.text?.value ?? ""]
      : [],
  );
  return [...here, ...back].filter(mayMend);
}

/** Once for each cell: of one that was found a thousand times it is asked as often. */
const repairsOf = memo((cell: PartCell | FastenerCell) =>
  (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done" && it.verb === "repair"),
);

/**
 * A part or fastener that failed is put right when it was renewed, or when it was repaired or came back from work and,
 * where it is critical, was measured or seen good since. Where a crack was only filed over, or a bend, it was looked for since, critical or not.
 */
export function failureCured(story: Story, cell: PartCell | FastenerCell, found: Found): Cure | undefined {
  const none = crackNotThere(story, cell, found);
  if (none !== undefined) return { moment: none, planned: false };
  const renewed = renewedAsFound(cell, found);
  if (renewed !== undefined && !renewed.planned) return renewed;
  const here = repairedAsFound(cell, found);
  const repaired =
    here ?? (backFromWork(story, cell, found.day, servesFor(found)) ? (refittedSince(cell, found.seq) ?? workedInPlace(story, cell, found)) : undefined);
  if (repaired !== undefined && !repaired.planned) {
    const look = lookWanted(story, cell, found);
    // What came back from work is looked at on the bench, before it goes on.
    const looked =
      lookedAtSince(story, cell, repaired.moment.seq, { look }) ||
      (here === undefined && lookedAtSince(story, cell, found.seq, { look, from: backOn(story, cell, found.day) })) ||
      (here === undefined && lookedAtBelow(story, cell, found.seq, backWritten(story, cell), look));
    if ((!cell.thing.critical && look === "any") || looked) return repaired;
  }
  if (renewed !== undefined) return renewed;
  return repaired?.planned ? repaired : undefined;
}

/**
 * What was taken for a crack was none: a later finding calls it serviceable, and names by what the crack was looked for and that it shows none; or says why, and a check for
 * cracks of it was seen good since. Told of all the pieces there, for one of several that shows none says nothing of its fellow.
 */
export function crackNotThere(story: Story, cell: PartCell | FastenerCell, found: Found): Moment | undefined {
  if (!found.conditions.some(({ condition }) => condition.kind === "cracked")) return undefined;
  if (found.conditions.some(({ condition }) => condition.kind !== "cracked" && ofMetal.has(condition.kind))) return undefined;
  const isSince = (it: Pick<Moment, "seq" | "day">) => it.seq > found.seq && (found.day === undefined || it.day === undefined || it.day >= found.day);
  const saysSo = (it: Found) => isSince(it) && it.places.includes(cell.place) && (it.count === undefined || cell.total === 1);
  const told = (crackFree(story).get(cell.thing.name) ?? []).find(saysSo);
  if (told !== undefined) return told;
  const good = (calledGood(story).get(cell.thing.name) ?? []).find(
    (it) => saysSo(it) && [...wordsBehind(it), ...reasonsUnder(it)].some((words) => words.trim() !== "" && !tellsCrack(words)),
  );
  const looks = seenOf(story, cell.thing.name).filter((it) => isSince(it) && it.stage !== "found" && isSamePlace(it.place, cell.place) && isOfCracks(it.check));
  const seen = looks.at(-1);
  if (good === undefined || seen === undefined || !seen.good) return undefined;
  return seen.seq > good.seq ? seen : good;
}

/** The findings of each name that call it serviceable and say that no crack showed. */
const crackFree = memo(
  (story: Story): ReadonlyMap<string, readonly Found[]> =>
    new Map([...calledGood(story)].map(([name, all]) => [name, all.filter((it) => [...wordsBehind(it), ...reasonsUnder(it)].some(showsNoCrack))])),
);

/** Those that call it serviceable, and nothing worse. */
const calledGood = memo(
  (story: Story): ReadonlyMap<string, readonly Found[]> =>
    new Map(
      [...findingsOf(story)].map(([name, all]) => [
        name,
        all.filter(
          (it) =>
            it.conditions.some(({ condition }) => condition.kind === "serviceable") &&
            it.conditions.every(({ condition }) => condition.kind === "serviceable" || condition.kind === "clean"),
        ),
      ]),
    ),
);

/** Of what nothing holds and nothing takes off (a frame, a bed, a case), and which was not sent: whoever worked on it came to it. */
function workedInPlace(story: Story, cell: PartCell | FastenerCell, found: Found): Cure | undefined {
  if (cell.kind !== "part" || cell.thing.heldBy.length > 0 || cell.thing.behind.length > 0) return undefined;
  if (story.cells(cell.thing.name).some((it) => it.kind === "part" && it.history.some((was) => was.after.on < was.before.on))) return undefined;
  const work = (ordersOf(story.job).work.get(cell.thing.name) ?? []).find(
    ({ detail, status, sentOn }) =>
      sentOn === undefined &&
      status?.status === "received" &&
      isAt(detail, cell.place) &&
      (found.day === undefined || (status.date?.text ?? never) >= found.day),
  );
  if (work === undefined) return undefined;
  const at = where(work.file, work.entry, work.detail.row, work.detail.keyword);
  return { moment: { seq: found.seq, phase: "done", day: work.status?.date?.text, where: at, visit: undefined }, planned: false };
}

/** Behind every day that can be written. */
const never = "~";

/** The day on which work sent out on it came back, the last where there were several; a day that never comes where none is known. */
function backOn(story: Story, cell: PartCell | FastenerCell, day: string | undefined): string {
  const days = (ordersOf(story.job).work.get(cell.thing.name) ?? []).flatMap(({ detail, status }) =>
    status?.status === "received" && status.date !== undefined && isAt(detail, cell.place) && (day === undefined || status.date.text >= day)
      ? [status.date.text]
      : [],
  );
  return days.sort().at(-1) ?? never;
}

/** Where it is written that it came back, in the order of the sheet, by a status line without a day; undefined where every such line has one. */
function backWritten(story: Story, cell: PartCell | FastenerCell): number | undefined {
  const at = (ordersOf(story.job).work.get(cell.thing.name) ?? []).flatMap(({ entry, detail, status }) => {
    if (status?.status !== "received" || status.date !== undefined || !isAt(detail, cell.place)) return [];
    const mention = mentionsOf(story.job, entry).findLast(({ details }) => details.some((it) => it.kind === "status" || it.kind === "received"));
    return mention === undefined ? [] : [story.job.own.sheet.entries.indexOf(mention)];
  });
  return at.length === 0 ? undefined : Math.max(...at);
}

/** The same by what is written below that line. */
function lookedAtBelow(story: Story, cell: PartCell | FastenerCell, seq: number, line: number | undefined, look: Look): boolean {
  const { entries } = story.job.own.sheet;
  return line !== undefined && line >= 0 && lookedAtSince(story, cell, seq, { look, is: (it) => entries.indexOf(it.where.entry) > line });
}

/**
 * Found serviceable, measured inside its limits or seen good at a final since `seq`, and on this day or later, by a limit or check that is of it. Of a crack or
 * a bend: by what shows it, and serviceable with its reason.
 */
export function lookedAtSince(
  story: Story,
  cell: PartCell | FastenerCell,
  seq: number,
  { from, look = "any", is = () => true }: { readonly from?: string; readonly look?: Look; readonly is?: (it: Pick<Moment, "where">) => boolean } = {},
): boolean {
  const here = (it: Pick<Moment, "seq" | "day" | "where"> & { readonly place: string }) =>
    it.seq > seq && isSamePlace(it.place, cell.place) && (from === undefined || (it.day !== undefined && it.day >= from)) && is(it);
  const found = (findingsOf(story).get(cell.thing.name) ?? []).some(
    (it) =>
      it.seq > seq &&
      it.places.includes(cell.place) &&
      is(it) &&
      (from === undefined || (it.day !== undefined && it.day >= from)) &&
      (isMendedLook(look) || isExplained(it)) &&
      it.conditions.some(({ condition }) => condition.kind === "serviceable") &&
      it.conditions.every(({ condition }) => condition.kind === "serviceable" || condition.kind === "clean"),
  );
  if (found) return true;
  const isShown = ({ check, entry }: Seen) => shows(check, look) || isTold(entry.text?.value ?? "", look);
  if (seenOf(story, cell.thing.name).some((it) => it.good && it.stage !== "found" && isShown(it) && here(it))) return true;
  return verdictsOf(judge(story), cell.thing.name).some((it) => it.stage === "final" && it.outcome === "in" && shows(it.limit, look) && here(it));
}

/** After what may have mended it any word of somebody who looked will do. */
function isMendedLook(look: Look): boolean {
  return look !== "crack" && look !== "shape";
}

/** In the words of a look at something else. */
function isTold(text: string, look: Look): boolean {
  return look === "crack" || look === "weld" ? showsNoCrack(text) : look === "set" && tellsOfShape(text);
}

/** Words stand behind it, or a reason under it. */
function isExplained(found: Found): boolean {
  return wordsBehind(found).length > 0 || hasReason(found);
}

/** Read or seen good, this is such a look. */
export function shows(by: Limit | Check, look: Look): boolean {
  if (look === "any") return true;
  if (look === "shape") return isOfShape(by);
  if (look === "set") return isOfShape(by) || howLong.test(allWords(by));
  return by.kind === "check" && (isOfCracks(by) || (look === "weld" && (isOfLeaks(allWords(by)) || ofTheWeld.test(allWords(by)))));
}

/** What was bent is short of its length, or leans. */
const howLong = /\b(lengths?|between|heights?|angles?|distances?)\b/iu;
const ofTheWeld = /\b(weld\w*|braz\w*|seams?|sound\w*|whole|load\w*|proof)\b/iu;

/** Of several that are one part, one is loose in the other, and the nut that holds them pulls up neither: a tyre on its rim, spokes in the boss, white metal in its shell. */
const inItself =
  /(?<!\b(?:no|not|on (?:the|its|their)) )\b(tyres?|tires?|(?:white[- ]?)?metal|linings?|facings?|spokes?|felloes?|strakes?|rivets?|rims?|magnets?|inserts?|liners?|sleeves?|rubbers?|studs? in)\b(?! (?:is|are|was|were) (?:tight|fast|sound))/giu;

/** A rim that clicks on its spider is the whole of what was found, and no piece of it. */
function isLooseInItself({ thing }: PartCell, text: string): boolean {
  const pieces = [...text.matchAll(inItself)].flatMap((it) => wordsOf(it[1] ?? ""));
  const head = headOf(thing);
  return pieces.some((it) => it !== head && it !== "in");
}

/**
 * A part sits loose until it is taken off and fitted again, or renewed. What nothing holds that is done up (a bush in its eye, a wheel on its axle) sits in again as loosely as it did: that
 * it does not is seen, of it or of what comes off before it.
 */
export function seated(story: Story, cell: PartCell, { seq, day, conditions }: Found): Cure | undefined {
  const isInItself = conditions.some(({ condition }) => condition.kind === "loose" && isLooseInItself(cell, condition.text?.value ?? ""));
  const isByNut = cell.thing.heldBy.length > 0 && !isInItself;
  const back = fitOrRepair(cell, seq);
  const { action, isNew, verb, phase } = (back?.moment ?? {}) as Partial<PartCell["history"][number]>;
  // What holds a thing that nobody declared nobody has said.
  if (
    back === undefined ||
    phase === "planned" ||
    cell.thing.implied ||
    isByNut ||
    (verb === "repair" && mayMend(action?.text?.value ?? "")) ||
    isNew === true ||
    action === undefined
  )
    return back;
  const later = cell.history.find((it) => it.seq > seq && ((it.verb === "repair" && mayMend(it.action?.text?.value ?? "")) || (it.verb === "fit" && it.isNew)));
  if (later !== undefined) return { moment: later, planned: later.phase === "planned" };
  if (backFromWork(story, cell, day, mayMend)) return back;
  if (isInItself) return undefined;
  const shown = [cell, ...cell.thing.behind.flatMap(({ text }) => story.cells(text))].some(
    (it) => (it.kind === "part" || it.kind === "fastener") && isSamePlace(it.place, cell.place) && lookedAtSince(story, it, seq),
  );
  return shown ? back : undefined;
}

function first<M extends Moment>(history: readonly M[], seq: number, is: (moment: M) => boolean): Cure | undefined {
  const moment = firstBehind(history, seq, is);
  return moment === undefined ? undefined : { moment, planned: moment.phase === "planned" };
}

/** A line that puts oil or grease on it. */
export function isLubricated({ action }: PartMoment | FastenerMoment): boolean {
  return action?.verb === "oil" || action?.verb === "grease";
}
