// How each kind of thing moves: what an action or a finding makes of the state of a fastener, a part, a fluid, a hazard.
// Invariant: moves states and records moments; judges nothing.
import type { ActionDetail, Entry, Span } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import { relationsOf, setsBearing } from "../model/relations.ts";
import { measured } from "../model/values.ts";
import type { Exact } from "../quantities/exact.ts";
import { where } from "../model/where.ts";
import { type Cells, sharesWords } from "./cells.ts";
import { type Lot, asItStands, change, countOf, faultyFirst, join, latestFirst, slackFirst, soundFirst, take, unlockedFirst } from "./lots.ts";
import { type Fitting, type Lots, fastenerState, fitted, foundSo, partState, repaired, takenOff } from "./pieces.ts";
import type {
  Blurred,
  Cell,
  FastenerCell,
  FastenerMoment,
  FastenerState,
  FluidCell,
  FluidMoment,
  FluidState,
  Found,
  HazardCell,
  Moment,
  PartCell,
  PartMoment,
  PartState,
  Phase,
  SupportMoment,
  SupportState,
  Visit,
} from "./story.ts";

/** Most moments meet nothing; they share one empty list. */
const none: readonly never[] = [];

/** What moves along as a job is walked. */
export interface Mover {
  readonly job: Job;
  readonly cells: Cells;
  readonly supportMoments: SupportMoment[];
  readonly blurred: Blurred[];
  seq: number;
  phase: Phase;
  support: SupportState;
  visit: Visit | undefined;
  day: string | undefined;
  /** A planned `fit ___` came before: whatever is off may be what goes on there. */
  blankFit: boolean;
  /** The cells that the same line speaks of further on: their order within one line says nothing. */
  line: readonly Cell[];
}

export function momentOf(mover: Mover, entry: Entry, row: number, at: Span): Moment {
  return {
    seq: mover.seq++,
    phase: mover.phase,
    where: where(mover.job.own.path, entry, row, at),
    day: mover.day,
    visit: mover.visit,
  };
}

/** Friction holds where it is; a pin must come out before its nut turns. */
const friction = new Set(["spring washer", "lock nut", "self-locking nut", "thread lock", "grub screw"]);

