// How fasteners move: what an action or a finding makes of the state of one.
// Invariant: moves states and records moments; judges nothing.
import type { ActionDetail } from "../../grammar/tree.ts";
import { isLeftBackedOff, relationsOf, setsBearing } from "../model/relations.ts";
import { tightnessOf, wantedOf } from "../model/torque.ts";
import { measured } from "../model/values.ts";
import { isTouched, liveBefore, partsOff, sourceOf } from "./around.ts";
import { type Lot, change, countOf, foundOpenFirst, holdMore, join, latestFirst, slackFirst, slackened, soundFirst, take, unlockedFirst } from "./lots.ts";
import { lastBefore } from "./looked-up.ts";
import type { Mover } from "./mover.ts";
import { type Fitting, fastenerState, fitted, foundSo, repaired, takenOff } from "./pieces.ts";
import { isCountFound, isFoundOpen } from "./standing.ts";
import type { FastenerCell, FastenerMoment, FastenerState, Found, Moment, PartCell } from "./story.ts";
import { keepsItsLocking, saysNoneMoved } from "./tried.ts";

/** Most moments meet nothing; they share one empty list. */
const none: readonly never[] = [];

export const fastenerMoves = {
  act(mover: Mover, cell: FastenerCell, written: FastenerMoment["verb"], moment: Moment, action: ActionDetail, counted: number | undefined): void {
    // Slackened right behind its run-up, one that is left so is let back.
    const verb = written === "slacken" && isRunUp(cell, moment) && isLeftBackedOff(mover.job, cell.thing) ? "let" : written;
    const before = cell.then;
    const to = measured(action.to);
    const { after, count, fitting, holdsOff }: Moved = moves[verb]?.({ mover, cell, before, moment, action, counted, to }) ?? {
      after: before,
      count: counted ?? cell.total,
    };
    const gaugeThing = action.by === undefined ? undefined : mover.job.things.get(action.by.text);
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
      isNew: action.isNew !== undefined,
      from: action.from?.text,
      forNow: action.forNowAt !== undefined,
      moved: fitting?.moved ?? none,
      over: fitting?.over ?? none,
      beganOff: fitting?.beganOff ?? false,
      liveHazards: written === "undo" || written === "slacken" ? liveBefore(mover, cell.thing.name) : none,
      holdsOff: holdsOff ?? none,
      support: mover.support,
      to,
      gauge: gaugeThing?.kind === "gauge" && !gaugeThing.implied ? gaugeThing : undefined,
      with: action.with,
    });
    cell.then = after;
  },

  found(mover: Mover, cell: FastenerCell, found: Found): void {
    const before = cell.then;
    const { lots, bench } = foundSo(cell, found);
    const after = fastenerState(lots, bench);
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
      isNew: false,
      from: undefined,
      forNow: false,
      moved: none,
      over: none,
      beganOff: false,
      liveHazards: none,
      holdsOff: none,
      support: mover.support,
      to: undefined,
      gauge: undefined,
      with: undefined,
    });
    cell.then = after;
  },
};

/** A line of a step that is about one fastener at one place. */
interface Line {
  readonly mover: Mover;
  readonly cell: FastenerCell;
  readonly before: FastenerState;
  readonly moment: Moment;
  readonly action: ActionDetail;
  /** So many by the line itself; all that are meant where it says none. */
  readonly counted: number | undefined;
  /** The torque that it was pulled to. */
  readonly to: FastenerMoment["to"];
}

interface Moved {
  readonly after: FastenerState;
  readonly count: number;
  readonly fitting?: Fitting;
  /** What it holds, and that is still off. */
  readonly holdsOff?: readonly PartCell[];
}

