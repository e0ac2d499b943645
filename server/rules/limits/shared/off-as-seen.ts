// What shows only with all of it together, and was tried or seen while something of it was off.
// Invariant: done work only. What may be seen on the bench, or with all of it off, is left.
import { putInto } from "../../../model/grouped.ts";
import { memo } from "../../../model/memo.ts";
import {
  headOf,
  isAtWork,
  isOfMarksMeeting,
  isOnBench,
  isReadRunning,
  isSeenOfTwoWheels,
  isSeenRunning,
  isSubjectOf,
  isTriedTogether,
  subjectOf,
  wordsOf,
} from "../../../model/read-with.ts";
import { isCritical } from "../../../model/relations.ts";
import { isSamePlace } from "../../../model/same-place.ts";
import type { Check } from "../../../model/things.ts";
import { allWords } from "../../../model/titles.ts";
import { onAt } from "../../../story/in-place.ts";
import type { FastenerCell, Moment, PartCell, Reading, Seen, Story } from "../../../story/story.ts";
import { datedBefore } from "../../stale.ts";
import { type Lacking, triedEarly } from "../../tried-early.ts";
import { dryAt } from "./fluids-as-read.ts";

/** What was off, slack or not filled as a look was taken that shows something only with it. */
export function lackingAsSeen(story: Story, seen: Seen): Lacking | undefined {
  if (isSeenRunning(seen.check)) return offAt(story, seen);
  return (
    dryAt(story, seen) ??
    subjectOff(story, seen) ??
    unheldAt(story, seen) ??
    notYetMeeting(story, seen) ??
    someOff(story, seen) ??
    workedByOff(story, seen) ??
    triedEarly(story, seen)
  );
}

/** The same of a speed that is read as it runs. */
export function offAsRun(story: Story, reading: Reading): Lacking | undefined {
  return isReadRunning(reading.limit) ? offAt(story, reading) : undefined;
}

/** Something critical that was off, or a fluid that was out, as it was seen to run: it went on or in later, by its line or by its day. */
function offAt(story: Story, seen: Seen | Reading): Lacking | undefined {
  const here = (place: string) => isSamePlace(place, seen.place);
  const later = (it: Moment) => it.phase === "done" && (it.seq > seen.seq || datedBefore(seen, it));
  for (const cell of story.parts) {
    if (!cell.thing.critical || cell.unsure || !here(cell.place)) continue;
    // The first that put it on after that: it was off until then.
    const moment = cell.history.find((it) => later(it) && it.verb !== "found" && it.after.on !== it.before.on);
    if (moment?.verb === "fit" && moment.before.on < cell.total) return { thing: cell.thing, place: cell.place, what: "was off", moment };
  }
  return dryAt(story, seen);
}

/** “Rope runs in both grooves”: what the look speaks of first went on later, by its line or by its day. */
function subjectOff(story: Story, seen: Seen): Lacking | undefined {
  const subject = subjectOf(seen.check);
  if (subject === undefined) return undefined;
  const byHead = (criticalByHead(story).get(subject) ?? []).filter((cell) => isSubjectOf(story.job, seen.check, cell.thing));
  // A “hanging carriage, swan” is called a swan.
  const byName = seen.check.of.flatMap(({ text }) => (wordsOf(text).includes(subject) ? story.cells(text) : []));
  for (const cell of [...byHead, ...byName]) {
    if (cell.kind !== "part" || !cell.thing.critical || cell.unsure || !isSamePlace(cell.place, seen.place)) continue;
    const moment = cell.history.find(
      (it) => it.phase === "done" && (it.seq > seen.seq || datedBefore(seen, it)) && it.verb !== "found" && it.after.on !== it.before.on,
    );
    if (moment?.verb === "fit" && moment.before.on < cell.total) return { thing: cell.thing, place: cell.place, what: "was off", moment };
  }
  return undefined;
}

/** “Rope slacked by hand”, on a day on which there was no rope: something critical that a trial names, or what is set, was off, and went on later. */
export function namedOff(story: Story, { check, entry, place, seq }: Seen): Lacking | undefined {
  if (!isCritical(story.job, check) || isOnBench(allWords(check))) return undefined;
  const named = isTriedTogether(check) ? [...new Set([...wordsOf(check.title ?? ""), ...wordsOf(entry.text?.value ?? "")])] : [];
  const set = check.setBy.length > 0 ? check.of.flatMap(({ text }) => story.cells(text)).filter((it): it is PartCell => it.kind === "part" && !it.unsure) : [];
  return firstBackOn(
    [...set, ...named.flatMap((word) => criticalByHead(story).get(word) ?? [])].filter((cell) => isSamePlace(cell.place, place)),
    seq,
  );
}

/** Several turn or work together in it, and some of them were off as it was seen, while others were on: whoever tries one by itself has all of the others off. */
function someOff(story: Story, seen: Seen): Lacking | undefined {
  const { check, place, seq } = seen;
  if (check.of.length < 2 || check.with.length > 0 || !check.critical || !isTriedTogether(check) || isOnBench(allWords(check))) return undefined;
  const cells = check.of
    .flatMap(({ text }) => story.cells(text))
    .filter((cell): cell is PartCell => cell.kind === "part" && !cell.unsure && isSamePlace(cell.place, place));
  if (!cells.some((cell) => onAt(cell, seq) > 0)) return undefined;
  return firstBackOn(cells, seq);
}

