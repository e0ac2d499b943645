// A measured quantity: a figure and its unit, worth so much in the base unit; and how it is shown in its own and in the other system.
// Invariant: conversions are exact; only what is shown is rounded.
import { type Exact, compare, decimalText, exact, ratio, trimmed } from "./exact.ts";
import { type Unit, fromBase, toBase, unitOf } from "./units.ts";

export interface Measured {
  /** In the base unit of its dimension. Temperatures are absolute, in K. */
  readonly value: Exact;
  readonly unit: Unit;
  /** As written. */
  readonly figure: string;
  /** Decimal places as written; −1 for a fraction. */
  readonly places: number;
}

/** Undefined where the figure can't be read, or the unit is none or means two things. */
export function quantity(figureText: string, unitSpelling: string): Measured | undefined {
  const unit = unitOf(unitSpelling);
  if (unit === undefined) return undefined;
  const figure = exact(figureText);
  if (figure === undefined) return undefined;
  return { value: toBase(figure, unit), unit, figure: figureText, places: placesWritten(figureText) };
}

/** Decimal places of a figure as written: 3 of `0.015`, 0 of `12`, −1 of `5/8`. */
export function placesWritten(figureText: string): number {
  if (figureText.includes("/")) return -1;
  const point = figureText.indexOf(".");
  return point < 0 ? 0 : figureText.length - point - 1;
}

/** The figure in another unit of the same dimension. */
export function inUnit(m: Measured, unit: Unit): Exact {
  return fromBase(m.value, unit);
}

/** What it is worth as a difference, in base units: `5 degF` more is 25/9 K more. The same as its value for all but degC and degF. */
export function asDifference(m: Measured): Exact {
  return m.unit.offset === undefined ? m.value : m.value.sub(m.unit.offset);
}

/**
 * A base value as the writer would put it: in that unit, with the places that the readings had, and up to two more where it falls between (a mean).
 * `places` −1 (a fraction was written) shows up to four decimals.
 */
export function sameUnitText(value: Exact, unit: Unit, places: number): string {
  return `${placedText(fromBase(value, unit), places)} ${unit.spelling}`;
}

/** A mean, with one place more than its figures were written with: further ones say nothing that the gauge saw. Shown only: what is judged is judged exactly. */
export function meanText(value: Exact, unit: Unit, places: number): string {
  const own = fromBase(value, unit);
  const text = placedText(own, places);
  if (places < 0 || fractionLength(text) <= places + 1) return `${text} ${unit.spelling}`;
  return `${decimalText(own, places + 1)} ${unit.spelling}`;
}

function fractionLength(text: string): number {
  const point = text.indexOf(".");
  return point < 0 ? 0 : text.length - point - 1;
}

/** The same for a difference (a span, an uncertainty): an offset is left out. */
export function differenceText(value: Exact, unit: Unit, places: number): string {
  return `${placedText(value.div(unit.factor), places)} ${unit.spelling}`;
}

function placedText(x: Exact, places: number): string {
  if (places < 0) return trimmed(decimalText(x, 4));
  const finer = decimalText(x, places + 2);
  // Zeros beyond the writer's places say nothing.
  return finer.endsWith("00") ? decimalText(x, places) : finer.endsWith("0") ? finer.slice(0, -1) : finer;
}

/** As written, with the other system's figure beside it: `0.015 in (0.381 mm)`. As written alone where there is none. */
export function bothSystems(m: Measured): string {
  const own = `${m.figure}${m.unit.spelling === "%" || m.unit.spelling.startsWith("\u00b0") ? "" : " "}${m.unit.spelling}`;
  const others = otherSystem(m);
  return others.length === 0 ? own : `${own} (${others.join(", ")})`;
}

/** The figure in the unit or units of the other system, each with its unit; one place more than the figure as written can tell. */
export function otherSystem(m: Measured): string[] {
  return (partners[m.unit.name] ?? []).map((name) => {
    const unit = unitOf(name) as Unit;
    return `${trimmed(decimalText(inUnit(m, unit), placesFor(m, unit)))} ${unit.name}`;
  });
}

/** So many places that the last is at most a tenth of the last place written. */
function placesFor(m: Measured, unit: Unit): number {
  const step = m.places < 0 ? ratio(1, 1000) : ratio(1n, 10n ** BigInt(Math.min(m.places, 12)));
  const finest = step.mul(m.unit.factor).div(unit.factor).div(10);
  let places = 0;
  for (let it = ratio(1); places < 15 && compare(it, finest) > 0; it = it.div(10)) places += 1;
  return places;
}

/** Metric volumes have two others; each is named, for neither can be guessed. */
const partners: Readonly<Record<string, readonly string[]>> = {
  in: ["mm"],
  thou: ["mm"],
  ft: ["m"],
  yd: ["m"],
  mi: ["km"],
  um: ["in"],
  mm: ["in"],
  cm: ["in"],
  m: ["ft"],
  km: ["mi"],
  rad: ["deg"],
  lbf: ["N"],
  kgf: ["N"],
  N: ["lbf"],
  kN: ["lbf"],
  "lbf.ft": ["N.m"],
  "lbf.in": ["N.m"],
  "ozf.in": ["N.m"],
  "kgf.m": ["N.m"],
  "kgf.cm": ["N.m"],
  "N.m": ["lbf.ft"],
  g: ["oz"],
  kg: ["lb"],
  t: ["lb"],
  lb: ["kg"],
  oz: ["g"],
  "us.ton": ["kg"],
  "imp.ton": ["kg"],
  "us.cwt": ["kg"],
  "imp.cwt": ["kg"],
  stone: ["kg"],
  ml: ["us.floz", "imp.floz"],
  cc: ["us.floz", "imp.floz"],
  l: ["us.gal", "imp.gal"],
  "us.floz": ["ml"],
  "us.pt": ["l"],
  "us.qt": ["l"],
  "us.gal": ["l"],
  "imp.floz": ["ml"],
  "imp.pt": ["l"],
  "imp.qt": ["l"],
  "imp.gal": ["l"],
  "cu.in": ["cc"],
  psi: ["kPa"],
  bar: ["psi"],
  kPa: ["psi"],
  MPa: ["psi"],
  mbar: ["inHg"],
  inHg: ["kPa"],
  mmHg: ["kPa"],
  ksi: ["MPa"],
  "kgf/cm2": ["kPa"],
  degC: ["degF"],
  degF: ["degC"],
  K: ["degC"],
  mph: ["km/h"],
  "km/h": ["mph"],
  hp: ["kW"],
  kW: ["hp"],
};
