// Which final readings and looks speak for the machine as it goes out: the last of each place.
import { someAtOnce, type Slices } from "../../../../grammar/slices.ts";
import { type Job, placesOf } from "../../../model/job.ts";
import { memo } from "../../../model/memo.ts";
import { isCritical } from "../../../model/relations.ts";
import type { Reading, Seen } from "../../../story/story.ts";

/** The last final of each place, and of each end there, from the bottom of the sheet up: those before it were read again. What stands under one `measure` is of one moment. */
export function* lastReadings(all: readonly Reading[]): Slices<Reading[]> {
  const out: Reading[] = [];
  const later = new Map<string, { readonly ends: Set<string>; readonly entries: Set<Reading["entry"]> }>();
  for (let i = all.length - 1; i >= 0; i--) {
    if (i % someAtOnce === 0) yield;
    const reading = all[i] as Reading;
    if (reading.stage !== "final") continue;
    const { limit, place, position: end = "" } = reading;
    const known = later.get(`${limit.name} ${place}`) ?? { ends: new Set(), entries: new Set() };
    later.set(`${limit.name} ${place}`, known);
    const isWhole = known.ends.has("") || (limit.positions.length > 0 && limit.positions.every((it) => known.ends.has(it)));
    const isReadLater = isWhole || known.ends.has(end) || known.entries.has(reading.entry);
    known.ends.add(end);
    if (isReadLater) continue;
    known.entries.add(reading.entry);
    out.push(reading);
  }
  return out;
}

/** The last look at each place, from the bottom of the sheet up: a final, or one at something critical that was found good and never looked at again. */
export function* lastLooks(job: Job, all: readonly Seen[]): Slices<Seen[]> {
  const looks = all.flatMap((seen, i) => (seen.place === "" ? atTheRest(job, all, i) : [seen]));
  const out: Seen[] = [];
  const looked = new Set<string>();
  for (let i = looks.length - 1; i >= 0; i--) {
    if (i % someAtOnce === 0) yield;
    const seen = looks[i] as Seen;
    const key = `${seen.check.name} ${seen.place}`;
    // A later look that names no place was at all of them.
    if (looked.has(key) || looked.has(`${seen.check.name} `)) continue;
    if (seen.stage !== "final" && !(seen.stage === "found" && seen.good && isCritical(job, seen.check))) continue;
    looked.add(key);
    out.push(seen);
  }
  return out;
}

/** A look at all its places, of which some were looked at again further down by name: it speaks for the others. */
function atTheRest(job: Job, all: readonly Seen[], at: number): readonly Seen[] {
  const seen = all[at] as Seen;
  const places = placesOf(job, seen.check);
  if (places.length < 2) return [seen];
  const last = lastNamed(all).get(seen.check.name);
  const rest = places.filter((place) => (last?.get(place) ?? -1) < at);
  return rest.length === places.length ? [seen] : rest.map((place) => ({ ...seen, place }));
}

/** By check and place, the index of the last final that names the place. */
const lastNamed = memo((all: readonly Seen[]): ReadonlyMap<string, ReadonlyMap<string, number>> => {
  const out = new Map<string, Map<string, number>>();
  for (const [i, { check, place, stage }] of all.entries()) {
    if (stage !== "final" || place === "") continue;
    const known = out.get(check.name);
    if (known === undefined) out.set(check.name, new Map([[place, i]]));
    else known.set(place, i);
  }
  return out;
});
