// How parts move, and the fluids that run out as they come off: what an action or a finding makes of the state of one.
// Invariant: moves states and records moments; judges nothing.
import type { ActionDetail } from "../../grammar/tree.ts";
import { relationsOf } from "../model/relations.ts";
import { closedAgain, fastenersOn, gathered, isTouched, liveBefore, partsBehindOff, partsOn, sourceOf, ofTheRest } from "./around.ts";
import { fluidMoves } from "./fluid-moves.ts";
import { asItStands } from "./lots.ts";
import type { Mover } from "./mover.ts";
import { type Fitting, type Lots, fitted, foundSo, partState, repaired, takenOff } from "./pieces.ts";
import type { FastenerCell, Found, HazardCell, Moment, PartCell, PartMoment, PartState } from "./story.ts";

/** Most moments meet nothing; they share one empty list. */
const none: readonly never[] = [];

export const partMoves = {
  act(mover: Mover, cell: PartCell, verb: PartMoment["verb"], moment: Moment, action: ActionDetail, counted: number | undefined): void {
    const before = cell.then;
    let after: PartState = before;
    let count = counted ?? cell.total;
    let stillHeld: readonly FastenerCell[] = none;
    let stillBehind: readonly PartCell[] = none;
    let liveHazards: readonly HazardCell[] = none;
    let overOff: readonly PartCell[] = none;
    let fitting: Fitting | undefined;
    const pieces = ({ lots, bench }: Lots) => partState(lots, bench, before.marked);
    switch (verb) {
      case "remove":
        count = counted ?? before.on;
        after = pieces(takenOff(before, count));
        if (before.on > 0) {
          stillHeld = gathered(cell.thing.heldBy, (name) => fastenersOn(mover, name, cell.place)).filter((by) => by.then.on > ofTheRest(by, cell, after.on));
          stillBehind = gathered(cell.thing.behind, (name) => partsOn(mover, name, cell.place));
          liveHazards = liveBefore(mover, cell.thing.name);
        }
        break;
      case "fit": {
        fitting = fitted(cell, action, counted, sourceOf(mover, cell, action), true, isTouched(cell));
        count = fitting.count;
        after = pieces(fitting);
        overOff = partsBehindOff(mover, cell);
        stillBehind = closedAgain(mover, cell, fitting);
        break;
      }
      case "mark":
        after = { ...before, marked: true };
        break;
      case "repair":
        after = pieces(repaired(before, counted, moment, action.text?.value));
        break;
      default:
    }
    cell.history.push({
      seq: moment.seq,
      phase: moment.phase,
      day: moment.day,
      where: moment.where,
      visit: moment.visit,
      found: undefined,
      verb,
      action,
      before,
      after,
      count,
      counted: counted !== undefined,
      isNew: action.isNew !== undefined,
      forNow: action.forNowAt !== undefined,
      stillHeld,
      stillBehind,
      liveHazards,
      overOff,
      support: mover.support,
      from: action.from?.text,
      moved: fitting?.moved ?? none,
      over: fitting?.over ?? none,
      beganOff: fitting?.beganOff ?? false,
    });
    cell.then = after;
    if (verb === "remove") loseFluids(mover, cell, moment, action);
  },

  /**
   * Another pack is in from here on, as a line further down says. The first such line behind the step that put it in tells what went in there, and so does one that
   * says the same as before (`isSame`): nothing moves by either.
   */
  packed(mover: Mover, cell: PartCell, moment: Moment, isSame: boolean): void {
    const before = cell.then;
    const last = cell.history.findLast((it) => it.verb === "fit" || it.verb === "other");
    const isTold = before.on > 0 && (isSame || (last?.verb === "fit" && last.action !== undefined));
    const after = before.on > 0 ? before : partState([asItStands(cell.total, cell.place)], none, before.marked);
    cell.history.push({
      seq: moment.seq,
      phase: moment.phase,
      day: moment.day,
      where: moment.where,
      visit: undefined,
      found: undefined,
      verb: isTold ? "other" : "fit",
      action: undefined,
      before,
      after,
      count: isTold ? 0 : cell.total,
      counted: false,
      isNew: false,
      from: undefined,
      forNow: false,
      moved: isTold ? none : after.lots,
      over: none,
      beganOff: false,
      stillHeld: none,
      stillBehind: none,
      liveHazards: none,
      overOff: none,
      support: mover.support,
    });
    cell.then = after;
  },

  found(mover: Mover, cell: PartCell, found: Found): void {
    const before = cell.then;
    const { lots, bench } = foundSo(cell, found);
    const after = partState(lots, bench, before.marked);
    const { seq, phase, day, visit } = found;
    cell.history.push({
      seq,
      phase,
      day,
      where: found.where,
      visit,
      found,
      verb: "found",
      action: undefined,
      before,
      after,
      count: found.count ?? cell.total,
      counted: found.count !== undefined,
      isNew: false,
      from: undefined,
      forNow: false,
      moved: none,
      over: none,
      beganOff: false,
      stillHeld: none,
      stillBehind: none,
      liveHazards: none,
      overOff: none,
      support: mover.support,
    });
    cell.then = after;
  },
};

/** A fluid is lost when the part that it is in comes off, if it was not drained. */
function loseFluids(mover: Mover, cell: PartCell, moment: Moment, action: ActionDetail): void {
  for (const fluid of relationsOf(mover.job).fluidsIn.get(cell.thing.name) ?? []) {
    for (const it of mover.cells.beside({ text: fluid.name, at: fluid.at }, cell.place)) {
      if (it.kind === "fluid" && (it.then.full || it.then.filled !== undefined))
        fluidMoves.act(mover, it, "lost", { ...moment, seq: mover.seq++ }, action, cell);
    }
  }
}
