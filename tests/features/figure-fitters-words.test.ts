// A hundred and more questions as fitters put them: each answered with the figure of an outside source, asked back for what it needs, or refused in plain words.
// Sources: stated at each group. Nothing here was produced by the program.
import { describe, expect, test } from "vitest";
import { figure } from "../../server/features/figure.ts";
import { numberOf } from "./figure-answers.ts";

type Row = readonly [query: string, name: string, unit: string, expected: number, within: number];
const check = ([query, name, unit, expected, within]: Row) => {
  const got = numberOf(query, name, unit);
  expect(Math.abs(got - expected), `${query}: ${got} against ${expected}`).toBeLessThanOrEqual(within);
};

describe("holes", () => {
  // ISO 273:1979 fine, medium, coarse, as tabled at engineeringhardware.com; inch sizes from ASME B18.2.8 close, normal, loose, from memory.
  test.each<Row>([
    ["clearance drill for M8", "medium", "mm", 9, 0],
    ["clearance hole M10 medium", "medium", "mm", 11, 0],
    ["M6 clearance hole close fit", "fine", "mm", 6.4, 0],
    ["clearing drill for M12, free fit", "coarse", "mm", 14.5, 0],
    ["what size hole clears an M5 bolt", "medium", "mm", 5.5, 0],
    ["clearance hole for 1/4 BSF", "normal", "in", 9 / 32, 1e-4],
    ["clearance hole for 1/4 BSF", "close", "in", 17 / 64, 1e-4],
    ["clearance hole for 3/8 whit", "normal", "in", 13 / 32, 1e-4],
    ["clearance hole for 1/2 UNF", "normal", "in", 9 / 16, 1e-4],
    // ISO 2306: M6 5.0, M7 6.0; the makers' charts for 1/8 BSP 8.8.
    ["tapping drill for M6", "tapping drill", "mm", 5, 0],
    ["M7 tapping drill", "tapping drill", "mm", 6, 0],
    ["hole to tap 1/8 BSP", "tapping drill", "mm", 8.8, 0],
    // 10-32 UNF: No. 21 drill, 0.159 in (ASME practice, from memory), which leaves some 76 %.
    ["tapping drill for 10-32 UNF", "tapping drill", "in", 0.159, 0.002],
  ])("%s", (...row) => check(row));
  test.each(["drill for M6", "what size hole for 1/4 UNF", "hole for a 3/8 BSF bolt"])("%s: to tap or to go through?", (query) => {
    const answer = figure(query);
    expect(answer.known).toBe(false);
    if (!answer.known) expect(answer.ask.map((it) => it.split(" ")[0])).toEqual(["tapping", "clearance"]);
    if (!answer.known) for (const ask of answer.ask) expect(figure(ask).known, ask).toBe(true);
  });
  test("a thread without a clearance hole in the tables is not asked about one", () => {
    expect(figure("what size hole for 10-32 UNF")).toMatchObject({ known: false, ask: ["tapping drill for No.10-32 UNF"] });
  });
  test.each(["clearance hole for 2 BA", "clearance hole for M99", "clearance hole", "clearance hole for M8 for a banana"])("%s is refused", (query) => {
    expect(figure(query).known).toBe(false);
  });
});

describe("flats and turns: pitch times turn, a flat a sixth", () => {
  test.each<Row>([
    ["how far is a flat of an M12 nut", "travel", "mm", 1.75 / 6, 1e-9],
    ["how far does an M12 nut go in one flat", "travel", "mm", 1.75 / 6, 1e-9],
    ["one flat of a 3/4 BSF nut in thou", "travel", "in", 1 / 12 / 6, 1e-9],
    ["2 flats of 1/2 BSW", "travel", "in", 2 / 12 / 6, 1e-9],
    ["a quarter turn of an M10 bolt", "travel", "mm", 1.5 / 4, 1e-9],
    ["half a turn of 3/8-24 UNF", "travel", "in", 1 / 48, 1e-9],
    ["how much does one sixth of a turn move a 1 in x 20 tpi nut", "travel", "in", 1 / 120, 1e-9],
    ["how far does a 26 tpi 3/8 cycle nut move in 1 turn", "travel", "in", 1 / 26, 1e-9],
  ])("%s", (...row) => check(row));
  test.each(["0 flats of M12", "a flat M12 banana", "turn M12 40 Nm", "how far is a flat", "-1 turn of M10", "1e9 turns of M10"])("%s is refused", (query) => {
    expect(figure(query).known).toBe(false);
  });
});

