// Whether a critical limit or check was read or seen at the end: behind the critical work that it hangs on.
import { isSamePlace } from "../../../model/same-place.ts";
import type { Check, Limit } from "../../../model/things.ts";
import { readingsOn, seenOn } from "../../../story/looked-up.ts";
import type { Moment, Reading, Seen, Story } from "../../../story/story.ts";
import { isAfter, lastCritical, lastWorkSeq, lookedForAfter } from "./critical-work.ts";

/**
 * A final reading, at each of its positions, that is no older than the critical work (it may be of a piece on the bench); a final look, when all critical
 * work was done; or found good, and nothing moved since.
 */
export function isReadAtEnd(story: Story, thing: Limit | Check, place: string): boolean {
  const here = (it: { readonly place: string; readonly stage: string; readonly seq: number; readonly day: string | undefined }) =>
    isSamePlace(it.place, place) &&
    ((it.stage === "final" &&
      lookedForAfter(story, thing, place).every((work) => isAfter(it, work)) &&
      !(thing.kind === "limit" && isDatedBack(story, it, place, thing))) ||
      (it.stage === "found" && it.seq > lastWorkSeq(story)));
  // Seen bad, or read outside, is said by the rule that says so.
  if (thing.kind === "check") return seenOn(story, thing.name).some(here);
  const readings = readingsOn(story, thing.name).filter(here);
  return (
    readings.length > 0 && (readings.some((it) => it.position === undefined) || thing.positions.every((end) => readings.some((it) => it.position === end)))
  );
}

/** Written below critical work, and dated before it: what was built up since is not what was read. */
function isDatedBack(story: Story, it: { readonly seq: number; readonly day: string | undefined }, place: string, thing: Limit | Check): boolean {
  return lastCritical(story, place, thing).some((work) => work.seq < it.seq && it.day !== undefined && work.day !== undefined && it.day < work.day);
}

/** The last critical work, where a final look stands before it. */
export function seenEarly(story: Story, thing: Limit | Check, place: string): Moment | undefined {
  const work = lookedForAfter(story, thing, place);
  const all: readonly (Seen | Reading)[] = thing.kind === "check" ? seenOn(story, thing.name) : readingsOn(story, thing.name);
  const finals = all.filter((it) => it.stage === "final" && isSamePlace(it.place, place));
  return finals.length > 0 && !finals.some((it) => work.every((done) => isAfter(it, done))) ? work.at(-1) : undefined;
}
