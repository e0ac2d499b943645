// The units of a sheet: spellings, what each measures, and its exact worth in the base unit of its dimension.
// Invariant: one row a unit, each with its source. A spelling that means two things is never given one of them.
import { type Exact, zero } from "./exact.ts";
import { editDistance } from "./spelling.ts";
import { type Dimension, type Row, rows } from "./unit-table.ts";

export type { Dimension } from "./unit-table.ts";

export interface Unit {
  /** The spelling that a sheet is best written in. */
  readonly name: string;
  readonly dimension: Dimension;
  /** Worth of one in the base unit: mm, deg, N, N.m, g, ml, Pa, K, s, km/h, rpm, W, 1. */
  readonly factor: Exact;
  /** For degC and degF: base = figure × factor + offset. A difference of temperatures has no offset. */
  readonly offset?: Exact;
  /** As written. */
  readonly spelling: string;
  /** Its factor holds a number that no ratio is exactly equal to (the rad). */
  readonly inexact?: true;
  readonly source: string;
}

/** The unit in which each dimension is worked out. */
export const baseOf: Readonly<Record<Dimension, string>> = {
  length: "mm",
  angle: "deg",
  force: "N",
  torque: "N.m",
  mass: "g",
  volume: "ml",
  pressure: "Pa",
  temperature: "K",
  time: "s",
  speed: "km/h",
  rotation: "rpm",
  power: "W",
  ratio: "",
  count: "",
};

const rowOf = new Map<string, Row>();
const bench = new Set<string>();
for (const row of rows)
  for (const spelling of row.spellings.split(" ")) {
    rowOf.set(spelling, row);
    if (row.bench) bench.add(spelling);
  }

const met = new Map<string, Unit>();

/** The unit of a spelling; undefined where it is none, or means two things. Capitals count: `Nm` is a torque, `nm` is nothing here. */
export function unitOf(spelling: string): Unit | undefined {
  const known = met.get(spelling);
  if (known !== undefined) return known;
  const row = rowOf.get(spelling);
  if (row === undefined) return undefined;
  const unit: Unit = {
    name: nameOf(row),
    dimension: row.dimension,
    factor: row.factor(),
    ...(row.offset === undefined ? {} : { offset: row.offset() }),
    spelling,
    ...(row.inexact === undefined ? {} : { inexact: row.inexact }),
    source: row.source,
  };
  met.set(spelling, unit);
  return unit;
}

function nameOf(row: Row): string {
  return row.spellings.slice(0, `${row.spellings} `.indexOf(" "));
}

/** The units of a sheet by what they measure, each by its name: for what is written about the language. */
export function unitsByMeasure(): ReadonlyMap<Dimension, readonly string[]> {
  const out = new Map<Dimension, string[]>();
  for (const row of rows) if (!row.bench) out.set(row.dimension, [...(out.get(row.dimension) ?? []), nameOf(row)]);
  return out;
}

/** Whether a word behind a figure is a unit's spelling in a sheet, also where it means two things. */
export function isUnitSpelling(word: string): boolean {
  return (rowOf.has(word) && !bench.has(word)) || ambiguous.has(word);
}

const pint = ["us.pt", "imp.pt"];
const quart = ["us.qt", "imp.qt"];
const gallon = ["us.gal", "imp.gal"];
const fluidOunce = ["us.floz", "imp.floz"];
const ton = ["us.ton", "imp.ton", "t"];
const hundredweight = ["us.cwt", "imp.cwt"];
const mil = ["thou", "mm"];

const ambiguous = new Map<string, readonly string[]>();
for (const [spellings, meanings] of [
  ["pt pts pint pints", pint],
  ["qt qts quart quarts", quart],
  ["gal gals gallon gallons", gallon],
  ["floz fl.oz fl-oz flozs", fluidOunce],
  ["ton tons", ton],
  ["cwt cwts hundredweight", hundredweight],
  ["mil mils", mil],
] as const)
  for (const spelling of spellings.split(" ")) ambiguous.set(spelling, meanings);

const byExpectation: { readonly [dimension in Dimension]?: ReadonlyMap<string, readonly string[]> } = {
  volume: new Map(["oz", "ounce", "ounces"].map((it) => [it, fluidOunce])),
  torque: new Map<string, readonly string[]>([
    ...["lb", "lbs", "lbf", "pound", "pounds"].map((it): [string, readonly string[]] => [it, ["lbf.ft", "lbf.in"]]),
    ...["kg", "kgs", "kgf", "kilo", "kilos"].map((it): [string, readonly string[]] => [it, ["kgf.m", "kgf.cm"]]),
  ]),
};

/**
 * What a spelling may mean, where that is two things: `pt`, `gal`, `ton`, `mil` always; `oz` where a volume is expected, `lb` and `kg` where a torque is.
 * Undefined where it means one thing or nothing.
 */
export function ambiguousUnit(spelling: string, expected?: Dimension): { readonly spelling: string; readonly meanings: string[] } | undefined {
  const meanings = ambiguous.get(spelling) ?? (expected === undefined ? undefined : byExpectation[expected]?.get(spelling));
  return meanings === undefined ? undefined : { spelling, meanings: [...meanings] };
}

/**
 * The unit whose spelling is nearest, for a fix: capitals and the signs between letters count little, letters up to two (one in a short word).
 * Undefined where none is near, or where the word is ambiguous.
 */
export function nearestUnit(spelling: string, expected?: Dimension): Unit | undefined {
  if (ambiguous.has(spelling) || spelling === "" || spelling.length > 20) return undefined;
  const plain = letters(spelling);
  const most = plain.length < 4 ? 1 : 2;
  let best: Row | undefined;
  let least = most + 1;
  for (const [other, row] of rowOf) {
    if (bench.has(other) || (expected !== undefined && row.dimension !== expected)) continue;
    const plainOther = letters(other);
    const distance = plain !== "" && plainOther === plain ? 0.5 : editDistance(spelling.toLowerCase(), other.toLowerCase(), most);
    // A single letter is one edit away from every other letter: nothing is near it but its own capital.
    if (distance < least && (distance < plain.length || distance === 0)) {
      best = row;
      least = distance;
    }
  }
  return best === undefined ? undefined : unitOf(nameOf(best));
}

function letters(spelling: string): string {
  return spelling.toLowerCase().replace(/[^a-z%\u00b5\u03bc\u00b0]/g, "");
}

/** Base value of a figure in a unit: figure × factor + offset. */
export function toBase(value: Exact, unit: Unit): Exact {
  const scaled = value.mul(unit.factor);
  return unit.offset === undefined ? scaled : scaled.add(unit.offset);
}

/** The figure that a base value has in a unit. */
export function fromBase(value: Exact, unit: Unit): Exact {
  return value.sub(unit.offset ?? zero).div(unit.factor);
}
