// Lots: so many pieces of a thing that nothing tells apart, and how they are split, moved and joined.
// Invariant: pure. A lot is never changed: what happens to some of its pieces makes a new one, and pieces that are alike again are one lot.
import type { Condition, ConditionKind } from "../../grammar/tree.ts";
import type { Limit } from "../model/things.ts";
import { bandOf } from "../model/values.ts";
import { inside } from "../quantities/range.ts";
import type { Found, Moment, Reading, Spot } from "./story.ts";

/** What was said of a piece, or done to it, and goes with it wherever it goes. */
export type Note =
  | { readonly kind: "found"; readonly seq: number; readonly found: Found }
  | {
      readonly kind: "read";
      readonly seq: number;
      readonly reading: Reading;
      /** The figure that is of this piece; undefined where all figures are of all. */
      readonly spot: Spot | undefined;
      /** It was on as it was read. */
      readonly inPlace: boolean;
    }
  | { readonly kind: "repair"; readonly seq: number; readonly moment: Moment /** What was done, in words. */; readonly text: string };

export interface Lot {
  readonly count: number;
  /** Fitted new in this job. */
  readonly isNew: boolean;
  /** The place where it is on, or was on last. */
  readonly home: string;
  /** The place that it was made or bought for: that of its thread. */
  readonly madeFor: string;
  readonly notes: Notes;
  readonly forNow: boolean;
  /** Fitted for now by number, for others that are lost: done up, it is no better. */
  readonly standsIn: boolean;
  readonly tight: boolean;
  /** By the moment of this number; undefined as it was found, and while it is slack. */
  readonly tightenedAt: number | undefined;
  /** Let back behind that by the moment of this number, and left there. */
  readonly letBackAt: number | undefined;
  readonly locked: boolean;
  /** By the moment of this number; undefined as it was found, and while it is not locked. */
  readonly lockedAt: number | undefined;
  /** Its own locking (nylon, a collar to be staked) has not been used yet. */
  readonly fresh: boolean;
}

/**
 * Notes in the order in which they were made. A longer list holds the same notes as the one that it was made from, and no copy of them: thousands of lines
 * about one piece stay as many notes, not as many lists.
 */
export class Notes implements Iterable<Note> {
  readonly length: number;
  /** Shared with lists that go on from this one; what is behind `length` is theirs. */
  private readonly all: Note[];
  /** Where each finding stands in `all`, and where the repairs do. */
  private readonly founds: Map<Found, number>;
  private readonly repairs: number[];
  /** Where the first final reading of each limit stands. */
  private readonly finals: Map<Limit, number>;

  constructor(all: Note[] = [], founds = new Map<Found, number>(), repairs: number[] = [], finals = new Map<Limit, number>()) {
    this.all = all;
    this.length = all.length;
    this.founds = founds;
    this.repairs = repairs;
    this.finals = finals;
  }

  with(note: Note): Notes {
    // An empty list is everybody's: each that goes on from it has a list of its own, as has the second of two that go on from the same one.
    if (this.length === 0 || this.all.length > this.length) {
      const fresh = new Notes();
      for (let i = 0; i < this.length; i++) fresh.add(this.all[i] as Note);
      fresh.add(note);
      return new Notes(fresh.all, fresh.founds, fresh.repairs, fresh.finals);
    }
    this.add(note);
    return new Notes(this.all, this.founds, this.repairs, this.finals);
  }

  private add(note: Note): void {
    if (note.kind === "found" && !this.founds.has(note.found)) this.founds.set(note.found, this.all.length);
    if (note.kind === "repair") this.repairs.push(this.all.length);
    if (note.kind === "read" && note.reading.stage === "final" && !this.finals.has(note.reading.limit)) this.finals.set(note.reading.limit, this.all.length);
    this.all.push(note);
  }

  /** Does a finding stand among them? */
  tells(found: Found): boolean {
    return (this.founds.get(found) ?? Number.POSITIVE_INFINITY) < this.length;
  }

  /** Was it repaired behind `seq`? Repairs are noted in the order in which they were made. */
  repairedSince(seq: number): boolean {
    const last = this.repairs.findLast((i) => i < this.length);
    return last !== undefined && (this.all[last] as Note).seq > seq;
  }

