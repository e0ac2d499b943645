// What a reading is judged to be: one verdict, and the group of readings that it is made of.
import type { MeasureEntry, Stage } from "../../grammar/tree.ts";
import type { Gauge, Limit } from "../model/things.ts";
import { type Where, where } from "../model/where.ts";
import type { Exact } from "../quantities/exact.ts";
import type { Band } from "../quantities/range.ts";
import type { Slip } from "./slips.ts";
import type { Reading, Spot } from "./story.ts";

export type BandName = "worn" | "set" | "new" | "spread" | "ovality" | "taper";

export interface Verdict {
  readonly limit: Limit;
  /** With the figures that it had when it was read: these judge it. */
  readonly stood: Limit;
  readonly place: string;
  readonly position: string | undefined;
  readonly stage: Stage;
  /** Of the last reading that it rests on. */
  readonly seq: number;
  readonly day: string | undefined;
  readonly where: Where;
  readonly reading: Reading;
  readonly value: Exact;
  /** U squared: the expanded uncertainty (k = 2) as given for the gauge. Undefined without a gauge: the plain comparison is made. */
  readonly uncertaintySquared: Exact | undefined;
  readonly gauge: Gauge | undefined;
  readonly band: BandName;
  readonly against: Band;
  readonly outcome: "in" | "out" | "doubt";
  readonly workedOut: boolean;
  readonly approximate: boolean;
  /** Judged as a renewed thing: against `new`. */
  readonly renewed: boolean;
  /** Of what was repaired or worked on outside, and is not new. */
  readonly mended: boolean;
  /** Worked out below zero, where none of its bounds knows such a thing: a figure has slipped, or the parts don't go together. */
  readonly belowZero: boolean;
}

/** A spread, an ovality or a taper: of two readings, and with a limit of its own. */
export function isDifference({ band }: Pick<Verdict, "band">): boolean {
  return band === "spread" || band === "ovality" || band === "taper";
}

/** Worked out at a place and a stage: its least and its greatest value. */
export interface Unjudged {
  readonly limit: Limit;
  readonly place: string;
  readonly stage: Stage;
  readonly seq: number;
  readonly day: string | undefined;
  readonly where: Where;
  /** The last reading that it rests on. */
  readonly reading: Reading;
  readonly low: Exact;
  readonly high: Exact;
  readonly uncertaintySquared: Exact | undefined;
}

export interface Judged {
  readonly verdicts: readonly Verdict[];
  /** The readings that condemn what they are of, past wear or spread, and by which verdict; by which of their spots, where each is judged by itself. */
  readonly condemning: ReadonlyMap<Reading, readonly Condemning[]>;
  readonly disagreeing: readonly Disagreeing[];
  /** What is worked out of readings and has nothing to be judged against. */
  readonly unjudged: readonly Unjudged[];
  readonly slips: readonly { readonly reading: Reading; readonly spot: Spot; readonly slip: Slip }[];
}

/** A limit that is worked out, read directly, and what its own figures made of it then. */
export interface Disagreeing {
  readonly direct: Verdict;
  readonly worked: Verdict;
}

export interface Condemning {
  readonly verdict: Verdict;
  readonly spots: readonly Spot[] | undefined;
}

export interface Group {
  readonly limit: Limit;
  readonly stood: Limit;
  readonly place: string;
  readonly entry: MeasureEntry;
  readonly stage: Stage;
  readonly readings: Reading[];
}

interface Extra {
  readonly renewed?: boolean;
  readonly mended?: boolean;
  readonly seq?: number;
  readonly position?: string;
  readonly workedOut?: boolean;
  readonly approximate?: boolean;
  readonly stood?: Limit;
  readonly belowZero?: boolean;
}

export function made(
  limit: Limit,
  place: string,
  stage: Stage,
  reading: Reading,
  at: Spot["at"],
  value: Exact,
  u2: Exact | undefined,
  band: BandName,
  against: Band,
  outcome: Verdict["outcome"],
  extra: Extra = {},
): Verdict {
  return {
    limit,
    stood: extra.stood ?? reading.stood,
    place,
    position: extra.position,
    stage,
    seq: extra.seq ?? reading.seq,
    day: reading.day,
    where: where(reading.where.file, reading.entry, reading.detail.row, at),
    reading,
    value,
    uncertaintySquared: u2,
    gauge: reading.gauge,
    band,
    against,
    outcome,
    workedOut: extra.workedOut ?? false,
    approximate: extra.approximate ?? false,
    renewed: extra.renewed ?? false,
    mended: extra.mended ?? false,
    belowZero: extra.belowZero ?? false,
  };
}
