// Names for the steps of the way back that nothing in the job has yet, and what those that it has are called.
import type { Job } from "../../model/job.ts";
import type { Visit } from "../../story/story.ts";

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

/** A step as people know it: by its title, or by its name where it has none. */
export function stepCalled({ entry }: Visit): string {
  return entry.title === undefined ? `step ${entry.name?.text ?? ""}`.trimEnd() : `\u201c${entry.title.value}\u201d`;
}