  /** Was it repaired on a day later than this? */
  repairedAfter(day: string): boolean {
    return this.repairs.some((i) => {
      const note = i < this.length ? (this.all[i] as Note) : undefined;
      return note?.kind === "repair" && note.moment.day !== undefined && note.moment.day > day;
    });
  }

  /** Does a final reading of a limit stand among them? */
  hasFinal(limit: Limit): boolean {
    return (this.finals.get(limit) ?? Number.POSITIVE_INFINITY) < this.length;
  }

  *[Symbol.iterator](): Iterator<Note> {
    for (let i = 0; i < this.length; i++) yield this.all[i] as Note;
  }

  some(is: (note: Note) => boolean): boolean {
    for (let i = 0; i < this.length; i++) if (is(this.all[i] as Note)) return true;
    return false;
  }

  last(): Note | undefined {
    // Of none nothing is asked: the engine looks for a place before the first by its slow way.
    return this.length === 0 ? undefined : this.all[this.length - 1];
  }

  /** The same notes. Two lists that differ do so most often at their ends. */
  equals(other: Notes): boolean {
    if (this.length !== other.length) return false;
    if (this.all === other.all) return true;
    for (let i = this.length - 1; i >= 0; i--) if (!same(this.all[i] as Note, other.all[i] as Note)) return false;
    return true;
  }
}

const noNotes = new Notes();

/** As a machine is found: on, tight and locked. */
export function asItStands(count: number, place: string): Lot {
  return {
    count,
    isNew: false,
    home: place,
    madeFor: place,
    notes: noNotes,
    forNow: false,
    standsIn: false,
    tight: true,
    tightenedAt: undefined,
    letBackAt: undefined,
    locked: true,
    lockedAt: undefined,
    fresh: false,
  };
}

/** New ones, slack and unlocked, for a place. */
export function brandNew(count: number, place: string): Lot {
  return { ...asItStands(count, place), isNew: true, tight: false, locked: false, fresh: true };
}

/** As it is once it was slackened: what locked it no longer does, and its own locking is used up where it was tight or locked. */
export function slackened(lot: Lot): Lot {
  return {
    ...lot,
    tight: false,
    tightenedAt: undefined,
    letBackAt: undefined,
    locked: false,
    lockedAt: undefined,
    fresh: lot.fresh && !lot.tight && !lot.locked,
  };
}

export function countOf(lots: readonly Lot[]): number {
  let sum = 0;
  for (const lot of lots) sum += lot.count;
  return sum;
}

/**
 * So many pieces, those of the lowest rank first and then in the order of the list; a lot of which not all are taken is split. Where there are fewer,
 * all of them are taken.
 */
export function take(
  lots: readonly Lot[],
  count: number,
  rank: (lot: Lot) => number = alike,
): { readonly taken: readonly Lot[]; readonly left: readonly Lot[] } {
  if (count <= 0) return { taken: none, left: lots };
  if (!holdMore(lots, count)) return { taken: lots, left: none };
  const counts = allot(lots, count, rank);
  const taken: Lot[] = [];
  const rest = lots.slice();
  let isGone = false;
  for (let i = 0; i < lots.length; i++) {
    const some = counts[i] as number;
    if (some === 0) continue;
    const lot = lots[i] as Lot;
    taken.push(some === lot.count ? lot : { ...lot, count: some });
    rest[i] = { ...lot, count: lot.count - some };
    isGone ||= some === lot.count;
  }
  const left = isGone || !isJoined(lots) ? rest.filter((lot) => lot.count > 0) : rest;
  if (isJoined(lots)) joined.add(left);
  return { taken, left };
}

/** More pieces than so many: thousands of lots are not counted to know that. */
export function holdMore(lots: readonly Lot[], than: number): boolean {
  let sum = 0;
  for (const lot of lots) {
    sum += lot.count;
    if (sum > than) return true;
  }
  return false;
}

