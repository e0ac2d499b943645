// A clearance that wire or strip showed, squashed under a cap: read when the cap is off again, it is of the bearing as it was shut, and holds while the same goes back.
// Invariant: a reading that does not say that it was taken so is taken for none such.
import { isOfAllMounted, isSquashed, saysSquashed } from "../model/read-with.ts";
import { allWords } from "../model/titles.ts";
import type { Reading, Story } from "../story/story.ts";
import { type Otherwise, shutAgainIfSo } from "./shut-again.ts";

/** It says so: under its limit's title, of its gauge, or under the figures. */
export function isReadSquashed({ limit, gauge, entry }: Reading): boolean {
  if (isSquashed(limit) || (gauge !== undefined && saysSquashed(allWords(gauge)))) return true;
  return entry.details.some((it) => (it.kind === "note" || it.kind === "because") && it.text !== undefined && saysSquashed(it.text.value));
}

/**
 * How the bearing is now against how it was shut over the wire: the same, or what differs. Undefined where it was not read so, or the sheet does not say that it was pulled up
 * to its torque over it.
 */
export function shutAgain(story: Story, reading: Reading): "same" | Otherwise | undefined {
  return isReadSquashed(reading) ? shutAgainIfSo(story, reading) : undefined;
}

/** What a message adds where a reading would hold if wire or strip was squashed for it. */
export function ifSquashed(story: Story, reading: Reading): string {
  if (isReadSquashed(reading) || !isOfAllMounted(reading.limit) || shutAgainIfSo(story, reading) !== "same") return "";
  return " If wire or strip was squashed for it, say so in a `note`.";
}
