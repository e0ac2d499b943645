// Whether a reading was outside what its limit must be left at, and nothing else says so.
import { bandOf } from "../model/values.ts";
import { inside } from "../quantities/range.ts";
import type { Reading } from "./story.ts";

/** Outside `set`; of what was found, only where it is inside its wear, or has none: past that another verdict says it. */
export function isOutOfSet({ stood, stage, spots }: Pick<Reading, "stood" | "stage" | "spots">): boolean {
  const set = bandOf(stood.set);
  const worn = stage === "found" ? bandOf(stood.worn) : undefined;
  return set !== undefined && spots.some((spot) => !inside(set, spot.value)) && (worn === undefined || spots.every((spot) => inside(worn, spot.value)));
}

/** What only its setting says anything of, and that was found outside that: it is set, whatever else is done. */
export function isFoundOutOfSet(it: Reading): boolean {
  return it.limit.setBy.length > 0 && it.stood.worn === undefined && it.stage === "found" && isOutOfSet(it);
}