/** A brake by its lever or its pedal: seen while something of that brake, its rod or its cable, was off. */
function workedByOff(story: Story, seen: Seen): Lacking | undefined {
  const { check, place, seq } = seen;
  const what = check.criticalWhat;
  if (
    what === undefined ||
    check.with.length > 0 ||
    !/\bbrak/i.test(what) ||
    !byLever.test(check.title ?? "") ||
    !isTriedTogether(check) ||
    isOnBench(allWords(check))
  )
    return undefined;
  const named = new Set(check.of.map(({ text }) => text));
  // A ratchet or a cover is no way from the hand to the shoes, nor is the pedal's cylinder where a lever is pulled.
  const isOfIt = ({ thing }: PartCell) => named.has(thing.name) || !(besideBrakes.has(headOf(thing) ?? "") || isOfTheOther(allWords(check), allWords(thing)));
  // Where all of what it names is on the bench, nobody pulls a lever.
  return firstBackOn(
    story.parts.filter((cell) => cell.thing.criticalWhat === what && !cell.unsure && isSamePlace(cell.place, place) && isOfIt(cell)),
    seq,
  );
}

const besideBrakes: ReadonlySet<string> = new Set("pawl ratchet detent stop guard cover cap shield plug gaiter boot bell lamp switch mudguard".split(" "));

/** A hand brake, and what only the foot works; or the other way about. */
function isOfTheOther(check: string, thing: string): boolean {
  return (
    (byHand.test(check) && !byFoot.test(check) && byFoot.test(thing) && !byHand.test(thing)) ||
    (byFoot.test(check) && !byHand.test(check) && byHand.test(thing))
  );
}

const byHand = /\b(hand ?-?brake|parking brake|hand ?-?lever)\b/i;
const byFoot = /\b(pedal|foot ?-?brake|master|hydraulic|hoses?|pipes?|servo|fluid|reservoir)\b/i;

const byLever = /\b(by|with|on|at|under|pull\w*|press\w*|pump\w*)\b[^.;]*\b(lever|pedal|hand ?brake)\b/i;

/** The first of them that was off at a line and went on later. */
function firstBackOn(cells: readonly PartCell[], seq: number): Lacking | undefined {
  for (const cell of cells) {
    if (onAt(cell, seq) >= cell.total) continue;
    const moment = cell.history.find((it) => it.seq > seq && it.phase === "done" && it.verb === "fit" && it.after.on > it.before.on);
    if (moment !== undefined) return { thing: cell.thing, place: cell.place, what: "was off", moment };
  }
  return undefined;
}

const criticalByHead = memo((story: Story): ReadonlyMap<string, readonly PartCell[]> => {
  const all = new Map<string, PartCell[]>();
  for (const cell of story.parts) {
    const head = cell.thing.critical && !cell.unsure ? headOf(cell.thing) : undefined;
    if (head !== undefined) putInto(all, head, cell);
  }
  return all;
});

/** How something works is read or tried with what holds it in: a lever on a cable whose pin was still on the bench. */
export function unheldAt(story: Story, it: Reading | Seen): Lacking | undefined {
  const { place, seq } = it;
  const thing = "limit" in it ? it.limit : it.check;
  if (!isCritical(story.job, thing) || !(thing.kind === "limit" ? isAtWork(thing) : isTriedTogether(thing))) return undefined;
  for (const { text } of thing.of) {
    const part = story.job.things.get(text);
    // Off itself, it is on the bench.
    if (part?.kind !== "part" || story.cells(text).some((cell) => cell.kind === "part" && isSamePlace(cell.place, place) && onAt(cell, seq) === 0)) continue;
    const holders = part.heldBy
      .flatMap((by) => story.cells(by.text))
      .filter((cell): cell is FastenerCell => cell.kind === "fastener" && cell.thing.critical && isSamePlace(cell.place, place));
    // A crank in its mains turns before its flywheel is on.
    if (holders.some((cell) => cell.unsure || onAt(cell, seq) > 0)) continue;
    for (const cell of holders) {
      const moment = cell.history.find((was) => was.seq > seq && was.phase === "done" && was.after.on > 0);
      if (moment !== undefined) return { thing: cell.thing, place: cell.place, what: "was off", moment };
    }
  }
  return undefined;
}

/** Marks of several that meet, teeth of two wheels: one of them lay on the bench, and went in later. */
function notYetMeeting(story: Story, { check, place, seq }: Seen): Lacking | undefined {
  if (!isOfMarksMeeting(check) && !(isSeenOfTwoWheels(check) && isOneInAlone(story, check, place, seq))) return undefined;
  for (const { text } of check.of) {
    for (const cell of story.cells(text)) {
      if (cell.kind !== "part" || cell.unsure || !isSamePlace(cell.place, place) || onAt(cell, seq) >= cell.total) continue;
      const moment = cell.history.find((it) => it.seq > seq && it.phase === "done" && it.verb === "fit");
      if (moment !== undefined) return { thing: cell.thing, place: cell.place, what: "was off", moment };
    }
  }
  return undefined;
}

/** Of two wheels one was in and the other out: nobody sees how they mesh. Both out, they may stand in a jig. */
function isOneInAlone(story: Story, { of }: Check, place: string, seq: number): boolean {
  const on = of.map(({ text }) =>
    story
      .cells(text)
      .filter((it): it is PartCell => it.kind === "part" && isSamePlace(it.place, place))
      .map((it) => onAt(it, seq)),
  );
  return on.some((them) => them.some((count) => count > 0)) && on.some((them) => them.length > 0 && them.every((count) => count === 0));
}
