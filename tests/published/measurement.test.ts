// Measurement: NIST reference sets, the end-gauge example of the GUM, the three-way decision of ISO 14253-1.
import { expect, test } from "vitest";
import { type Exact, compare, decimalText, exact, figure, ratio, rootTo } from "../../server/quantities/exact.ts";
import { type Uncertainty, verdict } from "../../server/quantities/range.ts";
import { conicity, mean, roundnessOfOval, span, standardDeviation, taper } from "../../server/quantities/statistics.ts";
import { combined, effectiveDegrees, expanded, resolutionSquared, squareOf, standardSquared, uncertaintyRatio } from "../../server/quantities/uncertainty.ts";
import { unitOf } from "../../server/quantities/units.ts";
import { within } from "./near.ts";
import { lew, mavro } from "./nist-strd.ts";

const read = (text: string): Exact[] =>
  text
    .trim()
    .split(/\s+/)
    .map((it) => exact(it) ?? expect.fail(it));
const uncertaintyTo = (it: Uncertainty, places: number) => rootTo(squareOf(it), places);
const repeated = (first: string, then: readonly string[], times: number) => [figure(first), ...Array.from({ length: times }, () => then.map(figure)).flat()];

// NIST StRD, univariate summary statistics, certified values (15 digits): www.itl.nist.gov/div898/strd/univ
test.each([
  ["Mavro", read(mavro), "2.001856", "0.000429123454003053"],
  ["Lew", read(lew), "-177.435", "277.332168044316"],
  ["NumAcc1", read("10000001 10000003 10000002"), "10000002", "1"],
  ["NumAcc2", repeated("1.2", ["1.1", "1.3"], 500), "1.2", "0.1"],
  ["NumAcc3", repeated("1000000.2", ["1000000.1", "1000000.3"], 500), "1000000.2", "0.1"],
  ["NumAcc4", repeated("10000000.2", ["10000000.1", "10000000.3"], 500), "10000000.2", "0.1"],
])("NIST StRD %s: mean and standard deviation to every certified digit", (_, data, certifiedMean, certifiedDeviation) => {
  expect(mean(data)?.equals(figure(certifiedMean))).toBe(true);
  const places = certifiedDeviation.split(".")[1]?.length ?? 0;
  expect(decimalText(standardDeviation(data, places) ?? ratio(0), places)).toBe(certifiedDeviation);
});

test("NumAcc4 loses half of its digits in binary: the trap that exact decimals avoid", () => {
  const data = repeated("10000000.2", ["10000000.1", "10000000.3"], 500).map(Number);
  const middle = data.reduce((a, b) => a + b, 0) / data.length;
  const deviation = Math.sqrt(data.reduce((sum, it) => sum + (it - middle) ** 2, 0) / (data.length - 1));
  expect(Math.abs(deviation - 0.1) / 0.1).toBeGreaterThan(1e-11);
});

test("preloads at one torque, Shigley table 8-14: mean 34.18 kN, s = 2.88 kN", () => {
  const data = read("30.3 32.5 32.5 32.9 32.9 33.8 34.3 34.7 37.4 40.5");
  within(mean(data), 34.18, 0.005);
  within(standardDeviation(data, 6), 2.88, 0.005);
});

test("span, ovality and taper by their definitions (ISO 1101 and ISO 12181 in words)", () => {
  expect(span(read("0.8725 0.8731 0.8744"))?.toString()).toBe("0.0019");
  expect(span(read("0.8731 0.8725"))?.toString()).toBe("0.0006");
  // Means 0.8728 and 0.87435: worked by hand, 0.00155 apart.
  expect(taper([read("0.8731 0.8725"), read("0.8744 0.8743")])?.equals(figure("0.00155"))).toBe(true);
  expect(taper([read("0.8731")])).toBeUndefined();
  // A position at which nothing was read is none.
  expect(taper([read("0.8731"), []])).toBeUndefined();
  expect(taper([read("0.8731"), [], read("0.8725")])?.toString()).toBe("0.0006");
  expect(mean([])).toBeUndefined();
  expect(standardDeviation(read("1"), 3)).toBeUndefined();
});

test("cones and lobes: conicity 0.0015 of 1.250 to 1.247 over 2 in; two lobes hide half", () => {
  expect(conicity(figure("1.25"), figure("1.247"), figure("2"))?.toString()).toBe("0.0015");
  expect(conicity(figure("1.25"), figure("1.247"), ratio(0))).toBeUndefined();
  expect(roundnessOfOval(figure("0.0015")).toString()).toBe("0.00075");
});

