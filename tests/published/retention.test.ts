// Split pins, cross-holes and castle nuts: every row against what was published, every figure again in this file.
import { expect, test } from "vitest";
import { figure, ratio } from "../../server/quantities/exact.ts";
import { slotRules, slotsOf, smallestTurn, travelPerSlot } from "../../server/trade/castle-slots.ts";
import { castleNuts, crossHole, inchPins, isoPins, suitablePin } from "../../server/trade/split-pins.ts";
import { threadOf } from "../../server/trade/threads.ts";
import { within } from "./near.ts";

const t = (designation: string) => threadOf(designation) ?? expect.fail(`${designation} is not known`);

test("ASME B18.8.1: shank and gauge hole, inches", () => {
  const published = [
    ["1/16", 0.06, 0.056, 0.078],
    ["5/64", 0.076, 0.072, 0.094],
    ["3/32", 0.09, 0.086, 0.109],
    ["7/64", 0.104, 0.1, 0.125],
    ["1/8", 0.12, 0.116, 0.141],
    ["9/64", 0.134, 0.13, 0.156],
    ["5/32", 0.15, 0.146, 0.172],
    ["3/16", 0.176, 0.172, 0.203],
    ["7/32", 0.207, 0.202, 0.234],
    ["1/4", 0.225, 0.22, 0.266],
    ["5/16", 0.28, 0.275, 0.312],
  ];
  expect(inchPins.map((it) => [it.nominal, Number(it.shankMax), Number(it.shankMin), Number(it.gaugeHole)])).toEqual(published);
  // A page repeats 3/32 and prints the 5/8 in pin as 0.718: no nominal size stands twice, and each row is larger than the one before.
  for (let i = 1; i < inchPins.length; i++) expect(figure(inchPins[i]?.nominal ?? "").compare(figure(inchPins[i - 1]?.nominal ?? ""))).toBe(1);
  // The gauge hole is nominal + 1/64 up to 1/4 in, to the rounding of the table.
  for (const pin of inchPins.slice(0, -1)) within(figure(pin.nominal).add(ratio(1, 64)), Number(pin.gaugeHole), 0.0006, pin.nominal);
});

// American practice after the appendix of ASME B18.8.1, from memory: thread, hole, pin. Consistent with the gauge holes above.
test.each([
  ["1/4", "5/64", "1/16"],
  ["5/16", "5/64", "1/16"],
  ["3/8", "7/64", "3/32"],
  ["7/16", "7/64", "3/32"],
  ["1/2", "9/64", "1/8"],
  ["9/16", "9/64", "1/8"],
  ["5/8", "11/64", "5/32"],
  ["3/4", "11/64", "5/32"],
  ["7/8", "11/64", "5/32"],
  ["1", "13/64", "3/16"],
  ["1-1/8", "13/64", "3/16"],
  ["1-1/4", "15/64", "7/32"],
  ["1-3/8", "15/64", "7/32"],
  ["1-1/2", "17/64", "1/4"],
])("American practice: %s in has the hole %s and the pin %s", (size, hole, pin) => {
  for (const series of ["UNC", "UNF"]) {
    const suitable = suitablePin(t(`${size} ${series}`));
    expect([suitable?.hole, suitable?.pin.figure, suitable?.mark]).toEqual([`${hole} in`, pin, "memory"]);
  }
  within(figure(pin).add(ratio(1, 64)).sub(figure(hole)), 0, 1e-12);
});

// BS 1768 table 1: cross-hole of UNC and UNF, inches; drill, mm.
test.each([
  ["1/4", 0.079, 0.084, 2.0],
  ["5/16", 0.095, 0.1, 2.4],
  ["3/8", 0.112, 0.117, 2.85],
  ["7/16", 0.112, 0.117, 2.85],
  ["1/2", 0.146, 0.152, 3.7],
  ["9/16", 0.146, 0.152, 3.7],
  ["5/8", 0.177, 0.184, 4.5],
  ["3/4", 0.177, 0.184, 4.5],
])("BS 1768: %s in has a hole of %f to %f in, drill %f mm", (size, least, largest, drill) => {
  const hole = crossHole(t(`${size} UNF`));
  expect([hole?.least, hole?.largest, hole?.drillMm].map(Number)).toEqual([least, largest, drill]);
  within(drill / 25.4, (least + largest) / 2, 0.004);
});

