// How a fastener stands at a moment: off, slack, unlocked, or one that only stands in for another; and whether a piece was off then.
import type { ConditionKind } from "../../grammar/tree.ts";
import type { FastenerCell, FastenerMoment, FastenerState, PartCell, PartMoment } from "./story.ts";

/** Off, slack, or with its declared locking left off. */
export function isOpen(cell: FastenerCell, state: FastenerState = cell.then): boolean {
  return isSlack(cell, state) || isUnlocked(cell, state);
}

/** Off, or slack; one that is tight and not locked yet carries its load. What is never tight (a clevis pin) is held by its locking alone. */
export function isSlack(cell: FastenerCell, state: FastenerState = cell.then): boolean {
  if (state.on < cell.total) return true;
  return cell.thing.torque?.none === true ? isUnlocked(cell, state) : !state.tight;
}

export function isUnlocked(cell: FastenerCell, state: FastenerState): boolean {
  const locking = cell.thing.locking?.locking.kind;
  return !state.locked && locking !== undefined && locking !== "nothing";
}

/** One that was fitted by number for now, among others, is no better for being done up: it stands in until it is undone, or another is fitted. */
export function standsIn(cell: FastenerCell): boolean {
  return cell.then.lots.some((lot) => lot.standsIn);
}

/** Found loose or not locked. A finding that says anything else of it, that it is good or rusty, has moved nothing. */
export function isFoundOpen({ found }: Pick<FastenerMoment, "found">): boolean {
  return found?.conditions.some(({ condition }) => opens.has(condition.kind)) ?? false;
}

const opens: ReadonlySet<ConditionKind> = new Set(["loose", "unlocked", "undrilled"]);

/** By a finding there are more or fewer of them than before: some are missing, or too many. */
export function isCountFound({ verb, before, after }: Pick<FastenerMoment, "before" | "after"> & { readonly verb: string }): boolean {
  return verb === "found" && (before.on !== after.on || before.off !== after.off);
}

/** None of it was on at that time. */
export function wasOff(cell: PartCell | FastenerCell, seq: number): boolean {
  const then = (cell.history as readonly (PartMoment | FastenerMoment)[]).findLast((it) => it.seq <= seq);
  return then !== undefined && then.after.on === 0;
}
