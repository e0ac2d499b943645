// The cells of a walk: the state of each thing at each of its places, made when first asked for.
// Invariant: a thing without declared places has a cell for each place that the sheet names with it, and one without a name else.
import type { Name } from "../../grammar/tree.ts";
import { type Job, placesOf } from "../model/job.ts";
import type { Fastener, Part, Shims, Thing } from "../model/things.ts";
import { fluidPlacesOf } from "../model/fluid-places.ts";
import { memo } from "../model/memo.ts";
import { beganWith, eachOf } from "./began-with.ts";
import { asItStands } from "./lots.ts";
import { fastenerState, partState } from "./pieces.ts";
import type { Cell, FastenerCell, FluidCell, HazardCell, PartCell, Story } from "./story.ts";

export interface Cells {
  readonly fasteners: FastenerCell[];
  readonly parts: PartCell[];
  readonly fluids: FluidCell[];
  readonly hazards: HazardCell[];
  /** The cell of a thing at a place; undefined where the thing has no state (a limit, a gauge) or is not known. */
  at(name: string, place: string): Cell | undefined;
  /** The cells of a thing at these places, or at all of its places where none is named. */
  of(name: string, places: readonly string[]): Cell[];
  /**
   * Those cells of a thing that stand where another does: the same place; of places of another kind those whose names say so (`front-left` is at `front`, and at `left`);
   * or all.
   */
  beside(name: Name, place: string): Cell[];
  all(name: string): readonly Cell[];
  /** From now on a cell that is asked for stands in no list: what is asked first must not change what is answered later. */
  close(): void;
}

export function makeCells(job: Job): Cells {
  const fasteners: FastenerCell[] = [];
  const parts: PartCell[] = [];
  const fluids: FluidCell[] = [];
  const hazards: HazardCell[] = [];
  const byName = new Map<string, Cell[]>();
  /** The same by their places, for things that are at many. */
  const byPlace = new Map<string, Map<string, Cell>>();
  let closed = false;

  function at(name: string, place: string): Cell | undefined {
    const known = stands(name, place);
    if (known !== undefined) return known;
    let list = byName.get(name);
    const thing = job.things.get(name);
    const cell = thing === undefined ? undefined : create(thing, place);
    if (cell === undefined) return undefined;
    if (list === undefined) {
      list = [];
      byName.set(name, list);
    }
    list.push(cell);
    if (list.length === manyPlaces) byPlace.set(name, new Map(list.map((it) => [it.place, it])));
    else byPlace.get(name)?.set(cell.place, cell);
    return cell;
  }

  /** The cell of a thing at a place, if it was asked for before. */
  function stands(name: string, place: string): Cell | undefined {
    const many = byPlace.get(name);
    if (many !== undefined) return many.get(place);
    for (const cell of byName.get(name) ?? []) if (cell.place === place) return cell;
    return undefined;
  }

  function create(thing: Thing, place: string): Cell | undefined {
    switch (thing.kind) {
      case "fastener": {
        const cell = fastenerAsItStands(thing, place, beganWith(job, thing, place));
        if (!closed) fasteners.push(cell);
        return cell;
      }
      case "part": {
        const cell = partAsItStands(thing, place, beganWith(job, thing, place));
        if (!closed) parts.push(cell);
        return cell;
      }
      case "shims": {
        const cell = partAsItStands(asPart(thing), place);
        if (!closed) parts.push(cell);
        return cell;
      }
      case "fluid": {
        const state = { full: true, airIn: false };
        const cell: FluidCell = { kind: "fluid", thing, place, history: [], now: state, then: state, unsure: false };
        if (!closed) fluids.push(cell);
        return cell;
      }
      case "hazard": {
        const live = thing.from === undefined;
        const cell: HazardCell = { kind: "hazard", thing, place: "", history: [], now: live, then: live, unsure: false };
        if (!closed) hazards.push(cell);
        return cell;
      }
      default:
        return undefined;
    }
  }

  function of(name: string, places: readonly string[]): Cell[] {
    const thing = job.things.get(name);
    if (thing === undefined) return [];
    if (thing.kind === "hazard") return present([at(name, "")]);
    const own = ownPlaces(thing);
    if (places.length === 0) {
      const list = byName.get(name);
      // A thing without declared places, known at some by mention: those are meant.
      if (own === noPlace || own[0] === "") return list !== undefined && list.length > 0 ? [...list] : present([at(name, "")]);
      return present(own.map((place) => at(name, place)));
    }
    const wanted = own[0] === "" ? places : places.filter((place) => own.includes(place));
    return present(wanted.map((place) => at(name, place)));
  }

  function ownPlaces(thing: Thing): readonly string[] {
    if (thing.kind === "fluid") return fluidPlacesOf(job, thing);
    return "placeKind" in thing ? placesOf(job, thing) : noPlace;
  }

  function beside(name: Name, place: string): Cell[] {
    const known = stands(name.text, place);
    const thing = known?.thing;
    // Where it was asked for at all of its places before, the others are not gone through again.
    const own = thing === undefined ? noPlace : ownPlaces(thing);
    if (known !== undefined && (byName.get(name.text)?.length ?? 0) >= own.length && (own[0] === "" || own.includes(place))) return [known];
    const cells = of(name.text, []);
    const same = cells.filter((cell) => cell.place === place);
    if (same.length > 0) return same;
    const within = cells.filter((cell) => cell.place !== "" && place !== "" && sharesWords(cell.place, place));
    return within.length > 0 ? within : cells;
  }

  return {
    fasteners,
    parts,
    fluids,
    hazards,
    at,
    of,
    beside,
    all: (name) => byName.get(name) ?? [],
    close: () => {
      closed = true;
    },
  };
}

