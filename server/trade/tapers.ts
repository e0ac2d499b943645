// Tapers by name: how much on the diameter over a length, the angle that follows, and the ends where tables give them.
// Invariant: the angle is worked out from the taper, never typed in.
import { type Exact, figure, ratio } from "../quantities/exact.ts";
import type { Mark, Sourced } from "./source.ts";

export interface Taper extends Sourced {
  readonly name: string;
  /** How it is asked for. */
  readonly shape: RegExp;
  /** On the diameter, for one of length. */
  readonly rate: Exact;
  /** Named diameters in inches. */
  readonly ends: readonly (readonly [name: string, inches: Exact])[];
}

/** Taper per foot, the socket's large end and the plug's small end, inches. */
const morse: readonly (readonly [perFoot: string, socketEnd: string, plugSmallEnd: string, mark: Mark])[] = [
  ["0.62460", "0.3561", "0.252", "memory"],
  ["0.59858", "0.475", "0.369", "table"],
  ["0.59941", "0.700", "0.572", "table"],
  ["0.60235", "0.938", "0.778", "memory"],
  ["0.62326", "1.231", "1.020", "memory"],
  ["0.63151", "1.748", "1.475", "memory"],
  ["0.62565", "2.494", "2.116", "table"],
  ["0.62400", "3.270", "2.750", "memory"],
];

/** Number, taper per foot, large end, small end, inches. */
const jacobs: readonly (readonly [number: string, perFoot: string, large: string, small: string, mark: Mark])[] = [
  ["0", "0.59145", "0.2500", "0.22844", "memory"],
  ["1", "0.92508", "0.3840", "0.33341", "memory"],
  ["2", "0.97861", "0.5590", "0.48764", "table"],
  ["3", "0.63898", "0.8110", "0.74610", "memory"],
  ["4", "0.62886", "1.1240", "1.0372", "memory"],
  ["5", "0.62010", "1.4130", "1.3161", "memory"],
  ["6", "0.62292", "0.6760", "0.6241", "table"],
  ["33", "0.76194", "0.6240", "0.5605", "memory"],
];

/** ISO 297, ANSI B5.10: large end, inches. */
const international: readonly (readonly [number: string, large: string, mark: Mark])[] = [
  ["30", "1.25", "table"],
  ["40", "1.75", "table"],
  ["45", "2.25", "memory"],
  ["50", "2.75", "table"],
  ["60", "4.25", "memory"],
];

const foot = ratio(12);
const whole = (number: string) => `(?:(?:no\\.?|number|#) ?)?${number}`;

export const tapers: readonly Taper[] = [
  ...morse.map(
    ([perFoot, socket, small, mark], i): Taper => ({
      name: `No. ${i} Morse`,
      shape: new RegExp(`\\b(?:${whole(String(i))} (?:morse|MT)|(?:morse|MT)(?: taper)? ?${whole(String(i))})(?![\\d.])(?: tapers?)?`, "i"),
      rate: figure(perFoot).div(foot),
      ends: [
        ["socket's large end", figure(socket)],
        ["plug's small end", figure(small)],
      ],
      source: "Morse tapers, ISO 296 and tables of standard tapers",
      mark,
    }),
  ),
  ...jacobs.map(
    ([number, perFoot, large, small, mark]): Taper => ({
      name: `No. ${number} Jacobs`,
      shape: new RegExp(`\\b(?:${whole(number)} jacobs|(?:jacobs(?: taper)?|JT) ?${whole(number)})(?![\\d.])(?: (?:tapers?|chuck|arbor))*`, "i"),
      rate: figure(perFoot).div(foot),
      ends: [
        ["large end", figure(large)],
        ["small end", figure(small)],
      ],
      source: "Jacobs tapers, tables of standard tapers",
      mark,
    }),
  ),
  ...international.map(
    ([number, large, mark]): Taper => ({
      name: `${number} taper (7:24)`,
      shape: new RegExp(`\\b(?:INT|ISO|BT|CAT|SK|NMTB|NT|international) ?-?${number}(?![\\d.])(?: tapers?)?`, "i"),
      rate: ratio(7, 24),
      ends: [["large end", figure(large)]],
      source: "ISO 297, ANSI B5.10",
      mark,
    }),
  ),
  plain("7:24 (milling spindles)", /(?<![\d.])7 ?(?::|\/|in) ?24(?![\d.])/i, ratio(7, 24), "ISO 297, ANSI B5.10", "table"),
  plain("Jarno", /\bjarno\b/i, figure("0.6").div(foot), "Jarno: 0.600 in to the foot", "table"),
  plain(
    "Brown & Sharpe",
    /\b(?:brown (?:&|and) sharpe?|B ?& ?S)\b/i,
    figure("0.5").div(foot),
    "Brown & Sharpe: 0.500 in to the foot (No. 10: 0.5161)",
    "memory",
  ),
  plain("pipe thread, 1 in 16", /\b(?:tapered?[- ])?pipe(?:[- ]threads?)?\b|\bBSPT\b|\bNPT\b/i, ratio(1, 16), "ISO 7-1, ASME B1.20.1", "table"),
  plain("taper pin, metric, 1 in 50", /\bmetric (?:taper )?pins?\b|\btaper pins?,? metric\b/i, ratio(1, 50), "ISO 2339", "memory"),
  plain(
    "taper pin, inch, 1 in 48",
    /\b(?:inch|imperial|british|american) (?:taper )?pins?\b|\btaper pins?,? (?:inch|imperial|british|american)\b/i,
    ratio(1, 48),
    "BS 46, ASME B18.8.2: 1/4 in to the foot",
    "memory",
  ),
  plain("metric taper, 1 in 20", /\bmetric (?:morse )?tapers?\b/i, ratio(1, 20), "ISO 296", "memory"),
  plain("taper key, 1 in 100", /\b(?:taper(?:ed)?|gib(?:[- ]head(?:ed)?)?) keys?\b|\bkeys? taper\b/i, ratio(1, 100), "BS 46, DIN 6886", "memory"),
];

function plain(name: string, shape: RegExp, rate: Exact, source: string, mark: Mark): Taper {
  return { name, shape, rate, ends: [], source, mark };
}

/** Half of the included angle in degrees, from the rate on the diameter: atan(rate/2). A float, to be shown only. */
export function halfAngleOf(rate: Exact): number {
  return (Math.atan(rate.valueOf() / 2) * 180) / Math.PI;
}

/** The rate on the diameter of a cone with this included angle in degrees: 2·tan(a/2). */
export function rateOf(includedDegrees: number): number {
  return 2 * Math.tan((includedDegrees * Math.PI) / 360);
}
