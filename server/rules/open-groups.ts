// Under which head each thing that is open stands, worst first: what can hurt, then what is not back, tight, locked and filled, then what is not known.
// Invariant: every rule has a head; one that is not named here stands under the head of its room.
import { rules } from "./all.ts";
import type { RuleGroup } from "./rule.ts";

/** In the order in which they are shown. */
export const openGroups = [
  "Unsafe",
  "Not back",
  "Not tight",
  "Not locked",
  "Not filled, not made live again",
  "Not measured or seen",
  "Out of its limits",
  "In doubt",
  "Not decided",
  "Not answered",
  "Planned, not done",
  "Not tried",
  "Not clear on the sheet",
] as const;

export type OpenGroup = (typeof openGroups)[number];

const byRule: Readonly<Record<string, OpenGroup | undefined>> = {
  "hazard-left-safe": "Not filled, not made live again",
  "fluid-left-out": "Not filled, not made live again",
  "not-bled": "Not filled, not made live again",
  "part-left-over": "Not back",
  "part-missing": "Not back",
  "part-away": "Not back",
  "still-for-now": "Not back",
  "part-undecided": "Not decided",
  "part-renewable": "Not decided",
  "critical-unread": "Not measured or seen",
  "repair-unchecked": "Not measured or seen",
  "reading-missing": "Not measured or seen",
  "reading-stale": "Not measured or seen",
  "limit-doubt": "In doubt",
  "gauge-cannot-tell": "In doubt",
  "gauge-due": "In doubt",
  "gauge-range": "In doubt",
  "readings-scatter": "In doubt",
  "reading-impossible": "In doubt",
  "limit-unsourced": "In doubt",
  "limit-circle": "Not clear on the sheet",
  "figure-slip": "In doubt",
  "fellow-unchecked": "In doubt",
  "debris-unexplained": "In doubt",
  "part-leaking": "In doubt",
  "fluid-wrong": "In doubt",
  "thread-unlike": "Unsafe",
  "locking-by-friction": "In doubt",
  "locking-size": "In doubt",
  "question-open": "Not answered",
  "fit-order": "Unsafe",
  "rated-under": "Unsafe",
  "step-too-early": "Planned, not done",
  "other-sheet-open": "Unsafe",
  "concession-unsafe": "Unsafe",
  "left-blank": "Not answered",
  "release-blocked": "Planned, not done",
  "test-missing": "Not tried",
  "recheck-due": "Not tried",
};

const byRoom: Readonly<Partial<Record<RuleGroup, OpenGroup>>> = {
  "Energy and support": "Unsafe",
  Parts: "Unsafe",
  Tightness: "Not tight",
  Locking: "Not locked",
  "Limits, readings, checks": "Out of its limits",
  "Order of work": "Planned, not done",
  Release: "Not tried",
  "Getting the parts": "In doubt",
};

const rooms: ReadonlyMap<string, RuleGroup> = new Map(rules.map((rule) => [rule.id, rule.group]));

export function openRoomOf(rule: string): RuleGroup | undefined {
  return rooms.get(rule);
}

export function openGroupOf(rule: string): OpenGroup {
  const room = openRoomOf(rule);
  return byRule[rule] ?? (room === undefined ? undefined : byRoom[room]) ?? "Not clear on the sheet";
}
