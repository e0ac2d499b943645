// Whose weight has to be taken before it goes on or comes off.
import type { Part } from "../../model/things.ts";
import { measured, quantityText } from "../../model/values.ts";
import { exact } from "../../quantities/exact.ts";
import { standsOnStuds } from "../../rules/energy/load-unsupported.ts";
import type { Act } from "./acts.ts";

/** 20 kg in grams, as for the rule about heavy parts that nothing holds. */
const heavy = exact("20000") as NonNullable<ReturnType<typeof exact>>;

/** `support PART on crane`, of one that is heavy and that something holds when it is on; undefined of any other, and of a wheel that one person rolls. */
export function weightOf(part: Part): Act | undefined {
  if (part.mass === undefined || part.heldBy.length === 0 || !isHeavy(part)) return undefined;
  return { verb: "support", places: [], rest: "on crane", note: `${quantityText(part.mass)}: lifting gear rated for more; until it is held` };
}

/** What somebody has to know who lifts it, of one that is heavy and that nothing holds when it is on: nobody can say when it would be let go. */
export function weightNote(part: Part): string | undefined {
  return part.mass === undefined || part.heldBy.length > 0 || !isHeavy(part) ? undefined : `${quantityText(part.mass)}: lifting gear rated for more`;
}

function isHeavy(part: Part): boolean {
  const mass = measured(part.mass);
  return mass !== undefined && mass.unit.dimension === "mass" && mass.value.compare(heavy) >= 0 && !standsOnStuds(part);
}
