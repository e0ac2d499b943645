// Every pair of units of one dimension against outside references: GNU units where it is installed, and a registry library's UCUM tables always.
// `.ci/run` promises that GNU units is there; then its absence is a failure, never a pass.
import { execFileSync, spawnSync } from "node:child_process";
import ucum from "@lhncbc/ucum-lhc";
import { expect, test } from "vitest";
import { isRun } from "../sampled.ts";
import { figure, ratio } from "../../server/quantities/exact.ts";
import { inUnit, quantity } from "../../server/quantities/quantity.ts";
import { rows } from "../../server/quantities/unit-table.ts";
import { type Unit, toBase, unitOf } from "../../server/quantities/units.ts";
import { near, within } from "./near.ts";

const q = (text: string, unit: string) => quantity(text, unit) ?? expect.fail(`${text} ${unit}`);
const u = (spelling: string) => unitOf(spelling) ?? expect.fail(spelling);
const convert = (text: string, from: string, to: string) => inUnit(q(text, from), u(to));

/** In the words of GNU units (Debian 2.22), whose bare pint, gallon, floz, ton and cwt are American. `ozf` is unknown to it. */
const gnu: Readonly<Record<string, string>> = {
  in: "inch",
  thou: "thou",
  ft: "foot",
  yd: "yard",
  mi: "mile",
  um: "micrometer",
  mm: "mm",
  cm: "cm",
  m: "m",
  km: "km",
  deg: "degree",
  arcmin: "arcmin",
  rad: "radian",
  lbf: "lbf",
  kgf: "kgf",
  N: "N",
  kN: "kN",
  "lbf.ft": "lbf foot",
  "lbf.in": "lbf inch",
  "ozf.in": "oz force inch",
  "kgf.m": "kgf m",
  "kgf.cm": "kgf cm",
  "N.m": "N m",
  g: "g",
  kg: "kg",
  t: "tonne",
  lb: "lb",
  oz: "oz",
  "us.ton": "shortton",
  "imp.ton": "longton",
  "us.cwt": "ushundredweight",
  "imp.cwt": "brhundredweight",
  stone: "stone",
  ml: "ml",
  l: "liter",
  cc: "cm^3",
  "us.floz": "usfloz",
  "us.pt": "uspint",
  "us.qt": "usquart",
  "us.gal": "usgallon",
  "imp.floz": "brfloz",
  "imp.pt": "brpint",
  "imp.qt": "brquart",
  "imp.gal": "brgallon",
  "cu.in": "inch^3",
  psi: "psi",
  bar: "bar",
  kPa: "kPa",
  MPa: "MPa",
  mbar: "mbar",
  inHg: "inHg",
  mmHg: "mmHg",
  Pa: "Pa",
  ksi: "kilo psi",
  "kgf/cm2": "kgf/cm^2",
  s: "s",
  min: "minute",
  h: "hour",
  d: "day",
  mph: "mile/hour",
  "km/h": "km/hour",
  rpm: "rpm",
  W: "W",
  kW: "kW",
  hp: "horsepower",
  "metric.hp": "metrichorsepower",
  "%": "percent",
};

/** In UCUM's words (the registry package of the US National Library of Medicine). */
const inUcum: Readonly<Record<string, string>> = {
  in: "[in_i]",
  thou: "[mil_i]",
  ft: "[ft_i]",
  yd: "[yd_i]",
  mi: "[mi_i]",
  um: "um",
  mm: "mm",
  cm: "cm",
  m: "m",
  km: "km",
  deg: "deg",
  arcmin: "'",
  rad: "rad",
  lbf: "[lbf_av]",
  kgf: "kg.[g]",
  N: "N",
  kN: "kN",
  "lbf.ft": "[lbf_av].[ft_i]",
  "lbf.in": "[lbf_av].[in_i]",
  "ozf.in": "[oz_av].[g].[in_i]",
  "kgf.m": "kg.[g].m",
  "kgf.cm": "kg.[g].cm",
  "N.m": "N.m",
  g: "g",
  kg: "kg",
  t: "t",
  lb: "[lb_av]",
  oz: "[oz_av]",
  "us.ton": "[ston_av]",
  "imp.ton": "[lton_av]",
  "us.cwt": "[scwt_av]",
  "imp.cwt": "[lcwt_av]",
  stone: "[stone_av]",
  ml: "mL",
  l: "L",
  cc: "cm3",
  "us.floz": "[foz_us]",
  "us.pt": "[pt_us]",
  "us.qt": "[qt_us]",
  "us.gal": "[gal_us]",
  "imp.floz": "[foz_br]",
  "imp.pt": "[pt_br]",
  "imp.qt": "[qt_br]",
  "imp.gal": "[gal_br]",
  "cu.in": "[cin_i]",
  psi: "[psi]",
  bar: "bar",
  kPa: "kPa",
  MPa: "MPa",
  mbar: "mbar",
  inHg: "[in_i'Hg]",
  mmHg: "mm[Hg]",
  Pa: "Pa",
  ksi: "k[psi]",
  "kgf/cm2": "kg.[g]/cm2",
  s: "s",
  min: "min",
  h: "h",
  d: "d",
  mph: "[mi_i]/h",
  "km/h": "km/h",
  rpm: "{turn}/min",
  W: "W",
  kW: "kW",
  hp: "[HP]",
  "metric.hp": "75.kg.[g].m/s",
  "%": "%",
};

