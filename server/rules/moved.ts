// When a thing that sets or makes a limit was last moved, for the rules about readings that must follow.
// Invariant: done work only.
import type { Name } from "../../grammar/tree.ts";
import { placesOf } from "../model/job.ts";
import { isSamePlace } from "../model/same-place.ts";
import { isPreload, relationsOf, settersWithHosts } from "../model/relations.ts";
import { sharesWords } from "../story/cells.ts";
import { readingsOn } from "../story/looked-up.ts";
import { saysNoneMoved, saysNotTurned } from "../story/tried.ts";
import { mendsNothing } from "../story/worked-in.ts";
import type { Cell, FastenerCell, FastenerMoment, PartCell, PartMoment, Reading, Story } from "../story/story.ts";

export interface Move {
  readonly cell: FastenerCell | PartCell;
  readonly moment: FastenerMoment | PartMoment;
}

const moves = new Set(["undo", "slacken", "fit", "tighten", "let", "lock", "remove"]);
const works = new Set(["repair"]);

/** The last done move of any of these things at the place, locking included. */
export function lastMove(story: Story, names: readonly Name[], place: string): Move | undefined {
  const setters = settersWithHosts(story.job, names);
  return last(story, setters, place, (it, cell) => moves.has(it.verb) && !(it.verb === "lock" && turnsNothing(story, cell, it)) && !isOnlyTried(cell, it));
}

/** Tight before and after, pulled at its torque to try it, and the step says that none moved: what it sets is as it was. Locked again in that step, it is too. */
export function isOnlyTried(cell: FastenerCell | PartCell, { verb, visit }: FastenerMoment | PartMoment): boolean {
  if (cell.kind !== "fastener" || visit === undefined || (verb !== "tighten" && verb !== "lock") || !saysNoneMoved(visit.entry)) return false;
  const here = cell.history.filter((it) => it.visit === visit && it.verb !== "found");
  return here.some((it) => it.verb === "tighten") && here.every(({ before, after }) => before.tight && after.tight && before.on === cell.total);
}

/**
 * Staking turns nothing, and can't be undone to read and done again: the trade reads first. So it does with a preload, before a tab is bent up or wire drawn through:
 * there the nut stays where its torque left it. What goes on to a slot for its pin has moved.
 */
function turnsNothing(story: Story, cell: FastenerCell | PartCell, moment: FastenerMoment | PartMoment): boolean {
  if (cell.kind !== "fastener") return false;
  if (moment.visit !== undefined && saysNotTurned(moment.visit.entry)) return true;
  const kind = (("with" in moment ? moment.with : undefined) ?? cell.thing.locking?.locking)?.kind;
  const sets = relationsOf(story.job).sets.get(cell.thing.name) ?? [];
  return kind === "staking" || (bentUp.has(kind ?? "") && sets.length > 0 && sets.every((it) => it.kind === "limit" && isPreload(it)));
}

const bentUp: ReadonlySet<string> = new Set(["tab washer", "lock plate", "lock wire"]);

/** The last done move that disturbs: what only locks does not. */
export function lastDisturbed(story: Story, names: readonly Name[], place: string): Move | undefined {
  return last(story, names, place, (it, cell) => moves.has(it.verb) && it.verb !== "lock" && !isOnlyTried(cell, it));
}

/** The first done move that disturbs: up to that they were as they were found. */
function firstDisturbed(story: Story, names: readonly Name[], place: string): Move | undefined {
  return one(
    story,
    names,
    place,
    (it, cell) => moves.has(it.verb) && it.verb !== "lock" && !isOnlyTried(cell, it),
    (it, than) => it.moment.seq < than.moment.seq,
  );
}

/** The only one as found, of the day on which what sets it was first touched and on which its final was read: it may have been written down late. */
export function mayBeOfBefore(story: Story, it: Reading, final: Reading): boolean {
  if (it.stage !== "found" || it.day === undefined || (final.day !== undefined && final.day !== it.day)) return false;
  if (firstDisturbed(story, it.limit.setBy, it.place)?.moment.day !== it.day) return false;
  return !readingsOn(story, it.limit.name).some((was) => was.stage === "found" && was.place === it.place && was.seq < it.seq);
}

