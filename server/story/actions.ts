// One action line of a step: which cells it is about, and the move that it makes in each.
// Invariant: an action on a name that can't be what the verb needs moves nothing; the rules of names say why.
import type { ActionDetail, StepEntry, Thing } from "../../grammar/tree.ts";
import { wholeNumber } from "../model/declare.ts";
import { memo } from "../model/memo.ts";
import { fastenerMoves } from "./fastener-moves.ts";
import { fluidMoves } from "./fluid-moves.ts";
import { hazardMoves } from "./hazard-moves.ts";
import { type Mover, momentOf, tellsTooManyApart } from "./mover.ts";
import { partMoves } from "./part-moves.ts";
import { isSlack } from "./standing.ts";
import { placesOfStep } from "./step-places.ts";
import type { Cell, FastenerCell, FastenerMoment, PartCell, PartMoment, Support, SupportMoment, SupportState, Visit } from "./story.ts";

/**
 * `places` are those of the visit, undefined where the step names none.
 * `alone` is true of a visit to what is left of a step: what has no place was dealt with before.
 */
export function act(mover: Mover, entry: StepEntry, action: ActionDetail, places: readonly string[] | undefined, alone: boolean): void {
  switch (action.verb) {
    case "chock":
    case "raise":
    case "support":
    case "lower":
      if (action.verb === "lower" && action.things.length === 0 && action.blanks !== undefined) return;
      if (!alone) support(mover, entry, action);
      return;
    case "under":
    case "clear":
      if (!alone) support(mover, entry, action);
      return;
    case "safe":
    case "restore":
      for (const thing of action.things) {
        if (alone) continue;
        const cell = mover.cells.at(thing.name.text, "");
        if (cell?.kind === "hazard") hazardMoves.act(mover, cell, action.verb, momentOf(mover, entry, action.row, thing.name.at), action);
      }
      return;
    case "replace":
    case "inspect":
    case "heat":
      return;
    default: {
      if (action.verb === "fit" && action.things.length === 0 && action.blanks !== undefined && mover.phase === "planned") mover.blankFit = true;
      const line = action.things.map((thing) => ({ thing, cells: cellsOf(mover, entry, action, thing, places, alone) }));
      mover.line = line.length > 1 ? line.flatMap((it) => it.cells) : noCells;
      for (const { thing, cells } of line) {
        const count = countEach(mover, entry, thing, cells);
        for (const cell of cells) actOn(mover, entry, action, thing, cell, count);
      }
      mover.line = noCells;
    }
  }
}

const noCells: readonly Cell[] = [];

function cellsOf(mover: Mover, entry: StepEntry, action: ActionDetail, thing: Thing, places: readonly string[] | undefined, alone: boolean): Cell[] {
  const named = action.places.map((place) => place.text);
  const name = thing.name.text;
  if (named.length > 0) {
    // A place named in a step that is done at the other one is not done. One that is none of the step's own is where the line says, and was dealt with at once.
    const own = placesOfStep(mover.job, entry);
    const isElsewhere = (place: string) => !alone && own !== undefined && !own.includes(place);
    const here = places === undefined ? named : named.filter((place) => places.includes(place) || !sameKind(mover, place, places) || isElsewhere(place));
    return here.length > 0 ? mover.cells.of(name, here) : [];
  }
  const own = mover.cells.of(name, []);
  if (places === undefined) return own;
  const here = own.filter((cell) => places.includes(cell.place));
  if (here.length > 0) return here;
  // Its places are of another kind than the step's, or it has none.
  if (own.some((cell) => cell.place !== "" && sameKind(mover, cell.place, places))) return [];
  return alone ? [] : own;
}

function sameKind(mover: Mover, place: string, places: readonly string[]): boolean {
  const kinds = mover.job.kindsOfPlace.get(place) ?? [];
  return places.some((other) => (mover.job.kindsOfPlace.get(other) ?? []).some((kind) => kinds.includes(kind)));
}

const fastenerVerbs: Partial<Record<ActionDetail["verb"], FastenerMoment["verb"]>> = {
  undo: "undo",
  slacken: "slacken",
  fit: "fit",
  tighten: "tighten",
  let: "let",
  lock: "lock",
  repair: "repair",
};
const partVerbs: Partial<Record<ActionDetail["verb"], PartMoment["verb"]>> = { remove: "remove", fit: "fit", mark: "mark", repair: "repair" };

/** How many at each place; undefined: all. A pack of shims is one, however many are in it; and eight nuts, of four at each of two places, are all of them. */
function countEach(mover: Mover, entry: StepEntry, thing: Thing, cells: readonly Cell[]): number | undefined {
  if (mover.job.things.get(thing.name.text)?.kind === "shims") return undefined;
  const all = numberedIn(entry).get(thing);
  if (all !== undefined && cells.every((cell) => "total" in cell && cell.total === all)) return 1;
  const count = wholeNumber(thing.count?.text);
  return count !== undefined && isAllOver(count, cells) ? undefined : count;
}

/**
 * “Shell 1”, “shell 2”, each on a line of its own, up to the last there is: by count they would be more than there are, so they are numbered. How many there then must be. New ones and old ones
 * among them are not told apart so: nobody knows which of those that lie there is which.
 */