/** How many of each lot are meant by a count. */
export function allot(lots: readonly Lot[], count: number, rank: (lot: Lot) => number = alike): number[] {
  const counts = lots.map(() => 0);
  const ranks = lots.map(rank);
  let still = count;
  const give = (i: number) => {
    const some = Math.max(0, Math.min(still, (lots[i] as Lot).count));
    counts[i] = some;
    still -= some;
    ranks[i] = Number.POSITIVE_INFINITY;
  };
  // A line mostly means one or two: to find these is quicker than to sort thousands.
  for (let looked = 0; looked < fewLots && still > 0; looked++) {
    let first = 0;
    for (let i = 1; i < ranks.length; i++) if ((ranks[i] as number) < (ranks[first] as number)) first = i;
    if (ranks[first] === undefined || ranks[first] === Number.POSITIVE_INFINITY) return counts;
    give(first);
  }
  if (still <= 0) return counts;
  const others = ranks.flatMap((it, i) => (it === Number.POSITIVE_INFINITY ? [] : [i]));
  for (const i of others.sort((a, b) => (ranks[a] as number) - (ranks[b] as number) || a - b)) give(i);
  return counts;
}

/** So many lots are looked for one by one. */
const fewLots = 4;

/** Two lists together; lots that are alike are one. */
export function join(a: readonly Lot[], b: readonly Lot[]): readonly Lot[] {
  if (b.length === 0) return a;
  if (a.length === 0 && b.length === 1 && (b[0] as Lot).count > 0) return b;
  if (b.length <= fewLots && isJoined(a)) return joinedWith(a, b);
  const out: Lot[] = [];
  // A job without counts has one lot or two in a list; where each of thousands has its own torque or finding, that tells them apart at once.
  const alike = new Map<number, number[]>();
  for (const lot of [...a, ...b]) {
    if (lot.count === 0) continue;
    const key = (lot.tightenedAt ?? -1) * 2 ** 26 + (lot.notes.last()?.seq ?? -1);
    let near = alike.get(key);
    if (near === undefined) {
      near = [];
      alike.set(key, near);
    }
    const at = near.find((i) => sameKind(out[i] as Lot, lot));
    if (at === undefined) near.push(out.push(lot) - 1);
    else out[at] = { ...lot, count: lot.count + (out[at] as Lot).count };
  }
  joined.add(out);
  return out;
}

/** Lists of which it is known that no lot is empty and no two are alike: to add one to thousands, none of these is looked at twice. */
const joined = new WeakSet<readonly Lot[]>();

function isJoined(lots: readonly Lot[]): boolean {
  return lots.length === 0 || (lots.length === 1 ? (lots[0] as Lot).count > 0 : joined.has(lots));
}

/** A few more in a list that is joined. */
function joinedWith(lots: readonly Lot[], more: readonly Lot[]): readonly Lot[] {
  const out = lots.slice();
  for (const lot of more) {
    if (lot.count === 0) continue;
    const at = out.findIndex((it) => sameKind(it, lot));
    if (at === -1) out.push(lot);
    else out[at] = { ...lot, count: lot.count + (out[at] as Lot).count };
  }
  joined.add(out);
  return out;
}

/** So many of them made otherwise, by rank; all, where no count is given. */
export function change(lots: readonly Lot[], count: number | undefined, to: (lot: Lot) => Lot, rank?: (lot: Lot) => number): readonly Lot[] {
  if (count === undefined || !holdMore(lots, count)) return join(none, lots.map(to));
  const { taken, left } = take(lots, count, rank);
  return join(left, taken.map(to));
}

export function noted(lot: Lot, note: Note): Lot {
  return { ...lot, notes: lot.notes.with(note) };
}

/** Nothing tells two lots apart. */
function sameKind(a: Lot, b: Lot): boolean {
  // What most often tells them apart first.
  return (
    a.tightenedAt === b.tightenedAt &&
    a.isNew === b.isNew &&
    a.home === b.home &&
    a.madeFor === b.madeFor &&
    a.forNow === b.forNow &&
    a.standsIn === b.standsIn &&
    a.tight === b.tight &&
    a.letBackAt === b.letBackAt &&
    a.locked === b.locked &&
    a.lockedAt === b.lockedAt &&
    a.fresh === b.fresh &&
    a.notes.equals(b.notes)
  );
}

function same(a: Note, b: Note): boolean {
  return a.seq === b.seq && a.kind === b.kind && (a.kind !== "read" || a.spot === (b as typeof a).spot);
}

const none: readonly Lot[] = [];

function alike(): number {
  return 0;
}

// ---------------------------------------------------------------- which ones are meant

/** `fit` takes the sound ones first. */
export function soundFirst(lot: Lot): number {
  return isFaulty(lot) ? 1 : 0;
}

