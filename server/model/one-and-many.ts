// Things without declared places that the steps work on as one, and below that at a place.
// Invariant: by the order of the lines, done and planned alike; what only speaks of a thing at a place moves nothing.
import type { Entry, Name } from "../../grammar/tree.ts";
import type { Job } from "./job.ts";
import { memo } from "./memo.ts";
import type { Fastener, Part } from "./things.ts";
import { type Where, where } from "./where.ts";

export interface OneAndMany {
  readonly row: number;
  readonly thing: Part | Fastener;
  readonly place: Name;
  /** Nothing else of the line hangs on the place: it is the only one, of the only thing. */
  readonly isAlone: boolean;
  readonly first: Where;
}

/**
 * Where a thing that is declared without places is worked on at one, below a line that worked on it as one: the walk would take these for two. Lines that name no place behind such as name
 * some are of all of those.
 */
export const oneAndMany = memo((job: Job): ReadonlyMap<Entry, readonly OneAndMany[]> => {
  const out = new Map<Entry, OneAndMany[]>();
  const asOne = new Map<string, Where>();
  const atPlaces = new Set<string>();
  for (const entry of job.own.sheet.entries) {
    if (entry.kind !== "step") continue;
    for (const it of entry.details) {
      if (it.kind !== "action" || it.fault !== undefined || !moves.has(it.verb)) continue;
      for (const { name } of it.things) {
        const thing = job.things.get(name.text);
        if ((thing?.kind !== "fastener" && thing?.kind !== "part") || thing.implied || thing.placeKind !== undefined) continue;
        const [place] = it.places;
        if (place === undefined) {
          if (!atPlaces.has(thing.name) && !asOne.has(thing.name)) asOne.set(thing.name, where(job.own.path, entry, it.row, name.at));
          continue;
        }
        const first = asOne.get(thing.name);
        if (first === undefined) atPlaces.add(thing.name);
        else if (job.kindsOfPlace.has(place.text))
          out.set(entry, [...(out.get(entry) ?? []), { row: it.row, thing, place, isAlone: it.places.length === 1 && it.things.length === 1, first }]);
      }
    }
  }
  return out;
});

const moves: ReadonlySet<string> = new Set(["undo", "slacken", "remove", "fit", "tighten", "let", "lock"]);
