// Whether something was read, or seen good, at its end: since a move of it, or before it came off in this job.
import { isSamePlace } from "../model/same-place.ts";
import { isAt, ordersOf } from "../model/orders.ts";
import { isCritical } from "../model/relations.ts";
import type { Check, Limit } from "../model/things.ts";
import { isBetweenPieces, isOfSurface, isReadTogether, readWith } from "../model/read-with.ts";
import { addMonths } from "../quantities/days.ts";
import { sharesWords } from "../story/cells.ts";
import { readingsOn, seenOn, verdictsOn } from "../story/looked-up.ts";
import { openedOn } from "../story/opened-on.ts";
import type { FastenerMoment, Moment, PartMoment, Reading, Seen, Story } from "../story/story.ts";
import { isDifference } from "../story/verdict.ts";
import { type Move, isNear, lastOff, lastOffOrOn, lastWorkedOn } from "./moved.ts";
import { endsFoundOutside, isOfAllEnds, isShort, isShortSince } from "./read-of-each.ts";
import type { JobContext } from "./rule.ts";
import { shutAgain } from "./squashed.ts";
import { onOrAfter } from "./work-to-read.ts";

/** What these are asked of. */
export type Facts = Pick<JobContext, "job" | "story" | "judged">;

/** A final behind `seq`, and where `from` is given on that day or after it. */
export function finalSince({ story, judged }: Facts, thing: Limit | Check, place: string, seq: number, from?: string): boolean {
  const here = (at: string) => isSamePlace(at, place);
  const late = (it: Moment) => (it.seq > seq || readOpen(story, thing, place, seq, it) || isShutAgain(it)) && (from === undefined || onOrAfter(it.day, from));
  // Squashed under the cap that was off once more since, and is on again as it was.
  const isShutAgain = (it: Moment) => {
    const last = thing.kind === "limit" ? readingsOn(story, thing.name).findLast((was) => here(was.place)) : undefined;
    return last?.stage === "final" && "entry" in it && it.entry === last.entry && shutAgain(story, last) === "same";
  };
  if (thing.kind === "check") return seenOn(story, thing.name).some((it) => it.stage === "final" && here(it.place) && late(it));
  // What is worked out is read where its operands are, the last of them behind the move.
  if (thing.expression !== undefined && verdictsOn(judged, thing.name).some((it) => it.workedOut && it.stage === "final" && here(it.place) && it.seq > seq))
    return true;
  // A reading before the last move of its setting is stale, and that is said there.
  const setting = thing.setBy.length > 0;
  const finals = readingsOn(story, thing.name).filter((it) => it.stage === "final" && here(it.place) && (setting || late(it)));
  // One end of a pin says nothing of the other; a reading that names no end is taken for all of them.
  const own = endsFoundOutside(story, thing, place);
  const isWhole = (it: Reading) => it.position === undefined || (own.length > 0 && isOfAllEnds(it));
  return (
    finals.length > 0 &&
    !isShort(story, thing, place, finals) &&
    !(setting && isShortSince(story, thing, place, finals.filter(late))) &&
    (finals.some(isWhole) || [...thing.positions, ...own].every((end) => finals.some((it) => it.position === end)))
  );
}

