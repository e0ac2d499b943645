// The shapes of the plan as a report: what `splitpin plan --format json` gives.
// Invariant: plain data; a day is ISO 8601, a figure a decimal, absence null.
import type { Caution } from "../../trade/cautions.ts";
import type { Heading } from "../draw/heading.ts";
import type { Line } from "../draw/line.ts";

/** So much work or waiting. Decimals; six figures where no decimal is exact. */
export interface Duration {
  /** Working days. */
  readonly days: string;
  /** The same in hours of work. */
  readonly hours: string;
}

/** A time, counted from the beginning of the first day, and the day in which it falls; null beyond the year 9999. */
export interface When extends Duration {
  readonly day: string | null;
}

export interface WaitShown extends Line {
  readonly kind: "step" | "parcel" | "answer" | "fact";
  /** The whole of it, in words. */
  readonly text: string;
  /** The name of the step, as the sheet has it. */
  readonly step?: string;
  /** Of a parcel: the day on which it comes, where one can be told. */
  readonly day?: string;
}

export interface StepShown extends Line {
  /** The title of its sheet. */
  readonly job: string;
  readonly step: string | null;
  readonly title: string;
  /** Where it is done, where the step says so. */
  readonly places: readonly string[];
  readonly state: "done" | "ready" | "waiting";
  readonly doneOn: string | null;
  /** Null where the sheet does not say: it is counted as nothing. Of a step done in part, the share that is left. */
  readonly takes: Duration | null;
  /** As written: `90 min`. */
  readonly takesWritten: string | null;
  readonly tools: readonly string[];
  readonly cautions: readonly string[];
  readonly waitsFor: readonly WaitShown[];
  /** Null where it is done, and in a circle or behind one. */
  readonly earliestStart: When | null;
  readonly earliestFinish: When | null;
  /** Null as well where the finish of its job has no day. */
  readonly latestStart: When | null;
  readonly latestFinish: When | null;
  /** How much later it may start and the finish of its job stay where it is. */
  readonly slack: Duration | null;
  /** How much later it may start and every other step stay where it is. */
  readonly freeSlack: Duration | null;
  /** No slack: the finish hangs on it. */
  readonly critical: boolean;
  /** It hangs on an answer, or on something without a day: its days are the earliest, as if that came on the first. */
  readonly atEarliest: boolean;
}

export interface ParcelItem extends Line {
  readonly item: string;
  readonly name: string;
  /** Null for work on a part. */
  readonly quantity: string | null;
  readonly unit: string | null;
  /** The steps that wait for it, by their titles. */
  readonly steps: readonly string[];
  readonly jobs: readonly string[];
}

/** What comes together: one order, or what is to be ordered from one supplier with one lead. */
export interface ParcelShown {
  /** `work`: a part that is out, or is to go out, to be worked on. */
  readonly kind: "item" | "work";
  readonly status: "to order" | "held" | "placed" | "sent";
  /** The reference of the order. */
  readonly order: string | null;
  /** Null: nobody offers it. */
  readonly supplier: string | null;
  readonly items: readonly ParcelItem[];
  /** The day on which it went out or goes out at the earliest; null where nobody wrote it. */
  readonly leaves: string | null;
  /** Null where nobody says how long it takes. */
  readonly arrives: string | null;
  /** Days of the calendar from the first day until it is here; null as above. */
  readonly arrivesIn: number | null;
  /** It should have come so many days ago; it is counted as if it came on the first day. */
  readonly overdue: number;
  /** Days that it may be late, or be sent for later; null where no planned step waits for it, and where it is overdue. */
  readonly slack: number | null;
  /** The last day on which it may go out, where it is still to go; null as above. */
  readonly goesOutBy: string | null;
  readonly mustGoToday: boolean;
  readonly critical: boolean;
  /** It is not to be sent for before these have an answer. */
  readonly questions: readonly string[];
}

export interface QuestionShown extends Line {
  readonly question: string;
  readonly asks: string;
  readonly job: string;
  /** The steps that wait for the answer, by their titles. */
  readonly steps: readonly string[];
}

export interface JobShown extends Line {
  readonly title: string;
  readonly machine: string | null;
  /** The earliest finish of what is planned; null where nothing is planned, or steps wait for each other. */
  readonly finish: When | null;
  readonly atEarliest: boolean;
  /** Why its finish is not known, each in a few words: it waits for these, and nobody knows when they come. */
  readonly unknown: readonly string[];
  /** Things, counted by their places, that are still off, slack or drained when all that is planned is done. */
  readonly withoutStep: { readonly off: number; readonly slack: number; readonly drained: number };
  /** Of all planned steps together, as if one pair of hands did them. */
  readonly work: Duration;
  /** Planned steps that don't say how long they take. */
  readonly untimed: number;
  readonly planned: number;
  readonly done: number;
  /** What the finish hangs on, in order of time: names of steps, and items of parcels. */
  readonly criticalPath: readonly string[];
}

/** A gauge whose check runs out before a planned step uses it. */
export interface GaugeShown extends Line {
  readonly gauge: string;
  readonly name: string;
  /** The last day on which its check holds. */
  readonly due: string;
  /** The first step that uses it afterwards, or the limit that is to be read with it, and the earliest day of that. */
  readonly step: string;
  readonly day: string;
}

/** What was decided to be made: nobody sells it. */
export interface MakeShown extends Line {
  readonly item: string;
  readonly name: string;
  readonly count: number;
  /** As the decision says it. */
  readonly how: string | null;
  /** The planned steps that fit it, by their titles. */
  readonly steps: readonly string[];
}

export interface PlanReport extends Heading {
  readonly from: string;
  readonly hoursADay: number;
  readonly jobs: readonly JobShown[];
  readonly steps: readonly StepShown[];
  readonly parcels: readonly ParcelShown[];
  /** Needed, and no planned step takes it: not counted in any finish. */
  readonly notPlanned: readonly ParcelShown[];
  readonly questions: readonly QuestionShown[];
  /** Decided to be made, and not yet fitted. */
  readonly toMake: readonly MakeShown[];
  /** To be sent away and checked, each once. */
  readonly gauges: readonly GaugeShown[];
  /** Steps that wait for each other, each circle whole. */
  readonly circles: readonly { readonly job: string; readonly steps: readonly (Line & { readonly step: string; readonly waitsFor: readonly string[] })[] }[];
  /** What can be done while the finish waits for a parcel: until which day, and which steps, by their titles. */
  readonly meanwhile: readonly { readonly job: string; readonly until: string | null; readonly waitsFor: string; readonly steps: readonly string[] }[];
  readonly cautions: readonly Caution[];
}
