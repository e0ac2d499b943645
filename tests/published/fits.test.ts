// ISO 286: grades, deviations and pairings as tables give them, µm.
import { expect, test } from "vitest";
import { figure, ratio } from "../../server/quantities/exact.ts";
import { quantity } from "../../server/quantities/quantity.ts";
import { fitBand, itGrade, limitsOf, pairing, tolerance } from "../../server/trade/fits.ts";

const d = (text: string) => figure(text);

// ISO 286-1 table 1: IT5 to IT11, over … up to and including.
test.each([
  [0, 3, [4, 6, 10, 14, 25, 40, 60]],
  [3, 6, [5, 8, 12, 18, 30, 48, 75]],
  [6, 10, [6, 9, 15, 22, 36, 58, 90]],
  [10, 18, [8, 11, 18, 27, 43, 70, 110]],
  [18, 30, [9, 13, 21, 33, 52, 84, 130]],
  [30, 50, [11, 16, 25, 39, 62, 100, 160]],
  [50, 80, [13, 19, 30, 46, 74, 120, 190]],
  [80, 120, [15, 22, 35, 54, 87, 140, 220]],
])("IT5 to IT11 over %i to %i mm", (over, to, published) => {
  for (const size of [`${over}.001`, `${to}`]) expect([5, 6, 7, 8, 9, 10, 11].map((grade) => itGrade(d(size), grade))).toEqual(published);
});

// ISO 286-1 tables 4 and 5: es of f, g, h; ei of k (to IT7), m, n, p.
test.each([
  [0, 3, [-6, -2, 0, 0, 2, 4, 6]],
  [3, 6, [-10, -4, 0, 1, 4, 8, 12]],
  [6, 10, [-13, -5, 0, 1, 6, 10, 15]],
  [10, 18, [-16, -6, 0, 1, 7, 12, 18]],
  [18, 30, [-20, -7, 0, 2, 8, 15, 22]],
  [30, 50, [-25, -9, 0, 2, 9, 17, 26]],
  [50, 80, [-30, -10, 0, 2, 11, 20, 32]],
  [80, 120, [-36, -12, 0, 3, 13, 23, 37]],
])("fundamental deviations over %i to %i mm", (over, to, published) => {
  for (const size of [`${over}.001`, `${to}`]) {
    const upper = ["f6", "g6", "h6"].map((code) => tolerance(d(size), code)?.upper);
    const lower = ["k6", "m6", "n6", "p6"].map((code) => tolerance(d(size), code)?.lower);
    expect([...upper, ...lower]).toEqual(published);
  }
});

test("deviation s by its finer ranges; k is 0 above IT7", () => {
  const published = { 3: 14, 6: 19, 10: 23, 18: 28, 30: 35, 50: 43, 65: 53, 80: 59, 100: 71, 120: 79 };
  for (const [size, ei] of Object.entries(published)) expect(tolerance(d(size), "s6")?.lower, size).toBe(ei);
  expect([tolerance(d("66"), "s6")?.lower, tolerance(d("101"), "s6")?.lower]).toEqual([59, 79]);
  expect(tolerance(d("25"), "k8")).toMatchObject({ lower: 0, upper: 33 });
});

// ISO 286-1 and -2: hole and shaft deviations, least and most clearance; negative is interference.
test.each([
  ["25", "H7", "g6", [0, 21, -20, -7, 7, 41], "clearance"],
  ["50", "H7", "p6", [0, 25, 26, 42, -42, -1], "interference"],
  ["40", "H8", "f7", [0, 39, -50, -25, 25, 89], "clearance"],
  ["20", "H7", "n6", [0, 21, 15, 28, -28, 6], "transition"],
  ["60", "H7", "s6", [0, 30, 53, 72, -72, -23], "interference"],
  ["100", "H7", "m6", [0, 35, 13, 35, -35, 22], "transition"],
  ["12", "H7", "h6", [0, 18, -11, 0, 0, 29], "clearance"],
])("%s %s/%s", (size, hole, shaft, published, kind) => {
  const pair = pairing(d(size), hole, shaft);
  expect([pair?.hole.lower, pair?.hole.upper, pair?.shaft.lower, pair?.shaft.upper, pair?.least, pair?.most]).toEqual(published);
  expect(pair?.kind).toBe(kind);
});

test("the trap of the boundary: 30 mm is in 18 to 30, so H7 is +21 and p6 is +22 to +35 (a page says +25 and +28 to +44)", () => {
  expect(tolerance(d("30"), "H7")).toMatchObject({ lower: 0, upper: 21 });
  expect(tolerance(d("30"), "p6")).toMatchObject({ lower: 22, upper: 35 });
  expect(tolerance(d("30.001"), "H7")).toMatchObject({ upper: 25 });
});

test("the trap of the formula: 16·i at 6 to 10 mm is 14.37, the table says 15", () => {
  const geometric = Math.sqrt(6 * 10);
  const i = 0.45 * Math.cbrt(geometric) + 0.001 * geometric;
  expect(Math.abs(16 * i - 14.37)).toBeLessThan(0.01);
  expect(itGrade(d("10"), 7)).toBe(15);
});

test("the trap of a mistyped row: IT9 for 3 to 6 mm is 30, not 20", () => {
  expect(itGrade(d("5"), 9)).toBe(30);
});

test("a fit is a band anywhere, in inches too", () => {
  const band = fitBand(quantity("25", "mm") ?? expect.fail("25 mm"), "H7");
  expect([band?.low?.toString(), band?.high?.toString(), band?.text]).toEqual(["25", "25.021", "25 H7 mm"]);
  const shaft = fitBand(quantity("40", "mm") ?? expect.fail("40 mm"), "f7");
  expect([shaft?.low?.toString(), shaft?.high?.toString()]).toEqual(["39.95", "39.975"]);
  // 1 in is 25.4 mm, over 18 up to 30.
  const inch = fitBand(quantity("1", "in") ?? expect.fail("1 in"), "H7");
  expect(inch?.high?.toString()).toBe("25.421");
  expect(limitsOf(tolerance(d("25"), "g6") ?? expect.fail("g6")).text).toBe("24.98 .. 24.993 mm");
});

test("what is not in the table is not made up", () => {
  for (const code of ["H4", "H12", "G7", "a9", "js6", "H", "7", "", "HH7", "H07x"]) expect(tolerance(d("25"), code), code).toBeUndefined();
  for (const size of ["0", "-5", "120.001", "500"]) expect(tolerance(d(size), "H7"), size).toBeUndefined();
  expect(tolerance(d("120"), "H7")).toBeDefined();
  expect(pairing(d("25"), "g6", "H7")).toBeUndefined();
  expect(fitBand(quantity("25", "N.m") ?? expect.fail("25 N.m"), "H7")).toBeUndefined();
  // f, g and k from 80 to 120 mm are from memory, and say so.
  expect([tolerance(d("100"), "g6")?.mark, tolerance(d("100"), "m6")?.mark, tolerance(ratio(25), "g6")?.mark]).toEqual(["memory", "table", "table"]);
});
