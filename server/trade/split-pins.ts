// Which split pin goes through which threaded end, by the thread's family: the same nominal size has different holes in different families.
// Invariant: a thread or size that is not in the tables is not judged. The maker's pin rules over every table here.
import { type Exact, compare, figure, plainText, ratio } from "../quantities/exact.ts";
import type { Sourced } from "./source.ts";
import type { Thread } from "./thread.ts";

/** ASME B18.8.1 extended-prong pins, inches: nominal, shank largest and least, gauge hole. Seen in a public table. */
export const pinSource: Sourced = { source: "ASME B18.8.1", mark: "table" };
export const inchPins: readonly { readonly nominal: string; readonly shankMax: string; readonly shankMin: string; readonly gaugeHole: string }[] = [
  { nominal: "1/16", shankMax: "0.060", shankMin: "0.056", gaugeHole: "0.078" },
  { nominal: "5/64", shankMax: "0.076", shankMin: "0.072", gaugeHole: "0.094" },
  { nominal: "3/32", shankMax: "0.090", shankMin: "0.086", gaugeHole: "0.109" },
  { nominal: "7/64", shankMax: "0.104", shankMin: "0.100", gaugeHole: "0.125" },
  { nominal: "1/8", shankMax: "0.120", shankMin: "0.116", gaugeHole: "0.141" },
  { nominal: "9/64", shankMax: "0.134", shankMin: "0.130", gaugeHole: "0.156" },
  { nominal: "5/32", shankMax: "0.150", shankMin: "0.146", gaugeHole: "0.172" },
  { nominal: "3/16", shankMax: "0.176", shankMin: "0.172", gaugeHole: "0.203" },
  { nominal: "7/32", shankMax: "0.207", shankMin: "0.202", gaugeHole: "0.234" },
  { nominal: "1/4", shankMax: "0.225", shankMin: "0.220", gaugeHole: "0.266" },
  { nominal: "5/16", shankMax: "0.280", shankMin: "0.275", gaugeHole: "0.312" },
];

/** American practice for UNC and UNF: thread, hole, pin, inches. From memory. */
const americanSource: Sourced = { source: "American practice after the appendix of ASME B18.8.1", mark: "memory" };
const american: readonly (readonly [thread: string, hole: string, pin: string])[] = [
  ["1/4", "5/64", "1/16"],
  ["5/16", "5/64", "1/16"],
  ["3/8", "7/64", "3/32"],
  ["7/16", "7/64", "3/32"],
  ["1/2", "9/64", "1/8"],
  ["9/16", "9/64", "1/8"],
  ["5/8", "11/64", "5/32"],
  ["3/4", "11/64", "5/32"],
  ["7/8", "11/64", "5/32"],
  ["1", "13/64", "3/16"],
  ["1-1/8", "13/64", "3/16"],
  ["1-1/4", "15/64", "7/32"],
  ["1-3/8", "15/64", "7/32"],
  ["1-1/2", "17/64", "1/4"],
];

/** Cross-holes in inches (least, largest), the drill in mm. Seen in a public table. */
export interface CrossHole extends Sourced {
  readonly least: string;
  readonly largest: string;
  readonly drillMm: string;
  /** Width of the nut's slots in inches, where the standard was seen to give it. */
  readonly slot?: readonly [least: string, largest: string];
}
const bs1768: Readonly<Record<string, readonly [least: string, largest: string, drill: string]>> = {
  "1/4": ["0.079", "0.084", "2.0"],
  "5/16": ["0.095", "0.100", "2.4"],
  "3/8": ["0.112", "0.117", "2.85"],
  "7/16": ["0.112", "0.117", "2.85"],
  "1/2": ["0.146", "0.152", "3.7"],
  "9/16": ["0.146", "0.152", "3.7"],
  "5/8": ["0.177", "0.184", "4.5"],
  "3/4": ["0.177", "0.184", "4.5"],
};
const bs1083: Readonly<Record<string, readonly [least: string, largest: string, drill: string, slotLeast: string, slotLargest: string]>> = {
  "1/4": ["0.070", "0.075", "1.8", "0.090", "0.100"],
  "5/16": ["0.070", "0.075", "1.8", "0.090", "0.100"],
  "3/8": ["0.070", "0.075", "1.8", "0.090", "0.100"],
  "7/16": ["0.104", "0.110", "2.65", "0.125", "0.135"],
  "1/2": ["0.104", "0.110", "2.65", "0.125", "0.135"],
  "9/16": ["0.136", "0.143", "3.5", "0.165", "0.175"],
  "5/8": ["0.136", "0.143", "3.5", "0.165", "0.175"],
  "3/4": ["0.166", "0.174", "4.2", "0.208", "0.218"],
  "7/8": ["0.166", "0.174", "4.2", "0.208", "0.218"],
};