const affine = new Set(["degC", "degF", "K"]);
const units = rows.map((row) => unitOf(row.spellings.split(" ")[0] ?? "") ?? expect.fail(row.spellings));
const pairs: (readonly [Unit, Unit])[] = units.flatMap((from) =>
  units.filter((to) => to.dimension === from.dimension && !affine.has(from.name)).map((to) => [from, to] as const),
);
const hasGnu = spawnSync("units", ["--version"]).status === 0;

test("each unit has its name in both references, so that none goes unchecked", () => {
  const named = units
    .map((it) => it.name)
    .filter((it) => !affine.has(it))
    .sort();
  expect(Object.keys(gnu).sort()).toEqual(named);
  expect(Object.keys(inUcum).sort()).toEqual(named);
  expect(pairs.length).toBeGreaterThan(400);
});

test("every pair agrees with UCUM", () => {
  const utils = ucum.UcumLhcUtils.getInstance();
  for (const [from, to] of pairs) {
    const answer = utils.convertUnitTo(inUcum[from.name] ?? "", 1, inUcum[to.name] ?? "");
    expect(answer.status, `${from.name} to ${to.name}: ${(answer.msg ?? []).join(" ")}`).toBe("succeeded");
    // The package takes the horse-power of 550 ft.lbf/s and its factors in doubles.
    // Its column of mercury is rounded to 133.322 kPa a metre.
    const rounded = from.name.endsWith("Hg") !== to.name.endsWith("Hg");
    near(from.factor.div(to.factor), answer.toVal ?? Number.NaN, rounded ? 3e-6 : 1e-12, `${from.name} to ${to.name}`);
  }
});

test("every pair agrees with GNU units, which `.ci/run` promises", () => {
  if (!hasGnu) {
    expect(isRun, ".ci/run promises GNU units, and it is not installed").toBe(false);
    // Without the program this test still has a reference: NIST SP 811 Appendix B, the factors that it marks exact (bold), per unit.
    for (const [unit, text, base] of nist811) near(u(unit).factor.div(u(base).factor), Number(text), 1e-12, unit);
    return;
  }
  const lines = askedOfGnu(pairs.map(([from, to]) => [`1 ${gnu[from.name]}`, gnu[to.name] ?? ""]));
  pairs.forEach(([from, to], i) => near(from.factor.div(to.factor), Number(lines[i]), 1e-12, `${from.name} to ${to.name}`));
});

/** What GNU units says of each pair, in one run of it. */
function askedOfGnu(list: readonly (readonly [have: string, want: string])[]): readonly string[] {
  const lines = execFileSync("units", ["--quiet", "--terse", "--digits", "15"], {
    input: list.map(([have, want]) => `${have}\n${want}\n`).join(""),
    encoding: "utf8",
    env: { ...process.env, LC_ALL: "C", UNITS_ENGLISH: "US" },
  })
    .trim()
    .split("\n");
  // One line a pair: a word that it does not know would give another number of lines.
  expect(lines.length).toBe(list.length);
  return lines;
}

test("temperatures agree with GNU units and with UCUM, absolute and as differences", () => {
  const utils = ucum.UcumLhcUtils.getInstance();
  const inWords = { degC: "Cel", degF: "[degF]", K: "K" } as const;
  const asked: { readonly pair: readonly [string, string]; readonly got: ReturnType<typeof convert>; readonly what: string }[] = [];
  for (const from of ["degC", "degF", "K"] as const)
    for (const to of ["degC", "degF", "K"] as const)
      for (const value of from === "K" ? ["1", "273.15", "300", "455"] : ["-40", "0", "32", "70", "212", "350"]) {
        const got = convert(value, from, to);
        const answer = utils.convertUnitTo(inWords[from], Number(value), inWords[to]);
        within(got, answer.toVal ?? Number.NaN, 1e-9, `${value} ${from} in ${to}`);
        const has = from === "K" ? `${value} K` : `temp${from.slice(3)}(${value})`;
        asked.push({ pair: [has, to === "K" ? "K" : `temp${to.slice(3)}`], got, what: `${value} ${from} in ${to}` });
      }
  if (!hasGnu) return;
  const lines = askedOfGnu(asked.map((it) => it.pair));
  asked.forEach(({ got, what }, i) => {
    within(got, Number(lines[i]), 1e-9, what);
  });
});

