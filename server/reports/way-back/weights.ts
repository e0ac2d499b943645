// Whose weight has to be taken before it goes on or comes off.
import { standsOnStuds } from "../../model/carries.ts";
import type { Part } from "../../model/things.ts";
import { measured, quantityText } from "../../model/values.ts";
import { exact } from "../../quantities/exact.ts";
import type { Act } from "./acts.ts";

/** 20 kg in grams, as for the rule about heavy parts that nothing holds. */
const heavy = exact("20000") as NonNullable<ReturnType<typeof exact>>;

/** `support PART on crane`, of one that is heavy; undefined of any other, and of a wheel that one person rolls. */
export function weightOf(part: Part): Act | undefined {
  if (part.mass === undefined || !isHeavy(part)) return undefined;
  const until = part.heldBy.length === 0 ? "until it is down" : "until it is held";
  return { verb: "support", places: [], rest: "on crane", note: `${quantityText(part.mass)}: lifting gear rated for more; ${until}` };
}

/** `lower PART`: what no fastener holds when it is on is let down into its place. */
export function downInto(part: Part): Act | undefined {
  return part.heldBy.length > 0 || weightOf(part) === undefined ? undefined : { verb: "lower", places: [], note: "into its place, its weight off the crane" };
}

/** `lower PART`: what has come off does not stay hanging. */
export const setDown: Act = { verb: "lower", places: [], note: "set down where it can\u2019t roll or fall" };

function isHeavy(part: Part): boolean {
  const mass = measured(part.mass);
  return mass !== undefined && mass.unit.dimension === "mass" && mass.value.compare(heavy) >= 0 && !standsOnStuds(part);
}
