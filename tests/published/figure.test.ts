// Published figures asked at the bench, of all but threads and bolts (figure-fasteners.test.ts): each expected value stands here with its source.
import { describe, expect, test } from "vitest";
import { known, numberOf, figureOf } from "../features/figure-answers.ts";
import { near, within } from "./near.ts";
import { lew, mavro } from "./nist-strd.ts";

describe("fits, ISO 286-1", () => {
  // Hole, shaft, clearance (negative is interference), µm.
  test.each([
    ["10 H7/g6", 0, 15, -14, -5, 5, 29],
    ["12 H7/h6", 0, 18, -11, 0, 0, 29],
    ["20 H7/n6", 0, 21, 15, 28, -28, 6],
    ["25 H7/g6", 0, 21, -20, -7, 7, 41],
    ["40 H8/f7", 0, 39, -50, -25, 25, 89],
    ["50 H7/p6", 0, 25, 26, 42, -42, -1],
    ["60 H7/s6", 0, 30, 53, 72, -72, -23],
    ["100 H7/m6", 0, 35, 13, 35, -35, 22],
    // 30 is up to and including, so in 18–30.
    ["30 H7/p6", 0, 21, 22, 35, -35, -1],
  ])("%s: hole %i .. %i, shaft %i .. %i, clearance %i .. %i µm", (fit, hl, hu, sl, su, least, most) => {
    const um = (name: string) => numberOf(fit, name, "um");
    expect([
      um("hole lower deviation"),
      um("hole upper deviation"),
      um("shaft lower deviation"),
      um("shaft upper deviation"),
      um("clearance least"),
      um("clearance most"),
    ]).toEqual([hl, hu, sl, su, least, most]);
  });
  test.each([
    [3, [4, 6, 10, 14, 25, 40, 60]],
    [6, [5, 8, 12, 18, 30, 48, 75]],
    [10, [6, 9, 15, 22, 36, 58, 90]],
    [18, [8, 11, 18, 27, 43, 70, 110]],
    [30, [9, 13, 21, 33, 52, 84, 130]],
    [50, [11, 16, 25, 39, 62, 100, 160]],
    [80, [13, 19, 30, 46, 74, 120, 190]],
    [120, [15, 22, 35, 54, 87, 140, 220]],
  ])("IT5 to IT11 at %i mm", (size, grades) => {
    expect(grades.map((_, i) => numberOf(`IT${i + 5} ${size} mm`, "tolerance", "um"))).toEqual(grades);
  });
  // Shaft deviations at 100 mm (f, g from memory), µm: es of f g h, ei of k m n p s.
  test("deviations at 100 mm", () => {
    expect(["f6", "g6", "h6"].map((it) => numberOf(`100 ${it}`, "upper deviation"))).toEqual([-36, -12, 0]);
    expect(["k6", "m6", "n6", "p6", "s6"].map((it) => numberOf(`100 ${it}`, "lower deviation"))).toEqual([3, 13, 23, 37, 71]);
    expect(known("100 g6").confidence).toBe("from memory");
    expect(known("50 g6").confidence).toBe("published table");
  });
});

describe("units", () => {
  // NIST SP 811 Appendix B and the definitions that it quotes; a decimal that ends is exact.
  test.each([
    ["1 in in mm", "25.4"],
    ["1 thou in mm", "0.0254"],
    ["1 ft in mm", "304.8"],
    ["1 yd in m", "0.9144"],
    ["1 lb in kg", "0.45359237"],
    ["1 oz in g", "28.349523125"],
    ["1 stone in kg", "6.35029318"],
    ["1 us.cwt in kg", "45.359237"],
    ["1 imp.cwt in kg", "50.80234544"],
    ["1 long ton in kg", "1016.0469088"],
    ["1 short ton in kg", "907.18474"],
    ["1 tonne in kg", "1000"],
    ["1 lbf in N", "4.4482216152605"],
    ["1 kgf in N", "9.80665"],
    ["1 lbf·ft in N·m", "1.3558179483314004"],
    ["1 lbf.in in N.m", "0.1129848290276167"],
    ["1 kgf·m in N·m", "9.80665"],
    ["1 kgf·cm in N·m", "0.0980665"],
    ["1 bar in Pa", "100000"],
    ["1 kgf/cm² in bar", "0.980665"],
    ["1 imperial gallon in L", "4.54609"],
    ["1 imperial pint in mL", "568.26125"],
    ["1 imperial fluid ounce in mL", "28.4130625"],
    ["1 US gallon in L", "3.785411784"],
    ["1 US quart in L", "0.946352946"],
    ["1 US pint in mL", "473.176473"],
    ["1 US fluid ounce in mL", "29.5735295625"],
    ["1 cubic inch in cm³", "16.387064"],
    ["1 hp in W", "745.69987158227022"],
    ["1 metric hp in W", "735.49875"],
    ["32 °F in °C", "0"],
    ["0.015 in in mm", "0.381"],
  ])("%s is exactly %s", (query, expected) => {
    expect(figureOf(query, "result")).toBe(expected);
    expect(known(query).line).toContain("exactly");
  });
  test.each([
    ["1 psi in Pa", 6894.757293168362],
    ["1 ozf·in in N·m", 0.0070615518142260435],
    ["30 lbf·ft in N·m", 40.67453844994201],
    ["1 kgf·m in lbf·ft", 7.233013851209894],
    ["26 psi in bar", 1.792636896223774],
    ["70 °F in °C", 21.1111111111],
    ["350 °F in °C", 176.6666666667],
    ["1 arc minute in deg", 1 / 60],
    ["1 imp.floz in us.floz", 0.9607599404038839],
  ])("%s is %f", (query, expected) => near(numberOf(query, "result"), expected, 1e-11));
  test("a difference of 9 °F is 5 K, and 9 °F on the scale is 260.372 K (T = (F + 459.67)·5/9)", () => {
    expect(figureOf("9 degF difference in K", "result")).toBe("5");
    within(numberOf("9 degF in K", "result"), ((9 + 459.67) * 5) / 9, 1e-9);
  });
});

