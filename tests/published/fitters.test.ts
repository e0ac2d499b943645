// What a fitter asks at the bench, against public tables and the standards: 240 values, each with its source and how sure it is, in fitters-tables.json.
// Each is asked in its own words, and every figure that it should give is looked for by its name and unit in the answer.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { type Known, figure } from "../../server/features/figure.ts";

interface Check {
  readonly id: string;
  readonly kind: string;
  readonly ask: string;
  readonly expect: Readonly<Record<string, number | string>>;
  readonly units: Readonly<Record<string, string>>;
  readonly tolerance: Readonly<Record<string, number>>;
  readonly source: string;
  readonly sure: string;
}

const checks = JSON.parse(readFileSync(new URL("fitters-tables.json", import.meta.url), "utf8")) as Check[];

/** What the table calls a figure, and what the answer does. */
const names: Readonly<Record<string, string>> = {
  "form angle": "flank angle",
  "form triangleHeight": "triangle height over pitch",
  "form depth": "depth over pitch",
  "form basicDepth": "depth over pitch",
  "form radius": "radius over pitch",
  "form effective": "effective below major, over pitch",
  "form effectiveBelowMajor": "effective below major, over pitch",
  "form minor": "core below major, over pitch",
  "form minorBelowMajor": "core below major, over pitch",
  "form boltMinorBelowMajor": "core below major, over pitch",
  "form coefficient": "pitch taken off the major diameter",
  "form quarterPi": "pi over 4",
  "thread tpi": "threads per inch",
  "thread angle": "flank angle",
  "thread pitch": "pitch",
  "thread major": "major diameter",
  "thread majorInch": "major diameter",
  "thread effective": "effective diameter",
  "thread minor": "core diameter",
  "thread minorMm": "core diameter",
  "thread stressArea": "stress area",
  "thread drill": "tapping drill",
  "tapping drill": "tapping drill",
  "tapping drillMm": "tapping drill",
  "tapping drillName": "drill",
  "tapping drillFor75": "drill for 75 %",
  "spanner oldHexagon": "old hexagon",
  "spanner oldHexagonMm": "old hexagon",
  "spanner bs1083Hexagon": "BS 1083 hexagon",
  "spanner bs1083HexagonMm": "BS 1083 hexagon",
  "spanner acrossFlats": "across flats",
  "spanner acrossFlatsMm": "across flats",
  "spanner acrossFlatsInch": "across flats",
  "spanner acrossFlatsOld": "older across flats",
  "spanner name": "across flats, marked",
  "taper taperPerFoot": "taper per foot",
  "taper taperPerInch": "taper per inch",
  "taper halfAngle": "half-angle",
  "taper includedAngle": "angle",
  "taper socketEnd": "socket's large end",
  "taper plugSmallEnd": "plug's small end",
  "taper largeEnd": "large end",
  "taper largeEndMm": "large end",
  "taper smallEnd": "small end",
  "conversion temperature": "result",
  "conversion volume": "result",
  "conversion pressure": "result",
  "conversion stress": "result",
  "conversion length": "result",
  "conversion decimal": "decimal",
  "conversion mm": "in mm",
  "conversion fraction": "fraction",
  "conversion error": "error",
  "gauge thickness": "thickness",
  "gauge thicknessMm": "thickness",
  "drill diameter": "diameter",
  "drill diameterMm": "diameter",
  "practice clearance": "clearance",
  "practice clearanceRule": "clearance, rate",
  "practice clearanceLow": "clearance, low",
  "practice minimum": "minimum",
  "practice upTo": "up to",
  "practice rule": "clearance, rate",
  "practice gapMin": "ring gap, least",
  "practice interference": "interference",
  "practice low": "interference, low, rate",
  "practice high": "interference, high, rate",
  "practice average": "interference, average, rate",
  "line intercept": "intercept",
  "line slope": "slope",
  "line residualSd": "residual standard deviation",
  "line points": "points",
};
/** A rule of the table whose name depends on what it is of. */
const namesOf: Readonly<Record<string, string>> = { "ring-gap-min rule": "ring gap, least, rate" };

/** The table's units as the answer has them. A share of the pitch has none. */
const units: Readonly<Record<string, string>> = {
  "/in": "",
  pitch: "",
  "pitch below major": "",
  "pitch taken off the major diameter": "",
  l: "l",
  "imperial gallon": "imp.gal",
  cm3: "cc",
  "in per in": "in/in",
};

function found(answer: Known, check: Check, key: string): string | undefined {
  const name = namesOf[`${check.id} ${key}`] ?? names[`${check.kind} ${key}`] ?? expect.fail(`${check.id}: no name for ${key}`);
  const unit = check.units[key] ?? "";
  const wanted = units[unit] ?? unit;
  // A fraction stands as a word, which has no unit.
  return answer.values.find((it) => it.name === name && (it.unit === wanted || typeof check.expect[key] === "string"))?.value;
}

/** As people write a drill's name. */
const plainName = (text: string) => text.replace(/ in$/, "");

describe.each([...new Set(checks.map((it) => it.kind))])("%s", (kind) => {
  test.each(checks.filter((it) => it.kind === kind).map((it) => [it.ask, it.source, it] as const))("%s (%s)", (ask, _, check) => {
    const answer = figure(ask);
    if (!answer.known) return expect.fail(`${check.id}: ${answer.line}`);
    for (const [key, expected] of Object.entries(check.expect)) {
      const got = found(answer, check, key);
      expect(got, `${check.id} ${key}: ${JSON.stringify(answer.values)}`).toBeDefined();
      if (typeof expected === "string") expect(plainName(got as string), `${check.id} ${key}`).toBe(expected);
      else expect(Math.abs(Number(got) - expected), `${check.id} ${key}: ${got} against ${expected}`).toBeLessThanOrEqual((check.tolerance[key] ?? 0) + 1e-12);
    }
  });
});

test("all 240 are there, each with a source and how sure it is", () => {
  expect(checks.length).toBe(240);
  for (const it of checks)
    expect(
      [it.source, it.sure].every((text) => text.length > 3),
      it.id,
    ).toBe(true);
});

describe("where sources disagree the answer says so", () => {
  const line = (query: string) => {
    const answer = figure(query);
    return answer.known ? answer.line : expect.fail(answer.line);
  };
  // BS 811:1950 as quoted: a customary 20 TPI series of Whitworth form, whose core would be 0.4360 in.
  test("cycle threads of 20 to the inch", () => expect(line("1/2 x 20 cycle thread core size")).toMatch(/sources disagree.*0\.436/i));
  // Spanners are marked 1/4 W 5/16 BS: the old hexagon and the later one.
  test("the two hexagons of a Whitworth nut", () => expect(line("What spanner fits a 1/2 Whitworth nut?")).toMatch(/0\.92 in.*0\.82 in.*age of the nut/));
  test("tons to the square inch", () => expect(line("20 tons per square inch in MPa")).toMatch(/308\.88.*short tons.*275\.79/));
  test("the two rules of a shrink fit", () => expect(line("Shrink fit on a 1 inch shaft, how much over size?")).toMatch(/disagree/));
});
