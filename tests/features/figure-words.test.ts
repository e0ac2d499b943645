// Questions as a fitter puts them, each with a figure that its answer must have. Expected figures are worked out by hand from the definition or standard named
// at each; none was produced by the program. Where GNU units is installed the units are asked of it too.
import { spawnSync } from "node:child_process";
import { describe, expect, test } from "vitest";
import { figure } from "../../server/features/figure.ts";
import { known, numberOf } from "./figure-answers.ts";

type Row = readonly [query: string, name: string, unit: string, expected: number, within: number];

const check = ([query, name, unit, expected, within]: Row) => {
  const got = numberOf(query, name, unit);
  expect(Math.abs(got - expected), `${query}: ${got} against ${expected}`).toBeLessThanOrEqual(within);
};

describe("units in words", () => {
  // Inch 25.4 mm, pound 0.45359237 kg, standard gravity 9.80665 m/s2, gallons of 4.54609 l and 231 in3 (NIST SP 811); temperatures (F − 32)·5/9.
  test.each<Row>([
    ["148 F in C", "result", "degC", 64.4444, 0.0001],
    ["what is 148 degrees fahrenheit in centigrade", "result", "degC", 64.4444, 0.0001],
    ["9 F difference in C", "result", "degC", 5, 0],
    ["2 1/4 imperial pints in litres", "result", "l", 1.2785878, 1e-6],
    ["two and a half thou in mm", "result", "mm", 0.0635, 0],
    ["half a thou in microns", "result", "um", 12.7, 0],
    ["three eighths of an inch in mm", "result", "mm", 9.525, 0],
    ["inches to mm", "result", "mm", 25.4, 0],
    ["how many mm in an inch", "result", "mm", 25.4, 0],
    ["how many thou is 0.3 mm", "result", "thou", 11.81102, 1e-5],
    ["1 3/16 inches in mm", "result", "mm", 30.1625, 0],
    ['5/8" in mm', "result", "mm", 15.875, 0],
    ["40 lb ft in Nm", "result", "N.m", 54.232718, 1e-6],
    ["65 foot pounds to newton metres", "result", "N.m", 88.128167, 1e-6],
    ["12 inch pounds in Nm", "result", "N.m", 1.3558179, 1e-7],
    ["32 lb per square inch in kg per sq cm", "result", "kgf/cm2", 2.2498227, 1e-6],
    ["20 tons per square inch in MPa", "result", "MPa", 308.8851, 1e-3],
    ["20 tons per square inch in MPa", "result if US short tons", "MPa", 275.79029, 1e-4],
    ["1 1/2 flats in degrees", "result", "deg", 90, 0],
  ])("%s", (...row) => check(row));
  const asUnits: readonly (readonly [query: string, name: string, unit: string, have: string, want: string])[] = [
    ["148 F in C", "result", "degC", "tempF(148)", "tempC"],
    ["9 F difference in C", "result", "degC", "9 degF", "degC"],
    ["2 1/4 imperial pints in litres", "result", "l", "2.25 brpint", "liter"],
    ["3 US gallons in litres", "result", "l", "3 gallon", "liter"],
    ["two and a half thou in mm", "result", "mm", "2.5 mil", "mm"],
    ["1 3/16 inches in mm", "result", "mm", "(1+3/16) inch", "mm"],
    ["40 lb ft in Nm", "result", "N.m", "40 lbf ft", "N m"],
    ["12 inch pounds in Nm", "result", "N.m", "12 lbf in", "N m"],
    ["5 kgf m in lb ft", "result", "lbf.ft", "5 kgf m", "lbf ft"],
    ["32 lb per square inch in kg per sq cm", "result", "kgf/cm2", "32 psi", "kgf/cm^2"],
    ["2.2 bar to psi", "result", "psi", "2.2 bar", "psi"],
    ["20 tons per square inch in MPa", "result", "MPa", "20 longton force/in^2", "MPa"],
    ["3 imp.cwt in lb", "result", "lb", "3 brhundredweight", "lb"],
    ["1 stone 4 lb in kg", "result", "kg", "1 stone + 4 lb", "kg"],
    ["40 hp in kW", "result", "kW", "40 hp", "kW"],
    ["500 cc in cu in", "result", "cu.in", "500 cc", "in^3"],
    ["60 ft/s in mph", "result", "mph", "60 ft/s", "mph"],
  ];
  const installed = spawnSync("units", ["--version"]).error === undefined;
  test.runIf(installed).each(asUnits)("%s, as GNU units has it", (query, name, unit, have, want) => {
    const { stdout } = spawnSync("units", ["--terse", "--output-format", "%.12g", have, want], { encoding: "utf8" });
    const expected = Number(stdout.trim());
    expect(expected, `units says ${stdout}`).not.toBeNaN();
    check([query, name, unit, expected, Math.abs(expected) * 1e-9]);
  });
  test("a pint is asked about, with what each would be (231 cubic inches over 8; 4.54609 l over 8)", () => {
    const answer = figure("2 1/4 pints in litres");
    expect(answer.known).toBe(false);
    expect(answer.line).toMatch(/us\.pt or imp\.pt.*1\.06465.*1\.27859/);
  });
});