/** Whether one of two names of places has all words of the other: `front-left` and `front`. */
export function sharesWords(place: string, other: string): boolean {
  const [few, many] = [place.split("-"), other.split("-")].sort((a, b) => a.length - b.length) as [string[], string[]];
  return few.every((word) => many.includes(word));
}

/** What was said or done of a thing at one of its places, and another of its places is the one asked about: oil in the right hub leaves the left one dry. */
export function isElsewhere(job: Job, thing: Thing, place: string, asked: string): boolean {
  if (place === "" || asked === "" || !("placeKind" in thing) || sharesWords(place, asked)) return false;
  return placesOf(job, thing).some((it) => it !== "" && sharesWords(it, asked));
}

/** A fastener that nobody touched. */
export function fastenerAsItStands(thing: Fastener, place: string, began = eachOf(thing)): FastenerCell {
  const total = eachOf(thing);
  const state = fastenerState([asItStands(began, place)], []);
  return { kind: "fastener", ahead: [], aside: [], thing, place, total, history: [], now: state, then: state, unsure: false };
}

/** A part that nobody touched. */
export function partAsItStands(thing: Part, place: string, began = eachOf(thing)): PartCell {
  const total = eachOf(thing);
  const state = partState([asItStands(began, place)], [], false);
  return { kind: "part", ahead: [], aside: [], thing, place, total, history: [], now: state, then: state, unsure: false };
}

/** A pack of shims comes off and goes back like a part, all of it: how many are in it is for `fitted` to say. */
const asPart = memo(
  ({ perPlace: _pack, ...shims }: Shims): Part => ({
    ...shims,
    kind: "part",
    critical: false,
    renew: false,
    renewWith: noNames,
    inPairs: false,
    heldBy: noNames,
    behind: noNames,
    matchedWith: noNames,
    keepsPlace: false,
    holds: noNames,
  }),
);

const noNames: readonly Name[] = [];
const noPlace: readonly string[] = [""];
/** A list of so few is gone through faster than it is looked up. */
const manyPlaces = 8;

function present<T>(list: readonly (T | undefined)[]): T[] {
  return list.filter((it): it is T => it !== undefined);
}

/** The cells of a thing at a place, and that of the thing as a whole; where no place is named, all of them. Looked up, for there may be thousands. */
export function cellsAt(story: Pick<Story, "cell" | "cells">, name: string, place: string): readonly Cell[] {
  if (place === "") return story.cells(name);
  const here = story.cell(name, place);
  const whole = story.cell(name, "");
  return here === undefined ? (whole === undefined ? [] : [whole]) : whole === undefined ? [here] : [here, whole];
}