/** ISO castle nuts: size, pin (diameter × length, mm), slot width in mm. Seen in a public table. */
export const castleSource: Sourced = { source: "DIN 935-1, ISO 7035 and ISO 1234", mark: "table" };
export const castleNuts: readonly (readonly [major: string, pin: string, length: string, slotLeast: string, slotLargest: string])[] = [
  ["4", "1", "10", "1.2", "1.45"],
  ["5", "1.2", "12", "1.4", "1.65"],
  ["6", "1.6", "14", "2", "2.25"],
  ["8", "2", "16", "2.5", "2.75"],
  ["10", "2.5", "20", "2.8", "3.05"],
  ["12", "3.2", "22", "3.5", "3.8"],
  ["14", "3.2", "25", "3.5", "3.8"],
  ["16", "4", "28", "4.5", "4.8"],
  ["18", "4", "32", "4.5", "4.8"],
  ["20", "4", "36", "4.5", "4.8"],
  ["22", "5", "36", "5.5", "5.8"],
];

/** ISO 1234: nominal pin, for bolts over and up to, mm. From memory. The nominal size is the diameter of the hole. */
const isoSource: Sourced = { source: "ISO 1234 table 1", mark: "memory" };
export const isoPins: readonly (readonly [pin: string, over: string, to: string])[] = [
  ["0.6", "0", "2.5"],
  ["0.8", "2.5", "3.5"],
  ["1", "3.5", "4.5"],
  ["1.2", "4.5", "5.5"],
  ["1.6", "5.5", "7"],
  ["2", "7", "9"],
  ["2.5", "9", "11"],
  ["3.2", "11", "14"],
  ["4", "14", "20"],
  ["5", "20", "27"],
  ["6.3", "27", "39"],
  ["8", "39", "56"],
  ["10", "56", "80"],
  ["13", "80", "120"],
];

export interface SuitablePin extends Sourced {
  /** As it is written on a sheet. */
  readonly pin: { readonly figure: string; readonly unit: "in" | "mm"; readonly mm: Exact };
  /** The cross-hole as the table has it: `9/64 in`, `0.104 .. 0.110 in`, `3.2 mm`. */
  readonly hole: string;
  /** Usual length for an ISO castle nut, mm. */
  readonly lengthMm?: string;
  /** What the figures rest on, in the words of the trade. */
  readonly practice: string;
}

/** The split pin that is usual through a threaded end. Undefined where the tables have none for it. */
export function suitablePin(thread: Thread): SuitablePin | undefined {
  switch (thread.family) {
    case "UNC":
    case "UNF": {
      const row = american.find(([size]) => size === thread.size);
      return row === undefined ? undefined : { pin: inches(row[2]), hole: `${row[1]} in`, practice: "American practice, from memory", ...americanSource };
    }
    case "BSW":
    case "BSF": {
      const hole = bs1083[thread.size];
      const pin = hole === undefined ? undefined : largestThrough(figure(hole[1]));
      if (hole === undefined || pin === undefined) return undefined;
      return {
        pin: inches(pin),
        hole: `${hole[0]} .. ${hole[1]} in`,
        practice: "the hole of BS 1083",
        source: "hole: BS 1083 tables 1 and 3; pin: the largest of ASME B18.8.1 that goes by it",
        mark: "computed",
      };
    }
    case "M": {
      const castle = castleNuts.find(([major]) => `M${major}` === thread.size);
      if (castle !== undefined)
        return { pin: millimetres(castle[1]), hole: `${castle[1]} mm`, lengthMm: castle[2], practice: "ISO castle nuts", ...castleSource };
      const row = isoPins.find(([, over, to]) => compare(thread.majorMm, figure(over)) > 0 && compare(thread.majorMm, figure(to)) <= 0);
      return row === undefined ? undefined : { pin: millimetres(row[0]), hole: `${row[0]} mm`, practice: "ISO 1234, from memory", ...isoSource };
    }
    default:
      return undefined;
  }
}

/** The cross-hole of BS 1768 (UNC, UNF) or BS 1083 (BSW, BSF). Undefined where the tables have none. */
export function crossHole(thread: Thread): CrossHole | undefined {
  if (thread.family === "UNC" || thread.family === "UNF") {
    const row = bs1768[thread.size];
    return row === undefined ? undefined : { least: row[0], largest: row[1], drillMm: row[2], source: "BS 1768 table 1", mark: "table" };
  }
  if (thread.family === "BSW" || thread.family === "BSF") {
    const row = bs1083[thread.size];
    return row === undefined
      ? undefined
      : { least: row[0], largest: row[1], drillMm: row[2], slot: [row[3], row[4]], source: "BS 1083 tables 1 and 3", mark: "table" };
  }
  return undefined;
}

