// How many of a thing a place began with, where the sheet corrects the number further down: what comes off by count above the correction says which was meant.
// Invariant: without such a line, or where it took off any other number, the corrected number held from the start.
import type { ActionDetail, StepEntry } from "../../grammar/tree.ts";
import { declareAnew, wholeNumber } from "../model/declare.ts";
import type { Job } from "../model/job.ts";
import { placesOfStep } from "./step-places.ts";
import { memo } from "../model/memo.ts";
import type { Counted, Fastener, Part } from "../model/things.ts";

/** As many as counted lines took off above a correction, where that is the number that held until then; else the number that holds at the end. */
export function beganWith(job: Job, thing: Fastener | Part, place: string): number {
  const total = eachOf(thing);
  const known = corrected(job).get(thing.name);
  return known?.corrections.find(({ before, at }) => before !== total && takenOff(job, known.moved, place, at) === before)?.before ?? total;
}

interface Corrected {
  /** How many were declared until then, and the index of the entry that says another number. */
  readonly corrections: { readonly before: number; readonly at: number }[];
  /** The lines that take it off or put it on. */
  readonly moved: { readonly entry: StepEntry; readonly at: number; readonly action: ActionDetail; readonly count: number | undefined }[];
}

/** The parts and fasteners whose number this sheet says again: hardly ever any. */
const corrected = memo((job: Job): ReadonlyMap<string, Corrected> => {
  const by = new Map<string, Corrected>();
  const { entries } = job.own.sheet;
  for (const [at, entry] of entries.entries()) {
    if ((entry.kind !== "part" && entry.kind !== "fastener") || entry.name === undefined) continue;
    const thing = job.things.get(entry.name.text);
    if (thing?.kind !== entry.kind || thing.entry === entry || !entry.details.some(({ kind }) => kind === "qty" || kind === "each")) continue;
    const [home, ...more] = thing.entries.slice(
      0,
      Math.max(
        thing.entries.findIndex((it) => it.entry === entry),
        0,
      ),
    );
    if (home === undefined) continue;
    const known = by.get(thing.name) ?? { corrections: [], moved: [] };
    known.corrections.push({ before: eachOf(declareAnew(thing.kind, thing, [home, ...more]) as Counted), at });
    by.set(thing.name, known);
  }
  if (by.size === 0) return by;
  for (const [at, entry] of entries.entries()) {
    if (entry.kind !== "step") continue;
    for (const action of entry.details) {
      if (action.kind !== "action" || action.fault !== undefined || !moves.has(action.verb)) continue;
      for (const { name, count } of action.things) by.get(name.text)?.moved.push({ entry, at, action, count: wholeNumber(count?.text) });
    }
  }
  return by;
});

const moves: ReadonlySet<string> = new Set(["remove", "undo", "fit"]);

/** How many come off at a place by number above an entry, before any is put back; undefined where a line says no number. */
function takenOff(job: Job, moved: Corrected["moved"], place: string, above: number): number | undefined {
  let sum = 0;
  for (const { entry, at, action, count } of moved) {
    if (at > above) break;
    if (!isAt(job, entry, action.places, place)) continue;
    if (action.verb === "fit") break;
    if (count === undefined) return undefined;
    sum += count;
  }
  return sum;
}

/** The line's own places, or else those of its step; where neither says any, it is of all. */
function isAt(job: Job, entry: StepEntry, places: readonly { readonly text: string }[], place: string): boolean {
  if (places.length > 0) return places.some(({ text }) => text === place);
  return placesOfStep(job, entry)?.includes(place) ?? true;
}

/** A declared number of a thing without places is its number in all, wherever the sheet says it is. */
export function eachOf(thing: Counted): number {
  return thing.perPlace ?? 1;
}
