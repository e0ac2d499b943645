// Bevel backlash, heat for an interference fit, expansion and white metal: published figures and formulas.
import { expect, test } from "vitest";
import { figure, ratio } from "../../server/quantities/exact.ts";
import { atPitchRadius, backlashPerMove, pitchAngleOfWheel, usualBacklash, usualBacklashFor } from "../../server/trade/backlash.ts";
import { cautions } from "../../server/trade/cautions.ts";
import { expansions, heatFor, whiteMetals } from "../../server/trade/heat.ts";
import { near, within } from "./near.ts";

// Straight bevels at 90°: Δj = 2·Δa·tan φ·sin δ along the pitch circle.
test.each([
  [11, 40, 20, 74.6237, 0.701884, 0.193018],
  [11, 40, 14.5, 74.6237, 0.498721, 0.137148],
  [10, 41, 20, 76.293, 0.707209, 0.17249],
  [1, 1, 20, 45, 0.514732, 0.514732],
  [13, 47, 20, 74.5388, 0.701597, 0.194059],
  [1, 1, 14.5, 45, 0.36574, 0.36574],
])("%i:%i at %f°: pitch angle %f°, %f a unit of the wheel, %f of the pinion", (teethOfPinion, teethOfWheel, pressureAngle, angle, wheel, pinion) => {
  const pair = { teethOfPinion, teethOfWheel, pressureAngle };
  within(pitchAngleOfWheel(pair), angle, 1e-4);
  const per = backlashPerMove(pair);
  within(per?.wheel, wheel, 1e-5);
  within(per?.pinion, pinion, 1e-5);
  // Square to the tooth the same move counts cos φ of it.
  near(per?.normalWheel, wheel * Math.cos((pressureAngle * Math.PI) / 180), 1e-5);
});

test("from 0.010 to 0.006 in at 11:40 and 20° the wheel moves 0.005699 in", () => {
  within(0.004 / (backlashPerMove({ teethOfPinion: 11, teethOfWheel: 40, pressureAngle: 20 })?.wheel ?? 0), 0.005699, 1e-5);
});

test("spiral teeth take tan φ over cos β; a pair that can't be is not worked out", () => {
  const straight = backlashPerMove({ teethOfPinion: 11, teethOfWheel: 40, pressureAngle: 20 })?.wheel ?? 0;
  near(backlashPerMove({ teethOfPinion: 11, teethOfWheel: 40, pressureAngle: 20, spiralAngle: 35 })?.wheel, straight / Math.cos((35 * Math.PI) / 180), 1e-12);
  for (const wrong of [{ teethOfPinion: 0 }, { pressureAngle: 90 }, { pressureAngle: Number.NaN }, { spiralAngle: 89 }, { shaftAngle: 180 }])
    expect(backlashPerMove({ teethOfPinion: 11, teethOfWheel: 40, pressureAngle: 20, ...wrong })).toBeUndefined();
});

test("0.009 in read at 4.5 in radius is 0.008 in at 4.0 in", () => {
  within(atPitchRadius(0.009, 4.5, 4), 0.008, 1e-12);
  expect(atPitchRadius(0.009, 0, 4)).toBeUndefined();
});

test("AGMA's recommended backlash for bevel and hypoid gears, inches, by diametral pitch", () => {
  const published = [
    [1, 1.25, 0.02, 0.03, 0.045, 0.065],
    [1.25, 1.5, 0.018, 0.026, 0.035, 0.055],
    [1.5, 1.75, 0.016, 0.022, 0.025, 0.045],
    [1.75, 2, 0.014, 0.018, 0.02, 0.04],
    [2, 2.5, 0.012, 0.016, 0.02, 0.03],
    [2.5, 3, 0.01, 0.013, 0.015, 0.025],
    [3, 3.5, 0.008, 0.011, 0.012, 0.022],
    [3.5, 4, 0.007, 0.009, 0.01, 0.02],
    [4, 5, 0.006, 0.008, 0.008, 0.016],
    [5, 6, 0.005, 0.007, 0.006, 0.013],
    [6, 8, 0.004, 0.006, 0.005, 0.01],
    [8, 10, 0.003, 0.005, 0.004, 0.008],
    [10, 16, 0.002, 0.004, 0.003, 0.005],
    [16, 20, 0.001, 0.003, 0.002, 0.004],
  ];
  expect(usualBacklash.map((it) => [it.from, it.to, ...it.fine.map(Number), ...it.coarse.map(Number)])).toEqual(published);
  expect([usualBacklashFor(4.5).length, usualBacklashFor(4).length, usualBacklashFor(25).length]).toEqual([1, 2, 0]);
});

test("linear expansion, 1e-6 per K, as handbook tables have it", () => {
  const usual = (["steel", "cast-iron", "bronze", "brass", "white-metal"] as const).map((it) => expansions[it].usual.valueOf());
  expect(usual).toEqual([12, 10.8, 18, 20.5, 21]);
  expect([expansions.aluminium.least.valueOf(), expansions.aluminium.most.valueOf()]).toEqual([21.5, 23.6]);
  expect([expansions["cast-iron"].least.valueOf(), expansions["cast-iron"].most.valueOf()]).toEqual([10, 11.4]);
  // Between the two alloys, as handbooks have it for aluminium as such (from memory).
  near(expansions.aluminium.usual, 23, 0.001);
  // How far handbooks differ: 5 % either way, to a tenth for steel and bronze, to a half for brass and white metal.
  const ends = (["steel", "bronze", "brass", "white-metal"] as const).map((it) => [expansions[it].least.valueOf(), expansions[it].most.valueOf()]);
  expect(ends).toEqual([
    [11.4, 12.6],
    [17.1, 18.9],
    [19.5, 21.5],
    [20, 22],
  ]);
});

