// What the walk tells: every moment in the order in which it happened, and the state of everything at each place.
// Invariant: facts only. What is wrong with them is for the rules to say.
import type {
  ActionDetail,
  ConcessionEntry,
  Condition,
  DecisionDetail,
  FindingEntry,
  Locking,
  MeasureEntry,
  PauseEntry,
  ReadingDetail,
  ReleaseEntry,
  SeenEntry,
  Span,
  Stage,
  StepEntry,
} from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import type { Check, Fastener, Fluid, Gauge, Hazard, Limit, Part, Thing } from "../model/things.ts";
import type { Where } from "../model/where.ts";
import type { Exact } from "../quantities/exact.ts";
import type { Measured } from "../quantities/quantity.ts";
import type { Lot, Note } from "./lots.ts";

/** Done work makes the machine's state; planned work is walked behind it, as a forecast. */
export type Phase = "done" | "planned";

/** One step gone through: all of it, or that part of it (the places) which is done, or which is still planned. */
export interface Visit {
  readonly number: number;
  readonly phase: Phase;
  readonly file: string;
  readonly entry: StepEntry;
  readonly day: string | undefined;
  /** Undefined: wherever its actions say. */
  readonly places: readonly string[] | undefined;
}

export interface Moment {
  /** Grows with the story; planned moments come behind all done ones. */
  readonly seq: number;
  readonly phase: Phase;
  readonly day: string | undefined;
  readonly where: Where;
  readonly visit: Visit | undefined;
}

// ---------------------------------------------------------------- fasteners

/** The pieces of a thing at a place. The counts follow from the lots; what is neither on nor off is missing, or set aside for a new one. */
export interface PieceState {
  /** Those that are on. */
  readonly lots: readonly Lot[];
  /** Those that are off and at hand, and were on here last. */
  readonly bench: readonly Lot[];
  /** How many are on. */
  readonly on: number;
  /** How many are off and at hand. */
  readonly off: number;
  /** Any of those that are on is so for now only. */
  readonly forNow: boolean;
}

export interface FastenerState extends PieceState {
  /** All that are on; false where none is. */
  readonly tight: boolean;
  readonly locked: boolean;
}

/** What a line did to so many pieces. */
export interface PieceMoment extends Moment {
  readonly action: ActionDetail | undefined;
  readonly found: Found | undefined;
  /** How many it is about. */
  readonly count: number;
  readonly isNew: boolean;
  readonly from: string | undefined;
  readonly forNow: boolean;
  /** On `fit`: the pieces that go on, as they were before. */
  readonly moved: readonly Lot[];
  /** On `fit … new`: the old ones whose places they take, and which never came off. */
  readonly over: readonly Lot[];
  /** On a plain `fit`: nothing had taken it off; it began off. */
  readonly beganOff: boolean;
}

export interface FastenerMoment extends PieceMoment {
  readonly verb: "undo" | "slacken" | "fit" | "tighten" | "let" | "lock" | "found" | "repair" | "other";
  readonly before: FastenerState;
  readonly after: FastenerState;
  readonly to: Measured | undefined;
  readonly gauge: Gauge | undefined;
  readonly with: Locking | undefined;
  /** Hazards that must be safe before this, and are live. */
  readonly liveHazards: readonly HazardCell[];
  /** Parts that it holds and that are off as it is done up. */
  readonly holdsOff: readonly PartCell[];
  readonly support: SupportState;
}

export interface FastenerCell {
  readonly kind: "fastener";
  /** Final readings taken while the place is empty: they are of what is fitted there next. */
  readonly ahead: Note[];
  /** Old ones that new ones replaced: nothing takes them but a line that says where from. */
  aside: readonly Lot[];
  readonly thing: Fastener;
  readonly place: string;
  readonly total: number;
  readonly history: FastenerMoment[];
  /** After all that is done. */
  now: FastenerState;
  /** After all that is planned too. */
  then: FastenerState;
  /** Named in a line that can't be read: what it says of this is not known, so rules about what is missing hold their tongue. */
  unsure: boolean;
}

// ---------------------------------------------------------------- parts

export interface PartState extends PieceState {
  readonly marked: boolean;
}

