// What a finding says in its own words: behind its conditions, and in the lines under it.
import { unsaid } from "../../grammar/blanks.ts";
import type { Detail } from "../../grammar/tree.ts";
import type { Found } from "./story.ts";

/** “Bent behind the eye”: what stands behind the word that says how it was found. */
export function wordsBehind({ conditions }: Pick<Found, "conditions">): string[] {
  return conditions.flatMap(({ condition }) => (condition.text === undefined ? [] : [condition.text.value]));
}

/** A `because` that is not left blank. */
export function hasReason({ entry }: Pick<Found, "entry">): boolean {
  return entry.details.some(isReason);
}

/** What each `because` says that is not left blank. */
export function reasonsUnder({ entry }: Pick<Found, "entry">): string[] {
  return entry.details.flatMap((it) => (it.kind === "because" && isReason(it) && it.text !== undefined ? [it.text.value] : []));
}

/** What each `because` and each note says, left blank or not. */
export function saidUnder({ entry }: Pick<Found, "entry">): string[] {
  return entry.details.flatMap((it) => ((it.kind === "because" || it.kind === "note") && it.text !== undefined ? [it.text.value] : []));
}

function isReason(detail: Detail): boolean {
  return detail.kind === "because" && !unsaid(detail);
}
