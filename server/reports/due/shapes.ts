// The shapes of what is due: what `splitpin due --format json` gives.
// Invariant: plain data; a day is ISO 8601, absence null. Every row has its line.
import type { Line } from "../draw/line.ts";
import type { Heading } from "../draw/heading.ts";

/** Gravest first: this is the order in which they are shown. */
export const dueGroups = [
  "Released, and something is open",
  "Worked on after its release",
  "Hanging",
  "Recheck due",
  "Two jobs at one machine",
  "Unsafe on the sheet",
  "Apart",
  "Gauge to be checked",
  "Parcel late",
  "To be sent for today",
  "Waiting for an answer",
  "Under way, nothing apart",
  "Coming up",
] as const;

export type DueGroup = (typeof dueGroups)[number];

export interface DueItem extends Line {
  readonly group: DueGroup;
  /** Null of what belongs to the workshop, such as a gauge. */
  readonly machine: string | null;
  /** Names it among what is due of its file, and stays while lines move. */
  readonly key: string;
  /** The title of its sheet; null of what several share. */
  readonly job: string | null;
  readonly text: string;
  /** More of it, each in a sentence; at most three, and how many more there are. */
  readonly details: readonly string[];
  /** The day on which it falls due, where there is one; it may be past. */
  readonly day: string | null;
  /** The counter at which it falls due. */
  readonly counter: string | null;
}

export interface MachineDue extends Line {
  readonly machine: string;
  readonly serial: string | null;
  /** The greatest figure of its counter that a sheet names. */
  readonly counter: string | null;
  /** The titles of its sheets. */
  readonly jobs: readonly string[];
  /** What to do next; its line is that of this row. */
  readonly next: string;
}

export interface DueReport extends Heading {
  readonly day: string;
  readonly machines: readonly MachineDue[];
  /** In the order of `dueGroups`; within one by day, those without one last. */
  readonly items: readonly DueItem[];
}
