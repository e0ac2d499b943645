// Limits and fits: ISO 286 tolerance grades IT5 to IT11 and deviations of f g h k m n p s (and H for holes) up to 120 mm.
// Invariant: the table decides, never the formula behind it; ranges are “over … up to and including”. What is not in the table is undefined.
import { type Exact, compare, figure, plainText, ratio, zero } from "../quantities/exact.ts";
import type { Measured } from "../quantities/quantity.ts";
import type { Band } from "../quantities/range.ts";
import type { Mark, Sourced } from "./source.ts";

interface Size {
  /** mm, up to and including; over what the row before it ends with. */
  readonly to: number;
  /** IT5 … IT11 in µm. */
  readonly grades: readonly number[];
  /** Upper deviation es of a shaft in µm. */
  readonly f: number;
  readonly g: number;
  /** Lower deviation ei of a shaft in µm; k for IT4 to IT7, 0 above. */
  readonly k: number;
  readonly m: number;
  readonly n: number;
  readonly p: number;
  /** s by its finer ranges: up to and including, ei. */
  readonly s: readonly (readonly [to: number, ei: number])[];
  readonly markOfFgk: Mark;
}

/** ISO 286-1 table 1 (grades), tables 4 and 5 (deviations). h is 0 throughout. */
const sizes: readonly Size[] = [
  { to: 3, grades: [4, 6, 10, 14, 25, 40, 60], f: -6, g: -2, k: 0, m: 2, n: 4, p: 6, s: [[3, 14]], markOfFgk: "table" },
  { to: 6, grades: [5, 8, 12, 18, 30, 48, 75], f: -10, g: -4, k: 1, m: 4, n: 8, p: 12, s: [[6, 19]], markOfFgk: "table" },
  { to: 10, grades: [6, 9, 15, 22, 36, 58, 90], f: -13, g: -5, k: 1, m: 6, n: 10, p: 15, s: [[10, 23]], markOfFgk: "table" },
  { to: 18, grades: [8, 11, 18, 27, 43, 70, 110], f: -16, g: -6, k: 1, m: 7, n: 12, p: 18, s: [[18, 28]], markOfFgk: "table" },
  { to: 30, grades: [9, 13, 21, 33, 52, 84, 130], f: -20, g: -7, k: 2, m: 8, n: 15, p: 22, s: [[30, 35]], markOfFgk: "table" },
  { to: 50, grades: [11, 16, 25, 39, 62, 100, 160], f: -25, g: -9, k: 2, m: 9, n: 17, p: 26, s: [[50, 43]], markOfFgk: "table" },
  {
    to: 80,
    grades: [13, 19, 30, 46, 74, 120, 190],
    f: -30,
    g: -10,
    k: 2,
    m: 11,
    n: 20,
    p: 32,
    s: [
      [65, 53],
      [80, 59],
    ],
    markOfFgk: "table",
  },
  {
    to: 120,
    grades: [15, 22, 35, 54, 87, 140, 220],
    f: -36,
    g: -12,
    k: 3,
    m: 13,
    n: 23,
    p: 37,
    s: [
      [100, 71],
      [120, 79],
    ],
    markOfFgk: "memory",
  },
];

export interface Tolerance extends Sourced {
  /** Deviations from the nominal size in µm. */
  readonly lower: number;
  readonly upper: number;
  readonly hole: boolean;
  /** The IT number. */
  readonly grade: number;
  /** Nominal in mm. */
  readonly nominal: Exact;
  /** `H7` */
  readonly code: string;
}

/** The tolerance grade in µm for a nominal size in mm: `itGrade(10 mm, 7)` is 15. Undefined outside IT5 … IT11 and over 0 … 120 mm. */
export function itGrade(nominal: Exact, grade: number): number | undefined {
  return sizeOf(nominal)?.grades[grade - 5];
}

