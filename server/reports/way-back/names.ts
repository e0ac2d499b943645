// Names for the steps of the way back that nothing in the job has yet.
import type { Job } from "../../model/job.ts";

/** The names that are taken; `stepName` adds to them. */
export function namesTaken(job: Job): Set<string> {
  return new Set([...job.things.keys(), ...job.placeKinds.keys(), ...job.kindsOfPlace.keys()]);
}

/** `back-1`, `back-2` and so on: the first that is free. */
export function stepName(taken: Set<string>): string {
  let n = 1;
  while (taken.has(`back-${n}`)) n += 1;
  taken.add(`back-${n}`);
  return `back-${n}`;
}
