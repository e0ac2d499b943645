// The cells of a walk: the state of each thing at each of its places, made when first asked for.
// Invariant: a thing without declared places has a cell for each place that the sheet names with it, and one without a name else.
import type { Name } from "../../grammar/tree.ts";
import { isNoPlace, type Job, placesOf } from "../model/job.ts";
import type { Fastener, Part, Shims, Thing } from "../model/things.ts";
import { fluidPlacesOf } from "../model/fluid-places.ts";
import { memo } from "../model/memo.ts";
import { beganWith, eachOf } from "./began-with.ts";
import { asItStands } from "./lots.ts";
import { fastenerState, partState } from "./pieces.ts";
import type { Cell, FastenerCell, FastenerMoment, FluidCell, HazardCell, PartCell, PartMoment, Story } from "./story.ts";

export class Cells {
  readonly fasteners: FastenerCell[] = [];
  readonly parts: PartCell[] = [];
  readonly fluids: FluidCell[] = [];
  readonly hazards: HazardCell[] = [];
  readonly #job: Job;
  readonly #byName = new Map<string, Cell[]>();
  /** The same by their places, for things that are at many. */
  readonly #byPlace = new Map<string, Map<string, Cell>>();
  #closed = false;

  constructor(job: Job) {
    this.#job = job;
  }

  /** The cell of a thing at a place; undefined where the thing has no state (a limit, a gauge) or is not known. */
  at(name: string, place: string): Cell | undefined {
    const known = this.#stands(name, place);
    if (known !== undefined) return known;
    const thing = this.#job.things.get(name);
    const cell = thing === undefined ? undefined : atFirst(this.#job, thing, place);
    if (cell !== undefined) this.#keep(name, cell);
    return cell;
  }

  /** The cells of a thing at these places, or at all of its places where none is named. */
  of(name: string, places: readonly string[]): Cell[] {
    const thing = this.#job.things.get(name);
    if (thing === undefined) return [];
    if (thing.kind === "hazard") return present([this.at(name, "")]);
    const own = ownPlaces(this.#job, thing);
    if (places.length === 0) {
      const list = this.all(name);
      // A thing without declared places, known at some by mention: those are meant.
      if (own === noPlace || own[0] === "") return list.length > 0 ? [...list] : present([this.at(name, "")]);
      return present(own.map((place) => this.at(name, place)));
    }
    const wanted = places.filter((place) => (own[0] === "" ? !isNoPlace(this.#job, place) : own.includes(place)));
    return present(wanted.map((place) => this.at(name, place)));
  }

  /**
   * Those cells of a thing that stand where another does: the same place; of places of another kind those whose names say so (`front-left` is at `front`, and at `left`);
   * or all.
   */
  beside(name: Name, place: string): Cell[] {
    const known = this.#stands(name.text, place);
    const own = known === undefined ? noPlace : ownPlaces(this.#job, known.thing);
    // Where it was asked for at all of its places before, the others are not gone through again.
    if (known !== undefined && this.all(name.text).length >= own.length && (own[0] === "" || own.includes(place))) return [known];
    const cells = this.of(name.text, []);
    const same = cells.filter((cell) => cell.place === place);
    if (same.length > 0) return same;
    const within = cells.filter((cell) => cell.place !== "" && place !== "" && sharesWords(cell.place, place));
    return within.length > 0 ? within : cells;
  }

  all(name: string): readonly Cell[] {
    return this.#byName.get(name) ?? [];
  }

  /** From now on a cell that is asked for stands in no list: what is asked first must not change what is answered later. */
  close(): void {
    this.#closed = true;
  }

  /** The cell of a thing at a place, if it was asked for before. */
  #stands(name: string, place: string): Cell | undefined {
    const many = this.#byPlace.get(name);
    if (many !== undefined) return many.get(place);
    for (const cell of this.all(name)) if (cell.place === place) return cell;
    return undefined;
  }

  #keep(name: string, cell: Cell): void {
    if (!this.#closed) this.#list(cell);
    const list = this.#byName.get(name);
    if (list === undefined) {
      this.#byName.set(name, [cell]);
      return;
    }
    list.push(cell);
    if (list.length === manyPlaces) this.#byPlace.set(name, new Map(list.map((it) => [it.place, it])));
    else this.#byPlace.get(name)?.set(cell.place, cell);
  }

  #list(cell: Cell): void {
    switch (cell.kind) {
      case "fastener":
        this.fasteners.push(cell);
        return;
      case "part":
        this.parts.push(cell);
        return;
      case "fluid":
        this.fluids.push(cell);
        return;
      case "hazard":
        this.hazards.push(cell);
    }
  }
}

function ownPlaces(job: Job, thing: Thing): readonly string[] {
  if (thing.kind === "fluid") return fluidPlacesOf(job, thing);
  return "placeKind" in thing ? placesOf(job, thing) : noPlace;
}

/** The cell of a thing that nobody touched; undefined where it has no state. */
function atFirst(job: Job, thing: Thing, place: string): Cell | undefined {
  switch (thing.kind) {
    case "fastener":
      return fastenerAsItStands(thing, place, beganWith(job, thing, place));
    case "part":
      return partAsItStands(thing, place, beganWith(job, thing, place));
    case "shims":
      return partAsItStands(asPart(thing), place);
    case "fluid": {
      const state = { full: true, airIn: false };
      return { kind: "fluid", thing, place, history: [], now: state, then: state, unsure: false };
    }
    case "hazard": {
      const live = thing.from === undefined;
      return { kind: "hazard", thing, place: "", history: [], now: live, then: live, unsure: false };
    }
    default:
      return undefined;
  }
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

/** The same of a part or a fastener; nothing of what is neither. */
export function piecesAt(story: Pick<Story, "cell" | "cells">, name: string, place: string): readonly (PartCell | FastenerCell)[] {
  return cellsAt(story, name, place).filter((it): it is PartCell | FastenerCell => it.kind === "part" || it.kind === "fastener");
}

/** What happened to it, be it a part or a fastener. */
export function momentsOf(cell: PartCell | FastenerCell): readonly (PartMoment | FastenerMoment)[] {
  return cell.history;
}
