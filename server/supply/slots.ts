// Parts and fasteners place by place, with what asks for new ones there and what new ones were fitted: so many are still needed.
// Invariant: each piece once, however many lines ask for it; only a new one fitted by done work takes a need away.
import { placesOf } from "../model/job.ts";
import type { Fastener, Part } from "../model/things.ts";
import { type Reason, placed } from "./need.ts";
import type { Moment, Story } from "../story/story.ts";

/** Something that asks for new pieces. */
export interface Ask {
  /** When it was said; −1 for what may have been answered at any time. */
  readonly seq: number;
  readonly count: number;
  /** Counted pieces, other than those counted before: they add up. All else says “at least so many”. */
  readonly adds: boolean;
  readonly reasons: readonly Reason[];
  /** Asks for nothing more, and would ask if what asks were not there: named with it, so that without all that is named nothing is asked for. */
  readonly echo?: true;
}

/** New pieces fitted, or planned to be. */
export interface Fitted {
  readonly moment: Moment;
  readonly count: number;
  /** So many of them were made here, and neither bought nor taken from the shelf. */
  readonly made: number;
}

export interface Slot {
  readonly thing: Part | Fastener;
  readonly place: string;
  /** How many there are at the place. */
  readonly total: number;
  readonly asks: Ask[];
  readonly fitted: Fitted[];
}

export interface Slots {
  at(thing: Part | Fastener, place: string): Slot;
  /** The slots of a thing that stand where another thing does: at the same place, or at all of its own where those are of another kind. */
  beside(thing: Part | Fastener, place: string): Slot[];
  all(): Iterable<Slot>;
}

export function makeSlots(story: Story): Slots {
  const slots = new Map<string, Map<string, Slot>>();
  const list: Slot[] = [];

  function at(thing: Part | Fastener, place: string): Slot {
    const own = slots.get(thing.name) ?? new Map<string, Slot>();
    slots.set(thing.name, own);
    let slot = own.get(place);
    if (slot === undefined) {
      slot = { thing, place, total: thing.perPlace ?? 1, asks: [], fitted: [] };
      own.set(place, slot);
      list.push(slot);
    }
    return slot;
  }

  function beside(thing: Part | Fastener, place: string): Slot[] {
    const places = placesOfThing(story, thing);
    if (places.includes(place)) return [at(thing, place)];
    // A thing without declared places that the sheet names at some is meant at this one too.
    if (placesOf(story.job, thing)[0] === "" && places[0] !== "" && place !== "") return [at(thing, place)];
    return places.map((it) => at(thing, it));
  }

  return { at, beside, all: () => list };
}

/** The places of a thing: those that it declares, else those that the sheet names with it, else one without a name. */
export function placesOfThing(story: Story, thing: Part | Fastener): readonly string[] {
  const declared = placesOf(story.job, thing);
  if (declared[0] !== "") return declared;
  const named = story.cells(thing.name).map((cell) => cell.place);
  return named.length > 0 ? named : declared;
}

/**
 * How many a slot still needs: what is asked for and not fitted, and what planned steps fit beyond that. `held`: so many of its pieces wait for an answer or are still to be made. They are
 * others than those that were counted to be renewed; “at least so many” and what a planned step fits speak of them too.
 */
export function outstanding(slot: Slot, held: number): { count: number; free: number; reasons: Reason[] } {
  // What adds up and what says “at least so many” are told apart, so that a piece that both speak of counts once.
  let added = 0;
  let least = 0;
  let planned = 0;
  let open: Reason[] = [];
  const kept: Reason[] = [];
  const events = [
    ...slot.asks.map((ask) => ({ seq: ask.seq, ask, fit: undefined })),
    ...slot.fitted.map((fit) => ({ seq: fit.moment.seq, ask: undefined, fit })),
  ];
  events.sort((a, b) => a.seq - b.seq);
  for (const { ask, fit } of events) {
    if (ask?.echo) {
      if (open.length > 0) open.push(...ask.reasons);
      else if (kept.length > 0) kept.push(...ask.reasons);
      continue;
    }
    if (ask !== undefined) {
      if (ask.adds) added = Math.min(slot.total, added + ask.count);
      else least = Math.max(least, ask.count);
      open.push(...ask.reasons);
      continue;
    }
    if (fit.moment.phase === "planned") {
      planned += fit.count - fit.made;
      kept.push(...open, { where: fit.moment.where, place: slot.place, text: placed(slot.place, "a planned step fits it new") });
      open = [];
    }
    added = Math.max(0, added - (fit.count - fit.made));
    least = Math.max(0, least - fit.count);
    if (added === 0 && least === 0) open = [];
  }
  const free = Math.min(planned, Math.max(0, slot.total - held)) + Math.max(added, least - held);
  return { count: planned + Math.max(added, least), free, reasons: [...kept, ...open] };
}
