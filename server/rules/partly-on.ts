// What was tried or read while only some of its pieces, or of what holds it, were on: four bolts of six, two rods of four. Or all of them, and slack still.
// Invariant: done work only, of critical checks and limits that are of what is together; all of it off is for the rules that know what may be seen on the bench, but where it was
// read in its place as it was found.
import { allWords } from "../model/titles.ts";
import { setsBearing } from "../model/relations.ts";
import { isOfLeaks, isOfRunOut, wordsOf } from "../model/read-with.ts";
import type { Check, Limit } from "../model/things.ts";
import { cellsAt } from "../story/cells.ts";
import type { FastenerCell, FastenerMoment, Moment, PartCell, PartMoment, Reading, Seen, Story } from "../story/story.ts";
import { isOfAllOn, onAt, wasReadInPlace } from "../story/in-place.ts";

export interface PartlyOn {
  readonly cell: PartCell | FastenerCell;
  /** So many were on, none where it was read in its place before; all of them, where they were slack. */
  readonly on: number;
  /** The rest went on here, or they were tightened. */
  readonly moment: Moment;
}

/** The first such piece of a critical final, by its line or by its day, of which more went on after it. */
export function partlyOn(story: Story, it: Reading | Seen): PartlyOn | undefined {
  const thing = "limit" in it ? it.limit : it.check;
  if (!isOfAllOn(story, thing)) return undefined;
  for (const cell of piecesOf(story, thing, it.place)) {
    const before = (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((was) => was.phase === "done" && isBefore(was, it));
    const last = before.at(-1);
    if (last === undefined) continue;
    if (last.after.on === 0 && !(cell.kind === "part" ? wasReadInPlace(story, thing, it.place, cell, it.seq) : ranLoose(story, thing, cell, it))) continue;
    const isSome = last.after.on < cell.total;
    if (!isSome && !(showsSlack(thing) && isSlack(story, cell, last))) continue;
    const moment = (cell.history as readonly (PartMoment | FastenerMoment)[]).find(
      (was) => was.phase === "done" && !isBefore(was, it) && (isSome ? goesOn.has(was.verb) && was.after.on > was.before.on : was.verb === "tighten"),
    );
    if (moment !== undefined) return { cell, on: last.after.on, moment };
  }
  return undefined;
}

/** A nut goes on by being tightened. */
const goesOn: ReadonlySet<string> = new Set(["fit", "tighten"]);

/** How a drum or a disc runs, read while it was on its shaft and the nut that pulls it up was not: off altogether it may have been on a mandrel. */
function ranLoose(story: Story, thing: Limit | Check, holder: FastenerCell, { place, seq }: Reading | Seen): boolean {
  if (thing.kind !== "limit" || !isOfRunOut(thing) || !holder.thing.critical) return false;
  return thing.of.some(({ text }) =>
    cellsAt(story, text, place).some(
      (it) =>
        it.kind === "part" &&
        !it.unsure &&
        it.thing.heldBy.some((by) => by.text === holder.thing.name) &&
        wordsOf(allWords(it.thing)).some((word) => pulledUp.has(word)) &&
        onAt(it, seq) > 0,
    ),
  );
}

const pulledUp: ReadonlySet<string> = new Set("drum disc disk rotor flywheel pulley sheave sprocket coupling flange faceplate chuck".split(" "));

/** A wheel spins free on nuts that were nipped and are pulled up on the ground; what is dry or true under them is so only when they are tight. */
function showsSlack(thing: Limit | Check): boolean {
  return thing.kind === "limit" || pulledTrue.test(allWords(thing)) || isOfLeaks(allWords(thing));
}

const pulledTrue = /\b(true|truth|run-?outs?|wobble\w*)\b/iu;

/** Put on and not done up; a nut that is let back behind its torque is as it is to be. */
function isSlack({ job }: Story, cell: PartCell | FastenerCell, { after }: PartMoment | FastenerMoment): boolean {
  return cell.kind === "fastener" && cell.thing.critical && "tight" in after && !after.tight && !setsBearing(job, cell.thing);
}

/** What it is of or set by, and what holds that. */
function piecesOf(story: Story, thing: Limit | Check, place: string): (PartCell | FastenerCell)[] {
  const own = [...thing.of, ...thing.setBy].flatMap(({ text }) => cellsAt(story, text, place));
  const holders = own.flatMap((cell) => (cell.kind === "part" ? cell.thing.heldBy.flatMap((by) => cellsAt(story, by.text, place)) : []));
  return [...new Set([...own, ...holders])].filter(
    (cell): cell is PartCell | FastenerCell => (cell.kind === "part" || cell.kind === "fastener") && !cell.unsure,
  );
}

/** Its day counts where it is its own: what stands under a step without one may be of that evening. */
function isBefore(was: Moment, it: Reading | Seen): boolean {
  if (was.seq > it.seq) return false;
  return !(it.entry.date !== undefined && it.day !== undefined && was.day !== undefined && was.day > it.day);
}
