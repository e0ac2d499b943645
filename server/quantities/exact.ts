// Exact numbers: reads a figure as a sheet writes it, compares, adds, and writes decimals.
// Invariant: no binary float. What is read here is a ratio of two whole numbers, and stays one.
import Fraction from "fraction.js";

export type Exact = Fraction;

/** More digits than this are no measurement; the cap keeps a hostile figure from costing time. */
const mostDigits = 40;

const shape = /^([+-]?)(?:(\d+)-(\d+)\/(\d+)|(\d+)\/(\d+)|(\d+)(?:\.(\d+))?|\.(\d+))$/;

const powers: bigint[] = [1n];
for (let i = 1; i <= mostDigits; i++) powers.push((powers[i - 1] as bigint) * 10n);

/**
 * Reads `12`, `0.0125`, `.005`, `5/8`, `1-1/4`, with a `-` or `+` before it.
 * Undefined for anything else: a decimal comma, an exponent, nothing over nothing, more than 40 digits.
 */
export function exact(text: string): Exact | undefined {
  if (text.length > mostDigits + 4) return undefined;
  const found = shape.exec(text);
  if (found === null) return undefined;
  const [, sign, mixedWhole, mixedTop, mixedBottom, top, bottom, whole, decimals, bare] = found;
  let n: bigint;
  let d = 1n;
  if (whole !== undefined) {
    const places = decimals === undefined ? 0 : decimals.length;
    if (whole.length + places > mostDigits) return undefined;
    n = BigInt(decimals === undefined ? whole : whole + decimals);
    d = powers[places] as bigint;
  } else if (bare !== undefined) {
    if (bare.length > mostDigits) return undefined;
    n = BigInt(bare);
    d = powers[bare.length] as bigint;
  } else if (top !== undefined) {
    n = BigInt(top);
    d = BigInt(bottom as string);
  } else {
    d = BigInt(mixedBottom as string);
    n = BigInt(mixedWhole as string) * d + BigInt(mixedTop as string);
  }
  if (d === 0n) return undefined;
  return new Fraction(sign === "-" ? -n : n, d);
}

/** A figure of the code's own, known to be well written. Throws where it isn't, so that a slip in a table fails at once. */
export function figure(text: string): Exact {
  const value = exact(text);
  if (value === undefined) throw new Error(`not a figure: ${text}`);
  return value;
}

/** The ratio of two whole numbers. */
export function ratio(n: bigint | number, d: bigint | number = 1): Exact {
  const known = d === 1 && typeof n === "number" ? counts[n] : undefined;
  return known ?? new Fraction(BigInt(n), BigInt(d));
}

/** Most of what is counted is a few: these are made once. A Fraction does not change. */
const counts: readonly Exact[] = Array.from({ length: 33 }, (_, n) => new Fraction(BigInt(n), 1n));

export const zero: Exact = ratio(0);
export const one: Exact = ratio(1);

/** −1, 0 or 1 as a is less than, equal to or more than b. */
export function compare(a: Exact, b: Exact): -1 | 0 | 1 {
  return signOf(a.s * a.n * b.d - b.s * b.n * a.d);
}

export function isNegative(x: Exact): boolean {
  return x.s < 0n && x.n !== 0n;
}

/** x where it is more than nothing, else nothing. */
export function orNothing(x: Exact): Exact {
  return isNegative(x) ? zero : x;
}

/** All of them together; nothing of none. Added in halves: the denominators stay small for longer than when one sum grows. */
export function sumOf(list: readonly Exact[]): Exact {
  if (list.length < 2) return list[0] ?? zero;
  const middle = list.length >> 1;
  return sumOf(list.slice(0, middle)).add(sumOf(list.slice(middle)));
}

/** The root to the nearest unit in the `places`th decimal, to be shown: what a verdict hangs on is compared as squares. Undefined below zero. */
export function rootTo(squared: Exact, places: number): Exact | undefined {
  if (isNegative(squared)) return undefined;
  const scale = 10n ** BigInt(places);
  // floor(2·root·scale) tells both the digit and the half beyond it.
  const doubled = wholeRoot((4n * squared.n * scale * scale) / squared.d);
  return ratio((doubled + 1n) / 2n, scale);
}

function wholeRoot(n: bigint): bigint {
  if (n < 2n) return n;
  let x = 1n << BigInt((n.toString(2).length + 1) >> 1);
  for (;;) {
    const next = (x + n / x) >> 1n;
    if (next >= x) return x;
    x = next;
  }
}

/** Rounded half to even to so many decimals (IEEE 754 and ISO 80000-1 rule A): `0.0125` to 3 is `0.012`. */
export function decimalText(x: Exact, places: number): string {
  const scaled = x.n * 10n ** BigInt(places);
  let whole = scaled / x.d;
  const twice = (scaled % x.d) * 2n;
  if (twice > x.d || (twice === x.d && whole % 2n === 1n)) whole += 1n;
  const digits = whole.toString().padStart(places + 1, "0");
  const text = places === 0 ? digits : `${digits.slice(0, -places)}.${digits.slice(-places)}`;
  return isNegative(x) && whole !== 0n ? `-${text}` : text;
}

/** The same value rounded half to even to so many decimals. */
export function roundedTo(x: Exact, places: number): Exact {
  const text = decimalText(x, places);
  const n = BigInt(text.replace(".", ""));
  return ratio(n, 10n ** BigInt(places));
}

/** The shortest decimal that is exactly x, where there is one; else 6 significant digits. */
export function plainText(x: Exact): string {
  const places = placesOf(x);
  return places === undefined ? significantText(x, 6) : decimalText(x, places);
}

/** Rounded to so many significant digits, zeros at the end left off. */
export function significantText(x: Exact, digits: number): string {
  if (x.n === 0n) return "0";
  // How many places the first digit stands before (+) or behind (−) the point, give or take one that is put right below.
  let magnitude = x.n.toString().length - x.d.toString().length;
  if (magnitude >= 0 ? x.n < x.d * 10n ** BigInt(magnitude) : x.n * 10n ** BigInt(-magnitude) < x.d) magnitude -= 1;
  const places = digits - 1 - magnitude;
  if (places >= 0) return trimmed(decimalText(x, places));
  const scale = ratio(10n ** BigInt(-places));
  return `${decimalText(x.div(scale), 0)}${"0".repeat(-places)}`;
}

/** Decimals without the zeros at their end. */
export function trimmed(decimal: string): string {
  return decimal.includes(".") ? decimal.replace(/\.?0+$/, "") : decimal;
}

/** How many decimals write x exactly; undefined where none do, or more than 40. */
export function placesOf(x: Exact): number | undefined {
  let d = x.d;
  let twos = 0;
  let fives = 0;
  while (d % 2n === 0n && twos <= mostDigits) {
    d /= 2n;
    twos += 1;
  }
  while (d % 5n === 0n && fives <= mostDigits) {
    d /= 5n;
    fives += 1;
  }
  const places = Math.max(twos, fives);
  return d === 1n && places <= mostDigits ? places : undefined;
}

function signOf(n: bigint): -1 | 0 | 1 {
  return n < 0n ? -1 : n > 0n ? 1 : 0;
}
