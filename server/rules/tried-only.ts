// What was tried and never read at the end: a trial build shows what would be, not what is.
// Invariant: asks for a final only where nothing later is final, and no final before it says the same, of what is critical or has to be set.
import { isSamePlace } from "../model/same-place.ts";
import { isCritical } from "../model/relations.ts";
import type { Check, Limit } from "../model/things.ts";
import type { Job } from "../model/job.ts";
import { bandOf } from "../model/values.ts";
import { type Band, inside } from "../quantities/range.ts";
import { readingsOn, seenOn } from "../story/looked-up.ts";
import type { Reading, Seen, Story } from "../story/story.ts";
import { lastDisturbed } from "./moved.ts";

/** The last trial of a critical or set limit or check at a place, where nothing was read or seen there after it. */
export function triedOnly(job: Job, story: Story, thing: Limit | Check, place: string): Reading | Seen | undefined {
  if (!isCritical(job, thing) && (thing.kind === "limit" ? thing.set === undefined : thing.setBy.length === 0)) return undefined;
  const all: readonly (Reading | Seen)[] = thing.kind === "limit" ? readingsOn(story, thing.name) : seenOn(story, thing.name);
  const here = all.filter((it) => isSamePlace(it.place, place));
  const last = here.at(-1);
  return last?.stage === "trial" && !isConfirming(story, thing, place, here, last) ? last : undefined;
}

/** Good, behind a final of the same, and nothing that it hangs on was touched between the two: it says once more what was read. */
function isConfirming(story: Story, thing: Limit | Check, place: string, here: readonly (Reading | Seen)[], trial: Reading | Seen): boolean {
  const final = here.findLast((it) => it.stage === "final" && it.seq < trial.seq);
  if (final === undefined || (final.day !== undefined && trial.day !== undefined && final.day > trial.day)) return false;
  const moved = lastDisturbed(story, [...thing.of, ...thing.setBy, ...thing.with], place);
  if (moved !== undefined && moved.moment.seq > final.seq) return false;
  if ("check" in trial) return trial.good;
  const bands = [bandOf(trial.stood.set), bandOf(trial.stood.worn)].filter((band) => band !== undefined);
  return (
    bands.length > 0 &&
    latestOfEach(
      here.filter((it) => "limit" in it),
      trial,
    ).every((it) => bands.every((band) => isInside(it, band)))
  );
}

/** Of a reading at a place, with what was read there since the last final in that stage: the latest of each end, the last one first. What is found so is so in every line of it; what is tried, in the last. */
export function latestOfEach(here: readonly Reading[], last: Reading): readonly Reading[] {
  const out: Reading[] = [];
  const known = new Map<string | undefined, Reading["entry"]>();
  for (const it of here.filter(({ seq }) => seq <= last.seq).reverse()) {
    if (it.stage === "final") break;
    if (it.stage !== last.stage) continue;
    const by = known.get(it.position) ?? known.get(undefined);
    if (by === undefined || (by === it.entry && it.stage === "found")) out.push(it);
    if (by === undefined) known.set(it.position, it.entry);
  }
  return out;
}

/** Each of its figures, where they can be compared. */
export function isInside({ spots }: Reading, band: Band): boolean {
  return spots.every(({ value, figures }) => figures.some(({ unit }) => unit.dimension !== band.unit.dimension) || inside(band, value));
}
