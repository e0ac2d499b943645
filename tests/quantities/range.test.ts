// Bands and verdicts by ISO 14253-1, at their very edges.
import fc from "fast-check";
import { expect, test } from "vitest";
import { figure, ratio } from "../../server/quantities/exact.ts";
import { type Band, beyond, couldBeIn, inside, verdict } from "../../server/quantities/range.ts";
import { unitOf } from "../../server/quantities/units.ts";

const unit = unitOf("mm") ?? expect.fail("mm");
const band = (low: string | undefined, high: string | undefined): Band => ({
  unit,
  text: "",
  ...(low === undefined ? {} : { low: figure(low) }),
  ...(high === undefined ? {} : { high: figure(high) }),
});

test("the ends are inside", () => {
  const it = band("0.004", "0.008");
  expect(inside(it, figure("0.004"))).toBe(true);
  expect(inside(it, figure("0.008"))).toBe(true);
  expect(inside(it, figure("0.0080001"))).toBe(false);
  expect(beyond(it, figure("0.010")).toFraction()).toBe("1/500");
  expect(beyond(it, figure("0.003")).toFraction()).toBe("1/1000");
  expect(beyond(it, figure("0.006")).n).toBe(0n);
});

test("without an uncertainty the comparison is plain, and says so", () => {
  expect(verdict(band(undefined, "0.010"), figure("0.010"))).toBe("in-plain");
  expect(verdict(band(undefined, "0.010"), figure("0.0101"))).toBe("out-plain");
});

test("the conformance zone has its edge in it, the non-conformance zone has not (ISO 14253-1)", () => {
  const it = band("-0.003", "0.003");
  const u = figure("0.001");
  expect(verdict(it, figure("0.002"), u)).toBe("in");
  expect(verdict(it, figure("0.0020001"), u)).toBe("doubt");
  expect(verdict(it, figure("0.004"), u)).toBe("doubt");
  expect(verdict(it, figure("0.0040001"), u)).toBe("out");
  expect(verdict(it, figure("-0.002"), u)).toBe("in");
  expect(verdict(it, figure("-0.004"), u)).toBe("doubt");
  expect(verdict(it, figure("-0.0041"), u)).toBe("out");
  expect(verdict(it, figure("0"), ratio(0))).toBe("in");
  expect(verdict(it, figure("0.003"), ratio(0))).toBe("in");
  expect(verdict(it, figure("0.0031"), ratio(0))).toBe("out");
});

test("an end that is not there bounds nothing, below nought either", () => {
  expect(verdict(band(undefined, "0"), figure("-5"), figure("1"))).toBe("in");
  expect(verdict(band("-9", undefined), figure("5"), figure("1"))).toBe("in");
});

test("a root of a sum of squares is compared without a root: 3-4-5", () => {
  const it = band(undefined, "0.15");
  const squared =
    figure("0.003")
      .pow(2)
      ?.add(figure("0.004").pow(2) ?? 0) ?? ratio(0);
  expect(verdict(it, figure("0.145"), { squared })).toBe("in");
  expect(verdict(it, figure("0.1450000000001"), { squared })).toBe("doubt");
  expect(verdict(it, figure("0.155"), { squared })).toBe("doubt");
  expect(verdict(it, figure("0.1550000000001"), { squared })).toBe("out");
});

test("an uncertainty wider than the band leaves no reading in", () => {
  const it = band("0", "0.003");
  expect(couldBeIn(it, figure("0.0015"))).toBe(true);
  expect(couldBeIn(it, figure("0.0016"))).toBe(false);
  expect(couldBeIn(band(undefined, "0.003"), figure("1"))).toBe(true);
  expect(couldBeIn(band("0.003", undefined), figure("1"))).toBe(true);
  expect(verdict(it, figure("0.0015"), figure("0.0016"))).toBe("doubt");
});

test("agrees with the words of the standard for any whole figures", () => {
  // The oracle is the interval [y − U, y + U] in whole numbers, which a double holds exactly.
  fc.assert(
    fc.property(
      fc.integer({ min: -50, max: 50 }),
      fc.integer({ min: 0, max: 60 }),
      fc.integer({ min: -200, max: 200 }),
      fc.integer({ min: 0, max: 80 }),
      (low, width, y, u) => {
        const high = low + width;
        const said = verdict({ low: ratio(low), high: ratio(high), unit, text: "" }, ratio(y), ratio(u));
        const wanted = y - u >= low && y + u <= high ? "in" : y + u < low || y - u > high ? "out" : "doubt";
        expect(said).toBe(wanted);
      },
    ),
    { numRuns: 500, seed: 14253 },
  );
});