test("ΔT = (δ + c)/(α·D): an aluminium hub of 1 in wants 234.38 °F more, a cast-iron one of 45 mm 174.9 K", () => {
  // 12.8e-6 per °F is 23.04e-6 per K; 0.0010 + 0.0020 in.
  const aluminium = heatFor({ interference: figure("0.0254"), clearance: figure("0.0508"), diameter: figure("25.4"), material: figure("23.04") });
  near((aluminium?.rise.valueOf() ?? 0) * 1.8, 234.38, 0.005);
  near(
    (heatFor({ interference: figure("0.0254"), clearance: figure("0.0508"), diameter: figure("25.4"), material: "aluminium" })?.rise.valueOf() ?? 0) * 1.8,
    234.38,
    0.005,
  );
  const iron = heatFor({ interference: figure("0.040"), clearance: figure("0.045"), diameter: ratio(45), material: "cast-iron" });
  near(iron?.rise, 174.9, 0.005);
  expect(iron?.refused).toBe(false);
  expect(iron?.riseBetween[0].compare(iron.rise)).toBe(-1);
  expect(heatFor({ interference: ratio(0), clearance: ratio(0), diameter: ratio(45), material: "steel" })).toBeUndefined();
  expect(heatFor({ interference: ratio(1), clearance: ratio(0), diameter: ratio(0), material: "steel" })).toBeUndefined();
});

test("ASTM B23: where white metals begin and end to melt, °C (°F beside them agree to a few degrees)", () => {
  const published: [string, number, number, number | undefined, number, number][] = [
    ["1", 223, 371, 441, 433, 700],
    ["2", 241, 354, 424, 466, 669],
    ["3", 240, 422, 491, 464, 792],
    ["7", 240, 268, 338, 464, 514],
    ["8", 237, 272, 341, 459, 522],
    ["15", 248, 281, undefined, 479, 538],
  ];
  expect(whiteMetals.map((it) => [it.grade, it.solidus, it.liquidus, it.pour])).toEqual(published.map((it) => it.slice(0, 4)));
  for (const [grade, solidus, liquidus, , solidusF, liquidusF] of published) {
    within(((solidusF - 32) * 5) / 9, solidus, 6, grade);
    within(((liquidusF - 32) * 5) / 9, liquidus, 6, grade);
  }
});

test("white metal is warned of above 100 °C and refused near where it melts; a rolling bearing above 120 °C", () => {
  // Steel of 60 mm at 12e-6: so much growth for each 10 K is 0.0072 mm.
  const hotter = (kelvin: number, more: object) =>
    heatFor({ interference: figure("0.00072").mul(kelvin), clearance: ratio(0), diameter: ratio(60), material: "steel", ...more });
  const said = (kelvin: number, more: object) => hotter(kelvin, more)?.cautions.join(" ") ?? "";
  expect(hotter(70, {})?.temperature.toString()).toBe("90");
  expect(said(70, { whiteMetalLining: true })).not.toContain("lost half");
  expect(said(90, { whiteMetalLining: true })).toContain("lost half");
  expect(hotter(90, { whiteMetalLining: true })?.refused).toBe(false);
  expect(hotter(215, { whiteMetalLining: true })?.refused).toBe(true);
  expect(said(215, { whiteMetalLining: true })).toContain("Do not heat it so far");
  // ASTM B23: half of the strength is lost at 100 °C; grade 1 begins to melt at 223 °C, and what comes as near as 3 K is refused.
  expect([said(80, { whiteMetalLining: true }), said(81, { whiteMetalLining: true })].map((it) => it.includes("lost half"))).toEqual([false, true]);
  expect([199, 200, 203].map((it) => hotter(it, { whiteMetalLining: true })?.refused)).toEqual([false, true, true]);
  // From memory, as it says: hardened steel from about 150 °C, any hardened or tempered steel above 200 °C.
  expect([said(130, { hardened: true }), said(131, { hardened: true })].map((it) => it.includes("lose its temper"))).toEqual([false, true]);
  expect([said(180, {}), said(181, {})].map((it) => it.includes("loses its temper"))).toEqual([false, true]);
  expect([said(180, {}), said(181, {})].map((it) => it.includes("poisonous fume"))).toEqual([false, true]);
  expect(hotter(100, { rollingBearing: true })?.refused).toBe(false);
  expect(hotter(101, { rollingBearing: true })?.refused).toBe(true);
  // Every answer is an estimate and says so.
  for (const kelvin of [10, 100, 300]) expect(said(kelvin, {})).toContain("An estimate");
});

test("each caution names its source: HSE, OSHA, EPA, ACCC, ASTM, local law, maker practice", () => {
  const all = cautions.map((it) => it.source).join("; ");
  for (const source of ["HSE", "OSHA", "1910.244", "SHIB 07-26-2006", "40 CFR 279", "ACCC", "MCL 257.1304", "1910.133", "HSG261", "ASTM B23", "maker practice"])
    expect(all).toContain(source);
  for (const it of cautions) expect(it.words).toMatch(/\.$/);
});