/** What each verb makes of the state. The others move nothing. */
const moves: { readonly [verb in FastenerMoment["verb"]]?: (line: Line) => Moved } = {
  undo({ before, counted }) {
    const count = counted ?? Math.max(before.on, 1);
    const { lots, bench } = takenOff(before, count);
    return { after: fastenerState(lots, bench), count };
  },

  slacken: ({ before, counted }) => ({
    after: fastenerState(change(before.lots, counted, slackened, foundOpenFirst), before.bench),
    count: counted ?? before.on,
  }),

  fit({ mover, cell, action, counted }) {
    // A pin or a key is never tight: on is all that it can be.
    const fitting = fitted(cell, action, counted, sourceOf(mover, cell, action), cell.thing.torque?.none ?? false, isTouched(cell));
    return { after: fastenerState(fitting.lots, fitting.bench), count: fitting.count, fitting, holdsOff: partsOff(mover, cell) };
  },

  tighten({ mover, cell, before, moment, action, counted, to }) {
    const locking = cell.thing.locking?.locking.kind;
    const back = putBack(cell, before, counted);
    const { taken, left } = take(before.bench, back, soundFirst);
    const lots = join(
      before.lots,
      taken.map((lot) => ({ ...lot, home: cell.place })),
    );
    const some = counted !== undefined && holdMore(lots, counted) ? counted : undefined;
    const lockedHere = staysOn.has(locking ?? "") ? lockedInVisit(cell, moment) : undefined;
    const isTried = isOnlyPulledAt(cell, moment, to);
    const pulled = change(
      lots,
      some,
      // Pulled at with its pin in, and none moved: as it was.
      (lot) =>
        isTried && lot.tight && lot.locked && !lot.forNow ? lot : keptLocked(tightened(lot, moment.seq, locking, cell.thing.critical, action), lockedHere),
      // Of some that were let go and are pulled up anew by their stages, the others stand at their figure and are not meant.
      (lot) => slackFirst(lot) + (isAtFigure(cell, lot, to) ? atFigureLast : 0),
    );
    return {
      after: fastenerState(pulled, left),
      count: some ?? countOf(lots),
      fitting: { lots, bench: left, count: back, moved: taken, over: none, beganOff: false },
      holdsOff: partsOff(mover, cell),
    };
  },

  let({ mover, cell, before, moment, counted }) {
    // One that sets a bearing is as tight as it will be; one that clamps is slack.
    const sets = setsBearing(mover.job, cell.thing) || isLeftBackedOff(mover.job, cell.thing);
    const back = (lot: Lot): Lot => (sets ? { ...lot, locked: false, lockedAt: undefined, letBackAt: moment.seq } : slackened(lot));
    return { after: fastenerState(change(before.lots, counted, back, latestFirst), before.bench), count: counted ?? before.on };
  },

  lock({ mover, cell, before, moment, counted }) {
    // A nut that sets a bearing goes back to its slot and is locked there: that is as tight as it will be, once it was run up.
    const letBack = relationsOf(mover.job).adjusting.has(cell.thing.name) && backedOff(cell);
    const locked = (lot: Lot): Lot => ({ ...lot, locked: true, lockedAt: moment.seq, tight: lot.tight || letBack });
    return {
      after: fastenerState(change(before.lots, counted, locked, unlockedFirst), before.bench),
      count: counted ?? (before.on === 0 ? cell.total : before.on),
      // A pin is never tight: its locking is its doing up.
      holdsOff: cell.thing.torque?.none === true ? partsOff(mover, cell) : none,
    };
  },

  repair({ cell, before, moment, action, counted }) {
    const { lots, bench } = repaired(before, counted, moment, action.text?.value);
    return { after: fastenerState(lots, bench), count: counted ?? cell.total };
  },
};

/** So many a tightening puts back: what is at hand; where the sheet counted those that it fitted, the others stay off. */
function putBack(cell: FastenerCell, before: FastenerState, counted: number | undefined): number {
  if (countedOn(cell)) return 0;
  const room = cell.thing.implied ? before.off : Math.min(before.off, Math.max(0, cell.total - before.on));
  return counted !== undefined && counted <= before.on ? Math.min(room, undoneFor(cell, counted)) : room;
}

/** Old ones were fitted by number since they came off: so many are on, and no more. */
function countedOn(cell: FastenerCell): boolean {
  const last = cell.history.findLast((it) => it.verb === "fit" || it.verb === "undo" || isCountFound(it));
  // One that stands in for a lost one says nothing of the others.
  return last?.verb === "fit" && !last.isNew && !last.forNow && cell.then.on > 0 && countsOf(last, cell);
}

/** Done up by number while others are on: those that were undone just before it are meant, as far as the number goes and no slack one is on. */
function undoneFor(cell: FastenerCell, counted: number): number {
  const last = cell.history.findLast((it) => it.verb === "fit" || it.verb === "undo" || it.verb === "lock" || isCountFound(it));
  if (last?.verb !== "undo") return 0;
  const slack = countOf(cell.then.lots.filter((lot) => !lot.tight));
  return counted - slack <= cell.then.off ? Math.max(0, counted - slack) : 0;
}

