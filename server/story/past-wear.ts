// The readings that condemn a thing at a place: out past the limit of wear, or past what it may spread, be oval or taper.
// Invariant: doubt condemns nothing, and a trial neither condemns nor clears. What something sets is set again, and condemns nothing.
import { putInto } from "../model/grouped.ts";
import { bandOf } from "../model/values.ts";
import type { Exact } from "../quantities/exact.ts";
import { verdict as compareTo } from "../quantities/range.ts";
import type { Judged, Verdict } from "./verdict.ts";

/** All that stand against it, of each limit and band; none where a later final reading of the same is in. */
export function condemning(judged: Judged, name: string, place: string): Verdict[] {
  const standing = new Map<string, Verdict[]>();
  for (const it of verdictsOf(judged).get(name) ?? []) {
    if (it.place !== "" && place !== "" && it.place !== place) continue;
    // What is inside its setting, or as made, at the end is inside its wear.
    const key = `${it.limit.name} ${it.band === "set" || it.band === "new" ? "worn" : it.band}`;
    if (it.outcome === "out") putInto(standing, key, it);
    // In doubt of *new* and of no more, it is inside its wear.
    else if ((it.outcome === "in" || it.band === "new") && it.stage === "final") standing.delete(key);
  }
  return [...standing.values()].flat();
}

/** The names of all that a reading condemns somewhere, each with the places of those readings. */
export function condemned(judged: Judged): Map<string, Set<string>> {
  const names = new Map<string, Set<string>>();
  for (const [name, verdicts] of verdictsOf(judged)) {
    for (const it of verdicts) {
      if (it.outcome !== "out") continue;
      const places = names.get(name) ?? new Set();
      names.set(name, places.add(it.place));
    }
  }
  return names;
}

const remembered = new WeakMap<Judged, Map<string, Verdict[]>>();

function verdictsOf(judged: Judged): Map<string, Verdict[]> {
  let byName = remembered.get(judged);
  if (byName !== undefined) return byName;
  byName = new Map();
  for (const it of judged.verdicts) {
    if (it.stage === "trial" || it.limit.setBy.length > 0 || (it.band === "new" && it.outcome === "out") || (it.band === "set" && it.outcome !== "in"))
      continue;
    for (const { text } of it.limit.of) {
      const list = byName.get(text);
      if (list === undefined) byName.set(text, [it]);
      else list.push(it);
    }
  }
  remembered.set(judged, byName);
  return byName;
}

/** In doubt of *new* alone, at an end behind which the limit of wear lies, and inside that whatever the gauge's doubt: nobody need hold that back. */
export function isSafelyUnworn({ band, stood, value, uncertaintySquared, against }: Verdict): boolean {
  const worn = band === "new" ? bandOf(stood.worn) : undefined;
  if (worn === undefined || worn.unit.dimension !== against.unit.dimension || uncertaintySquared === undefined) return false;
  const isNear = (end: Exact) => value.sub(end).mul(value.sub(end)).compare(uncertaintySquared) < 0;
  const below = against.low !== undefined && (value.compare(against.low) < 0 || isNear(against.low));
  const above = against.high !== undefined && (value.compare(against.high) > 0 || isNear(against.high));
  // A bore that is worn when it is too wide says nothing of one that is too tight.
  if ((below && worn.low === undefined) || (above && worn.high === undefined)) return false;
  return compareTo(worn, value, { squared: uncertaintySquared }) === "in";
}
