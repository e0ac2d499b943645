// Holes that a bolt goes through: ISO 273 for metric bolts, and what is usual for inch ones.
// Invariant: each row says where it is from; a size between two rows has none.
import { type Exact, compare, figure } from "../quantities/exact.ts";
import type { Sourced } from "./source.ts";
import type { Thread } from "./thread.ts";

export type HoleSeries = "fine" | "medium" | "coarse";

export interface ClearanceHole extends Sourced {
  readonly mm: Readonly<Record<HoleSeries, Exact>>;
  /** What the standard calls them. */
  readonly names: Readonly<Record<HoleSeries, string>>;
}

/** ISO 273:1979, seen as a table at engineeringhardware.com and in makers' pages that quote it; the rows above M16 from memory. */
const iso273: readonly (readonly [major: string, fine: string, medium: string, coarse: string, seen: boolean])[] = [
  ["2", "2.2", "2.4", "2.6", true],
  ["2.5", "2.7", "2.9", "3.1", true],
  ["3", "3.2", "3.4", "3.6", true],
  ["3.5", "3.7", "3.9", "4.2", true],
  ["4", "4.3", "4.5", "4.8", true],
  ["5", "5.3", "5.5", "5.8", true],
  ["6", "6.4", "6.6", "7", true],
  ["7", "7.4", "7.6", "8", true],
  ["8", "8.4", "9", "10", true],
  ["10", "10.5", "11", "12", true],
  ["12", "13", "13.5", "14.5", true],
  ["14", "15", "15.5", "16.5", true],
  ["16", "17", "17.5", "18.5", true],
  ["18", "19", "20", "21", false],
  ["20", "21", "22", "24", false],
  ["22", "23", "24", "26", false],
  ["24", "25", "26", "28", false],
];

/**
 * What a hole is larger than an inch bolt, close, normal and loose: ASME B18.2.8-1999, seen in Machinery's Handbook 31, p. 1741, and in merchants' charts after it.
 * A size that the standard has not got (9/16, 11/16) takes the row of the next larger one, and is from memory.
 */
const inchOver: readonly (readonly [upTo: string, fine: string, medium: string, coarse: string])[] = [
  ["0.4375", "1/64", "1/32", "3/64"],
  ["0.625", "1/32", "1/16", "7/64"],
  ["0.875", "1/32", "1/16", "5/32"],
  ["1", "1/32", "3/32", "5/32"],
];
const inStandard: ReadonlySet<string> = new Set(["1/4", "5/16", "3/8", "7/16", "1/2", "5/8", "3/4", "7/8", "1"]);

/** Undefined for a thread that the tables do not know a hole for: BA, pipe, and large ones. */
export function clearanceHole(thread: Thread): ClearanceHole | undefined {
  if (thread.family === "M") {
    const row = iso273.find(([major]) => compare(figure(major), thread.majorMm) === 0);
    if (row === undefined) return undefined;
    const [, fine, medium, coarse, seen] = row;
    return {
      mm: { fine: figure(fine), medium: figure(medium), coarse: figure(coarse) },
      names: { fine: "fine", medium: "medium", coarse: "coarse" },
      source: "ISO 273",
      mark: seen ? "table" : "memory",
    };
  }
  const inches = thread.majorMm.div(figure("25.4"));
  if (!bolts.has(thread.family) || compare(inches, figure("0.25")) < 0) return undefined;
  const row = inchOver.find(([upTo]) => compare(inches, figure(upTo)) <= 0);
  if (row === undefined) return undefined;
  const [, fine, medium, coarse] = row;
  const mm = (over: string) => inches.add(figure(over)).mul(figure("25.4"));
  return {
    mm: { fine: mm(fine), medium: mm(medium), coarse: mm(coarse) },
    names: { fine: "close", medium: "normal", coarse: "loose" },
    source: "common practice for inch bolts, as ASME B18.2.8",
    mark: inStandard.has(thread.size) ? "table" : "memory",
  };
}

const bolts: ReadonlySet<string> = new Set(["UNC", "UNF", "UNEF", "UNS", "BSW", "BSF", "BSC"]);