describe("slots: pitch over slots", () => {
  test.each<Row>([
    ["slot travel for M20x1.5 slots 6", "travel", "mm", 0.25, 0],
    ["slot travel for M20x1 slots 5", "travel", "mm", 0.2, 0],
    ["slot travel for M12x1.25", "travel", "mm", 1.25 / 6, 1e-12],
    ["slot travel M24x2", "travel", "mm", 2 / 6, 1e-12],
    ["M12 slots 8", "travel", "mm", 1.75 / 8, 0],
    ["8 slots M12x1.25", "travel", "mm", 1.25 / 8, 0],
    ["how far does a 3/4 BSF castle nut move per slot", "travel", "in", 1 / 12 / 6, 1e-12],
    ["slot travel for 1/2-20 UNF slots 6", "travel", "in", 1 / 120, 1e-12],
  ])("%s", (...row) => check(row));
});

describe("torque", () => {
  // T·L/(L + E) by the lever; T = K·d·F with F = 0.75 of proof load (Shigley eq. 8-27, 8-31): M10, 580 MPa, 57.99 mm2, K 0.2.
  test.each<Row>([
    ["torque wrench setting for 80 lb ft with a 4 inch crow foot on a 16 inch wrench", "setting", "lbf.ft", 64, 0],
    ["torque 50 lbf ft, 6 in extension, 18 in wrench", "setting", "lbf.ft", 37.5, 0],
    ["torque 50 lbf.ft with extension 6 in on 18 in at right angles", "setting", "lbf.ft", 50, 0],
    ["torque for a M10 8.8 bolt, K 0.2", "torque", "N.m", 50.45, 0.05],
    ["torque angle M10 90 deg", "travel", "mm", 0.375, 0],
  ])("%s", (...row) => check(row));
});

describe("tapers, drills, gears", () => {
  // tan of the half-angle is half of the rate: 1 in 10 gives 2.86241 deg; 8 deg whole gives 24·tan 4 deg = 1.67824 in a foot. 25.4/DP; 25.4/tpi.
  test.each<Row>([
    ["taper 1 in 10", "half-angle", "deg", 2.86241, 1e-5],
    ["taper per foot 0.6", "half-angle", "deg", 1.43209, 1e-4],
    ["taper of 8 deg included", "taper per foot", "in/ft", 1.67824, 1e-4],
    ["taper half-angle 4 deg", "taper per foot", "in/ft", 1.67824, 1e-4],
    ["inch taper pin", "one in", "", 48, 0],
    ["metric taper pin", "one in", "", 50, 0],
    ["DP 10 in module", "module", "mm", 2.54, 0],
    ["module 2 in DP", "diametral pitch", "", 12.7, 0],
    ["20 tpi in mm", "pitch", "mm", 1.27, 0],
    ["pitch of 1.25 mm in tpi", "threads per inch", "", 20.32, 0],
    // ASTM B258: AWG 0 is 0.3249 in, 36 is 0.0050 in by definition.
    ["36 AWG in mm", "thickness", "mm", 0.127, 1e-9],
    ["0 AWG", "thickness", "in", 0.3249, 5e-5],
    ["8 mm as a fraction", "fraction", "in", 0.3125, 0],
  ])("%s", (...row) => check(row));
});

describe("growth by heat: α·L·ΔT", () => {
  // 12.0e-6 · 100 · 80 = 0.096 mm; 23.0e-6 · 4 · 80 = 0.00736 in, the handbook figures for steel and aluminium.
  test.each<Row>([
    ["how much does a 100 mm steel bar grow from 20 degC to 100 degC", "growth", "mm", 0.096, 1e-9],
    ["expansion of a 4 in aluminium piston by 80 degC", "growth", "in", 0.00736, 1e-6],
    ["how much does steel expand", "steel", "1e-6/K", 12, 0],
  ])("%s", (...row) => check(row));
});

describe("spanners the other way about", () => {
  // ISO 4032: M8 is 13 mm across flats; Whitworth 1/4 W is 0.525 in, which 5/16 BS is too.
  test("13 mm fits M8", () => expect(known("what does a 13 mm spanner fit").line).toContain("M8x1.25"));
  test("1/4 W fits 1/4 Whitworth of the old hexagon and 5/16 BSF", () => expect(known("spanner 1/4 W").line).toMatch(/1\/4-20 BSW.*5\/16-22 BSF/));
});

describe("what can hurt has its caution", () => {
  test.each([
    ["torque 1/2-20 UNF grade 5 K 0.2", /estimate/i],
    ["journal clearance for 50 mm", /never a limit/],
    ["press fit for a 1 inch pin", /[Ee]ye protection/],
    ["torque angle M10 90 deg", /maker/],
    ["heat 45 mm steel interference 0.04 mm clearance 0.05 mm", /gloves/],
    ["tempering blue", /not heated and tempered at home/],
    ["spanner for 1/2 BSF", /slips/],
  ])("%s", (query, words) => expect(known(query).cautions.join(" ")).toMatch(words));
});