export interface PartMoment extends PieceMoment {
  readonly verb: "remove" | "fit" | "mark" | "repair" | "found" | "support" | "other";
  readonly before: PartState;
  readonly after: PartState;
  /** The count stood in the sheet. */
  readonly counted: boolean;
  /** On `remove`: fasteners that hold it and are not undone, parts before it that are on. On `fit`: parts before it that were built up again since. */
  readonly stillHeld: readonly FastenerCell[];
  readonly stillBehind: readonly PartCell[];
  readonly liveHazards: readonly HazardCell[];
  /** On `fit`: parts behind it that are still off. */
  readonly overOff: readonly PartCell[];
  readonly support: SupportState;
}

export interface PartCell {
  readonly kind: "part";
  /** Final readings taken while the place is empty: they are of what is fitted there next. */
  readonly ahead: Note[];
  /** Old ones that new ones replaced: nothing takes them but a line that says where from. */
  aside: readonly Lot[];
  readonly thing: Part;
  readonly place: string;
  readonly total: number;
  readonly history: PartMoment[];
  now: PartState;
  then: PartState;
  unsure: boolean;
}

// ---------------------------------------------------------------- fluids and hazards

export interface FluidState {
  readonly full: boolean;
  /** Opened, and not bled since. */
  readonly airIn: boolean;
  /** Filled since it was lost, in the base unit; undefined where a fill said no amount. */
  readonly filled?: Exact;
  /** Found low by so much behind a part that came off: what ran out, if as much is filled in again. */
  readonly ranOut?: Exact;
}

export interface FluidMoment extends Moment {
  readonly verb: "drain" | "lost" | "fill" | "bleed" | "found" | "other";
  readonly action: ActionDetail | undefined;
  readonly found: Found | undefined;
  readonly before: FluidState;
  readonly after: FluidState;
  readonly amount: Measured | undefined;
  /** On `lost`: the part that came off. */
  readonly with: PartCell | undefined;
}

export interface FluidCell {
  readonly kind: "fluid";
  readonly thing: Fluid;
  readonly place: string;
  readonly history: FluidMoment[];
  now: FluidState;
  then: FluidState;
  unsure: boolean;
}

export interface HazardMoment extends Moment {
  readonly verb: "safe" | "restore" | "arises";
  readonly action: ActionDetail | undefined;
  readonly before: boolean;
  readonly after: boolean;
  /** On `restore`: what must be back first and is off or slack. */
  readonly open: readonly (FastenerCell | PartCell)[];
  /** On `restore`: of what must be back first, what is critical, tight and not locked yet. */
  readonly unlocked: readonly FastenerCell[];
}

export interface HazardCell {
  readonly kind: "hazard";
  readonly thing: Hazard;
  readonly place: "";
  readonly history: HazardMoment[];
  /** Live? */
  now: boolean;
  then: boolean;
  unsure: boolean;
}

export type Cell = FastenerCell | PartCell | FluidCell | HazardCell;

// ---------------------------------------------------------------- what carries it

export interface Support {
  readonly part?: string;
  readonly on: string;
  readonly underPart?: string;
  readonly underText?: string;
  readonly moment: Moment;
  readonly action: ActionDetail;
}

/** What holds the machine up at this time, a part's own support left out; undefined where it stands on the ground or on stands, or a line about it can't be read. */
export function hangsOn(state: SupportState): string | undefined {
  const { raised, unclear } = state;
  if (raised === undefined || unclear?.hold) return undefined;
  return state.supports.some((it) => it.part === undefined && it.on !== "crane" && it.moment.seq > raised.moment.seq) ? undefined : raised.on;
}

/** It stands there by itself, and is left there: a motorcycle on its centre stand, a small engine on the bench. Nothing of it rolls, and nobody lies under it. */
export function standsByItself(on: string | undefined): boolean {
  return on === "centre stand" || on === "paddock stand" || on === "bench";
}

/** Where it was raised to it may stay: on its own centre stand, and not on the stands that were put under it besides; on a cradle, a bench, blocks. */
export function mayStay({ raised, supports }: SupportState): boolean {
  if (raised === undefined) return true;
  const bears = supports.filter((it) => it.part === undefined && it.moment.seq > raised.moment.seq);
  if (standsByItself(raised.on) && !bears.some((it) => it.on === "stands")) return true;
  return bears.length > 0 && bears.every((it) => it.on !== "stands" && it.on !== "crane");
}

