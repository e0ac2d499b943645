// What is around a thing at the moment when it moves: what holds it, what is before and behind it, what is live, and where a piece of it comes from.
// Invariant: reads states, and changes none.
import type { ActionDetail, Span } from "../../grammar/tree.ts";
import { relationsOf } from "../model/relations.ts";
import { sharesWords } from "./cells.ts";
import type { Mover } from "./mover.ts";
import type { Fitting } from "./pieces.ts";
import { isSlack, isUnlocked } from "./standing.ts";
import type { FastenerCell, FastenerMoment, HazardCell, PartCell, PartMoment } from "./story.ts";

/** Most moments meet nothing; they share one empty list. */
const none: readonly never[] = [];

/** Hazards that are live and must be safe before this thing is undone or removed. */
export function liveBefore(mover: Mover, name: string): readonly HazardCell[] {
  const barred = relationsOf(mover.job).barredBy.get(name);
  if (barred === undefined) return none;
  const live: HazardCell[] = [];
  for (const hazard of barred) {
    const cell = mover.cells.at(hazard.name, "");
    if (cell?.kind === "hazard" && cell.then && !cell.unsure) live.push(cell);
  }
  return live;
}

/** What a hazard needs back before it is made live again, and which is off or slack. */
export function openOf(mover: Mover, cell: HazardCell): (FastenerCell | PartCell)[] {
  return cell.thing.restoreAfter.flatMap((name) =>
    mover.cells.of(name.text, []).filter((it): it is FastenerCell | PartCell => {
      if (it.unsure || mover.blankFit) return false;
      if (it.kind === "fastener") return isSlack(it);
      return it.kind === "part" && it.then.on < it.total;
    }),
  );
}

/** Tight, and its pin or plate not in yet. */
export function unlockedOf(mover: Mover, cell: HazardCell): readonly FastenerCell[] {
  return cell.thing.restoreAfter.flatMap((name) =>
    mover.cells
      .of(name.text, [])
      .filter((it): it is FastenerCell => it.kind === "fastener" && !it.unsure && it.thing.critical && !isSlack(it) && isUnlocked(it, it.then)),
  );
}

export function fastenersOn(mover: Mover, name: { readonly text: string; readonly at: Span }, place: string): FastenerCell[] {
  const beside = mover.cells.beside(name, place).filter((it): it is FastenerCell => it.kind === "fastener" && !it.unsure);
  return shareOpen(beside, place) ? [] : beside.filter((it) => it.then.on > 0);
}

export function partsOn(mover: Mover, name: { readonly text: string; readonly at: Span }, place: string): PartCell[] {
  const beside = mover.cells.beside(name, place).filter((it): it is PartCell => it.kind === "part" && !it.unsure && !mover.line.includes(it));
  return shareOpen(beside, place) ? [] : beside.filter((it) => it.then.on > 0);
}

export function partsOff(mover: Mover, cell: FastenerCell): readonly PartCell[] {
  const held = relationsOf(mover.job).holds.get(cell.thing.name);
  if (held === undefined || mover.blankFit) return none;
  return gathered(held, (part) =>
    mover.cells.beside(nameOf(part), cell.place).filter((it): it is PartCell => it.kind === "part" && it.then.on === 0 && !it.unsure),
  );
}

export function partsBehindOff(mover: Mover, cell: PartCell): readonly PartCell[] {
  const behind = relationsOf(mover.job).behind.get(cell.thing.name);
  if (behind === undefined || mover.blankFit) return none;
  return gathered(behind, (part) =>
    mover.cells
      .beside(nameOf(part), cell.place)
      .filter((it): it is PartCell => it.kind === "part" && it.then.on === 0 && !it.unsure && !mover.line.includes(it)),
  );
}

/** Parts before this one that are on as it goes in: built up again since it came off, or never taken off for a new one. */
export function closedAgain(mover: Mover, cell: PartCell, { count, over, beganOff }: Fitting): readonly PartCell[] {
  if (count === 0 && !beganOff) return none;
  const off = cell.history.findLast((it) => it.verb === "remove" && it.after.on < it.before.on);
  return gathered(cell.thing.behind, (name) =>
    partsOn(mover, name, cell.place).filter((front) => {
      if (mover.line.includes(front) || front.thing.implied) return false;
      // That it went on while this was off was said there.
      if (front.history.findLast((it) => it.verb === "fit")?.overOff.includes(cell)) return false;
      if (off !== undefined) return front.history.some((it) => it.verb === "fit" && it.seq > off.seq);
      // Began off: so did what is before it, unless that has been fitted since.
      return over.length > 0 || front.history.some((it) => it.verb === "fit");
    }),
  );
}

/** Something moved it, or took it away, before. */
export function isTouched(cell: FastenerCell | PartCell): boolean {
  // What nothing declares is followed by its name alone.
  return cell.thing.implied || (cell.history as readonly (FastenerMoment | PartMoment)[]).some((it) => moving.has(it.verb) || it.after.on !== it.before.on);
}

const moving: ReadonlySet<string> = new Set(["undo", "slacken", "fit", "tighten", "let", "lock", "remove"]);

/** The cell that a `fit` takes its pieces from, if it is another. */
export function sourceOf(mover: Mover, cell: FastenerCell | PartCell, action: ActionDetail): FastenerCell | PartCell | undefined {
  if (action.from === undefined || action.isNew !== undefined || action.from.text === cell.place) return undefined;
  const from = mover.cells.of(cell.thing.name, [action.from.text]).find((it) => it.place === action.from?.text);
  return from?.kind === "part" || from?.kind === "fastener" ? from : undefined;
}

/** All that is found for each of a list; most often that is nothing. */
export function gathered<T, U>(list: readonly T[], of: (it: T) => readonly U[]): readonly U[] {
  let all: U[] | undefined;
  for (const it of list) {
    const some = of(it);
    if (some.length > 0) all = all === undefined ? [...some] : all.concat(some);
  }
  return all ?? none;
}

/** At places of another kind, whose names don't say which are here (axles, and corners 1 to 4), some are open, and it is for whoever wrote that to know which they were. */
function shareOpen(beside: readonly (FastenerCell | PartCell)[], place: string): boolean {
  return place !== "" && beside.length > 1 && !beside.some((it) => it.place === "" || sharesWords(it.place, place)) && beside.some((it) => it.then.on === 0);
}

function nameOf(thing: { readonly name: string; readonly at: Span }): { text: string; at: Span } {
  return { text: thing.name, at: thing.at };
}

/** How many of these hold those that stay, `on` of them, where each piece has its own there: a pin to each cog. */
export function ofTheRest(by: FastenerCell, cell: PartCell, on: number): number {
  return on > 0 && by.place === cell.place && by.total % cell.total === 0 ? (on * by.total) / cell.total : 0;
}
