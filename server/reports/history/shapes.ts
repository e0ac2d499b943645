// The shapes of a machine's history: what `splitpin history --format json` gives.
// Invariant: plain data; a day is ISO 8601, a figure a decimal, absence null. What is an estimate is called one, and never stands where a limit does.
import type { Heading } from "../draw/heading.ts";
import type { Line } from "../draw/line.ts";

export interface HistoryReport extends Heading {
  readonly machines: readonly MachineHistory[];
}

export interface MachineHistory {
  readonly machine: string;
  readonly serial: string | null;
  /** The greatest figure of its counter that a sheet names. */
  readonly counter: string | null;
  readonly sheets: readonly SheetOf[];
  /** Things of which something is told, in the order in which it happened first. */
  readonly lives: readonly Life[];
  readonly limits: readonly LimitHistory[];
  readonly conceded: readonly Told[];
  readonly ownedUpTo: readonly Told[];
  readonly comesBack: readonly ComesBack[];
}

export interface SheetOf extends Line {
  readonly title: string;
  readonly opened: string | null;
  readonly released: string | null;
  readonly counter: string | null;
  /** How many things are open on it. */
  readonly open: number;
}

export type LifeKind = "found" | "renewed" | "repaired" | "worked on outside";

export interface Life {
  readonly name: string;
  readonly title: string;
  readonly place: string;
  readonly events: readonly LifeEvent[];
}

export interface LifeEvent extends Line {
  readonly kind: LifeKind;
  readonly day: string | null;
  /** Of its sheet then, as far as it is written. */
  readonly counter: string | null;
  readonly text: string;
  readonly sheet: string;
}

export interface Told extends Line {
  readonly text: string;
  readonly day: string | null;
  readonly sheet: string;
}

export interface ComesBack extends Line {
  readonly text: string;
  /** One for each sheet. */
  readonly times: readonly Told[];
}

export interface LimitHistory extends Line {
  readonly limit: string;
  readonly title: string;
  readonly place: string;
  readonly unit: string;
  /** What it is held against, as the newest sheet has it: “worn max 0.20 mm”. */
  readonly against: string;
  /** The ends of that, decimals in the unit. */
  readonly low: string | null;
  readonly high: string | null;
  readonly points: readonly ReadingPoint[];
  /** Through the readings since it was last renewed, repaired or set. */
  readonly overDays: Trend;
  readonly overCounter: Trend;
}

export interface ReadingPoint extends Line {
  readonly day: string | null;
  readonly counter: string | null;
  readonly stage: "found" | "trial" | "final";
  /** With its unit. */
  readonly value: string;
  /** Decimal without a unit. */
  readonly at: string;
  /** The gauge's U at k = 2, decimal without a unit. */
  readonly u: string | null;
  /** What is measured is another one than at the reading before, or was set anew: a line begins here. */
  readonly anew: boolean;
  /** For a drawing: days from the first reading, and the counter in its unit. */
  readonly days: number | null;
  readonly count: string | null;
  readonly sheet: string;
}

export interface Trend {
  /** `h`, `mi`, `km` of the counter; `d` of days. */
  readonly unit: string | null;
  /** How many readings it goes through. */
  readonly readings: number;
  /** Change for one of the unit, decimal; null where there is no line. */
  readonly slope: string | null;
  /** For a drawing: the line at the first and the last of its readings, and how far about it one more reading is expected there (95 %). */
  readonly line: readonly { readonly x: string; readonly y: string; readonly doubt: string }[] | null;
  readonly estimate: Estimate | null;
  /** What can be said of it, in a sentence; where there is no estimate, why. */
  readonly words: string;
}

/** When the limit would be reached if all went on as it did: a day, or the counter. */
export interface Estimate {
  readonly about: string;
  /** Between these a single reading may come to it (95 %); null where the later one has no day. */
  readonly earliest: string;
  readonly latest: string | null;
  /** For a drawing. */
  readonly x: string;
}
