// What was tried and never read at the end: a trial build shows what would be, not what is.
// Invariant: asks for a final only where nothing later is final, of what is critical or has to be set.
import { isCritical } from "../model/relations.ts";
import type { Check, Limit } from "../model/things.ts";
import type { Job } from "../model/job.ts";
import { readingsOn, seenOn } from "../story/looked-up.ts";
import type { Reading, Seen, Story } from "../story/story.ts";

/** The last trial of a critical or set limit or check at a place, where nothing was read or seen there after it. */
export function triedOnly(job: Job, story: Story, thing: Limit | Check, place: string): Reading | Seen | undefined {
  if (!isCritical(job, thing) && (thing.kind === "limit" ? thing.set === undefined : thing.setBy.length === 0)) return undefined;
  const all: readonly (Reading | Seen)[] = thing.kind === "limit" ? readingsOn(story, thing.name) : seenOn(story, thing.name);
  const last = all.filter((it) => it.place === place || it.place === "" || place === "").at(-1);
  return last?.stage === "trial" ? last : undefined;
}
