// The units of a sheet: spellings, what each measures, and its exact worth in the base unit of its dimension.
// Invariant: one row a unit, each with its source. A spelling that means two things is never given one of them.
import { type Exact, figure, ratio, zero } from "./exact.ts";

export type Dimension =
  | "length"
  | "angle"
  | "force"
  | "torque"
  | "mass"
  | "volume"
  | "pressure"
  | "temperature"
  | "time"
  | "speed"
  | "rotation"
  | "power"
  | "ratio"
  | "count";

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

// What the factors are made of is worked out when a unit is first met: a sheet uses a handful of them, and the editor waits for the start.
const inch = once(() => figure("25.4"));
const pound = once(() => figure("453.59237"));
const gravity = once(() => figure("9.80665"));
/** N. */
const poundForce = once(() => pound().mul(gravity()).div(1000));
const usGallon = once(() => cubed(inch()).mul(231).div(1000));
const impGallon = once(() => figure("4546.09"));
/** Pa. */
const psi = once(() => poundForce().div(inch()).div(inch()).mul(1000000));
/**
 * One radian in degrees, 180/π, to 40 digits: an angle in rad is compared with one in deg to a relative 1e-39, which no gauge can tell from exact.
 * Angles in deg and arcmin alone stay exact.
 */
const radian = once(() => figure("57.2957795130823208767981548141051703324"));

const definition = "definition (SI Brochure; NIST SP 811 Appendix B)";
const international = "international yard and pound of 1959 (NIST SP 811 Appendix B)";
const standardGravity = "standard gravity 9.80665 m/s2, 3rd CGPM 1901 (NIST SP 811 Appendix B)";
const usMeasure = "US gallon of 231 cubic inches (NIST SP 811 Appendix B)";
const impMeasure = "imperial gallon of 4.54609 litres (UK Weights and Measures Act 1985; NIST SP 811 Appendix B)";

interface Row {
  readonly dimension: Dimension;
  /** The first is the unit's name. */
  readonly spellings: string;
  readonly factor: () => Exact;
  readonly offset?: () => Exact;
  readonly inexact?: true;
  readonly source: string;
  /** Known at the bench (`splitpin figure`) but not a word of the sheet, so that it takes no name away from a place. */
  readonly bench?: true;
}

