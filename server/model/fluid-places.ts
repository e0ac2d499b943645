// The places at which a sheet speaks of a fluid that has no `each`: grease in two hubs, brake fluid that is bled at each wheel.
// Invariant: such places are those of a part in which the fluid lies; spoken of at one of them, it is at each.
import { type Job, placesOf } from "./job.ts";
import { memo } from "./memo.ts";
import { relationsOf } from "./relations.ts";
import type { Fluid } from "./things.ts";

/** Where a fluid is: as it says itself, or by the part in which it lies, where the sheet fills, drains, bleeds or finds it by that part's places. One place without a name else. */
export function fluidPlacesOf(job: Job, fluid: Fluid): readonly string[] {
  return fluid.placeKind === undefined ? (byMention(job).get(fluid.name) ?? placesOf(job, fluid)) : placesOf(job, fluid);
}

const byMention = memo((job: Job): ReadonlyMap<string, readonly string[]> => {
  const spokenOf = new Map<string, Set<string>>();
  const put = (name: string | undefined, places: readonly { readonly text: string }[]) => {
    if (name === undefined || places.length === 0 || job.things.get(name)?.kind !== "fluid") return;
    const at = spokenOf.get(name) ?? new Set();
    spokenOf.set(name, at);
    for (const { text } of places) at.add(text);
  };
  for (const entry of job.own.sheet.entries) {
    if (entry.kind === "finding") put(entry.of?.text, entry.places);
    if (entry.kind !== "step") continue;
    for (const detail of entry.details) if (detail.kind === "action") for (const { name } of detail.things) put(name.text, detail.places);
  }
  const out = new Map<string, readonly string[]>();
  for (const [name, at] of spokenOf) {
    const fluid = job.things.get(name);
    if (fluid?.kind !== "fluid" || fluid.placeKind !== undefined) continue;
    const parts = [...fluid.in.map(({ text }) => job.things.get(text)), ...(relationsOf(job).standsIn.get(name) ?? [])];
    for (const part of parts) {
      const places = part?.kind === "part" ? placesOf(job, part) : [];
      if (places[0] === "" || !places.some((place) => at.has(place))) continue;
      out.set(name, places);
      break;
    }
  }
  return out;
});