/** NIST SP 811 Appendix B and the defining values of the SI Brochure. `near` at 1e-12: some are longer than a double. */
const nist811: readonly (readonly [unit: string, factor: string, base: string])[] = [
  ["in", "25.4", "mm"],
  ["thou", "0.0254", "mm"],
  ["ft", "304.8", "mm"],
  ["yd", "0.9144", "m"],
  ["mi", "1.609344", "km"],
  ["lb", "0.45359237", "kg"],
  ["oz", "28.349523125", "g"],
  ["stone", "6.35029318", "kg"],
  ["imp.cwt", "50.80234544", "kg"],
  ["us.cwt", "45.359237", "kg"],
  ["imp.ton", "1016.0469088", "kg"],
  ["us.ton", "907.18474", "kg"],
  ["t", "1000", "kg"],
  ["lbf", "4.4482216152605", "N"],
  ["kgf", "9.80665", "N"],
  ["lbf.ft", "1.3558179483314004", "N.m"],
  ["lbf.in", "0.1129848290276167", "N.m"],
  ["ozf.in", "0.00706155181422604375", "N.m"],
  ["kgf.m", "9.80665", "N.m"],
  ["kgf.cm", "0.0980665", "N.m"],
  ["psi", "6894.75729316836", "Pa"],
  ["bar", "100000", "Pa"],
  ["kgf/cm2", "0.980665", "bar"],
  ["bar", "14.5037737730209", "psi"],
  ["imp.gal", "4.54609", "l"],
  ["imp.qt", "1.1365225", "l"],
  ["imp.pt", "568.26125", "ml"],
  ["imp.floz", "28.4130625", "ml"],
  ["us.gal", "3.785411784", "l"],
  ["us.qt", "0.946352946", "l"],
  ["us.pt", "473.176473", "ml"],
  ["us.floz", "29.5735295625", "ml"],
  ["hp", "745.69987158227022", "W"],
  ["metric.hp", "735.49875", "W"],
  ["cu.in", "16.387064", "cc"],
];

test("NIST SP 811 Appendix B, unit by unit", () => {
  for (const [unit, text, base] of nist811) near(u(unit).factor.div(u(base).factor), Number(text), 1e-12, unit);
});

test("factors that are decimals are those very decimals", () => {
  const same = (unit: string, text: string, base: string) => expect(u(unit).factor.div(u(base).factor).equals(figure(text)), unit).toBe(true);
  same("lbf", "4.4482216152605", "N");
  same("lbf.ft", "1.3558179483314004", "N.m");
  same("ozf.in", "0.00706155181422604375", "N.m");
  same("us.floz", "29.5735295625", "ml");
  same("imp.floz", "28.4130625", "ml");
  same("hp", "745.69987158227022", "W");
  // The ratios of NIST's definitions: 1 psi = 8896443230521/1290320000 Pa.
  expect(u("psi").factor.equals(ratio(8896443230521n, 1290320000n))).toBe(true);
  expect(u("bar").factor.div(u("psi").factor).equals(ratio(129032000000000n, 8896443230521n))).toBe(true);
});

test("worked conversions: 32 °F, 70 °F, 350 °F; an arc minute; 30 lbf.ft; 1 kgf.m; 26 psi", () => {
  within(convert("32", "degF", "degC"), 0, 1e-9);
  within(convert("70", "degF", "degC"), 21.1111111111, 1e-9);
  within(convert("350", "degF", "degC"), 176.6666666667, 1e-9);
  near(convert("1", "arcmin", "deg"), 0.016666666666666666, 1e-15);
  near(convert("30", "lbf.ft", "N.m"), 40.67453844994201, 1e-12);
  near(convert("1", "kgf.m", "lbf.ft"), 7.233013851209894, 1e-12);
  near(convert("26", "psi", "bar"), 1.792636896223774, 1e-12);
  // The imperial ounce is the smaller one, though its pint is the larger.
  near(convert("1", "imp.floz", "us.floz"), 0.9607599404038839, 1e-12);
  expect(u("imp.pt").factor.compare(u("us.pt").factor)).toBe(1);
});

test("the radian is 180/π to more digits than a double has", () => {
  near(toBase(ratio(1), u("rad")), 180 / Math.PI, 1e-15);
});
