// The places that a step names in a line of its own: what its lines without a place are about.
import type { StepEntry } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import { memo } from "../model/memo.ts";

/** By its `at` or its `each`, the first of them; undefined where it names none. A place that a line of work names itself goes before them. */
export function placesOfStep(job: Job, entry: StepEntry): readonly string[] | undefined {
  const named = namedBy(entry);
  return named === undefined || typeof named !== "string" ? named : job.placeKinds.get(named);
}

/** Its places, or their kind. */
const namedBy = memo((entry: StepEntry): readonly string[] | string | undefined => {
  for (const detail of entry.details) {
    if (detail.kind === "at" && detail.places.length > 0) return detail.places.map((place) => place.text);
    if (detail.kind === "each" && detail.placeKind !== undefined) return detail.placeKind.text;
  }
  return undefined;
});
