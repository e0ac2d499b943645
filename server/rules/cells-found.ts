// The cells that a finding speaks of, for the rules of findings.
import type { Found, FastenerCell, FluidCell, PartCell, Story } from "../walk/story.ts";

export function cellsFound(story: Story, found: Found): (FastenerCell | PartCell | FluidCell)[] {
  return found.places.flatMap((place) => {
    const cell = story.cell(found.thing.name, place);
    return cell === undefined || cell.kind === "hazard" ? [] : [cell];
  });
}

/** The place to name in a message: the finding's own, where it speaks of one only. */
export function placeFound(found: Found): string {
  return found.places.length === 1 ? (found.places[0] ?? "") : "";
}

export function isCriticalThing(found: Found): boolean {
  return "critical" in found.thing && found.thing.critical;
}
