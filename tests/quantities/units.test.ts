// Units: spellings, what is ambiguous, what is nearest. Their worth is checked against outside programs in tests/published.
import { expect, test } from "vitest";
import { figure, ratio } from "../../server/quantities/exact.ts";
import { editDistance } from "../../server/quantities/spelling.ts";
import { rows } from "../../server/quantities/unit-table.ts";
import { ambiguousUnit, isUnitSpelling, nearestUnit, toBase, unitOf } from "../../server/quantities/units.ts";

test("the usual spellings are one unit", () => {
  const same = (name: string, spellings: string) => {
    for (const spelling of spellings.split(" ")) expect(unitOf(spelling)?.name, spelling).toBe(name);
  };
  same("lbf.ft", "lbf.ft lb.ft ft.lb ft-lb ft.lbf ft-lbf lbf-ft lb-ft");
  same("lbf.in", "lbf.in lb.in in.lb in-lb");
  same("ozf.in", "oz.in ozf.in");
  same("kgf.m", "kg.m kgf.m");
  same("kgf.cm", "kg.cm");
  same("N.m", "Nm N·m N-m N.m");
  same("in", "in inch inches");
  same("lb", "lb lbs");
  same("h", "h hr hrs");
  same("min", "min mins");
  same("d", "d days day");
  same("l", "l L litre litres liter");
  same("um", "um \u00b5m \u03bcm");
  same("degC", "degC °C");
  expect(unitOf("lbs")?.spelling).toBe("lbs");
});

test("every unit of the language is known, with a source", () => {
  const all =
    "in thou ft yd mi um mm cm m km deg arcmin rad lbf kgf N kN lbf.ft lbf.in ozf.in kgf.m kgf.cm N.m g kg t lb oz us.ton imp.ton us.cwt imp.cwt ml l cc us.floz us.pt us.qt us.gal imp.floz imp.pt imp.qt imp.gal psi bar kPa MPa mbar inHg mmHg degC degF °C °F K s min h d rpm mph km/h %";
  for (const spelling of all.split(" ")) {
    expect(unitOf(spelling), spelling).toBeDefined();
    expect(isUnitSpelling(spelling), spelling).toBe(true);
  }
  for (const row of rows) expect(row.source.length, row.spellings).toBeGreaterThan(5);
});

test("no spelling is given to a unit and called ambiguous as well", () => {
  for (const spelling of rows.flatMap((it) => it.spellings.split(" "))) {
    expect(unitOf(spelling), spelling).toBeDefined();
    expect(ambiguousUnit(spelling), spelling).toBeUndefined();
  }
});

test("what means two things names both", () => {
  for (const spelling of ["pt", "qt", "gal", "floz", "ton", "cwt", "mil", "pint", "gallons", "tons"]) {
    expect(unitOf(spelling), spelling).toBeUndefined();
    const meanings = ambiguousUnit(spelling)?.meanings ?? [];
    expect(meanings.length, spelling).toBeGreaterThan(1);
    for (const meaning of meanings) expect(unitOf(meaning), meaning).toBeDefined();
    expect(isUnitSpelling(spelling)).toBe(true);
    expect(nearestUnit(spelling)).toBeUndefined();
  }
  expect(ambiguousUnit("oz")).toBeUndefined();
  expect(ambiguousUnit("oz", "mass")).toBeUndefined();
  expect(ambiguousUnit("oz", "volume")?.meanings).toEqual(["us.floz", "imp.floz"]);
  expect(ambiguousUnit("lb", "torque")?.meanings).toEqual(["lbf.ft", "lbf.in"]);
  expect(ambiguousUnit("lb", "mass")).toBeUndefined();
});

test("the nearest unit is offered, and none where none is near", () => {
  expect(nearestUnit("lbf.fr")?.name).toBe("lbf.ft");
  expect(nearestUnit("lb/ft")?.name).toBe("lbf.ft");
  expect(nearestUnit("nm", "torque")?.name).toBe("N.m");
  expect(nearestUnit("MM")?.name).toBe("mm");
  expect(nearestUnit("tohu")?.name).toBe("thou");
  expect(nearestUnit("Kg")?.name).toBe("kg");
  expect(nearestUnit("kpa")?.name).toBe("kPa");
  expect(nearestUnit("zebra")).toBeUndefined();
  expect(nearestUnit("q")).toBeUndefined();
  expect(nearestUnit("x".repeat(100000))).toBeUndefined();
  // Only of the kind that is expected.
  expect(nearestUnit("nm", "length")?.dimension).toBe("length");
});

test("angles in degrees and minutes stay exact; the radian says that it is not", () => {
  expect(toBase(ratio(90), unitOf("arcmin") ?? neverUnit()).toFraction()).toBe("3/2");
  expect(unitOf("rad")?.inexact).toBe(true);
  expect(unitOf("deg")?.inexact).toBeUndefined();
  expect(figure("1").equals(unitOf("deg")?.factor ?? 0)).toBe(true);
});

function neverUnit(): never {
  throw new Error("a unit of the language is missing");
}

test("spellings are so many letters apart; two neighbours exchanged count one (Damerau)", () => {
  // kitten and sitting are the usual worked example of Levenshtein's distance: 3.
  expect(editDistance("kitten", "sitting")).toBe(3);
  expect(editDistance("ca", "ac")).toBe(1);
  expect(editDistance("tohu", "thou")).toBe(1);
  expect(editDistance("", "abc")).toBe(3);
  expect(editDistance("abc", "abc")).toBe(0);
  expect(editDistance("a", "abcdef", 2)).toBeGreaterThan(2);
});

/** The distance by its definition, with no bound and no band: every way to go on from two places, the cheapest of them (adjacent letters exchanged are not changed again). */
function byDefinition(a: string, b: string): number {
  if (a === "" || b === "") return a.length + b.length;
  const ways = [byDefinition(a.slice(1), b) + 1, byDefinition(a, b.slice(1)) + 1, byDefinition(a.slice(1), b.slice(1)) + (a[0] === b[0] ? 0 : 1)];
  if (a.length > 1 && a[0] === b[1] && a[1] === b[0]) ways.push(byDefinition(a.slice(2), b.slice(2)) + 1);
  return Math.min(...ways);
}

test("all words of up to four letters of three are as far apart as the definition says, and with a bound no nearer than they are", () => {
  const words = [""];
  for (const word of words) if (word.length < 4) words.push(...["a", "b", "c"].map((it) => word + it));
  const wrong: string[] = [];
  // Which letters they are makes no difference: of the first word one renaming of each is enough.
  for (const a of words)
    for (const b of /^(a+(b[ab]*(c.*)?)?)?$/.test(a) ? words : []) {
      const apart = byDefinition(a, b);
      if (editDistance(a, b) !== apart) wrong.push(`${a} ${b}`);
      for (const most of [0, 1, 2, 3])
        if (apart <= most ? editDistance(a, b, most) !== apart : editDistance(a, b, most) <= most) wrong.push(`${a} ${b} within ${most}`);
    }
  expect(wrong).toEqual([]);
});

test("a long word may be two letters off, a short one one, and a hostile one is near to nothing", () => {
  // kgf.cm with a letter wrong and one too many; mm with two wrong.
  expect(nearestUnit("kgg.cmm")?.name).toBe("kgf.cm");
  expect(nearestUnit("mqq")).toBeUndefined();
  expect(nearestUnit("mq")?.name).toBeDefined();
  expect(nearestUnit("kilogramkilogramkilogram")).toBeUndefined();
});
