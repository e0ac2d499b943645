// What a place is held to: those of the thing's own kind, and words that are none.
import type { Job } from "../../../model/job.ts";
import type { Thing } from "../../../model/things.ts";

/** The places of the thing's kind; undefined where it declares none, so that any will do. */
export function ownPlaces(job: Job, thing: Thing): readonly string[] | undefined {
  if (!("placeKind" in thing) || thing.placeKind === undefined) return undefined;
  return job.placeKinds.get(thing.placeKind.text);
}

/** Not where it was read, but that it was not read. */
export const isBound = (word: string) => /^(?:under|over|above|below|less|more|than|within|beyond)$/.test(word);