/** A new object at every change, so that a moment can keep the one of its time. */
export interface SupportState {
  readonly chocked: boolean;
  readonly raised?: { readonly on: string; readonly moment: Moment };
  /** What carries the machine or a part of it, in the order in which it was put there. */
  readonly supports: readonly Support[];
  readonly under?: Moment;
  /** What a line that can't be read may have said since it was last let down: `chock`, `clear`, or `hold` for what raises, carries or lowers. */
  readonly unclear?: { readonly chock?: true; readonly clear?: true; readonly hold?: true };
}

export interface Blurred {
  readonly seq: number;
  readonly entry: StepEntry;
  readonly after: SupportState;
}

export interface SupportMoment extends Moment {
  readonly verb: "chock" | "raise" | "support" | "lower" | "set-down" | "under" | "clear";
  readonly action: ActionDetail;
  readonly before: SupportState;
  readonly after: SupportState;
  /** On `lower`: what is off or slack at that time. */
  readonly open: readonly (FastenerCell | PartCell)[];
}

// ---------------------------------------------------------------- what is seen and measured

export interface Found extends Moment {
  readonly file: string;
  readonly entry: FindingEntry;
  readonly thing: Thing;
  /** The places that it speaks of; `""` where there are none. */
  readonly places: readonly string[];
  readonly count: number | undefined;
  readonly conditions: readonly { readonly condition: Condition; readonly where: Where }[];
  readonly decision: { readonly detail: DecisionDetail; readonly where: Where } | undefined;
}

/** One line of figures under a measure. */
export interface Reading extends Moment {
  readonly entry: MeasureEntry;
  readonly detail: ReadingDetail;
  readonly stage: Stage;
  readonly limit: Limit;
  /** The limit with the figures that it had here. */
  readonly stood: Limit;
  readonly place: string;
  readonly position: string | undefined;
  readonly spots: readonly Spot[];
  readonly gauge: Gauge | undefined;
}

/** One spot: one figure, or the mean of those taken again. */
export interface Spot {
  /** In the base unit. */
  readonly value: Exact;
  readonly figures: readonly Measured[];
  readonly again: boolean;
  readonly at: Span;
}

export interface Seen extends Moment {
  readonly entry: SeenEntry;
  readonly check: Check;
  readonly stage: Stage;
  readonly good: boolean;
  readonly place: string;
}

export interface Concession extends Moment {
  readonly entry: ConcessionEntry;
  readonly thing: Thing;
  readonly places: readonly string[];
}

export interface Pause extends Moment {
  readonly entry: PauseEntry;
}

export interface Beyond {
  readonly cell: FastenerCell | PartCell;
  readonly where: Where;
}

export interface Story {
  readonly job: Job;
  readonly visits: readonly Visit[];
  readonly fasteners: readonly FastenerCell[];
  readonly parts: readonly PartCell[];
  readonly fluids: readonly FluidCell[];
  readonly hazards: readonly HazardCell[];
  readonly support: readonly SupportMoment[];
  /** Done lines that can't be read, and may have said how the machine is held. */
  readonly blurred: readonly Blurred[];
  /** Cells with more pieces told apart than are worked with, and the first line from which nothing is said of them. */
  readonly beyond: readonly Beyond[];
  /** Limits and checks of which a line that can't be read may have said what was measured or seen. */
  readonly doubted: ReadonlySet<string>;
  readonly supportNow: SupportState;
  readonly findings: readonly Found[];
  readonly readings: readonly Reading[];
  readonly seen: readonly Seen[];
  readonly concessions: readonly Concession[];
  readonly pauses: readonly Pause[];
  readonly release?: Moment & { readonly entry: ReleaseEntry };
  /** Those above it, in their order. */
  readonly earlierReleases: readonly (Moment & { readonly entry: ReleaseEntry })[];
  /** The newest day that the sheet names. */
  readonly newestDay?: string;
  /** The first number of a planned moment. */
  readonly plannedFrom: number;
  /** Cells that exist, by thing and place. */
  cell(name: string, place: string): Cell | undefined;
  /** All cells of a thing; of one that nobody touched, as it was. */
  cells(name: string): readonly Cell[];
}
