// The straight line by least squares, its errors and its prediction interval, held to certified and published values; Student's t to a library.
import jstat from "jstat";
import { describe, expect, test } from "vitest";
import { type Exact, compare, decimalText, exact, figure, one, ratio, rootTo } from "../../server/quantities/exact.ts";
import { type Point, type StraightLine, crossing, predictionSquared, straightLine, varianceAbout } from "../../server/quantities/straight-line.ts";
import { student95 } from "../../server/quantities/student.ts";
import { norris } from "./nist-strd.ts";

const points = (text: string): Point[] => {
  const figures = text.trim().split(/\s+/).map(figure);
  return figures.flatMap((y, i) => (i % 2 === 0 ? [[figures[i + 1] as Exact, y] as const] : []));
};
const known = <T>(it: T | undefined): T => it as T;
const rootText = (squared: Exact, places: number) => decimalText(known(rootTo(squared, places)), places);
/** Squares of the standard errors, as the handbooks give them: s²/Sxx, and s²(1/n + mean x²/Sxx). */
const errorsSquared = (line: StraightLine, variance: Exact) => ({
  slope: variance.div(line.sxx),
  intercept: variance.mul(one.div(line.n).add(line.meanX.mul(line.meanX).div(line.sxx))),
});
const near = (text: string | undefined, expected: string, within: number) => {
  expect(Math.abs(Number(text) / Number(expected) - 1)).toBeLessThan(within);
};

describe("NIST StRD, Norris (36 points), certified to 15 figures", () => {
  const line = known(straightLine(points(norris)));
  const variance = known(varianceAbout(line));
  const errors = errorsSquared(line, variance);
  test("slope, intercept, their standard deviations and the residual standard deviation", () => {
    expect(line.n).toBe(36);
    near(String(line.slope.valueOf()), "1.00211681802045", 1e-14);
    near(String(line.intercept.valueOf()), "-0.262323073774029", 1e-14);
    near(rootText(errors.slope, 20), "0.000429796848199937", 1e-14);
    near(rootText(errors.intercept, 17), "0.232818234301152", 1e-14);
    near(rootText(variance, 17), "0.884796396144373", 1e-14);
    near(String(line.residual.valueOf()), "26.6173985294224", 1e-14);
  });
});

test("F. J. Anscombe, Graphs in statistical analysis (1973), the first of his four: y = 3.00 + 0.500 x, standard error of the slope 0.118", () => {
  const line = known(straightLine(points("8.04 10 6.95 8 7.58 13 8.81 9 8.33 11 9.96 14 7.24 6 4.26 4 10.84 12 4.82 7 5.68 5")));
  expect(line.slope.valueOf()).toBeCloseTo(0.5, 3);
  expect(line.intercept.valueOf()).toBeCloseTo(3.0, 2);
  expect(Number(rootText(errorsSquared(line, known(varianceAbout(line))).slope, 6))).toBeCloseTo(0.118, 3);
});

describe("by hand", () => {
  // x 0, 1, 2 and y 0, 1, 3: means 1 and 4/3, Sxx 2, Sxy 3, slope 3/2, intercept −1/6; residuals 1/6, −1/3, 1/6, squares 1/6, variance 1/6.
  const line = known(straightLine([0, 1, 3].map((y, x) => [ratio(x), ratio(y)] as const)));
  test("a line in exact ratios", () => {
    expect([line.slope, line.intercept, line.residual, known(varianceAbout(line))].map((it) => it.toFraction())).toEqual(["3/2", "-1/6", "1/6", "1/6"]);
  });
  test("the prediction interval: t² s² (1 + 1/n + (x − mean)²/Sxx)", () => {
    // 4 · 1/6 · (1 + 1/3 + 4/2) = 20/9, at x = 3 with t = 2.
    expect(predictionSquared(line, ratio(1, 6), ratio(2), ratio(3)).toFraction()).toBe("20/9");
  });
  test("two points have no variance, one x has no line", () => {
    expect(
      varianceAbout(
        known(
          straightLine([
            [ratio(0), ratio(0)],
            [ratio(1), ratio(1)],
          ]),
        ),
      ),
    ).toBeUndefined();
    expect(
      straightLine([
        [ratio(1), ratio(0)],
        [ratio(1), ratio(1)],
      ]),
    ).toBeUndefined();
  });
});

describe("where a line comes to a level", () => {
  // Norris again: the doubt is held to what it means. At both ends the level is just as far from the line as the prediction interval is wide.
  const line = known(straightLine(points(norris)));
  const variance = known(varianceAbout(line));
  const t = known(student95(34));
  test("at its ends the level is at the edge of the prediction interval", () => {
    for (const level of ["1200", "-50", "500.5"]) {
      const it = known(crossing(line, figure(level), variance, t, 12));
      for (const x of [it.earliest, it.latest]) {
        const off = line.intercept.add(line.slope.mul(x)).sub(figure(level));
        const ratioOf = off
          .mul(off)
          .div(predictionSquared(line, variance, t, x))
          .valueOf();
        expect(ratioOf).toBeCloseTo(1, 8);
      }
      expect([compare(it.earliest, it.at), compare(it.at, it.latest)]).toEqual([-1, -1]);
      expect(line.intercept.add(line.slope.mul(it.at)).equals(figure(level))).toBe(true);
    }
  });
  test("there is no such place where the slope is within its own doubt", () => {
    // 0, 1, 0, 1: slope 1/5, and a standard error of more than that.
    const flat = known(straightLine([0, 1, 0, 1].map((y, x) => [ratio(x), ratio(y)] as const)));
    expect(crossing(flat, ratio(9), known(varianceAbout(flat)), known(student95(2)), 6)).toBeUndefined();
  });
});

describe("Student's t, 95 % of both sides", () => {
  test("each row of the table is jstat's, rounded to three decimals", () => {
    for (const degrees of [...Array.from({ length: 30 }, (_, i) => i + 1), 40, 60, 120])
      expect([degrees, student95(degrees)?.toString()]).toEqual([degrees, exact(jstat.jStat.studentt.inv(0.975, degrees).toFixed(3))?.toString()]);
  });
  test("between rows the larger holds, and none is given for nothing", () => {
    for (const degrees of [31, 39, 41, 59, 61, 119, 121, 5000])
      expect(known(student95(degrees)).valueOf()).toBeGreaterThanOrEqual(jstat.jStat.studentt.inv(0.975, degrees) - 0.0005);
    expect(student95(0)).toBeUndefined();
  });
});

// s²t²/Sxx is the square of the doubt of the slope: 2 · 1 / 2 = 1, and the slope is 1. With a little more room it comes to the level.
test("a slope that is just as large as its doubt comes to no level", () => {
  const line: StraightLine = { n: 3, slope: ratio(1), intercept: ratio(0), meanX: ratio(1), meanY: ratio(1), sxx: ratio(2), residual: ratio(2) };
  expect(crossing(line, ratio(5), ratio(2), one, 3)).toBeUndefined();
  expect(crossing(line, ratio(5), figure("1.99"), one, 3)?.at.toString()).toBe("5");
});