/** It was inside, or good, before it came off, and being off and on again changes nothing of that. */
export function foundGood(facts: Facts, thing: Limit | Check, place: string): boolean {
  const { job, story, judged } = facts;
  const here = (at: string) => isSamePlace(at, place);
  // What shows only when it is in and works is tried again when it is back.
  if (thing.kind === "check") {
    // How a thing sits is new with each assembly: what was seen before it came off is of the one before. A crack or a pattern stays with the piece.
    const off = isOfSurface(thing) ? undefined : lastOff(story, thing.of, place)?.moment;
    const again = off !== undefined && isReadAgainElsewhere(facts, thing, place);
    return (
      readWith(job, thing).length === 0 &&
      seenOn(story, thing.name).some(
        (it) =>
          it.good &&
          it.stage !== "trial" &&
          here(it.place) &&
          isOfThisJob(story, it) &&
          (off === undefined || (it.seq > off.seq && !(it.day !== undefined && off.day !== undefined && it.day < off.day))) &&
          !(it.stage === "found" && again) &&
          !(it.stage === "final" && isHalfApart(story, thing, it)),
      )
    );
  }
  // One that was found out is said by the rule that says so.
  // A trial neither condemns nor clears.
  const verdicts = verdictsOn(judged, thing.name).filter((it) => it.stage !== "trial" && here(it.place));
  // Of a spread that was found in doubt nothing is said but here.
  const read = readingsOn(story, thing.name).filter((it) => it.stage !== "trial" && here(it.place) && isOfThisJob(story, it));
  if (isBetweenPieces(thing) && read.every((it) => it.stage === "found") && isReadAgainElsewhere(facts, thing, place)) return false;
  // One end of a pin says nothing of the other.
  if (!read.some((it) => it.position === undefined) && !thing.positions.every((end) => read.some((it) => it.position === end))) return false;
  if (isShort(story, thing, place, read)) return false;
  if (thing.expression === undefined && read.length === 0) return false;
  if (verdicts.length > 0) return verdicts.some((it) => it.stage === "final" || it.outcome !== "doubt" || !isDifference(it));
  return read.length > 0;
}

/**
 * How several stand or run was found good, all of them came off and went back, and whoever did it looked or read once more at another that is the same piece as
 * before: what was found says nothing of how it went together, by his own word, and this one was left out.
 */
function isReadAgainElsewhere({ job, story }: Facts, thing: Limit | Check, place: string): boolean {
  if (place === "" || !isCritical(job, thing)) return false;
  const all: readonly (Reading | Seen)[] = thing.kind === "limit" ? readingsOn(story, thing.name) : seenOn(story, thing.name);
  const foundBefore = (final: Reading | Seen, back: Move) =>
    all.some((it) => it.stage === "found" && it.place === final.place && it.seq < back.moment.seq && !("good" in it && !it.good));
  return all.some((it) => {
    if (it.stage !== "final" || it.place === "" || it.place === place || ("good" in it && !it.good)) return false;
    const back = lastOffOrOn(
      story,
      thing.of.map(({ text }) => text),
      it.place,
    );
    return back !== undefined && back.moment.seq < it.seq && foundBefore(it, back) && !isAnew(story, thing, it.place);
  });
}

/** Another one is in, or it was worked on, here or by others: that asks for a look by itself. */
function isAnew(story: Story, { of }: Limit | Check, place: string): boolean {
  return (
    lastWorkedOn(story, of, place) !== undefined || of.some(({ text }) => (ordersOf(story.job).work.get(text) ?? []).some(({ detail }) => isAt(detail, place)))
  );
}

/** What was read or seen more than a month before the job was begun says how it was then: it may have run for all that while. */
function isOfThisJob(story: Story, it: Moment): boolean {
  const opened = openedOn(story);
  if (it.day === undefined || opened === undefined || it.day >= opened) return true;
  const since = addMonths(it.day, 1);
  return since === undefined || since >= opened;
}

/** Final as it is written, and what it is of was on its way off for the first time: its nuts were undone, or what is before it was off, and it came off behind that. */
function isHalfApart(story: Story, { of }: Check, { seq, place }: Seen): boolean {
  const isOff = (name: string) =>
    story
      .cells(name)
      .some(
        (it) =>
          (it.kind === "fastener" || it.kind === "part") &&
          !it.unsure &&
          isNear(story, it, place) &&
          (it.history as readonly (PartMoment | FastenerMoment)[]).findLast((was) => was.seq < seq)?.after.on === 0,
      );
  return of.some(({ text }) =>
    story.cells(text).some((cell) => {
      if (cell.kind !== "part" || cell.unsure || !isNear(story, cell, place)) return false;
      // What was off or worked on before is looked at as it was made: a shell that is blued, and comes out once more to be cleaned.
      if (cell.history.some((it) => it.seq < seq && (it.verb === "repair" || it.after.on < cell.total))) return false;
      if (!cell.history.some((it) => it.seq > seq && it.phase === "done" && it.verb === "remove" && it.after.on < it.before.on)) return false;
      return [...cell.thing.heldBy, ...cell.thing.behind].some((name) => isOff(name.text));
    }),
  );
}

