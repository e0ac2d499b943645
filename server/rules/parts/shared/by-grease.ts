// What lives by grease of its own: bearings and bushes, unless they run dry by their nature or in what goes with them.
import { allWords } from "../../../model/titles.ts";
import { headOf, isLooseRing } from "../../../model/read-with.ts";
import type { Part } from "../../../model/things.ts";

/** By the words for what rolls or turns and lives by its grease. What only holds or covers it is no bearing, and one of rubber, nylon or wood has water or nothing. */
export function livesByGrease(part: Part): boolean {
  const words = `${allWords(part)} ${part.material ?? ""}`;
  const head = headOf(part) ?? "";
  if (runsDry.test(words) || goesWithIt.has(head)) return false;
  return bearing.test(words) || bush.test(words) || head === "brass" || isLooseRing(part, loose);
}

export const loose: ReadonlySet<string> = new Set(["ball", "needle"]);

export const bearing = /\b(bearings?|(?<!(clutch|brake|valve|nose|exhaust|air) )cones?(?! (clutch|brake))|races?|rollers?)\b/i;

export const bush = /\b(bush(es|ings?)?|brasses|trunnions?|king ?pins?|(head|needle|steering) cups?)\b/i;

const runsDry =
  /\b(rubber|silent\w*|bonded|nylon|ptfe|plastic|poly\w*|urethane|sintered|self[- ]lubricat\w*|oil[- ]?less|dry|sealed|reducing|threaded|cap|earth|insulat\w*|carbon|graphite|felt|fib(re|er)|wood(en)?|lignum|cut[- ]?less|water|gland|cable)\b/i;

const goesWithIt: ReadonlySet<string> = new Set([
  "cap",
  "housing",
  "spacer",
  "shim",
  "washer",
  "cover",
  "felt",
  "shield",
  "retainer",
  "carrier",
  "plate",
  "collar",
  "clip",
  "circlip",
  "gasket",
  "seal",
]);
