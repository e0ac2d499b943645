// The cells that a finding speaks of, for the rules of findings.
import { agreeing, called, listed } from "./wording.ts";
import type { Found, FastenerCell, FluidCell, PartCell, Story } from "../story/story.ts";

export function cellsFound(story: Story, found: Found): (FastenerCell | PartCell | FluidCell)[] {
  return found.places.flatMap((place) => {
    const cell = story.cell(found.thing.name, place);
    return cell === undefined || cell.kind === "hazard" ? [] : [cell];
  });
}

/** The place to name in a message: the finding's own, or those that it lists. */
export function placeFound(found: Found): string {
  if (found.entry.places.length > 1) return listed(found.entry.places.map((it) => it.text));
  return found.places.length === 1 ? (found.places[0] ?? "") : "";
}

/** “Left hub nut”, “Carrier nut (3)”: the thing that was found, its place, and how many of several. */
export function calledFound(found: Found): string {
  const of = "perPlace" in found.thing && found.thing.perPlace !== undefined ? found.thing.perPlace : 1;
  return `${called(found.thing, placeFound(found))}${found.count !== undefined && of > 1 ? ` (${found.count} of ${of})` : ""}`;
}

/** “Left hub nut was found cracked”: how a message about it begins. */
export function foundAs(found: Found, condition: { readonly kind: string }): string {
  return `${calledFound(found)} ${agreeing(found.thing, "was")} found ${condition.kind}`;
}

export function isCriticalThing(found: Found): boolean {
  return "critical" in found.thing && found.thing.critical;
}