// JCGM 100:2008, example H.1: an end gauge of nominally 50 mm compared with a standard. Lengths in nm.
test("JCGM 100 H.1: the end gauge", () => {
  const length = figure("50000623").add(figure("215"));
  within(length, 50000838, 0.5);
  // H.1.3.2: 5.8, 3.9 and 6.7 nm combine to 9.7 nm.
  const difference = combined(["5.8", "3.9", "6.7"].map((u) => ({ slope: ratio(1), uncertainty: figure(u) })));
  within(uncertaintyTo(difference, 6), 9.7, 0.05);
  // Table H.1: 25, 9.7, 2.9 and 16.6 nm. δα is a rectangle of 1e-6 per K at θ = −0.1 K on l = 50 mm; δθ a rectangle of 0.05 K with α = 11.5e-6 per K.
  const l = figure("50000623");
  const ofExpansion = combined([{ slope: l.mul(figure("-0.1")), uncertainty: { squared: standardSquared(figure("0.000001"), "rectangular") } }]);
  within(uncertaintyTo(ofExpansion, 6), 2.9, 0.05);
  const ofTemperature = combined([{ slope: l.mul(figure("0.0000115")), uncertainty: { squared: standardSquared(figure("0.05"), "rectangular") } }]);
  within(uncertaintyTo(ofTemperature, 6), 16.6, 0.05);
  const parts = [figure("25"), difference, ofExpansion, ofTemperature].map((uncertainty) => ({ slope: ratio(1), uncertainty }));
  const whole = combined(parts);
  // H.1.4: 32 nm.
  within(uncertaintyTo(whole, 6), 32, 0.5);
  // H.1.6: U99 = 2.92 × 32 nm = 93 nm, with 16 degrees of freedom.
  within(uncertaintyTo(expanded(figure("32"), figure("2.92")), 3), 93, 0.5);
  const squaredOf = (text: string) => figure(text).mul(figure(text));
  const degrees = effectiveDegrees([
    { squared: squaredOf("25"), degrees: 18 },
    { squared: squaredOf("9.7"), degrees: 25.6 },
    { squared: squaredOf("2.9"), degrees: 50 },
    { squared: squaredOf("16.6"), degrees: 2 },
  ]);
  // The standard cuts 16.7 off to 16.
  within(degrees, 16.7, 0.3);
});

test("standard uncertainties by shape (JCGM 100, 4.3.7 and 4.3.9)", () => {
  within(uncertaintyTo({ squared: standardSquared(figure("15"), "rectangular") }, 6), 8.7, 0.05);
  within(uncertaintyTo({ squared: resolutionSquared(figure("0.001")) }, 9), 0.00028868, 1e-7);
  within(uncertaintyTo({ squared: standardSquared(ratio(1), "triangular") }, 9), 0.40824829, 1e-7);
  within(uncertaintyTo({ squared: standardSquared(ratio(1), "arcsine") }, 9), Math.SQRT1_2, 1e-7);
  // H.1.3.4: Δ = 0.5 K, U-shaped: 0.35 K.
  within(uncertaintyTo({ squared: standardSquared(figure("0.5"), "arcsine") }, 6), 0.35, 0.005);
});

test("the string of NPL Good Practice Guide 11: 2.5, 0.3, 5.8 and 0.7 mm combine to 6.4 mm, expanded about 12.8 mm", () => {
  const whole = combined(["2.5", "0.3", "5.8", "0.7"].map((u) => ({ slope: ratio(1), uncertainty: figure(u) })));
  within(uncertaintyTo(whole, 6), 6.4, 0.05);
  within(uncertaintyTo(expanded(whole, ratio(2)), 6), 12.8, 0.1);
});

test("a micrometer's budget, each part worked by hand: 0.0013382 mm, expanded 0.0026764 mm", () => {
  // MPE 0.002 rectangular; s = 0.0015 of 5 readings; 3 K × 50 mm × 1e-6 per K rectangular.
  const whole = combined([
    { slope: ratio(1), uncertainty: { squared: standardSquared(figure("0.002"), "rectangular") } },
    { slope: ratio(1), uncertainty: { squared: figure("0.0015").mul(figure("0.0015")).div(5) } },
    { slope: figure("150"), uncertainty: { squared: standardSquared(figure("0.000001"), "rectangular") } },
  ]);
  within(uncertaintyTo(whole, 9), 0.0013382, 1e-6);
  within(uncertaintyTo(expanded(whole, ratio(2)), 9), 0.0026764, 1e-6);
});

// ISO 14253-1: the supplier proves conformity, the customer proves non-conformity, and between them nothing is proved.
test.each([
  ["0.0017", "-0.003", "0.003", "0.001", "in"],
  ["0.0035", "-0.003", "0.003", "0.001", "doubt"],
  ["0.0041", "-0.003", "0.003", "0.001", "out"],
  ["0.002", "-0.003", "0.003", "0.001", "in"],
  ["0.004", "-0.003", "0.003", "0.001", "doubt"],
  ["0.138", "0.1", "0.15", "0.012", "in"],
  ["0.1381", "0.1", "0.15", "0.012", "doubt"],
  ["0.28", "0.1", "0.30", "0.02", "in"],
])("ISO 14253-1: %s in %s .. %s with U %s is %s", (y, low, high, u, said) => {
  const unit = unitOf("mm") ?? expect.fail("mm");
  expect(verdict({ low: figure(low), high: figure(high), unit, text: "" }, figure(y), figure(u))).toBe(said);
});

test("test uncertainty ratio, ANSI/NCSL Z540.3: ±0.05 with U 0.0125 is 4", () => {
  expect(uncertaintyRatio(figure("0.1"), figure("0.0125"))?.toString()).toBe("4");
  expect(uncertaintyRatio(figure("0.1"), ratio(0))).toBeUndefined();
});

test("a difference of two has √2·U: 3² + 4² = 5² keeps it exact", () => {
  const whole = combined([
    { slope: ratio(1), uncertainty: figure("0.0003") },
    { slope: ratio(-1), uncertainty: figure("0.0004") },
  ]);
  expect(compare(figure("0.0005").mul(figure("0.0005")), whole.squared)).toBe(0);
  expect(uncertaintyTo(whole, 5)?.equals(figure("0.0005"))).toBe(true);
});

test("what is known for certain has no end of degrees of freedom (JCGM 100, G.4.3)", () => expect(effectiveDegrees([{ squared: ratio(1) }])).toBeUndefined());
