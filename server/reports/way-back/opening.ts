// The way in that must be opened first: what is on and has to be renewed comes off, and so does what was closed over a place where something is still off.
// Invariant: planned lines only, in an order that hands can follow: made safe, drained, its weight taken, undone, removed; what is in front before what is behind.
import { type Slices, mapping, someAtOnce } from "../../../grammar/slices.ts";
import type { Job } from "../../model/job.ts";
import { relationsOf } from "../../model/relations.ts";
import type { Fastener, Hazard, Limit, Part } from "../../model/things.ts";
import type { Where } from "../../model/where.ts";
import { discardedAt } from "../../story/decisions.ts";
import { isOpen, standsIn, wasOff } from "../../story/standing.ts";
import type { FastenerCell, PartCell, Story } from "../../story/story.ts";
import { type Act, actText, filledAs } from "./acts.ts";
import { restoredWords } from "./by-words.ts";
import { type Piece, piecesOf } from "./pieces-beside.ts";
import { settingsOut } from "./settings-out.ts";
import { type Wanted, discardedOn, isDiscarded, newWanted, untouched } from "./wanted.ts";
import { type WayIn, type WayInLine, newWayIn, open, openAll, slacken, undo } from "./way-in.ts";

export interface OpeningLine {
  /** Of a part that comes off: its name, and those that it is renewed with. */
  readonly off?: { readonly name: string; readonly with: readonly string[] };
  readonly text: string;
  readonly note?: string;
  readonly filled?: string;
  readonly where: Where;
}

export interface Opening {
  readonly lines: readonly OpeningLine[];
  /** What comes off, in that order; where nothing does, what is undone. */
  readonly things: readonly (Part | Fastener)[];
}

/** `own`: the planned step that holds what was opened already, whose lines are no place to lead to. */
export function* openingOf(story: Story, own: string): Slices<Opening> {
  const wanted = newWanted(story);
  const others = untouched(story);
  yield;
  const way = newWayIn(story, own, piecesOf(story, [...others.parts, ...others.fasteners]));
  const blanks = story.job.own.sheet.lines.map((it) => it.trim()).filter((it) => it.startsWith(blankFit));
  let n = 0;
  for (const cell of [...story.parts, ...others.parts]) {
    if (n++ % someAtOnce === 0) yield;
    if (!cell.unsure) openForPart(way, wanted, blanks, cell);
  }
  for (const cell of [...story.fasteners, ...others.fasteners]) {
    if (n++ % someAtOnce === 0) yield;
    if (!cell.unsure) openForFastener(way, wanted, blanks, cell);
  }
  yield;
  for (const { limit, place, text } of settingsOut(story))
    for (const cell of settersOf(way, limit, place)) {
      openAll(way, coveredBy(way, cell));
      slacken(way, cell, text);
    }
  yield;
  return {
    lines: yield* mapping(weightsFirst(story.job, [...way.lines.values()]), (it) => asLine(way, it)),
    things: way.removed.size > 0 ? [...way.removed] : [...way.undone],
  };
}

/** What is too many, discarded or to be renewed comes off; what was closed over a place that still waits for one is opened again. */
function openForPart(way: WayIn, wanted: Wanted, blanks: readonly string[], cell: PartCell): void {
  const { story } = way;
  const extra = cell.then.on - cell.total;
  if (extra > 0) open(way, cell, extra, "more than there should be: find where it belongs");
  const away = discardedOn(story, cell);
  if (away > 0) open(way, cell, away, "decided to be discarded");
  if (isDiscarded(story, cell)) return;
  const { short, over } = shortAndOver(story, wanted, cell);
  if (over > 0 && away === 0) open(way, cell, over);
  if (short > 0 && !waitsInBlank(blanks, cell.thing.name)) openAll(way, closedOver(way, cell));
}

function openForFastener(way: WayIn, wanted: Wanted, blanks: readonly string[], cell: FastenerCell): void {
  const { story } = way;
  const away = discardedOn(story, cell);
  if (away > 0) undo(way, cell, away, "decided to be discarded");
  if (isDiscarded(story, cell)) return;
  const { over } = shortAndOver(story, wanted, cell);
  const stands = standsIn(cell);
  if (stands) undo(way, cell, cell.then.on, "one of them is in for now: put the right one in its place");
  else if (over > 0 && away === 0) undo(way, cell, over);
  const isToBeReached = stands || over > 0 || isOpen(cell) || cell.then.forNow;
  if (isToBeReached && !waitsInBlank(blanks, cell.thing.name)) openAll(way, shutIn(way, cell));
}

/** How many still have to go on there, and how many of those that are on have to come off for new ones. */
function shortAndOver(story: Story, wanted: Wanted, cell: Piece): { readonly short: number; readonly over: number } {
  const short = Math.max(0, cell.total - cell.then.on - discardedAt(story, cell));
  const newHere = Math.min(wanted.count(cell) + wanted.toMake(cell), cell.total);
  return { short, over: Math.min(newHere - short, cell.then.on) };
}