// BS 1083 tables 1 and 3: cross-hole of BSW and BSF, drill, width of the nut's slots. A page misprints the 1/2 in drill as 0.65 mm.
test.each([
  ["1/4", 0.07, 0.075, 1.8, 0.09, 0.1],
  ["5/16", 0.07, 0.075, 1.8, 0.09, 0.1],
  ["3/8", 0.07, 0.075, 1.8, 0.09, 0.1],
  ["7/16", 0.104, 0.11, 2.65, 0.125, 0.135],
  ["1/2", 0.104, 0.11, 2.65, 0.125, 0.135],
  ["9/16", 0.136, 0.143, 3.5, 0.165, 0.175],
  ["5/8", 0.136, 0.143, 3.5, 0.165, 0.175],
  ["3/4", 0.166, 0.174, 4.2, 0.208, 0.218],
  ["7/8", 0.166, 0.174, 4.2, 0.208, 0.218],
])("BS 1083: %s in has a hole of %f to %f in, drill %f mm, slots of %f to %f in", (size, least, largest, drill, slotLeast, slotLargest) => {
  for (const series of ["BSW", "BSF"]) {
    const hole = crossHole(t(`${size} ${series}`));
    expect([hole?.least, hole?.largest, hole?.drillMm, ...(hole?.slot ?? [])].map(Number)).toEqual([least, largest, drill, slotLeast, slotLargest]);
  }
  // The drill makes a hole within a thousandth of the limits, which 0.65 mm would not.
  expect(drill / 25.4).toBeGreaterThanOrEqual(least - 0.001);
  expect(drill / 25.4).toBeLessThanOrEqual(largest);
});

test("DIN 935-1, ISO 7035 and ISO 1234: castle nuts with their pins, mm", () => {
  const published = [
    ["4", "1", "10", 1.2, 1.45],
    ["5", "1.2", "12", 1.4, 1.65],
    ["6", "1.6", "14", 2, 2.25],
    ["8", "2", "16", 2.5, 2.75],
    ["10", "2.5", "20", 2.8, 3.05],
    ["12", "3.2", "22", 3.5, 3.8],
    ["14", "3.2", "25", 3.5, 3.8],
    ["16", "4", "28", 4.5, 4.8],
    ["18", "4", "32", 4.5, 4.8],
    ["20", "4", "36", 4.5, 4.8],
    ["22", "5", "36", 5.5, 5.8],
  ];
  expect(castleNuts.map(([major, pin, length, least, largest]) => [major, pin, length, Number(least), Number(largest)])).toEqual(published);
  for (const [major, pin] of castleNuts) expect(suitablePin(t(`M${major}`))?.pin.figure).toBe(pin);
});

test("ISO 1234: bolts by pin, mm, from memory; it agrees with every castle nut", () => {
  const published = [
    [0.6, 0, 2.5],
    [0.8, 2.5, 3.5],
    [1, 3.5, 4.5],
    [1.2, 4.5, 5.5],
    [1.6, 5.5, 7],
    [2, 7, 9],
    [2.5, 9, 11],
    [3.2, 11, 14],
    [4, 14, 20],
    [5, 20, 27],
    [6.3, 27, 39],
    [8, 39, 56],
    [10, 56, 80],
    [13, 80, 120],
  ];
  expect(isoPins.map((it) => it.map(Number))).toEqual(published);
  for (const [major, pin] of castleNuts) expect(isoPins.find(([, over, to]) => Number(major) > Number(over) && Number(major) <= Number(to))?.[0]).toBe(pin);
});

test("slots of a castle nut: six to M39, eight from M42, ten from M72; nothing between the table's sizes", () => {
  expect([4, 12, 39].map((it) => slotsOf(ratio(it))?.slots)).toEqual([6, 6, 6]);
  expect([42, 68].map((it) => [slotsOf(ratio(it))?.slots, slotsOf(ratio(it))?.degrees])).toEqual([
    [8, 45],
    [8, 45],
  ]);
  expect([72, 100].map((it) => [slotsOf(ratio(it))?.slots, slotsOf(ratio(it))?.degrees])).toEqual([
    [10, 36],
    [10, 36],
  ]);
  expect([3, 40, 41, 69, 71, 101].flatMap((it) => slotsOf(ratio(it)) ?? [])).toEqual([]);
});

test("from slot to slot a nut travels its pitch over its slots: 1/2-13 UNC 0.012821 in, M12x1.75 0.291667 mm", () => {
  within((travelPerSlot(t("1/2-13 UNC"), 6)?.valueOf() ?? 0) / 25.4, 0.012821, 1e-5);
  within(travelPerSlot(t("M12"), 6), 0.291667, 1e-5);
  expect(travelPerSlot(t("M12"), 0)).toBeUndefined();
});

test("two holes at 90° halve the step of six slots to 30°, a twelfth of a turn: gcd(60°, 90°)", () => {
  expect([smallestTurn(6, 1), smallestTurn(6, 2), smallestTurn(8, 1), smallestTurn(8, 2), smallestTurn(0, 1)]).toEqual([60, 30, 45, 45, undefined]);
});

test("the trap of one rule for both: a clamping nut goes on to its slot, an adjusting nut goes back", () => {
  expect(slotRules.clamping.words).toContain("Never slacken");
  expect(slotRules.clamping.words).toContain("go on to the next slot");
  expect(slotRules.adjusting.words).toContain("go BACK to the next slot");
});