/** Read while the place was empty, it is of what was fitted there next, at `seq`: what was measured before it went in need not be measured again. */
function readOpen(story: Story, thing: Limit | Check, place: string, seq: number, it: Moment): boolean {
  if (it.seq > seq || thing.setBy.length > 0) return false;
  if (thing.kind === "limit" && isReadTogether(thing)) return false;
  const inIt = thing.kind === "limit" ? readWith(story.job, thing) : [];
  return thing.of.some(
    (name) =>
      // What is read with it in is not read before it goes in.
      !inIt.some((other) => other.name === name.text) &&
      story.cells(name.text).some((cell) => {
        if ((cell.kind !== "part" && cell.kind !== "fastener") || (place !== "" && cell.place !== "" && !sharesWords(cell.place, place))) return false;
        const history = cell.history as readonly (PartMoment | FastenerMoment)[];
        const fit = history.find((was) => was.seq === seq && was.verb === "fit");
        if (fit !== undefined && isReadBeforeItGoesIn(thing, history, fit, it)) return true;
        const last = fit === undefined ? undefined : history.findLast((was) => was.seq < it.seq);
        if (last === undefined || history.some((was) => was.seq > it.seq && was.seq < seq && was.verb === "repair")) return false;
        return (
          last.after.on === 0 ||
          isReadBeforeItGoesIn(thing, history, fit as PartMoment | FastenerMoment, it) ||
          isNextOfTrial(story, thing, place, history, fit as PartMoment | FastenerMoment, it)
        );
      }),
  );
}

/** “Outside, before pressing”: of a new one that goes in that day, in the place of what is still there. */
function isReadBeforeItGoesIn(thing: Limit | Check, history: readonly (PartMoment | FastenerMoment)[], fit: PartMoment | FastenerMoment, it: Moment): boolean {
  if (thing.kind !== "limit" || !fit.isNew || it.day === undefined || it.day !== fit.day) return false;
  return (
    /\bbefore (it is |they are |being )?(press|fitt|driv|going in|it goes in|they go in)/iu.test(thing.title ?? "") &&
    history.every((was) => was.seq <= it.seq || was.seq >= fit.seq || was.verb === "remove" || was.verb === "found")
  );
}

/**
 * Measured on the bench while the one that is tried is still on: that one has a trial reading of its own, the step that comes next takes it off and puts a
 * new one in, on the day of the reading or without one. It is of the new one, which is under its nut afterwards and out of reach.
 */
function isNextOfTrial(
  story: Story,
  thing: Limit | Check,
  place: string,
  history: readonly (PartMoment | FastenerMoment)[],
  fit: PartMoment | FastenerMoment,
  it: Moment,
): boolean {
  if (thing.kind !== "limit" || thing.of.length !== 1 || !fit.isNew || fit.visit === undefined) return false;
  if (it.day !== undefined && fit.day !== undefined && it.day !== fit.day) return false;
  // What was found of it, and written between, moved nothing.
  const moved = history.filter((was) => was.verb !== "found");
  const before = moved.findLast((was) => was.seq < it.seq);
  if (before?.verb !== "fit" || !before.isNew) return false;
  const between = moved.filter((was) => was.seq > it.seq && was.seq < fit.seq);
  if (between.length === 0 || !between.every((was) => was.visit === fit.visit) || !between.some((was) => was.verb === "remove")) return false;
  return readingsOn(story, thing.name).some((was) => was.stage === "trial" && was.seq < it.seq && isSamePlace(was.place, place));
}
