// A reading of the machine as it stands on its wheels, taken while a wheel was off: a ride height, a camber under load.
// Invariant: told by the words of the limit; where these say nothing of how it stands, nothing is said.
import { rollsOrCarries } from "../model/carries.ts";
import { isOfStanding } from "../model/read-with.ts";
import type { FastenerMoment, Moment, PartMoment, Reading, Story } from "../story/story.ts";
import { isNear } from "./moved.ts";
import { datedBefore } from "./stale.ts";
import { agreeing, midSentence } from "./wording.ts";

/** The wheel at that place that was off as it was read, by the line and by the day, and the line that put it on again. */
export function offItsWheels(story: Story, reading: Reading): { readonly what: string; readonly moment: Moment } | undefined {
  if (!isOfStanding(reading.limit)) return undefined;
  for (const cell of story.parts) {
    if (cell.unsure || !rollsOrCarries(cell.thing) || !isNear(story, cell, reading.place)) continue;
    const history: readonly (PartMoment | FastenerMoment)[] = cell.history;
    const later = (it: Moment) => it.phase === "done" && (it.seq > reading.seq || datedBefore(reading, it));
    const on = history.find((it) => later(it) && it.verb === "fit" && it.before.on < cell.total);
    // Off again behind the reading, and on once more: it was on as it was read.
    if (on === undefined || history.some((it) => later(it) && it.seq < on.seq && it.after.on < it.before.on)) continue;
    return { what: `the ${midSentence(cell.thing, cell.place)} ${agreeing(cell.thing, "was")} off`, moment: on };
  }
  return offTheGround(story, reading);
}

/** On a jack, a crane or stands as it was read, and let down later. A lift may carry it by its wheels. */
function offTheGround(story: Story, reading: Reading): { readonly what: string; readonly moment: Moment } | undefined {
  const done = story.support.filter((it) => it.phase === "done");
  const then = done.findLast((it) => it.seq < reading.seq && !datedBefore(reading, it))?.after;
  const on = then?.raised?.on;
  if (then === undefined || (on !== "jack" && on !== "crane") || then.unclear?.hold) return undefined;
  const down = done.find((it) => (it.seq > reading.seq || datedBefore(reading, it)) && it.verb === "lower");
  return down === undefined ? undefined : { what: "it was raised", moment: down };
}