describe("shims", () => {
  // Every one of the 324 stacks of this drawer tried by hand: none makes 1 thou, and all ten together make 68.
  const drawer = "2 thou x 2, 3 thou x 2, 5 thou x 2, 8 thou x 1, 10 thou x 2, 20 thou x 1";
  test("one thou can't be made, 68 takes all ten", () => {
    expect(numberOf(`shims 1 thou from ${drawer}`, "total", "thou")).toBe(0);
    expect(known(`shims 1 thou from ${drawer}`).line).toContain("No stack");
    expect(numberOf(`shims 68 thou from ${drawer}`, "pieces")).toBe(10);
  });
  // The bevel-gear shim table of a service manual: 0.25, 0.30 and 0.35 mm, equal shims preferred.
  test.each([
    ["0.50", [["of 0.25 mm", 2]]],
    [
      "0.55",
      [
        ["of 0.25 mm", 1],
        ["of 0.3 mm", 1],
      ],
    ],
    ["0.75", [["of 0.25 mm", 3]]],
  ] as const)("%s mm from 0.25, 0.30, 0.35 mm", (total, shims) => {
    for (const [name, count] of shims) expect(numberOf(`shims ${total} mm from 0.25, 0.30, 0.35 mm`, name)).toBe(count);
    expect(numberOf(`shims ${total} mm from 0.25, 0.30, 0.35 mm`, "pieces")).toBe(shims.reduce((sum, [, count]) => sum + count, 0));
  });
});

