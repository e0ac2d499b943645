// What the rules of failed parts share: which conditions are a failure, which may never be reused, and what condemns a part.
// Invariant: doubt condemns nothing.
import type { ConditionKind } from "../../grammar/tree.ts";
import { isAt, ordersOf } from "../model/orders.ts";
import { findingsOf } from "../story/decisions.ts";
import { verdictsOf } from "../story/looked-up.ts";
import { backFromWork, countFound, renewedSince, repairedSince } from "../story/put-right.ts";
import type { FastenerCell, FastenerMoment, Found, PartCell, PartMoment, Story } from "../story/story.ts";
import type { Judged, Verdict } from "../story/verdicts.ts";

/** Found so, a thing has failed until it is renewed or repaired. */
export const failed: ReadonlySet<ConditionKind> = new Set(["cracked", "broken", "bent", "stripped", "sheared", "seized", "damaged"]);

/** Found so, a critical thing may not be reused, whoever says so. */
export const neverReused: ReadonlySet<ConditionKind> = new Set(["cracked", "broken", "bent", "stripped", "sheared", "undrilled"]);

/** Found so, a thing does not go back as it is. */
export const condemning: ReadonlySet<ConditionKind> = new Set(["cracked", "broken", "bent", "stripped", "sheared"]);

/** A concession can't excuse these on a critical thing. */
export const neverExcused: ReadonlySet<ConditionKind> = new Set([
  "cracked",
  "broken",
  "bent",
  "stripped",
  "sheared",
  "undrilled",
  "missing",
  "loose",
  "unlocked",
]);

/** Decided so, or so plain that no decision is written: what is damaged is renewed. */
export function decidedAway(found: Found): string | undefined {
  const decided = found.decision?.detail.decision;
  if (decided === "renew" || decided === "discard" || decided === "exchange" || decided === "make") return `decided ${decided}`;
  return decided === undefined && found.conditions.some(({ condition }) => condition.kind === "damaged") ? "found damaged" : undefined;
}

/** The reading past wear that condemns a thing at its place, the latest found; none where a later final is in. */
export function pastWear(judged: Judged, cell: PartCell | FastenerCell): Verdict | undefined {
  let last: Verdict | undefined;
  for (const it of verdictsOf(judged, cell.thing.name)) {
    if (it.stage === "trial" || it.band === "new" || it.band === "set") continue;
    if (it.place !== "" && cell.place !== "" && it.place !== cell.place) continue;
    if (it.outcome === "out") last = it;
    else if (it.outcome === "in" && it.stage === "final" && last !== undefined && it.band === last.band) last = undefined;
  }
  return last;
}

/** Whether the finding's unsafe reuse is said by the rule that says all of it. */
export function reusedUnsafely(found: Found, kind: ConditionKind): boolean {
  return found.decision?.detail.decision === "reuse" && "critical" in found.thing && found.thing.critical && neverReused.has(kind);
}

/** Repaired, renewed, or back from work since. */
export function workedOnSince(story: Story, cell: PartCell | FastenerCell, seq: number, before: number, day: string | undefined): boolean {
  const cure = repairedSince(cell, seq) ?? renewedSince(cell, seq);
  if (cure !== undefined && cure.moment.seq < before) return true;
  return backFromWork(story, cell, day);
}

/**
 * Whether no more old ones are on after this than were found sound: of two blades one was condemned, and the other goes back.
 * Repaired or back from work, they are sound again.
 */
export function onlySoundOnes(story: Story, cell: PartCell | FastenerCell, found: Found, it: PartMoment | FastenerMoment): boolean {
  const repaired = repairedSince(cell, found.seq);
  if ((repaired !== undefined && repaired.moment.seq < it.seq) || backFromWork(story, cell, found.day)) return true;
  const fittedNew = (cell.history as readonly (PartMoment | FastenerMoment)[]).reduce(
    (sum, was) => (was.seq > found.seq && was.seq <= it.seq && was.verb === "fit" && was.isNew ? sum + (was.count > 0 ? was.count : cell.total) : sum),
    0,
  );
  return it.after.on - fittedNew <= cell.total - countFound(cell, found);
}

/** Sent out or to be sent: a planned fit waits for that work, and is no mistake. */
export function workOrdered(story: Story, cell: PartCell | FastenerCell): boolean {
  const work = ordersOf(story.job).work.get(cell.thing.name) ?? [];
  return work.some(({ detail, status }) => isAt(detail, cell.place) && status?.status !== "cancelled" && status?.status !== "returned");
}

/** Whether a finding has condemned the part before `before`: then the rule of condemned parts speaks, and no other. */
export function condemnedBy(story: Story, judged: Judged, cell: PartCell | FastenerCell, before: number): boolean {
  const worn = pastWear(judged, cell);
  if (worn !== undefined && worn.seq < before && worn.stage === "found" && !workedOnSince(story, cell, worn.seq, before, worn.day)) return true;
  return (findingsOf(story).get(cell.thing.name) ?? []).some((found) => {
    if (!found.places.includes(cell.place) || found.seq > before || workedOnSince(story, cell, found.seq, before, found.day)) return false;
    return decidedAway(found) !== undefined || found.conditions.some(({ condition }) => condemning.has(condition.kind));
  });
}
