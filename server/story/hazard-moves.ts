// How hazards move: made safe, live again, or brought about by a step.
// Invariant: moves states and records moments; judges nothing.
import type { ActionDetail, Entry } from "../../grammar/tree.ts";
import { openOf, unlockedOf } from "./around.ts";
import { type Mover, momentOf } from "./mover.ts";
import type { HazardCell, Moment } from "./story.ts";

/** Most moments meet nothing; they share one empty list. */
const none: readonly never[] = [];

export const hazardMoves = {
  act(mover: Mover, cell: HazardCell, verb: "safe" | "restore", moment: Moment, action: ActionDetail): void {
    const before = cell.then;
    const after = verb === "restore";
    const open = verb === "restore" ? openOf(mover, cell) : none;
    const unlocked = verb === "restore" ? unlockedOf(mover, cell) : none;
    const { seq, phase, day, visit } = moment;
    cell.history.push({ seq, phase, day, where: moment.where, visit, verb, action, before, after, open, unlocked });
    cell.then = after;
  },

  /** A hazard that a step brings about is live from that step on. */
  arises(mover: Mover, name: string, entry: Entry): void {
    const cell = mover.cells.at(name, "");
    if (cell?.kind !== "hazard") return;
    cell.history.push({
      ...momentOf(mover, entry, 0, entry.keyword),
      verb: "arises",
      action: undefined,
      before: cell.then,
      after: true,
      open: none,
      unlocked: none,
    });
    cell.then = true;
  },
};