describe("threads", () => {
  // Whitworth 0.640327 p (BS 84); ISO 68-1: 0.541266 p basic, and the screw 1.226869 p / 2; BA 0.6 p (BS 93).
  test.each<Row>([
    ["thread depth of 1/2 BSW", "depth of thread", "in", 0.640327 / 12, 1e-6],
    ["depth of thread 1/4 x 26 BSF", "depth of thread", "in", 0.640327 / 26, 1e-6],
    ["thread depth M10", "depth of thread", "mm", 0.6134345 * 1.5, 1e-5],
    ["thread depth M10", "basic depth", "mm", 0.541266 * 1.5, 1e-5],
    ["depth of the thread of 2 BA", "depth of thread", "mm", 0.6 * 0.81, 1e-9],
    ["core dia of 3/8 BSF", "core diameter", "in", 0.375 - 1.280654 / 20, 1e-6],
    ["tpi of 7/16 BSF", "threads per inch", "", 18, 0],
    // BS 93: 2 BA is 4.7 x 0.81.
    ["pitch of 2BA", "pitch", "mm", 0.81, 0],
    // ISO 898-1: class 8.8 up to 16 mm has a proof stress of 580 MPa; SAE J429 grade 5 85 ksi.
    ["grade 8.8 M12", "proof stress", "MPa", 580, 0],
    ["M12 8.8 proof stress", "proof stress", "MPa", 580, 0],
    ["3/8 UNF grade 5 proof stress", "proof stress", "ksi", 85, 0],
  ])("%s", (...row) => check(row));
});

describe("torque and preload: F = T/(K·d), Shigley eq. 8-27", () => {
  test.each<Row>([
    ["clamp force of M8 at 25 Nm K 0.2", "preload", "N", 25 / (0.2 * 0.008), 1e-6],
    ["clamp load M10 40 Nm K 0.18", "preload", "N", 40 / (0.18 * 0.01), 0.1],
    ["bolt tension 3/8 UNF 30 lb ft K 0.2", "preload", "lbf", (30 * 12) / (0.2 * 0.375), 0.1],
    // By the lever: 40 · 12/(12 + 3).
    ["torque 40 Nm with a 3 in crowfoot on a 12 in wrench", "setting", "N.m", 32, 1e-9],
  ])("%s", (...row) => check(row));
  test.each(["clamp load 3/8 UNF 30 lb ft", "preload by torque M10 8.8 40 Nm", "torque for M8 8.8", "torque for 3/8 UNF grade 5 dry"])(
    "%s asks for K",
    (query) => {
      const answer = figure(query);
      expect(answer.known).toBe(false);
      expect(answer.line).toContain("K must be said");
    },
  );
});

describe("units as they are said: inch, pound, standard gravity by definition (NIST SP 811)", () => {
  test.each<Row>([
    ["5/8 in mm", "result", "mm", 15.875, 0],
    ["1 5/16 in mm", "result", "mm", 33.3375, 0],
    ["what is 3/16 in mm", "result", "mm", 4.7625, 0],
    ["2 ft 6 in in mm", "result", "mm", 762, 0],
    ["5 ft 3 1/2 in in m", "result", "m", 1.6129, 1e-12],
    ["1 stone 4 lb in kg", "result", "kg", 8.16466266, 1e-9],
    ["2 lb 8 oz in kg", "result", "kg", 1.133980925, 1e-9],
    ["minus 10 C in F", "result", "degF", 14, 0],
    ["8 kpm in Nm", "result", "N.m", 78.4532, 1e-9],
    ["6 mkp in Nm", "result", "N.m", 58.8399, 1e-9],
    ["60 ft/s in mph", "result", "mph", 40.9090909, 1e-6],
    ["15 psi in bar", "result", "bar", 1.034213594, 1e-8],
    ["5 kgf m in lb ft", "result", "lbf.ft", 36.16506928, 1e-6],
    ["fifteen thou in mm", "result", "mm", 0.381, 0],
    ["37 mm in inches and fractions", "fraction", "in", 1 + 29 / 64, 1e-9],
  ])("%s", (...row) => check(row));
  test.each(["1 cwt in kg", "3 gallons in litres", "2 1/2 tons in kg", "1 pint in cc"])("%s asks whose", (query) => {
    const answer = figure(query);
    expect(answer.known).toBe(false);
    expect(answer.line).toMatch(/Say which/);
  });
  test.each(["5/8 in kg", "3 ft 14 in in mm", "1/0 in mm", "2 ft 6 kg in mm", "2 ft -6 in in mm", "6 in 2 ft in mm", "5/8 in bananas", "minus ft in mm"])(
    "%s is refused",
    (query) => {
      expect(figure(query).known).toBe(false);
    },
  );
});

describe("fits and gears said in another order", () => {
  // ISO 286: 25 H7 0/+21, p6 +22/+35. AGMA bevel backlash, 8 to 10 DP, quality 7 to 13: 0.003 to 0.005 in.
  test("press fit 25 mm H7 p6", () => check(["press fit 25 mm H7 p6", "shaft largest", "mm", 25.035, 0]));
  test("backlash for 9 DP bevel", () => expect(figure("backlash for 9 DP bevel").line).toContain("0.003 .. 0.005 in"));
});

test.each(["valve clearance", "end float", "what is the points gap?", "toe in", "ignition timing", "what is the bearing preload"])(
  "%s is the machine's own figure, and refused with where to look",
  (query) => {
    const answer = figure(query);
    expect(answer.known).toBe(false);
    expect(answer.line).toContain("the machine's own figure");
  },
);

describe("a spanner marked across the flats, in the other unit", () => {
  // An inch is 25.4 mm exactly (1959): 7/16 in = 11.1125 mm, 9/16 in = 14.2875 mm.
  test.each<Row>([
    ["7/16 AF in mm", "across flats", "mm", 11.1125, 0.06],
    ["9/16 A/F in millimetres", "across flats", "mm", 14.2875, 0.06],
  ])("%s", (...row) => check(row));
});