describe("gears, bearings and heat", () => {
  // Δj = 2·Δa·tan φ·sin δ with tan δ = z2/z1, worked by hand.
  test.each([
    ["11/40", "20", 74.6237, 0.701884, 0.193018],
    ["11/40", "14.5", 74.6237, 0.498721, 0.137148],
    ["10/41", "20", 76.293, 0.707209, 0.17249],
    ["13/47", "20", 74.5388, 0.701597, 0.194059],
    ["1/1", "20", 45, 0.514732, 0.514732],
    ["1/1", "14.5", 45, 0.36574, 0.36574],
  ])("%s at %s°: pitch angle %f°, %f and %f", (teeth, pressure, angle, wheel, pinion) => {
    const query = `backlash teeth ${teeth} pressure ${pressure} deg`;
    within(numberOf(query, "pitch angle of the wheel", "deg"), angle, 0.0002);
    within(numberOf(query, "wheel, per unit of move"), wheel, 2e-6);
    within(numberOf(query, "pinion, per unit of move"), pinion, 2e-6);
    expect(known(query).confidence).toBe("estimate");
  });
  test("from 0.010 to 0.006 in by 0.005699 in of the wheel; a dial at 4.5 in against the pitch circle at 4.0 in", () => {
    within(numberOf("backlash 0.010 to 0.006 in teeth 11/40 pressure 20 deg", "move of the wheel", "in"), 0.005699, 1e-6);
    expect(numberOf("backlash 0.009 in at 4.5 in pitch radius 4.0 in", "backlash", "in")).toBe(0.008);
  });
  // AGMA table for bevel and hypoid gears, as quoted: inches by diametral pitch.
  test.each([
    ["1-1.25", 0.02, 0.03, 0.045, 0.065],
    ["1.75-2", 0.014, 0.018, 0.02, 0.04],
    ["3-3.5", 0.008, 0.011, 0.012, 0.022],
    ["6-8", 0.004, 0.006, 0.005, 0.01],
    ["16-20", 0.001, 0.003, 0.002, 0.004],
  ])("backlash at DP %s", (pitch, a, b, c, d) => {
    const query = `backlash DP ${pitch}`;
    expect(["quality 7 to 13, least", "quality 7 to 13, most", "quality 3 to 6, least", "quality 3 to 6, most"].map((it) => numberOf(query, it, "in"))).toEqual(
      [a, b, c, d],
    );
  });
  test("common figures: a car about 0.15 mm, heavy 0.25 mm (textbook); a trailer hub 0.001 .. 0.005 in: said to be no limit", () => {
    expect(Number(known("crown wheel backlash car").values[0]?.value)).toBe(0.15);
    expect(Number(known("crown wheel backlash heavy").values[0]?.value)).toBe(0.25);
    expect(known("hub float truck").values.map((it) => Number(it.value))).toEqual([0.001, 0.005]);
    for (const query of ["crown wheel backlash car", "hub float truck", "bush 1.25 in"]) {
      expect(known(query).confidence).toBe("estimate");
      expect(known(query).line).toContain("not a limit");
    }
  });
  test("bush: 0.0015 in an inch of bore (rule of thumb)", () => expect(figureOf("bush 1.25 in", "clearance", "in")).toBe("0.001875"));
  test("ΔT = (δ + c)/(α·D): aluminium 234.38 °F, cast iron 174.9 K", () => {
    near(numberOf("heat 1.000 in alpha 12.8e-6/degF interference 0.0010 in clearance 0.0020 in", "rise", "degF"), 234.38, 0.005);
    near(numberOf("heat 45 mm cast-iron interference 0.040 mm clearance 0.045 mm", "rise", "K"), 174.9, 0.005);
  });
  // Handbook tables, 1e-6 per K (they differ by 5 %).
  test.each([
    ["steel", 12],
    ["cast-iron", 10.8],
    ["bronze", 18],
    ["brass", 20.5],
    ["aluminium", 22.5],
    ["white-metal", 21],
  ])("expansion of %s is about %f", (material, alpha) => near(numberOf(`expansion of ${material}`, material), alpha, 0.05));
  // ASTM B23, °C: melting begins, ends.
  test.each([
    ["1", 223, 371],
    ["2", 241, 354],
    ["3", 240, 422],
    ["7", 240, 268],
    ["8", 237, 272],
    ["15", 248, 281],
  ])("white metal of grade %s melts from %i to %i °C", (grade, solidus, liquidus) => {
    const query = `white metal grade ${grade}`;
    within(numberOf(query, "melting begins", "degC"), solidus, 6);
    within(numberOf(query, "melting ends", "degC"), liquidus, 6);
    expect(known(query).cautions.join(" ")).toContain("white-metal");
  });
  test("grade 2 yields at 6100 psi at 20 °C and at 3000 psi at 100 °C (ASTM B23, appendix); bearings not above 120 °C (makers)", () => {
    expect([numberOf("white metal grade 2", "yield at 20 degC", "psi"), numberOf("white metal grade 2", "yield at 100 degC", "psi")]).toEqual([6100, 3000]);
    expect(numberOf("bearing heat", "at the most", "degC")).toBe(120);
  });
});

