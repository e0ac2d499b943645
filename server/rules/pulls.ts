// How hard fasteners pulled as something was read, and whether those that are there now pull the same: what they clamp takes its shape from that.
// Invariant: done work only.
import { isSamePlace } from "../model/same-place.ts";
import { allWords } from "../model/titles.ts";
import type { Fastener, Limit } from "../model/things.ts";
import { tightenedText, wantedOf } from "../model/torque.ts";
import { readingsOn } from "../story/looked-up.ts";
import { tightnessAt } from "../story/put-right.ts";
import type { FastenerCell, FastenerMoment, FastenerState, PartCell, PartMoment, Story } from "../story/story.ts";
import { mendsNothing } from "../story/worked-in.ts";

/** How it was once this line was done; as it began before the first. */
export function stateAt(cell: FastenerCell | PartCell, seq: number): FastenerState | PartCell["now"] | undefined {
  const history = cell.history as readonly (FastenerMoment | PartMoment)[];
  return history.findLast((it) => it.seq <= seq)?.after ?? history[0]?.before;
}

/** The lines by which those that are tight then were pulled up; undefined where one of them was as found. */
export function pullsOf(cell: FastenerCell, seq: number): readonly FastenerMoment[] | undefined {
  const state = stateAt(cell, seq);
  if (state === undefined || !("tight" in state)) return undefined;
  const pulls = new Set<FastenerMoment>();
  for (const lot of state.lots) {
    const pull = cell.history.find((it) => it.seq === lot.tightenedAt);
    if (pull === undefined || lot.letBackAt !== undefined) return undefined;
    pulls.add(pull);
  }
  return [...pulls];
}

/** By a figure, and the one that is asked for. */
export function isUpTo(cell: FastenerCell, pull: FastenerMoment): boolean {
  const wanted = wantedOf(cell.thing);
  return pull.to !== undefined && (wanted === undefined || tightnessAt(cell, pull, wanted) === "right");
}

/** Both are the torque that is asked for; where none is, they are of one figure. */
export function isSamePull(cell: FastenerCell, one: FastenerMoment, other: FastenerMoment): boolean {
  if (one.to === undefined || other.to === undefined) return false;
  if (wantedOf(cell.thing) !== undefined) return isUpTo(cell, one) && isUpTo(cell, other);
  if (one.action?.angle !== undefined || other.action?.angle !== undefined) return tightenedText(one.action ?? {}) === tightenedText(other.action ?? {});
  return one.to.unit.dimension === other.to.unit.dimension && one.to.value.compare(other.to.value) === 0;
}

/**
 * A size that was read with the old ones in at their full torque says the same of new ones that are pulled to it: bolts that go in once are not spent on a trial (common
 * practice). Asked of all that are there; those that place a cap by their shanks make it another bore.
 */
export function wasReadWithOldOnes(story: Story, limit: Limit, name: string, place: string): boolean {
  const cells = story.cells(name).filter((it) => isSamePlace(it.place, place));
  return (
    cells.length > 0 &&
    cells.every((cell) => {
      if (cell.kind !== "fastener" || cell.unsure || placesByShank(cell.thing)) return false;
      const anew = cell.history.findLast(
        (it) => it.phase === "done" && ((it.verb === "repair" && !mendsNothing(it.action?.text?.value ?? "")) || (it.verb === "fit" && it.isNew)),
      );
      // At another place of the limit's kind nothing was renewed.
      if (anew === undefined) return true;
      const read = readingsOn(story, limit.name).findLast((it) => it.seq < anew.seq && isSamePlace(it.place, place));
      return anew.verb === "fit" && read !== undefined && pulledAsThen(cell, read.seq);
    })
  );
}

/** All were on and up to their torque then, and those that are tight now are up to the same. */
export function pulledAsThen(cell: FastenerCell, seq: number): boolean {
  const state = stateAt(cell, seq);
  if (state === undefined || !("tight" in state) || state.on < cell.total || !state.tight) return false;
  const then = pullsOf(cell, seq) ?? [];
  const now = cell.now.tight ? (pullsOf(cell, Number.POSITIVE_INFINITY) ?? []) : then;
  if (then.length === 0 || now.length === 0) return false;
  // Nobody asks for a torque and nothing rides on it: tight is tight.
  if (wantedOf(cell.thing) === undefined && !cell.thing.critical) return true;
  return then.every((one) => isUpTo(cell, one) && now.every((other) => isSamePull(cell, one, other)));
}

/** Its shank fits: a cap that it places lies with another one as that one has it. */
export function placesByShank(thing: Fastener): boolean {
  return /\b(fitted|press(ed)?|interference|knurl\w*|serrat\w*|dowels?|dowelled|reamed|body[- ]?(fit|bound)|(close|tight)[- ]fit\w*|locat\w*)\b/iu.test(
    allWords(thing),
  );
}
