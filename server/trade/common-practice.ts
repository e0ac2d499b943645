// Figures that go round in the trade for clearances: common practice, to see whether a reading is in the usual country at all.
// Invariant: never a limit. Nothing here judges a part; the maker's figure rules, and every use of a row says so.
import { type Exact, figure } from "../quantities/exact.ts";
import type { Mark } from "./source.ts";

export interface Usual {
  readonly of: string;
  /** Words by which it is asked for, each of which must stand in the question. */
  readonly words: readonly RegExp[];
  readonly least: string;
  readonly most: string;
  readonly unit: "in" | "mm";
  readonly source: string;
  readonly mark: Mark;
}

export const usualFigures: readonly Usual[] = [
  {
    of: "backlash of a crown wheel and pinion, car",
    words: [/backlash/, /\bcars?\b/],
    least: "0.15",
    most: "0.15",
    unit: "mm",
    source: "a motor vehicle textbook, as quoted",
    mark: "table",
  },
  {
    of: "backlash of a crown wheel and pinion, heavy vehicle",
    words: [/backlash/, /heavy|truck|lorry/],
    least: "0.25",
    most: "0.25",
    unit: "mm",
    source: "a motor vehicle textbook, as quoted",
    mark: "table",
  },
  {
    of: "backlash of a crown wheel and pinion, light axle from before the war",
    words: [/backlash/, /pre-?war|light/],
    least: "0.006",
    most: "0.010",
    unit: "in",
    source: "common practice",
    mark: "memory",
  },
  {
    of: "end float of a taper-roller hub, truck or trailer",
    words: [/hub/, /float|play/],
    least: "0.001",
    most: "0.005",
    unit: "in",
    source: "common practice of bearing makers, as quoted",
    mark: "table",
  },
];

/** Clearance of a plain bush that turns all the time: so much an inch of bore. */
export const bushClearance = { perBore: figure("0.0015"), source: "rule of thumb: 0.0015 in an inch of bore, in constant rotation", mark: "table" } as const;

export function bushClearanceFor(bore: Exact): Exact {
  return bore.mul(bushClearance.perBore);
}
