// Quantities: read, converted, shown in the writer's unit and in the other system.
import { expect, test } from "vitest";
import { figure } from "../../server/quantities/exact.ts";
import { asDifference, bothSystems, differenceText, inUnit, meanText, quantity, sameUnitText } from "../../server/quantities/quantity.ts";
import { unitOf } from "../../server/quantities/units.ts";

const q = (figureText: string, unit: string) => quantity(figureText, unit) ?? expect.fail(`${figureText} ${unit} was not read`);
const u = (spelling: string) => unitOf(spelling) ?? expect.fail(spelling);

test("a figure with its unit is worth its base value, exactly", () => {
  expect(q("1", "in").value.toFraction()).toBe("127/5");
  expect(q("5/8", "in").value.equals(figure("15.875"))).toBe(true);
  expect(q("0.015", "in").places).toBe(3);
  expect(q("5/8", "in").places).toBe(-1);
  expect(quantity("0,38", "mm")).toBeUndefined();
  expect(quantity("1", "pt")).toBeUndefined();
  expect(quantity("1", "zebra")).toBeUndefined();
});

test("mixed units of one kind are worth what they are in one base unit", () => {
  expect(q("15", "thou").value.compare(q("0.381", "mm").value)).toBe(0);
  expect(q("1", "imp.floz").value.compare(q("1", "us.floz").value)).toBe(-1);
});

test("temperatures are absolute, differences of them are not (NIST SP 811 B.9)", () => {
  expect(inUnit(q("212", "degF"), u("degC")).toFraction()).toBe("100");
  expect(inUnit(q("-40", "degF"), u("degC")).toFraction()).toBe("-40");
  expect(asDifference(q("9", "degF")).toFraction()).toBe("5");
  expect(asDifference(q("5", "K")).toFraction()).toBe("5");
});

test("a mean is shown in the writer's unit, two places finer where it falls between", () => {
  const mean = figure("0.043").div(3).mul(figure("25.4"));
  expect(sameUnitText(mean, u("in"), 3)).toBe("0.01433 in");
  expect(sameUnitText(figure("0.381"), u("in"), 3)).toBe("0.015 in");
  expect(sameUnitText(figure("0.381"), u("in"), 4)).toBe("0.0150 in");
  expect(sameUnitText(figure("0.3683"), u("in"), 3)).toBe("0.0145 in");
  expect(sameUnitText(figure("15.875"), u("in"), -1)).toBe("0.625 in");
  expect(sameUnitText(q("70", "degF").value, u("degC"), 1)).toBe("21.111 degC");
  expect(differenceText(figure("5"), u("degF"), 0)).toBe("9 degF");
});

test("the other system stands beside it", () => {
  expect(bothSystems(q("0.015", "in"))).toBe("0.015 in (0.381 mm)");
  expect(bothSystems(q("45", "lbf.ft"))).toBe("45 lbf.ft (61 N.m)");
  expect(bothSystems(q("5/8", "in"))).toBe("5/8 in (15.875 mm)");
  expect(bothSystems(q("0.38", "mm"))).toBe("0.38 mm (0.01496 in)");
  // 1 l is 0.264172 US gallons and 0.219969 imperial gallons (NIST SP 811 Appendix B).
  expect(bothSystems(q("1.0", "l"))).toBe("1.0 l (0.264 us.gal, 0.22 imp.gal)");
  expect(bothSystems(q("20", "degC"))).toBe("20 degC (68 degF)");
  expect(bothSystems(q("60", "deg"))).toBe("60 deg");
});

test("a mean has at most one place more than its figures: 1.2492666… of three readings to 0.0001 in; nothing is added to one that needs none", () => {
  // (1.2493 + 1.2492 + 1.2493) / 3 = 1.24926666…; (12.022 + 12.025) / 2 = 12.0235; (2 + 3) / 2 = 2.5; (0.25 + 0.26 + 0.26) / 3 = 0.256666…
  expect(meanText(figure("1.2493").add(figure("1.2492")).add(figure("1.2493")).div(3).mul(u("in").factor), u("in"), 4)).toBe("1.24927 in");
  expect(meanText(figure("12.0235").mul(u("in").factor), u("in"), 3)).toBe("12.0235 in");
  expect(meanText(figure("2.5").mul(u("mm").factor), u("mm"), 0)).toBe("2.5 mm");
  expect(meanText(figure("0.77").div(3).mul(u("mm").factor), u("mm"), 2)).toBe("0.257 mm");
  expect(meanText(figure("0.30").mul(u("mm").factor), u("mm"), 2)).toBe("0.30 mm");
});
