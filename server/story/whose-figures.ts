// Of which pieces a figure past wear is, where fewer figures than pieces were read and nobody wrote which.
// Invariant: only what is counted out by findings is told: as many found worn and to go as there are figures past wear, and every other piece found serviceable or to go.
import type { ConditionKind } from "../../grammar/tree.ts";
import { countAt, findingsOf } from "./decisions.ts";
import { readingsOn } from "./looked-up.ts";
import { readsWorn } from "./lots.ts";
import type { Found, Reading, Story } from "./story.ts";

/** The figures past wear of that reading, as found, are of those that were found worn and are to go, and of none of the others. `total`: how many are there. */
export function isOfThoseToGo(story: Story, { stage, limit, place, spots }: Reading, total: number, isAway: (found: Found) => boolean): boolean {
  const [name, other] = limit.of;
  if (stage !== "found" || name === undefined || other !== undefined || spots.length >= total) return false;
  let [worn, spoken] = [0, 0];
  for (const found of findingsOf(story).get(name.text) ?? []) {
    const { count, counted } = countAt(found, place, total);
    if (!counted) continue;
    const isGoing = isAway(found);
    if (isGoing && isFound(found, "worn")) worn += count;
    if (isGoing || isFound(found, "serviceable")) spoken += count;
  }
  if (worn === 0 || spoken < total) return false;
  const past = readingsOn(story, limit.name).filter((it) => it.stage === "found" && it.place === place);
  return past.reduce((sum, it) => sum + it.spots.filter((spot) => readsWorn(it, spot)).length, 0) <= worn;
}

export function isFound(found: Found, kind: ConditionKind): boolean {
  return found.conditions.some(({ condition }) => condition.kind === kind);
}
