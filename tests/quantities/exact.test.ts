// Exact numbers: what is read, what is not, and rounding where a binary float goes wrong.
import { expect, test } from "vitest";
import { compare, decimalText, exact, figure, plainText, ratio, rootTo, significantText, sumOf } from "../../server/quantities/exact.ts";

test("reads figures as a sheet writes them", () => {
  const read = (text: string) => exact(text)?.toFraction();
  expect(read("12")).toBe("12");
  expect(read("0.0125")).toBe("1/80");
  expect(read(".005")).toBe("1/200");
  expect(read("5/8")).toBe("5/8");
  expect(read("1-1/4")).toBe("5/4");
  expect(read("-1-1/4")).toBe("-5/4");
  expect(read("+0.021")).toBe("21/1000");
  expect(read("-0")).toBe("0");
});

test("reads nothing else, and throws at none of it", () => {
  for (const text of [
    "",
    "-",
    ".",
    "5.",
    "0,38",
    "1/0",
    "1-1/0",
    "1e3",
    "1 1/4",
    "1/2/3",
    "0x10",
    "NaN",
    "Infinity",
    "١٢",
    "1_000",
    "--1",
    "12mm",
    "9".repeat(41),
    `0.${"1".repeat(41)}`,
    "9".repeat(100000),
    "1.2.3",
    "1-2",
    "½",
  ])
    expect(exact(text), text.slice(0, 20)).toBeUndefined();
  expect(exact("9".repeat(40))).toBeDefined();
  expect(exact(`.${"9".repeat(40)}`)).toBeDefined();
  expect(exact(`.${"9".repeat(41)}`)).toBeUndefined();
  expect(() => figure("1,5")).toThrow();
});

test("decides where a binary float would be wrong", () => {
  // 0.138 + 0.012 is 0.15000000000000002 in binary, 0.28 + 0.02 is 0.30000000000000004 (IEEE 754 doubles).
  expect(0.138 + 0.012 > 0.15).toBe(true);
  expect(compare(figure("0.138").add(figure("0.012")), figure("0.15"))).toBe(0);
  expect(compare(figure("0.28").add(figure("0.02")), figure("0.30"))).toBe(0);
});

test("rounds half to even (ISO 80000-1, rule A)", () => {
  expect(decimalText(figure("1.005"), 2)).toBe("1.00");
  expect(decimalText(figure("1.015"), 2)).toBe("1.02");
  expect(decimalText(figure("2.665"), 2)).toBe("2.66");
  expect(decimalText(figure("2.6651"), 2)).toBe("2.67");
  expect(decimalText(figure("0.5"), 0)).toBe("0");
  expect(decimalText(figure("1.5"), 0)).toBe("2");
  expect(decimalText(figure("-0.004"), 2)).toBe("0.00");
  expect(decimalText(figure("-1.25"), 1)).toBe("-1.2");
  expect(decimalText(figure("0.014"), 4)).toBe("0.0140");
});

test("writes the shortest exact decimal, or six digits", () => {
  expect(plainText(figure("1-1/4"))).toBe("1.25");
  expect(plainText(figure("0.0100"))).toBe("0.01");
  expect(plainText(figure("120"))).toBe("120");
  expect(plainText(ratio(1, 3))).toBe("0.333333");
  expect(plainText(ratio(-2, 3))).toBe("-0.666667");
  expect(plainText(ratio(200000000, 3))).toBe("66666700");
  expect(significantText(ratio(1, 3000), 2)).toBe("0.00033");
  expect(significantText(figure("999.96"), 4)).toBe("1000");
});

test("adds without a rounding: ten tenths are one, and of nothing there is nothing", () => {
  expect(sumOf(Array.from({ length: 10 }, () => figure("0.1"))).equals(1)).toBe(true);
  expect(sumOf([ratio(1, 2), ratio(1, 3), ratio(1, 6)]).equals(1)).toBe(true);
  expect(sumOf([ratio(-5)]).equals(-5)).toBe(true);
  expect(sumOf([]).equals(0)).toBe(true);
});

test("takes a root to so many places", () => {
  // √2 = 1.41421356237309504880… (OEIS A002193)
  expect(decimalText(rootTo(ratio(2), 20) ?? ratio(0), 20)).toBe("1.41421356237309504880");
  expect(decimalText(rootTo(figure("0.25"), 3) ?? ratio(0), 3)).toBe("0.500");
  expect(rootTo(ratio(-1), 3)).toBeUndefined();
});