/** The last time that one of these parts was taken off or put on. */
export function lastOffOrOn(story: Story, names: readonly string[], place: string): Move | undefined {
  return last(
    story,
    names.map((text) => ({ text })),
    place,
    (it) => it.verb === "remove" || (it.verb === "fit" && (it.after.on !== it.before.on || it.isNew || it.beganOff)),
  );
}

/** The last time that one of these things came off. */
export function lastOff(story: Story, names: readonly Name[], place: string): Move | undefined {
  return last(story, names, place, (it) => it.after.on < it.before.on);
}

/** The last time that one of these things came off or was slackened. */
export function lastOpened(story: Story, names: readonly Name[], place: string): Move | undefined {
  return last(story, names, place, ({ before, after }) => after.on < before.on || ("tight" in before && "tight" in after && before.tight && !after.tight));
}

/** The last time that one of these was done up or let go, or went on or off: what was tried for its tightness, and was tight, has not moved. */
export function lastTurned(story: Story, names: readonly Name[], place: string): Move | undefined {
  return last(story, names, place, ({ before, after }) => after.on !== before.on || ("tight" in before && "tight" in after && before.tight !== after.tight));
}

/** The last done repair or renewal; what was only cleaned, painted or tried is the size that it was. */
export function lastWorkedOn(story: Story, names: readonly Pick<Name, "text">[], place: string): Move | undefined {
  return last(story, names, place, (it) => (works.has(it.verb) && !mendsNothing(it.action?.text?.value ?? "")) || (it.verb === "fit" && it.isNew));
}

function last(
  story: Story,
  names: readonly Pick<Name, "text">[],
  place: string,
  is: (moment: FastenerMoment | PartMoment, cell: FastenerCell | PartCell) => boolean,
): Move | undefined {
  return one(story, names, place, is, (it, than) => it.moment.seq > than.moment.seq);
}

function one(
  story: Story,
  names: readonly Pick<Name, "text">[],
  place: string,
  is: (moment: FastenerMoment | PartMoment, cell: FastenerCell | PartCell) => boolean,
  isRather: (it: Move, than: Move) => boolean,
): Move | undefined {
  let found: Move | undefined;
  for (const name of names) {
    const cells = cellsMeant(story, name.text);
    for (const cell of placedAt(story, cells, place)) {
      if (cell.kind !== "fastener" && cell.kind !== "part") continue;
      for (const moment of cell.history as (FastenerMoment | PartMoment)[]) {
        if (moment.phase === "done" && is(moment, cell) && (found === undefined || isRather({ cell, moment }, found))) found = { cell, moment };
      }
    }
  }
  return found;
}

/**
 * Those at a place, or of the thing as a whole; else those whose places share a word with it: a part by sides is at each corner of its side. Where its places are of
 * another kind altogether (a float by sides, the nuts by links), nobody says which of them belong to it: any may.
 */
function placedAt({ job }: Story, cells: readonly Cell[], place: string): readonly Cell[] {
  if (place === "") return cells;
  const exact = cells.filter((cell) => cell.place === place || cell.place === "");
  if (exact.length > 0) return exact;
  return cells.filter(({ thing, place: at }) => sharesWords(at, place) || !("placeKind" in thing && placesOf(job, thing).some((it) => sharesWords(it, place))));
}

/** Whether a cell is meant at a place: it is there or is the thing as a whole, or its place shares a word with that and none of its thing is there: `front-left` at the left. */
export function isNear(story: Story, cell: Cell, place: string): boolean {
  if (isSamePlace(cell.place, place)) return true;
  return sharesWords(cell.place, place) && !story.cells(cell.thing.name).some((it) => isSamePlace(it.place, place));
}

/** The pieces of a pack of shims may be a part of their own, by the name of one of them: `column-shim` of `column-shims`. */
function cellsMeant(story: Story, name: string): readonly Cell[] {
  const own = story.cells(name);
  if (story.job.things.get(name)?.kind !== "shims" || !name.endsWith("s")) return own;
  const one = story.job.things.get(name.slice(0, -1));
  return one?.kind === "part" && !one.implied ? [...own, ...story.cells(one.name)] : own;
}
