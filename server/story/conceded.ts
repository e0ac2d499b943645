// Whether something was accepted as it is, and where: a concession is of the places that it names, or of all where it names none.
// Invariant: who may concede, and what may not be conceded, is for the rules to say.
import type { Concession, Story } from "./story.ts";

/** Some concession is of this thing (a part, a limit, a check) at this place; `""` is all of it. */
export function isConceded(story: Story, name: string, place: string): boolean {
  return story.concessions.some((it) => it.thing.name === name && coversPlace(it, place));
}

export function coversPlace({ entry, places }: Concession, place: string): boolean {
  return entry.places.length === 0 || place === "" || places.includes("") || places.includes(place);
}
