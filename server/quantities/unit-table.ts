// The table of units: every spelling, what it measures, its exact worth, and where that is laid down.
// Invariant: data only, one row a unit, each with its source.
import { type Exact, figure, ratio } from "./exact.ts";

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

/** Pa: a column of a millimetre of mercury of 13 595.1 kg/m3 at standard gravity. */
const mercury = once(() => figure("13.5951").mul(gravity()));

const definition = "definition (SI Brochure; NIST SP 811 Appendix B)";
const international = "international yard and pound of 1959 (NIST SP 811 Appendix B)";
const standardGravity = "standard gravity 9.80665 m/s2, 3rd CGPM 1901 (NIST SP 811 Appendix B)";
const conventionalMercury = "conventional millimetre and inch of mercury, 13 595.1 kg/m3 (NIST SP 811 Appendix B)";
const usMeasure = "US gallon of 231 cubic inches (NIST SP 811 Appendix B)";
const impMeasure = "imperial gallon of 4.54609 litres (UK Weights and Measures Act 1985; NIST SP 811 Appendix B)";

export interface Row {
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

/** Base units: mm, deg, N, N.m, g, ml, Pa, K, s, km/h, rpm, W, 1. */
export const rows: readonly Row[] = [
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
  { dimension: "pressure", spellings: "mbar mbars hPa", factor: () => ratio(100), source: definition },
  { dimension: "pressure", spellings: "inHg", factor: () => mercury().mul(inch()), source: conventionalMercury },
  { dimension: "pressure", spellings: "mmHg", factor: mercury, source: conventionalMercury },
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
