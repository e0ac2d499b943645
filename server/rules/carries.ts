// Which parts a machine rolls on or is carried by: told by the words that people use for them.
// Invariant: a wheel nut is no wheel, and a gear that is called a wheel carries nothing.
import type { Part } from "../model/things.ts";

/** A wheel or an axle, by its name or its title. */
export function rollsOrCarries(part: Part): boolean {
  const words = `${part.name} ${part.title ?? ""}`.toLowerCase();
  return (
    /(^|[^\p{L}])(road-?wheels?|wheels?|axles?)($|[^\p{L}])/u.test(words) &&
    !/wheel[- ](nut|stud|bearing|cylinder|seal|hub|bolt)|axle[- ](nut|shaft|bearing|seal|stand|key|cover|case|bolt|flange)/u.test(words) &&
    !/(^|[^\p{L}])(crown|worm|bevel|gear|bull|change|hand|fly|chain|ratchet|idler|timing|belt|balance|steering|spur|toothed)[- ]wheel/u.test(words)
  );
}
