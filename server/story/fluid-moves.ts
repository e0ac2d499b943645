// How fluids move: what an action or a finding makes of how full one is, and of the air in it.
// Invariant: moves states and records moments; judges nothing.
import type { ActionDetail } from "../../grammar/tree.ts";
import { fluidPlacesOf } from "../model/fluid-places.ts";
import { measured } from "../model/values.ts";
import type { Exact } from "../quantities/exact.ts";
import type { Mover } from "./mover.ts";
import type { FluidCell, FluidMoment, FluidState, Found, Moment, PartCell } from "./story.ts";

export const fluidMoves = {
  act(mover: Mover, cell: FluidCell, verb: FluidMoment["verb"], moment: Moment, action: ActionDetail | undefined, lostWith?: PartCell): void {
    const before = cell.then;
    const amount = ofEach(mover, cell, action);
    let after: FluidState = before;
    if (verb === "drain" || verb === "lost") after = { full: false, airIn: true };
    else if (verb === "fill") {
      const capacity = measured(cell.thing.capacity);
      if (amount === undefined || capacity === undefined) after = { full: true, airIn: before.airIn };
      else {
        // Topping up what was never drained counts from full; so does a little more after a run, or what bleeding took. Filled once more to the brim, both are in.
        const again = before.full && amount.value.mul(2).compare(capacity.value) >= 0 && cell.history.findLast((it) => it.verb !== "found")?.verb === "fill";
        const filled = before.filled === undefined || (before.full && !again) ? amount.value : before.filled.add(amount.value);
        const { ranOut } = before;
        const madeUp = ranOut !== undefined && before.filled === undefined && isNear(amount.value, ranOut);
        // Told by places though it is declared for all of them, what it takes may be that of each or of all together.
        const shares = cell.thing.placeKind === undefined ? fluidPlacesOf(mover.job, cell.thing).length : 1;
        const enough = before.full || madeUp || filled.mul(10 * shares).compare(capacity.value.mul(9)) >= 0;
        after = { full: enough, airIn: before.airIn, filled };
      }
    } else if (verb === "bleed") {
      // An empty pipe can't be bled: what is filled in afterwards brings its air along.
      if (before.full || before.filled !== undefined) after = { ...before, airIn: false };
    }
    const { seq, phase, day, visit } = moment;
    const own = verb !== "lost";
    cell.history.push({
      seq,
      phase,
      day,
      where: moment.where,
      visit,
      found: undefined,
      verb,
      before,
      after,
      action: own ? action : undefined,
      amount: own ? amount : undefined,
      with: lostWith,
    });
    cell.then = after;
  },

  found(_mover: Mover, cell: FluidCell, found: Found): void {
    const before = cell.then;
    // So much is known to be lacking: a fill must make it up.
    const low = measured(found.conditions.find(({ condition }) => condition.kind === "low")?.condition.amount);
    const capacity = measured(cell.thing.capacity);
    const known = low !== undefined && capacity !== undefined && low.unit.dimension === capacity.unit.dimension;
    // Found so in what was full, that much is lacking; found behind a part that came off, it may be all that ran out, or how it was before.
    const ran = cell.history.findLast((it) => it.verb === "drain" || it.verb === "lost")?.verb === "lost";
    const isMissing = before.full && found.conditions.some(({ condition }) => condition.kind === "missing");
    const after: FluidState = isMissing
      ? { full: false, airIn: true }
      : !known
        ? before
        : before.full
          ? { ...before, full: false, filled: capacity.value.sub(low.value) }
          : ran && before.filled === undefined
            ? { ...before, ranOut: low.value }
            : before;
    const { seq, phase, day, visit } = found;
    cell.history.push({
      seq,
      phase,
      day,
      where: found.where,
      visit,
      found,
      verb: "found",
      before,
      after,
      action: undefined,
      amount: undefined,
      with: undefined,
    });
    cell.then = after;
  },
};

/** How much of it this line says. So much as several places hold together is of all of them, as a count is; anything else is of each. */
function ofEach(mover: Mover, { thing }: FluidCell, action: ActionDetail | undefined): ReturnType<typeof measured> {
  const amount = measured(action?.amount);
  const capacity = measured(thing.capacity);
  const places = action === undefined ? 1 : action.places.length > 0 ? action.places.length : fluidPlacesOf(mover.job, thing).length;
  if (amount === undefined || capacity === undefined || places < 2 || thing.placeKind === undefined) return amount;
  return isNear(amount.value, capacity.value.mul(places)) ? { ...amount, value: amount.value.div(places) } : amount;
}

/** Within a tenth. */
function isNear(a: Exact, b: Exact): boolean {
  return a.mul(10).compare(b.mul(9)) >= 0 && a.mul(10).compare(b.mul(11)) <= 0;
}