/** `repair` takes the faulty ones first. */
export function faultyFirst(lot: Lot): number {
  return isFaulty(lot) ? 0 : 1;
}

/** `slacken` takes the faulty ones first, and of the others those that were found so and stand so still. */
export function foundOpenFirst(lot: Lot): number {
  return faultyFirst(lot) * 2 + (isAsFoundOpen(lot) ? 0 : 1);
}

/** `undo` takes of the faulty, and of the sound, those that are slack already first, and then those that were found unlocked. */
export function slackAndFaultyFirst(lot: Lot): number {
  return faultyFirst(lot) * 4 + (lot.tight ? 2 : 0) + (isAsFoundOpen(lot) ? 0 : 1);
}

/** `tighten` takes the slack ones, those that were found unlocked, and then those that were tightened longest ago: a stage by number goes round. */
export function slackFirst(lot: Lot): number {
  if (!lot.tight) return 0;
  return isAsFoundOpen(lot) ? 0.5 : 1 + (lot.tightenedAt ?? 0);
}

/** Tight and not locked, or locked and not tight, as the last word on it says: nothing has moved it since. */
function isAsFoundOpen(lot: Lot): boolean {
  if (lot.tight === lot.locked || lot.tightenedAt !== undefined) return false;
  const last = lot.notes.last();
  return last?.kind === "found" && last.found.conditions.some(({ condition }) => condition.kind === "unlocked" || condition.kind === "loose");
}

/** `let back` takes those that were tightened last and are not let back yet. */
export function latestFirst(lot: Lot): number {
  return lot.letBackAt !== undefined || !lot.tight ? 1 : -(lot.tightenedAt ?? 0);
}

/** `lock` takes those that are tight and not locked, those that were tightened last first. */
export function unlockedFirst(lot: Lot): number {
  return lot.tight && !lot.locked ? -(lot.tightenedAt ?? 0) : lot.locked ? 2 : 1;
}

/**
 * A finding speaks of the same pieces again where it answers what was to be asked, or repeats a condition; else of others, those that a figure condemns
 * before those of which nothing was said.
 */
export function meantBy(found: Found): (lot: Lot) => number {
  return (lot) => {
    let said: Found | undefined;
    for (const note of lot.notes) if (note.kind === "found") said = note.found;
    if (said === undefined) return lot.notes.some((note) => note.kind === "read" && readsWorn(note.reading, note.spot)) === isBad(found) ? 1 : 2;
    if (said.decision?.detail.decision === "ask" || said.conditions.some(({ condition }) => repeats(found, condition))) return 0;
    return 3;
  };
}

function repeats(found: Found, condition: Condition): boolean {
  return found.conditions.some((it) => it.condition.kind === condition.kind);
}

/** These leave nothing behind that a piece carries with it. */
const passing: ReadonlySet<ConditionKind> = new Set([
  "serviceable",
  "clean",
  "loose",
  "unlocked",
  "missing",
  "extra",
  "dry",
  "blocked",
  "leaking",
  "contaminated",
]);

function isBad(found: Found): boolean {
  const decided = found.decision?.detail.decision;
  if (decided === "renew" || decided === "discard" || decided === "exchange" || decided === "make") return true;
  return decided !== "reuse" && found.conditions.some(({ condition }) => !passing.has(condition.kind));
}

/** By what stands in the sheet up to here, and by the plain figures: for choosing which ones a line means, never for a verdict. */
export function isFaulty(lot: Lot): boolean {
  if (lot.notes.length === 0) return false;
  let faulty = false;
  for (const note of lot.notes) {
    if (note.kind === "repair") faulty = false;
    else if (note.kind === "found") faulty = isBad(note.found) || (faulty && !note.found.conditions.some(({ condition }) => condition.kind === "serviceable"));
    else if (readsWorn(note.reading, note.spot)) faulty = true;
  }
  return faulty;
}

/** Past wear by the plain figures of that spot; of any, where none is given. */
export function readsWorn({ stood, stage, spots }: Reading, spot: Spot | undefined): boolean {
  const worn = stage === "trial" ? undefined : bandOf(stood.worn);
  if (worn === undefined) return false;
  return (spot === undefined ? spots : [spot]).some((it) => it.figures[0]?.unit.dimension === worn.unit.dimension && !inside(worn, it.value));
}
