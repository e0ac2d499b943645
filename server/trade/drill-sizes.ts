// Drills by number and letter, and by fractions of an inch: what each measures, and which is nearest to a size.
// Invariant: data as the standard has it; every diameter in inches.
import { type Exact, compare, exact, figure, ratio } from "../quantities/exact.ts";
import type { Sourced } from "./source.ts";

export const drillSource: Sourced = { source: "ASME B94.11M, number and letter drills", mark: "table" };

/** No. 1 to 80, inches. */
const numbers = (
  "0.2280 0.2210 0.2130 0.2090 0.2055 0.2040 0.2010 0.1990 0.1960 0.1935 0.1910 0.1890 0.1850 0.1820 0.1800 0.1770 0.1730 0.1695 0.1660 0.1610 " +
  "0.1590 0.1570 0.1540 0.1520 0.1495 0.1470 0.1440 0.1405 0.1360 0.1285 0.1200 0.1160 0.1130 0.1110 0.1100 0.1065 0.1040 0.1015 0.0995 0.0980 " +
  "0.0960 0.0935 0.0890 0.0860 0.0820 0.0810 0.0785 0.0760 0.0730 0.0700 0.0670 0.0635 0.0595 0.0550 0.0520 0.0465 0.0430 0.0420 0.0410 0.0400 " +
  "0.0390 0.0380 0.0370 0.0360 0.0350 0.0330 0.0320 0.0310 0.0292 0.0280 0.0260 0.0250 0.0240 0.0225 0.0210 0.0200 0.0180 0.0160 0.0145 0.0135"
).split(" ");

/** A to Z, inches. */
const letters =
  "0.234 0.238 0.242 0.246 0.250 0.257 0.261 0.266 0.272 0.277 0.281 0.290 0.295 0.302 0.316 0.323 0.332 0.339 0.348 0.358 0.368 0.377 0.386 0.397 0.404 0.413".split(
    " ",
  );

export interface NamedDrill {
  /** `#7`, `F`, `27/64 in`. */
  readonly name: string;
  readonly inches: Exact;
}

/** `#7`, `7` after a hash or No., `F`, `27/64`. Undefined where there is no such drill. */
export function drillNamed(written: string): NamedDrill | undefined {
  const number = /^#(\d{1,2})$/.exec(written)?.[1];
  if (number !== undefined) {
    const size = numbers[Number(number) - 1];
    return size === undefined ? undefined : { name: `#${Number(number)}`, inches: figure(size) };
  }
  if (/^[A-Z]$/i.test(written)) {
    const size = letters[written.toUpperCase().charCodeAt(0) - 65];
    return size === undefined ? undefined : { name: written.toUpperCase(), inches: figure(size) };
  }
  const inches = exact(written);
  return inches === undefined || inches.n === 0n ? undefined : { name: `${written} in`, inches };
}

/** The number or letter drill, and the sixty-fourth, nearest to a size in inches; each undefined where the size is outside of them. */
export function nearestDrills(inches: Exact): { readonly named?: NamedDrill; readonly fraction?: NamedDrill } {
  const all = [
    ...numbers.map((size, i) => ({ name: `#${i + 1}`, inches: figure(size) })),
    ...letters.map((size, i) => ({ name: String.fromCharCode(65 + i), inches: figure(size) })),
  ];
  const off = (it: NamedDrill) => it.inches.sub(inches).abs();
  const best = all.reduce((a, b) => (compare(off(a), off(b)) <= 0 ? a : b));
  const named = compare(inches, figure("0.013")) >= 0 && compare(inches, figure("0.42")) <= 0 ? best : undefined;
  const fraction = compare(inches, ratio(4)) <= 0 ? nearestFraction(inches, 64) : undefined;
  return { ...(named === undefined ? {} : { named }), ...(fraction === undefined ? {} : { fraction }) };
}

/** The nearest fraction of an inch with a denominator up to `most`, in its lowest terms. Undefined for what is nearest to nothing. */
export function nearestFraction(inches: Exact, most: number): NamedDrill | undefined {
  const steps = inches.mul(most).add(ratio(1, 2)).floor();
  if (steps.n === 0n || steps.s < 0n) return undefined;
  const value = steps.div(most);
  const whole = value.n / value.d;
  const top = value.n % value.d;
  const text = top === 0n ? `${whole}` : whole === 0n ? `${top}/${value.d}` : `${whole}-${top}/${value.d}`;
  return { name: `${text} in`, inches: value };
}