/**
 * The deviations of a fit code at a nominal size in mm: H for a hole, f g h k m n p s for a shaft. Undefined where the table has none
 * (another letter, a grade outside IT5 … IT11, a size over 120 mm).
 */
export function tolerance(nominal: Exact, code: string): Tolerance | undefined {
  const found = /^([A-Za-z])(\d{1,2})$/.exec(code);
  const size = sizeOf(nominal);
  if (found === null || size === undefined) return undefined;
  const letter = found[1] as string;
  const grade = Number(found[2]);
  const it = size.grades[grade - 5];
  if (it === undefined) return undefined;
  const whole = { grade, nominal, code };
  const sourced = { source: "ISO 286-1 tables 1, 4 and 5", mark: "table" as Mark };
  const fgk = { ...sourced, mark: size.markOfFgk };
  switch (letter) {
    case "H":
      return { ...whole, ...sourced, lower: 0, upper: it, hole: true };
    case "h":
      return { ...whole, ...sourced, lower: -it, upper: 0, hole: false };
    case "f":
    case "g":
      return { ...whole, ...fgk, lower: size[letter] - it, upper: size[letter], hole: false };
    case "k": {
      const ei = grade <= 7 ? size.k : 0;
      return { ...whole, ...fgk, lower: ei, upper: ei + it, hole: false };
    }
    case "m":
    case "n":
    case "p":
      return { ...whole, ...sourced, lower: size[letter], upper: size[letter] + it, hole: false };
    case "s": {
      const ei = size.s.find(([to]) => compare(nominal, ratio(to)) <= 0)?.[1];
      return ei === undefined ? undefined : { ...whole, ...sourced, lower: ei, upper: ei + it, hole: false };
    }
    default:
      return undefined;
  }
}

/** The band that a nominal size with a fit code allows: `25 H7 mm` is 25 .. 25.021 mm. Undefined where the table has none. */
export function fitBand(nominal: Measured, code: string): Band | undefined {
  if (nominal.unit.dimension !== "length") return undefined;
  const found = tolerance(nominal.value, code);
  if (found === undefined) return undefined;
  return {
    low: nominal.value.add(ratio(found.lower, 1000)),
    high: nominal.value.add(ratio(found.upper, 1000)),
    unit: nominal.unit,
    text: `${nominal.figure} ${code} ${nominal.unit.spelling}`,
  };
}

export interface Pairing extends Sourced {
  readonly hole: Tolerance;
  readonly shaft: Tolerance;
  /** Clearance in µm; negative is interference. */
  readonly least: number;
  readonly most: number;
  readonly kind: "clearance" | "transition" | "interference";
}

/** A hole and a shaft of one nominal size in mm: `pairing(25, "H7", "g6")` has 7 to 41 µm clearance. */
export function pairing(nominal: Exact, holeCode: string, shaftCode: string): Pairing | undefined {
  const hole = tolerance(nominal, holeCode);
  const shaft = tolerance(nominal, shaftCode);
  if (hole === undefined || shaft === undefined || !hole.hole || shaft.hole) return undefined;
  const least = hole.lower - shaft.upper;
  const most = hole.upper - shaft.lower;
  const kind = least >= 0 ? "clearance" : most <= 0 ? "interference" : "transition";
  return { hole, shaft, least, most, kind, source: shaft.source, mark: shaft.mark };
}

/** `25.000 .. 25.021 mm` of a tolerance, in mm. */
export function limitsOf(it: Tolerance): { readonly low: Exact; readonly high: Exact; readonly text: string } {
  const low = it.nominal.add(ratio(it.lower, 1000));
  const high = it.nominal.add(ratio(it.upper, 1000));
  return { low, high, text: `${plainText(low)} .. ${plainText(high)} mm` };
}

const largest = figure("120");

function sizeOf(nominal: Exact): Size | undefined {
  if (compare(nominal, zero) <= 0 || compare(nominal, largest) > 0) return undefined;
  return sizes.find((size) => compare(nominal, ratio(size.to)) <= 0);
}
