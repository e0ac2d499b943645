// When and where a limit was read, or a check looked at, and what was off then.
import { relationsOf } from "../../model/relations.ts";
import { isSamePlace } from "../../model/same-place.ts";
import type { Check, Limit } from "../../model/things.ts";
import { wasOff } from "../../story/standing.ts";
import type { Story } from "../../story/story.ts";
import { inUse, isLeak, isPlay } from "./by-words.ts";

/** In the order of the sheet. */
export function takenOf(story: Story, thing: Limit | Check): readonly { readonly seq: number; readonly place: string; readonly stage: string }[] {
  return thing.kind === "check" ? story.seen.filter((it) => it.check === thing) : story.readings.filter((it) => it.limit === thing);
}

/** The last time that it was read or looked at while nothing that it is of, or that sets it, was off. */
export function wholeAt(story: Story, thing: Limit | Check, places: readonly string[]): number | undefined {
  const names = thing.of.length > 0 ? thing.of : thing.setBy;
  return takenOf(story, thing).findLast(
    ({ seq, place }) =>
      places.some((it) => isSamePlace(it, place)) &&
      names.every(({ text }) =>
        story.cells(text).every((cell) => (cell.kind !== "part" && cell.kind !== "fastener") || !isSamePlace(cell.place, place) || !wasOff(cell, seq)),
      ),
  )?.seq;
}

/** When it was tried, where that was the last time. */
export function triedAt(story: Story, thing: Limit | Check, places: readonly string[]): number | undefined {
  const last = takenOf(story, thing).findLast(({ place }) => places.some((it) => isSamePlace(it, place)));
  return last?.stage === "trial" ? last.seq : undefined;
}

/** Looked at with all that it is of off, wherever it was: it is seen on the bench, and so before it goes in. */
export function isSeenBare(story: Story, thing: Limit | Check, places: readonly string[]): boolean {
  if (thing.kind !== "check" || !isOfBarePieces(story, thing)) return false;
  const seen = takenOf(story, thing);
  const here = seen.filter(({ place }) => places.some((it) => isSamePlace(it, place)));
  const taken = here.length > 0 ? here : seen;
  return (
    taken.length > 0 &&
    taken.every(({ seq, place }) =>
      thing.of.every(({ text }) => story.cells(text).every((cell) => cell.kind === "part" && (!isSamePlace(cell.place, place) || wasOff(cell, seq)))),
    )
  );
}

/** Of pieces alone: nothing sets it, nothing is in them that could leak, and it isn't there only when they are together. */
function isOfBarePieces({ job }: Story, thing: Check): boolean {
  const { fluidsIn } = relationsOf(job);
  return (
    thing.of.length > 0 &&
    thing.setBy.length === 0 &&
    !isPlay(thing) &&
    !isLeak(thing) &&
    !inUse(thing) &&
    thing.of.every(({ text }) => (fluidsIn.get(text) ?? []).length === 0)
  );
}