export interface PinVerdict extends Sourced {
  readonly suits: boolean;
  /** The pin that is usual there. */
  readonly usual: { readonly figure: string; readonly unit: "in" | "mm" };
  /** What is wrong and what is usual, or that it suits; with how sure the table is. */
  readonly sentence: string;
}

/** Whether a split pin of this diameter (mm) suits a thread. Undefined where the tables do not know the thread or its size. */
export function pinSuits(pinDiameter: Exact, thread: Thread): PinVerdict | undefined {
  const suitable = suitablePin(thread);
  if (suitable === undefined) return undefined;
  const { pin, source, mark } = suitable;
  const usual = { figure: pin.figure, unit: pin.unit };
  // Inch and metric pins of one size differ by up to 5 % in name and go by the same hole: 3.2 mm and 1/8 in, 4 mm and 5/32 in, 5 mm and 3/16 in. The next size of either is 11 % away.
  const apart = pinDiameter.sub(pin.mm).div(pin.mm);
  const suits = compare(apart.abs(), ratio(5, 100)) <= 0;
  const written = pinText(pinDiameter, pin.unit);
  const tail = `For ${thread.designation} ${pin.figure} ${pin.unit} is usual (hole ${suitable.hole}; ${suitable.practice}). The maker's pin rules.`;
  const sentence = suits ? `A ${written} split pin suits. ${tail}` : `A ${written} split pin is too ${apart.s < 0n ? "thin" : "thick"} here. ${tail}`;
  return { suits, usual, sentence, source, mark };
}

/**
 * What is said of a pin (its diameter in mm) of half the usual thickness or less, which shears; undefined of any other. Of a thread that the tables don't know it is a twelfth of the thread's diameter: the thinnest
 * that ISO 1234 has is a quarter of the bolt at M6, a sixth at M36, an eighth at M80 (from memory, as the table above).
 */
export function farTooThin(pinDiameter: Exact, thread: Thread): string | undefined {
  const suitable = suitablePin(thread);
  const least = suitable === undefined ? thread.majorMm.div(12) : suitable.pin.mm.div(2);
  if (compare(pinDiameter, least) > 0 || (suitable === undefined && compare(thread.majorMm, figure("64")) > 0)) return undefined;
  const written = pinText(pinDiameter, suitable?.pin.unit ?? (thread.tpi === undefined ? "mm" : "in"));
  return suitable === undefined
    ? `A ${written} split pin is too thin here: under a twelfth of ${thread.designation}. The maker's pin rules.`
    : `A ${written} split pin is half of what is usual here, or less.`;
}

function inches(text: string): SuitablePin["pin"] {
  return { figure: text, unit: "in", mm: figure(text).mul(figure("25.4")) };
}

function millimetres(text: string): SuitablePin["pin"] {
  return { figure: text, unit: "mm", mm: figure(text) };
}

/** British practice: a pin goes by the hole's largest size; ASME B18.8.1 asks 1/64 in more than nominal, which no pin below 3/32 leaves room for. */
function largestThrough(holeLargest: Exact): string | undefined {
  const fits = inchPins.filter((it) => compare(figure(it.gaugeHole), holeLargest) <= 0);
  if (fits.length > 0) return (fits[fits.length - 1] as { nominal: string }).nominal;
  // The smallest pin's gauge hole is wider than the smallest cross-hole, but its shank goes through.
  const smallest = inchPins[0];
  return smallest !== undefined && compare(figure(smallest.nominal), holeLargest) < 0 ? smallest.nominal : undefined;
}

/** A diameter as the trade says it: sixty-fourths of an inch where it is a whole number of them and the table is in inches, else the unit's decimals. */
function pinText(mm: Exact, unit: "in" | "mm"): string {
  const inchesWide = mm.div(figure("25.4"));
  const sixtyFourths = inchesWide.mul(64);
  if (sixtyFourths.d === 1n) {
    const top = sixtyFourths.n;
    if (top % 64n === 0n) return `${top / 64n} in`;
    let n = top;
    let d = 64n;
    while (n % 2n === 0n) {
      n /= 2n;
      d /= 2n;
    }
    return n < d ? `${n}/${d} in` : `${n / d}-${n % d}/${d} in`;
  }
  const asMm = plainText(mm);
  if (unit === "mm" || asMm.length <= 4) return `${asMm} mm`;
  return `${plainText(inchesWide.round(4))} in`;
}