/** A blank that stands in the sheet holds its place. */
function waitsInBlank(blanks: readonly string[], name: string): boolean {
  return blanks.some((it) => it.startsWith(name, blankFit.length) && /^[ :]|^$/.test(it.slice(blankFit.length + name.length)));
}

const blankFit = "fit ___  # ";

// ------------------------------------------------------------- what is in the way

/** In front of it and on (what is only planned closes nothing yet), and not so when it came off: built up again since, or never taken off for what was found missing behind it. */
function closedOver({ pieces }: WayIn, cell: PartCell): PartCell[] {
  const off = cell.history.findLast((it) => it.verb === "remove" && it.after.on < it.before.on);
  return pieces
    .beside(cell.thing.behind, cell.place, "part")
    .filter(
      (front) =>
        isInTheWay(front) &&
        (off === undefined || front.history.some((it) => it.seq > off.seq && it.verb === "fit" && it.after.on > it.before.on) || wasOff(front, off.seq)),
    );
}

/** On now in front of what it holds, and off when this was last undone: then it was within reach. */
function shutIn({ story, pieces }: WayIn, cell: FastenerCell): PartCell[] {
  const off = cell.history.findLast((it) => it.verb === "undo" || it.verb === "slacken");
  if (off === undefined) return [];
  return (relationsOf(story.job).holds.get(cell.thing.name) ?? [])
    .flatMap((part) => pieces.beside(part.behind, cell.place, "part"))
    .filter((front) => isInTheWay(front) && wasOff(front, off.seq));
}

function isInTheWay(front: PartCell): boolean {
  return front.now.on > 0 && front.then.on > 0 && !front.thing.implied;
}

/** The fasteners that it is set by there, where all of them stand tight. */
function settersOf({ story, pieces, opened }: WayIn, limit: Limit, place: string): FastenerCell[] {
  if (limit.setBy.some(({ text }) => story.job.things.get(text)?.kind !== "fastener")) return [];
  const setters = pieces.beside(limit.setBy, place, "fastener");
  return setters.every((it) => !opened.has(it) && it.then.on >= it.total && it.then.tight && !it.then.forNow) ? setters : [];
}

/** In front of all that it holds, and on: what is in front of some of that only leaves it within reach. */
function coveredBy({ story, pieces }: WayIn, cell: FastenerCell): PartCell[] {
  const held = relationsOf(story.job).holds.get(cell.thing.name) ?? [];
  const [first, ...more] = held.map((part) => new Set(pieces.beside(part.behind, cell.place, "part")));
  return [...(first ?? [])].filter((it) => it.then.on > 0 && !it.thing.implied && more.every((others) => others.has(it)));
}

// ------------------------------------------------------------- as it is written

/** One line undoes at several places what is let go with the last of them: its weight is taken before the first. */
function weightsFirst(job: Job, all: readonly WayInLine[]): readonly WayInLine[] {
  const undoings = new Map<string, number>();
  for (const [i, it] of all.entries()) if (it.act.verb === "undo" && !undoings.has(it.name)) undoings.set(it.name, i);
  const turns = all.map((it, i) => {
    const part = it.act.verb === "support" ? job.things.get(it.name) : undefined;
    const first = part?.kind === "part" ? Math.min(...part.heldBy.map(({ text }) => undoings.get(text) ?? i)) : i;
    return { it, at: first < i ? first - 0.5 : i };
  });
  return turns.sort((a, b) => a.at - b.at).map(({ it }) => it);
}

function asLine(way: WayIn, { name, act: alone, where, places }: WayInLine): OpeningLine {
  const act = { ...alone, places: placesSaid(way, name, places) };
  return { text: actText(name, act), ...(act.note === undefined ? {} : { note: act.note }), ...filledAs(name, act), ...offOf(way.story.job, name, act), where };
}

/** None where they are all of its places. */
function placesSaid({ story, pieces }: WayIn, name: string, own: ReadonlySet<string>): string[] {
  const known = pieces.of(name);
  const all = known.length > 0 ? known : story.cells(name);
  return all.every((it) => own.has(it.place)) ? [] : [...own].filter((it) => it !== "");
}

function offOf(job: Job, name: string, act: Act): Pick<OpeningLine, "off"> {
  const thing = job.things.get(name);
  return act.verb === "remove" && thing?.kind === "part" ? { off: { name, with: thing.renewWith.map((it) => it.text) } } : {};
}

/** What a hazard that is live again asks for first; what was said of making it safe is no way of undoing that. */
export function restoreNote(hazard: Hazard): { note: string } {
  const own = hazard.caution === undefined ? "" : `. Its caution: ${hazard.caution}`;
  return { note: `${restoredWords(hazard)}${own}` };
}