describe("measurement", () => {
  // ISO 14253-1, exact decimals at the edge.
  test.each([
    ["0.138", "0.012", "0.1 .. 0.15", "conforms"],
    ["0.1381", "0.012", "0.1 .. 0.15", "not proved"],
    ["0.28", "0.02", "max 0.30", "conforms"],
    ["0.0017", "0.001", "-0.003 .. 0.003", "conforms"],
    ["0.0020", "0.001", "-0.003 .. 0.003", "conforms"],
    ["0.0035", "0.001", "-0.003 .. 0.003", "not proved"],
    ["0.0040", "0.001", "-0.003 .. 0.003", "not proved"],
    ["0.0041", "0.001", "-0.003 .. 0.003", "does not conform"],
  ])("%s ± %s against %s %s", (y, u, band, verdict) => expect(figureOf(`doubt ${y} mm U ${u} mm ${band} mm`, "verdict")).toBe(verdict));

  test("tolerance ±0.05 over U 0.0125 is a ratio of 4 (ANSI/NCSL Z540.3)", () => {
    expect(numberOf("doubt 0 mm U 0.0125 mm -0.05 .. 0.05 mm", "width over 2 U")).toBe(4);
  });
  test("standard uncertainties: a/√3, a/√6, a/√2, step/√12 (JCGM 100)", () => {
    within(numberOf("rectangular 15 um", "standard uncertainty"), 8.660254, 1e-6);
    within(numberOf("triangular 1", "standard uncertainty"), 0.40824829, 1e-8);
    within(numberOf("arcsine 1", "standard uncertainty"), 0.70710678, 1e-8);
    within(numberOf("resolution 0.001 in", "standard uncertainty", "in"), 0.00028868, 1e-8);
  });
  test("JCGM 100 H.1: u(d) 9.68 nm, 32 nm combined, 16 degrees of freedom, U99 93 nm; a string's 6.362 and 12.723 mm", () => {
    within(numberOf("uncertainty 5.8, 3.9, 6.7", "u"), 9.6819, 0.001);
    within(numberOf("uncertainty 25, 9.7, 2.9, 16.6", "u"), 32, 0.5);
    within(numberOf("uncertainty 25 nu 18, 9.7 nu 25.6, 2.9 nu 50, 16.6 nu 2", "effective degrees of freedom"), 16, 1);
    within(numberOf("expand 32 k 2.92", "U"), 93, 0.5);
    within(numberOf("uncertainty 2.5, 0.3, 5.8, 0.7 mm", "u", "mm"), 6.362, 0.001);
    within(numberOf("uncertainty 2.5, 0.3, 5.8, 0.7 mm", "U", "mm"), 12.723, 0.001);
  });
  test("normal distribution: 1 − Φ(2) = 0.0227501, Φ⁻¹(0.95) = 1.644854", () => {
    within(numberOf("normal k 2", "share above"), 0.0227501, 1e-7);
    within(numberOf("normal 95 %", "standard deviations"), 1.644854, 1e-6);
  });
  test("NIST StRD: NumAcc1 to NumAcc4, mean and standard deviation to every certified digit", () => {
    expect([figureOf("mean 10000001, 10000003, 10000002", "mean"), figureOf("mean 10000001, 10000003, 10000002", "standard deviation")]).toEqual([
      "10000002",
      "1",
    ]);
    for (const [first, low, high] of [
      ["1.2", "1.1", "1.3"],
      ["1000000.2", "1000000.1", "1000000.3"],
      ["10000000.2", "10000000.1", "10000000.3"],
    ] as const) {
      const query = `mean ${first}, ${low} x 500, ${high} x 500`;
      expect([figureOf(query, "mean"), figureOf(query, "standard deviation"), figureOf(query, "readings")]).toEqual([first, "0.1", "1001"]);
    }
  });
  test("NIST StRD: Mavro and Lew", () => {
    const ask = (data: string) => `mean ${data.trim().split(/\s+/).join(", ")}`;
    expect([figureOf(ask(mavro), "mean"), figureOf(ask(mavro), "standard deviation")]).toEqual(["2.001856", "0.000429123454003053"]);
    expect([figureOf(ask(lew), "mean"), figureOf(ask(lew), "standard deviation")]).toEqual(["-177.435", "277.332168044316"]);
  });
  test("forms: conicity (1.25 − 1.247)/2; 1:8 has half-angle 3.57633°; two lobes are half of the ovality (ISO 1119, ISO 12181)", () => {
    expect(numberOf("conicity 1.25 in to 1.247 in over 2 in", "conicity")).toBe(0.0015);
    within(numberOf("cone 1:8", "half-angle", "deg"), 3.57633, 1e-5);
    expect(numberOf("roundness of ovality 0.0015 in", "out of round", "in")).toBe(0.00075);
  });
});

describe("money, ISO 4217 list one", () => {
  test.each([
    ["JPY", 0],
    ["ISK", 0],
    ["GBP", 2],
    ["HUF", 2],
    ["MGA", 2],
    ["KWD", 3],
    ["IQD", 3],
    ["CLF", 4],
    ["UYW", 4],
  ])("%s has %i decimals", (code, digits) => expect(numberOf(`decimals of ${code}`, "decimals")).toBe(digits));
  test("halves go to the even figure; packs are whole", () => {
    expect(figureOf("round 2.665 GBP", "rounded")).toBe("2.66");
    expect(figureOf("round 1234.5 JPY", "rounded")).toBe("1234");
    expect(figureOf("3 packs at 4.35 GBP", "sum")).toBe("13.05");
    expect(["packs", "pieces", "spare"].map((it) => numberOf("need 10 in packs of 5", it))).toEqual([2, 10, 0]);
  });
});