const rows: readonly Row[] = [
  { dimension: "length", spellings: "in inch inches ins", factor: inch, source: international },
  { dimension: "length", spellings: "thou thous", factor: () => inch().div(1000), source: international },
  { dimension: "length", spellings: "ft foot feet", factor: () => inch().mul(12), source: international },
  { dimension: "length", spellings: "yd yds yard yards", factor: () => inch().mul(36), source: international },
  { dimension: "length", spellings: "mi mile miles", factor: () => inch().mul(12 * 5280), source: international },
  // Two characters look the same: U+00B5, the micro sign, and U+03BC, the Greek letter.
  { dimension: "length", spellings: "um \u00b5m \u03bcm micron microns", factor: () => ratio(1, 1000), source: definition },
  { dimension: "length", spellings: "mm millimetre millimetres millimeter millimeters", factor: () => ratio(1), source: definition },
  { dimension: "length", spellings: "cm centimetre centimetres centimeter centimeters", factor: () => ratio(10), source: definition },
  { dimension: "length", spellings: "m metre metres meter meters", factor: () => ratio(1000), source: definition },
  { dimension: "length", spellings: "km kilometre kilometres kilometer kilometers kms", factor: () => ratio(1000000), source: definition },

  { dimension: "angle", spellings: "deg \u00b0 degree degrees degs", factor: () => ratio(1), source: definition },
  { dimension: "angle", spellings: "arcmin arcmins", factor: () => ratio(1, 60), source: definition },
  { dimension: "angle", spellings: "rad radian radians", factor: radian, inexact: true, source: "definition, 180/\u03c0 degrees to 40 digits" },

  { dimension: "force", spellings: "lbf", factor: poundForce, source: standardGravity },
  { dimension: "force", spellings: "kgf", factor: gravity, source: standardGravity },
  { dimension: "force", spellings: "N newton newtons", factor: () => ratio(1), source: definition },
  { dimension: "force", spellings: "kN", factor: () => ratio(1000), source: definition },

  {
    dimension: "torque",
    spellings:
      "lbf.ft lb.ft ft.lb ft.lbf lbf-ft lb-ft ft-lb ft-lbf lbf\u00b7ft lb\u00b7ft ft\u00b7lb ft\u00b7lbf lbs.ft ft.lbs ft-lbs lbs-ft ft\u00b7lbs lbft ftlb ftlbs lbfft ftlbf",
    factor: () => poundForce().mul(inch()).mul(12).div(1000),
    source: standardGravity,
  },
  {
    dimension: "torque",
    spellings:
      "lbf.in lb.in in.lb in.lbf lbf-in lb-in in-lb in-lbf lbf\u00b7in lb\u00b7in in\u00b7lb in\u00b7lbf lbs.in in.lbs in-lbs lbs-in in\u00b7lbs lbin inlb inlbs lbfin inlbf",
    factor: () => poundForce().mul(inch()).div(1000),
    source: standardGravity,
  },
  {
    dimension: "torque",
    spellings: "ozf.in oz.in in.oz in.ozf ozf-in oz-in in-oz in-ozf ozf\u00b7in oz\u00b7in in\u00b7oz in\u00b7ozf",
    factor: () => poundForce().div(16).mul(inch()).div(1000),
    source: standardGravity,
  },
  {
    dimension: "torque",
    spellings: "kgf.m kg.m kgf-m kg-m kgf\u00b7m kg\u00b7m m.kg m.kgf m-kg m\u00b7kg kgm mkg kgfm mkgf",
    factor: gravity,
    source: standardGravity,
  },
  {
    dimension: "torque",
    spellings: "kgf.cm kg.cm kgf-cm kg-cm kgf\u00b7cm kg\u00b7cm cm.kg cm.kgf cm-kg cm\u00b7kg kgcm cmkg kgfcm",
    factor: () => gravity().div(100),
    source: standardGravity,
  },
  { dimension: "torque", spellings: "N.m Nm N\u00b7m N-m N\u22c5m", factor: () => ratio(1), source: definition },

  { dimension: "mass", spellings: "g gram grams gramme grammes", factor: () => ratio(1), source: definition },
  { dimension: "mass", spellings: "kg kgs kilo kilos kilogram kilograms", factor: () => ratio(1000), source: definition },
  { dimension: "mass", spellings: "t tonne tonnes", factor: () => ratio(1000000), source: definition },
  { dimension: "mass", spellings: "lb lbs pound pounds", factor: pound, source: international },
  { dimension: "mass", spellings: "oz ounce ounces", factor: () => pound().div(16), source: international },
  { dimension: "mass", spellings: "us.ton us.tons short.ton short.tons", factor: () => pound().mul(2000), source: international },
  { dimension: "mass", spellings: "imp.ton imp.tons long.ton long.tons", factor: () => pound().mul(2240), source: international },
  { dimension: "mass", spellings: "us.cwt", factor: () => pound().mul(100), source: international },
  { dimension: "mass", spellings: "imp.cwt", factor: () => pound().mul(112), source: international },
  { dimension: "mass", spellings: "stone stones", factor: () => pound().mul(14), source: international, bench: true },

  { dimension: "volume", spellings: "ml mL millilitre millilitres milliliter milliliters", factor: () => ratio(1), source: definition },
  { dimension: "volume", spellings: "l L litre litres liter liters ltr ltrs", factor: () => ratio(1000), source: definition },
  { dimension: "volume", spellings: "cc ccs cm3 cm\u00b3", factor: () => ratio(1), source: definition },
  { dimension: "volume", spellings: "us.floz us.fl.oz", factor: () => usGallon().div(128), source: usMeasure },
  { dimension: "volume", spellings: "us.pt us.pint us.pints", factor: () => usGallon().div(8), source: usMeasure },
  { dimension: "volume", spellings: "us.qt us.quart us.quarts", factor: () => usGallon().div(4), source: usMeasure },
  { dimension: "volume", spellings: "us.gal us.gallon us.gallons", factor: usGallon, source: usMeasure },
  { dimension: "volume", spellings: "imp.floz imp.fl.oz", factor: () => impGallon().div(160), source: impMeasure },
  { dimension: "volume", spellings: "imp.pt imp.pint imp.pints", factor: () => impGallon().div(8), source: impMeasure },
  { dimension: "volume", spellings: "imp.qt imp.quart imp.quarts", factor: () => impGallon().div(4), source: impMeasure },
  { dimension: "volume", spellings: "imp.gal imp.gallon imp.gallons", factor: impGallon, source: impMeasure },
  { dimension: "volume", spellings: "cu.in in3 in\u00b3", factor: () => cubed(inch()).div(1000), source: international, bench: true },

  { dimension: "pressure", spellings: "psi PSI lbf/in2 lb/in2 lbf/in\u00b2 lb/in\u00b2", factor: psi, source: standardGravity },
  { dimension: "pressure", spellings: "bar bars", factor: () => ratio(100000), source: definition },
  { dimension: "pressure", spellings: "kPa", factor: () => ratio(1000), source: definition },
  { dimension: "pressure", spellings: "MPa N/mm2 N/mm\u00b2", factor: () => ratio(1000000), source: definition },
  { dimension: "pressure", spellings: "Pa", factor: () => ratio(1), source: definition, bench: true },
  { dimension: "pressure", spellings: "ksi kpsi", factor: () => psi().mul(1000), source: standardGravity, bench: true },
  { dimension: "pressure", spellings: "kgf/cm2 kgf/cm\u00b2 kg/cm2 kg/cm\u00b2", factor: () => gravity().mul(10000), source: standardGravity, bench: true },

  { dimension: "temperature", spellings: "degC \u00b0C celsius", factor: () => ratio(1), offset: () => figure("273.15"), source: definition },
  // K = (F + 459.67) × 5/9
  {
    dimension: "temperature",
    spellings: "degF \u00b0F fahrenheit",
    factor: () => ratio(5, 9),
    offset: () => figure("459.67").mul(5).div(9),
    source: "definition (NIST SP 811 B.9)",
  },
  { dimension: "temperature", spellings: "K kelvin kelvins", factor: () => ratio(1), source: definition },

  { dimension: "time", spellings: "s sec secs second seconds", factor: () => ratio(1), source: definition },
  { dimension: "time", spellings: "min mins minute minutes", factor: () => ratio(60), source: definition },
  { dimension: "time", spellings: "h hr hrs hour hours", factor: () => ratio(3600), source: definition },
  { dimension: "time", spellings: "d day days", factor: () => ratio(86400), source: definition },

  { dimension: "speed", spellings: "mph MPH mi/h", factor: () => figure("1.609344"), source: international },
  { dimension: "speed", spellings: "km/h kph kmh", factor: () => ratio(1), source: definition },
  { dimension: "rotation", spellings: "rpm RPM r/min rev/min", factor: () => ratio(1), source: "one turn a minute" },

  { dimension: "power", spellings: "W watt watts", factor: () => ratio(1), source: definition, bench: true },
  { dimension: "power", spellings: "kW", factor: () => ratio(1000), source: definition, bench: true },
  {
    dimension: "power",
    spellings: "hp",
    factor: () => poundForce().mul(inch()).mul(12).div(1000).mul(550),
    source: "550 ft.lbf/s (NIST SP 811 Appendix B)",
    bench: true,
  },
  { dimension: "power", spellings: "metric.hp", factor: () => gravity().mul(75), source: "75 kgf.m/s (NIST SP 811 Appendix B)", bench: true },

  { dimension: "ratio", spellings: "% percent", factor: () => ratio(1, 100), source: definition },
];

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

/** One unit a row, by its name. */
export function allUnits(): readonly Unit[] {
  return rows.map((row) => unitOf(nameOf(row)) as Unit);
}

/** Every spelling that a unit may have in a sheet, the ambiguous ones left out. */
export function unitSpellings(): readonly string[] {
  return [...rowOf.keys()].filter((it) => !bench.has(it));
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

/** Damerau–Levenshtein (adjacent letters exchanged count one), given up beyond `most`. */
export function editDistance(a: string, b: string, most = Number.POSITIVE_INFINITY): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let cost = Math.min((last[j] as number) + 1, (row[j - 1] as number) + 1, (last[j - 1] as number) + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, (before[j - 2] as number) + 1);
      row.push(cost);
    }
    before = last;
    last = row;
  }
  return last[b.length] as number;
}

function once<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

function cubed(x: Exact): Exact {
  return x.mul(x).mul(x);
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