/** Tried where it is, with its locking in: the step says that none moved. Pulled past what it may have it is as far as it was pulled, whatever moved. */
function isOnlyPulledAt({ thing }: FastenerCell, { visit }: Moment, to: FastenerMoment["to"]): boolean {
  if (visit === undefined || !saysNoneMoved(visit.entry) || !keepsItsLocking(visit.entry)) return false;
  const wanted = wantedOf(thing);
  return to === undefined || wanted === undefined || tightnessOf(wanted, to, undefined) !== "high";
}

/** Pulled to this figure or a higher one already, as it is written. */
function isAtFigure(cell: FastenerCell, { tightenedAt }: Lot, to: FastenerMoment["to"]): boolean {
  if (tightenedAt === undefined || to === undefined) return false;
  const was = lastBefore(cell.history, tightenedAt + 1, () => true)?.to;
  return was?.unit.dimension === to.unit.dimension && was.value.compare(to.value) >= 0;
}

/** Behind every number of a moment. */
const atFigureLast = 2 ** 40;

/** Whether the line says how many. */
function countsOf({ action }: FastenerMoment, cell: FastenerCell): boolean {
  return action?.things.some((thing) => thing.name.text === cell.thing.name && thing.count !== undefined) ?? false;
}

/** For now, and no more than run down: what is read with it is read with it slack. */
function isRunDown({ forNow, to }: ActionDetail): boolean {
  return to === undefined && barely.test(forNow?.value ?? "");
}

const barely = /^(just |only )?((run|spun|screwed|nipped) (down|up|on|home)|nipped|hand|finger|by (hand|the fingers?)|slack|loose)\b/iu;

function tightened(lot: Lot, at: number, locking: string | undefined, critical: boolean, action: ActionDetail): Lot {
  const forNow = action.forNowAt !== undefined;
  // A fastener that nobody ever undid and that declares no locking has none to lose. A spring washer is squeezed by tightening, and that is its locking.
  const locked =
    locking === undefined || locking === "nothing" || (locking === "spring washer" && !critical)
      ? lot.locked || locking === "spring washer"
      : lot.locked && lot.tight && friction.has(locking) && !(critical && slackedFirst.has(locking));
  return {
    ...lot,
    tight: !isRunDown(action),
    tightenedAt: at,
    letBackAt: undefined,
    locked,
    lockedAt: locked ? lot.lockedAt : undefined,
    forNow: forNow || lot.standsIn,
  };
}

/** Slackened and pulled up anew in the step that put them on, these are on still: nobody takes a new nut off to write it once more. */
const staysOn: ReadonlySet<string> = new Set(["spring washer", "self-locking nut"]);

/** The lock of this visit behind which all were locked, and none has come off. */
function lockedInVisit(cell: FastenerCell, { visit, phase }: Moment): FastenerMoment | undefined {
  const last = cell.history.findLast((it) => it.verb === "lock" || it.verb === "undo" || it.verb === "fit");
  return last?.verb === "lock" && last.visit === visit && visit !== undefined && last.phase === phase && last.after.locked ? last : undefined;
}

function keptLocked(lot: Lot, lock: FastenerMoment | undefined): Lot {
  return lock === undefined || lot.locked ? lot : { ...lot, locked: true, lockedAt: lock.seq };
}

/** Friction holds where it is; a pin must come out before its nut turns. */
const friction = new Set(["spring washer", "lock nut", "self-locking nut", "thread lock", "grub screw"]);

/** These are let go before what they hold is turned: that they are tight again is said of what is critical. */
const slackedFirst = new Set(["lock nut", "grub screw"]);

/** Tightened in the same visit, and nothing done to it since. */
function isRunUp(cell: FastenerCell, { visit, phase }: Moment): boolean {
  const last = cell.history.findLast((it) => it.verb !== "repair" && it.verb !== "other");
  return last?.verb === "tighten" && last.visit === visit && last.phase === phase;
}

/** Slack only because it was let back: neither undone nor found loose since it was last run up, or at all. */
function backedOff(cell: FastenerCell): boolean {
  const last = cell.history.findLast((it) => it.verb === "tighten" || it.verb === "undo" || (isFoundOpen(it) && !it.after.tight));
  return last === undefined || last.verb === "tighten";
}