export const fastenerMoves = {
  act(mover: Mover, cell: FastenerCell, verb: FastenerMoment["verb"], moment: Moment, action: ActionDetail, counted: number | undefined): void {
    const before = cell.then;
    const locking = cell.thing.locking?.locking.kind;
    let after: FastenerState = before;
    let count = counted ?? cell.total;
    let fitting: Fitting | undefined;
    let holdsOff: readonly PartCell[] = none;
    switch (verb) {
      case "undo": {
        count = counted ?? Math.max(before.on, 1);
        const { lots, bench } = takenOff(before, count);
        after = fastenerState(lots, bench);
        break;
      }
      case "slacken":
        count = counted ?? before.on;
        after = fastenerState(change(before.lots, counted, slackened, faultyFirst), before.bench);
        break;
      case "fit":
        // A pin or a key is never tight: on is all that it can be.
        fitting = fitted(cell, action, counted, sourceOf(mover, cell, action), cell.thing.torque?.none ?? false, isTouched(cell));
        count = fitting.count;
        after = fastenerState(fitting.lots, fitting.bench);
        holdsOff = partsOff(mover, cell);
        break;
      case "tighten": {
        // It puts back what is at hand; where the sheet counted those that it fitted, the others stay off.
        const room = cell.thing.implied ? before.off : Math.min(before.off, Math.max(0, cell.total - before.on));
        const back = countedOn(cell) ? 0 : counted !== undefined && counted <= before.on ? Math.min(room, undoneFor(cell, counted)) : room;
        const { taken, left } = take(before.bench, back, soundFirst);
        const lots = join(
          before.lots,
          taken.map((lot) => ({ ...lot, home: cell.place })),
        );
        const some = counted === undefined || counted >= countOf(lots) ? undefined : counted;
        count = some ?? countOf(lots);
        after = fastenerState(
          change(lots, some, (lot) => tightened(lot, moment.seq, locking, cell.thing.critical, action.forNowAt !== undefined), slackFirst),
          left,
        );
        fitting = { lots, bench: left, count: back, moved: taken, over: none, beganOff: false };
        holdsOff = partsOff(mover, cell);
        break;
      }
      case "let": {
        count = counted ?? before.on;
        // One that sets a bearing is as tight as it will be; one that clamps is slack.
        const sets = setsBearing(mover.job, cell.thing);
        const back = (lot: Lot): Lot => (sets ? { ...lot, locked: false, letBackAt: moment.seq } : slackened(lot));
        after = fastenerState(change(before.lots, counted, back, latestFirst), before.bench);
        break;
      }
      case "lock": {
        count = counted ?? (before.on === 0 ? cell.total : before.on);
        // A pin is never tight: its locking is its doing up.
        if (cell.thing.torque?.none === true) holdsOff = partsOff(mover, cell);
        // A nut that sets a bearing goes back to its slot and is locked there: that is as tight as it will be, once it was run up.
        const letBack = relationsOf(mover.job).adjusting.has(cell.thing.name) && backedOff(cell);
        after = fastenerState(
          change(before.lots, counted, (lot) => ({ ...lot, locked: true, tight: lot.tight || letBack }), unlockedFirst),
          before.bench,
        );
        break;
      }
      case "repair": {
        const { lots, bench } = repaired(before, counted, moment);
        after = fastenerState(lots, bench);
        break;
      }
      default:
    }
    const to = measured(action.to);
    const gaugeThing = action.by === undefined ? undefined : mover.job.things.get(action.by.text);
    const record: FastenerMoment = {
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
      liveHazards: verb === "undo" || verb === "slacken" ? liveBefore(mover, cell.thing.name) : none,
      holdsOff,
      support: mover.support,
      to,
      gauge: gaugeThing?.kind === "gauge" && !gaugeThing.implied ? gaugeThing : undefined,
      with: action.with,
    };
    cell.history.push(record);
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
          stillHeld = gathered(cell.thing.heldBy, (name) => fastenersOn(mover, name, cell.place));
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
        after = pieces(repaired(before, counted, moment));
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

  /** Another pack is in from here on, as a line further down says. */
  packed(mover: Mover, cell: PartCell, moment: Moment): void {
    const before = cell.then;
    const after = before.on > 0 ? before : partState([asItStands(cell.total, cell.place)], none, before.marked);
    cell.history.push({
      seq: moment.seq,
      phase: moment.phase,
      day: moment.day,
      where: moment.where,
      visit: undefined,
      found: undefined,
      verb: "fit",
      action: undefined,
      before,
      after,
      count: cell.total,
      counted: false,
      isNew: false,
      from: undefined,
      forNow: false,
      moved: after.lots,
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

export const fluidMoves = {
  act(_mover: Mover, cell: FluidCell, verb: FluidMoment["verb"], moment: Moment, action: ActionDetail | undefined, lostWith?: PartCell): void {
    const before = cell.then;
    const amount = measured(action?.amount);
    let after: FluidState = before;
    if (verb === "drain" || verb === "lost") after = { full: false, airIn: true };
    else if (verb === "fill") {
      const capacity = measured(cell.thing.capacity);
      if (amount === undefined || capacity === undefined) after = { full: true, airIn: before.airIn };
      else {
        // Topping up what was never drained counts from full; so does a little more after a run, or what bleeding took. Filled once more to the brim, both are in.
        const again = before.full && amount.value.mul(2).compare(capacity.value) >= 0 && cell.history.at(-1)?.verb === "fill";
        const filled = before.filled === undefined || (before.full && !again) ? amount.value : before.filled.add(amount.value);
        const { ranOut } = before;
        const madeUp = ranOut !== undefined && before.filled === undefined && isNear(amount.value, ranOut);
        const enough = before.full || madeUp || filled.mul(10).compare(capacity.value.mul(9)) >= 0;
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
    const after: FluidState = !known
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

/** Within a tenth. */
function isNear(a: Exact, b: Exact): boolean {
  return a.mul(10).compare(b.mul(9)) >= 0 && a.mul(10).compare(b.mul(11)) <= 0;
}

/** Hazards that are live and must be safe before this thing is undone or removed. */
export function liveBefore(mover: Mover, name: string): readonly HazardCell[] {
  const barred = relationsOf(mover.job).barredBy.get(name);
  if (barred === undefined) return none;
  const live: HazardCell[] = [];
  for (const hazard of barred) {
    const cell = mover.cells.at(hazard.name, "");
    if (cell?.kind === "hazard" && cell.then && !cell.unsure) live.push(cell);
  }
  return live;
}

/** What a hazard needs back before it is made live again, and which is off or slack. */
function openOf(mover: Mover, cell: HazardCell): (FastenerCell | PartCell)[] {
  return cell.thing.restoreAfter.flatMap((name) =>
    mover.cells.of(name.text, []).filter((it): it is FastenerCell | PartCell => {
      if (it.unsure || mover.blankFit) return false;
      if (it.kind === "fastener") return isSlack(it);
      return it.kind === "part" && it.then.on < it.total;
    }),
  );
}

/** Tight, and its pin or plate not in yet. */
function unlockedOf(mover: Mover, cell: HazardCell): readonly FastenerCell[] {
  return cell.thing.restoreAfter.flatMap((name) =>
    mover.cells
      .of(name.text, [])
      .filter((it): it is FastenerCell => it.kind === "fastener" && !it.unsure && it.thing.critical && !isSlack(it) && isUnlocked(it, it.then)),
  );
}

/** One that was fitted by number for now, among others, is no better for being done up: it stands in until it is undone, or another is fitted. */
export function standsIn(cell: FastenerCell): boolean {
  return cell.then.lots.some((lot) => lot.standsIn);
}

/** Old ones were fitted by number since they came off: so many are on, and no more. */
function countedOn(cell: FastenerCell): boolean {
  const last = cell.history.findLast((it) => it.verb === "fit" || it.verb === "undo" || it.verb === "found");
  // One that stands in for a lost one says nothing of the others.
  return last?.verb === "fit" && !last.isNew && !last.forNow && cell.then.on > 0 && countsOf(last, cell);
}

/** Done up by number while others are on: those that were undone just before it are meant, as far as the number goes and no slack one is on. */
function undoneFor(cell: FastenerCell, counted: number): number {
  const last = cell.history.findLast((it) => it.verb === "fit" || it.verb === "undo" || it.verb === "found" || it.verb === "lock");
  const slack = countOf(cell.then.lots.filter((lot) => !lot.tight));
  return last?.verb === "undo" && counted - slack <= cell.then.off ? Math.max(0, counted - slack) : 0;
}

/** Whether the line says how many. */
function countsOf({ action }: FastenerMoment, cell: FastenerCell): boolean {
  return action?.things.some((thing) => thing.name.text === cell.thing.name && thing.count !== undefined) ?? false;
}

/** Something moved it, or took it away, before. */
function isTouched(cell: FastenerCell | PartCell): boolean {
  // What nothing declares is followed by its name alone.
  return cell.thing.implied || (cell.history as readonly (FastenerMoment | PartMoment)[]).some((it) => moving.has(it.verb) || it.after.on !== it.before.on);
}

const moving: ReadonlySet<string> = new Set(["undo", "slacken", "fit", "tighten", "let", "lock", "remove"]);

/** The cell that a `fit` takes its pieces from, if it is another. */
function sourceOf(mover: Mover, cell: FastenerCell | PartCell, action: ActionDetail): FastenerCell | PartCell | undefined {
  if (action.from === undefined || action.isNew !== undefined || action.from.text === cell.place) return undefined;
  const from = mover.cells.of(cell.thing.name, [action.from.text]).find((it) => it.place === action.from?.text);
  return from?.kind === "part" || from?.kind === "fastener" ? from : undefined;
}

function slackened(lot: Lot): Lot {
  return { ...lot, tight: false, tightenedAt: undefined, letBackAt: undefined, locked: false, fresh: lot.fresh && !lot.tight && !lot.locked };
}

function tightened(lot: Lot, at: number, locking: string | undefined, critical: boolean, forNow: boolean): Lot {
  // A fastener that nobody ever undid and that declares no locking has none to lose. A spring washer is squeezed by tightening, and that is its locking.
  const locked =
    locking === undefined || locking === "nothing" || (locking === "spring washer" && !critical)
      ? lot.locked || locking === "spring washer"
      : lot.locked && lot.tight && friction.has(locking);
  return { ...lot, tight: true, tightenedAt: at, letBackAt: undefined, locked, forNow: forNow || lot.standsIn };
}

/** Parts before this one that are on as it goes in: built up again since it came off, or never taken off for a new one. */
function closedAgain(mover: Mover, cell: PartCell, { count, over, beganOff }: Fitting): readonly PartCell[] {
  if (count === 0 && !beganOff) return none;
  const off = cell.history.findLast((it) => it.verb === "remove" && it.after.on < it.before.on);
  return gathered(cell.thing.behind, (name) =>
    partsOn(mover, name, cell.place).filter((front) => {
      if (mover.line.includes(front) || front.thing.implied) return false;
      // That it went on while this was off was said there.
      if (front.history.findLast((it) => it.verb === "fit")?.overOff.includes(cell)) return false;
      if (off !== undefined) return front.history.some((it) => it.verb === "fit" && it.seq > off.seq);
      // Began off: so did what is before it, unless that has been fitted since.
      return over.length > 0 || front.history.some((it) => it.verb === "fit");
    }),
  );
}

/** Off, slack, or with its declared locking left off. */
export function isOpen(cell: FastenerCell, state: FastenerState = cell.then): boolean {
  return isSlack(cell, state) || isUnlocked(cell, state);
}

/** Off, or slack; one that is tight and not locked yet carries its load. What is never tight (a clevis pin) is held by its locking alone. */
export function isSlack(cell: FastenerCell, state: FastenerState = cell.then): boolean {
  if (state.on < cell.total) return true;
  return cell.thing.torque?.none === true ? isUnlocked(cell, state) : !state.tight;
}

function isUnlocked(cell: FastenerCell, state: FastenerState): boolean {
  const locking = cell.thing.locking?.locking.kind;
  return !state.locked && locking !== undefined && locking !== "nothing";
}

/** All that is found for each of a list; most often that is nothing. */
function gathered<T, U>(list: readonly T[], of: (it: T) => readonly U[]): readonly U[] {
  let all: U[] | undefined;
  for (const it of list) {
    const some = of(it);
    if (some.length > 0) all = all === undefined ? [...some] : all.concat(some);
  }
  return all ?? none;
}

function fastenersOn(mover: Mover, name: { readonly text: string; readonly at: Span }, place: string): FastenerCell[] {
  const beside = mover.cells.beside(name, place).filter((it): it is FastenerCell => it.kind === "fastener" && !it.unsure);
  return shareOpen(beside, place) ? [] : beside.filter((it) => it.then.on > 0);
}

/** At places of another kind, whose names don't say which are here (axles, and corners 1 to 4), some are open, and it is for whoever wrote that to know which they were. */
function shareOpen(beside: readonly (FastenerCell | PartCell)[], place: string): boolean {
  return place !== "" && beside.length > 1 && !beside.some((it) => it.place === "" || sharesWords(it.place, place)) && beside.some((it) => it.then.on === 0);
}

function partsOn(mover: Mover, name: { readonly text: string; readonly at: Span }, place: string): PartCell[] {
  const beside = mover.cells.beside(name, place).filter((it): it is PartCell => it.kind === "part" && !it.unsure && !mover.line.includes(it));
  return shareOpen(beside, place) ? [] : beside.filter((it) => it.then.on > 0);
}

function partsOff(mover: Mover, cell: FastenerCell): readonly PartCell[] {
  const held = relationsOf(mover.job).holds.get(cell.thing.name);
  if (held === undefined || mover.blankFit) return none;
  return gathered(held, (part) =>
    mover.cells.beside(nameOf(part), cell.place).filter((it): it is PartCell => it.kind === "part" && it.then.on === 0 && !it.unsure),
  );
}

function partsBehindOff(mover: Mover, cell: PartCell): readonly PartCell[] {
  const behind = relationsOf(mover.job).behind.get(cell.thing.name);
  if (behind === undefined || mover.blankFit) return none;
  return gathered(behind, (part) =>
    mover.cells
      .beside(nameOf(part), cell.place)
      .filter((it): it is PartCell => it.kind === "part" && it.then.on === 0 && !it.unsure && !mover.line.includes(it)),
  );
}

/** A fluid is lost when the part that it is in comes off, if it was not drained. */
function loseFluids(mover: Mover, cell: PartCell, moment: Moment, action: ActionDetail): void {
  for (const fluid of relationsOf(mover.job).fluidsIn.get(cell.thing.name) ?? []) {
    for (const it of mover.cells.beside({ text: fluid.name, at: fluid.at }, cell.place)) {
      if (it.kind === "fluid" && (it.then.full || it.then.filled !== undefined))
        fluidMoves.act(mover, it, "lost", { ...moment, seq: mover.seq++ }, action, cell);
    }
  }
}

function nameOf(thing: { readonly name: string; readonly at: Span }): { text: string; at: Span } {
  return { text: thing.name, at: thing.at };
}

/** Slack only because it was let back: neither undone nor found loose since it was last run up, or at all. */
function backedOff(cell: FastenerCell): boolean {
  const last = cell.history.findLast(({ verb, after }) => verb === "tighten" || verb === "undo" || (verb === "found" && !after.tight));
  return last === undefined || last.verb === "tighten";
}