const numberedIn = memo((entry: StepEntry): ReadonlyMap<Thing, number> => {
  const runs = new Map<string, { readonly things: Thing[]; readonly isNew: boolean; isRun: boolean }>();
  for (const detail of entry.details) {
    if (detail.kind !== "action" || detail.fault !== undefined || !oneByOne.has(detail.verb)) continue;
    const isNew = detail.isNew !== undefined;
    for (const thing of detail.things) {
      const key = [detail.verb, thing.name.text, ...detail.places.map(({ text }) => text)].join(" ");
      const run = runs.get(key) ?? { things: [], isNew, isRun: true };
      runs.set(key, run);
      run.things.push(thing);
      run.isRun &&= isNew === run.isNew && detail.from === undefined && wholeNumber(thing.count?.text) === run.things.length;
    }
  }
  return new Map([...runs.values()].flatMap(({ things, isRun }) => (isRun && things.length > 1 ? things.map((it) => [it, things.length] as const) : [])));
});

/** Two that are tightened after one was may well be both of them; what is fitted or locked is so once. */
const oneByOne: ReadonlySet<ActionDetail["verb"]> = new Set(["undo", "remove", "fit", "lock"]);

/** Counted over all places at once: as many as there are at all of them together. */
export function isAllOver(count: number, cells: readonly Cell[]): boolean {
  return cells.length > 1 && count === cells.reduce((sum, cell) => sum + ("total" in cell ? cell.total : 0), 0);
}

function actOn(mover: Mover, entry: StepEntry, action: ActionDetail, thing: Thing, cell: Cell, count: number | undefined): void {
  const moment = momentOf(mover, entry, action.row, thing.name.at);
  if (tellsTooManyApart(mover, cell, moment.where)) return;
  switch (cell.kind) {
    case "fastener":
      fastenerMoves.act(mover, cell, fastenerVerbs[action.verb] ?? "other", moment, action, count);
      return;
    case "part":
      partMoves.act(mover, cell, partVerbs[action.verb] ?? "other", moment, action, count);
      return;
    case "fluid":
      if (action.verb === "drain" || action.verb === "fill" || action.verb === "bleed") fluidMoves.act(mover, cell, action.verb, moment, action);
      return;
    default:
  }
}

/** A line of a step that can't be read, and may have said how the machine is held. */
export function blur(mover: Mover, entry: StepEntry, word: string | undefined): void {
  const { unclear } = mover.support;
  if (word === "chock" || word === "clear") mover.support = { ...mover.support, unclear: { ...unclear, [word]: true } };
  else if (word === "raise" || word === "support" || word === "lower") mover.support = { ...mover.support, unclear: { ...unclear, hold: true } };
  else return;
  if (mover.phase === "done") mover.blurred.push({ seq: mover.seq++, entry, after: mover.support });
}

function support(mover: Mover, entry: StepEntry, action: ActionDetail): void {
  const before = mover.support;
  const moment = momentOf(mover, entry, action.row, action.keyword);
  let after: SupportState = before;
  let open: (FastenerCell | PartCell)[] = [];
  switch (action.verb) {
    case "chock":
      after = { ...before, chocked: true };
      break;
    case "raise":
      after = { ...before, raised: { on: action.on?.text ?? "jack", moment } };
      break;
    case "support": {
      const it = {
        on: action.on?.text ?? "stands",
        moment,
        action,
        ...(action.underPart === undefined ? {} : { underPart: action.underPart.text }),
        ...(action.underText === undefined ? {} : { underText: action.underText.value }),
      };
      const parts = new Set(action.things.map(({ name }) => name.text));
      const borne = parts.size === 0 ? [it] : [...parts].map((part) => ({ ...it, part }));
      // A part that is set down somewhere else no longer hangs where it did.
      after = { ...before, supports: [...before.supports.filter((other) => other.part === undefined || !parts.has(other.part)), ...borne] };
      break;
    }
    case "lower": {
      // A part that is set down takes nothing else down with it.
      if (action.things.length > 0) {
        after = { ...before, supports: before.supports.filter((it) => !action.things.some((thing) => isOf(it, thing.name.text, action, mover))) };
        break;
      }
      open = openNow(mover);
      const { raised: _raised, unclear: _unclear, ...rest } = before;
      after = { ...rest, supports: [] };
      break;
    }
    case "under":
      after = { ...before, under: moment };
      break;
    case "clear": {
      const { under: _under, ...rest } = before;
      after = rest;
      break;
    }
    default:
  }
  const verb = action.verb === "lower" && action.things.length > 0 ? "set-down" : (action.verb as SupportMoment["verb"]);
  mover.support = after;
  mover.supportMoments.push({ ...moment, verb, action, before, after, open });
}

/** Bears this part, at one of the places that the line speaks of, where both name any. */
function isOf(it: Support, part: string, action: ActionDetail, mover: Mover): boolean {
  if (it.part !== part) return false;
  const of = (own: ActionDetail, visit: Visit | undefined) => (own.places.length > 0 ? own.places.map((place) => place.text) : visit?.places);
  const there = of(it.action, it.moment.visit);
  const here = of(action, mover.visit);
  return there === undefined || here === undefined || here.some((place) => there.includes(place));
}

/** Everything that is off or slack at this time, for a machine that is being let down. */
function openNow(mover: Mover): (FastenerCell | PartCell)[] {
  const open: (FastenerCell | PartCell)[] = [];
  if (mover.blankFit) return open;
  for (const cell of mover.cells.fasteners) if (!cell.unsure && cell.history.length > 0 && isSlack(cell)) open.push(cell);
  for (const cell of mover.cells.parts) if (!cell.unsure && cell.history.length > 0 && cell.then.on < cell.total) open.push(cell);
  return open;
}
