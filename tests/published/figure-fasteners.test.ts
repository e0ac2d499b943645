// Published figures of threads, bolts and what keeps them, asked at the bench: each expected value stands here with its source.
import { describe, expect, test } from "vitest";
import { known, numberOf, figureOf } from "../features/figure-answers.ts";
import { near, within } from "./near.ts";

describe("threads", () => {
  // ASME B1.1, tensile stress area as tables print it, in² (rounded by their makers: 0.4 %).
  test.each([
    ["1/4-20 UNC", 0.0318],
    ["3/8-16 UNC", 0.0775],
    ["7/16-14 UNC", 0.1063],
    ["1/2-13 UNC", 0.1419],
    ["9/16-12 UNC", 0.182],
    ["5/8-11 UNC", 0.226],
    ["7/8-9 UNC", 0.462],
    ["1-8 UNC", 0.606],
    ["1/4-28 UNF", 0.0364],
    ["5/16-24 UNF", 0.058],
    ["3/8-24 UNF", 0.0878],
    ["7/16-20 UNF", 0.1187],
    ["1/2-20 UNF", 0.1599],
    ["3/4-16 UNF", 0.373],
    ["7/8-14 UNF", 0.509],
    ["1-12 UNF", 0.663],
  ])("stress area of %s is %f in²", (thread, area) => near(numberOf(thread, "stress area", "in2"), area, 0.004));

  // ISO 898-1, nominal stress area as tables print it, mm².
  test.each([
    ["M5", 14.2],
    ["M6", 20.1],
    ["M8", 36.6],
    ["M10", 58],
    ["M12", 84.3],
    ["M14", 115],
    ["M16", 157],
    ["M20", 245],
    ["M24", 353],
    ["M8x1", 39.2],
    ["M10 x 1.25", 61.2],
    ["M12x1.25", 92.1],
    ["M14x1.5", 125],
    ["M16x1.5", 167],
    ["M20×1.5", 272],
    ["M24x2", 384],
  ])("stress area of %s is %f mm²", (thread, area) => near(numberOf(thread, "stress area", "mm2"), area, 0.004));

  // ASME B1.1 and BS 84: threads an inch.
  test.each([
    ["1/4", 20, 28, 20, 26],
    ["5/16", 18, 24, 18, 22],
    ["3/8", 16, 24, 16, 20],
    ["7/16", 14, 20, 14, 18],
    ["1/2", 13, 20, 12, 16],
    ["9/16", 12, 18, 12, 16],
    ["5/8", 11, 18, 11, 14],
    ["3/4", 10, 16, 10, 12],
    ["7/8", 9, 14, 9, 11],
    ["1", 8, 12, 8, 10],
  ])("%s in: UNC %i, UNF %i, BSW %i, BSF %i", (size, unc, unf, bsw, bsf) => {
    for (const [family, tpi] of [
      ["UNC", unc],
      ["UNF", unf],
      ["BSW", bsw],
      ["BSF", bsf],
    ] as const) {
      expect(numberOf(`threads of ${size} in`, `threads per inch ${family}`)).toBe(tpi);
      expect(numberOf(`${size} ${family}`, "threads per inch")).toBe(tpi);
    }
  });

  // BS 93: pitch and major diameter, mm.
  test.each([
    ["0 BA", 1, 6],
    ["2 BA", 0.81, 4.7],
    ["4 BA", 0.66, 3.6],
    ["6 BA", 0.53, 2.8],
    ["8 BA", 0.43, 2.2],
    ["10 BA", 0.35, 1.7],
  ])("%s has pitch %f and major diameter %f mm", (thread, pitch, major) => {
    expect(numberOf(thread, "pitch", "mm")).toBe(pitch);
    expect(numberOf(thread, "major diameter", "mm")).toBe(major);
  });

  // ISO 262: coarse and first fine pitch, mm.
  test.each([
    ["M3", 0.5, undefined],
    ["M8", 1.25, 1],
    ["M10", 1.5, 1.25],
    ["M12", 1.75, 1.5],
    ["M16", 2, 1.5],
    ["M18", 2.5, 2],
    ["M22", 2.5, 2],
    ["M24", 3, 2],
  ])("%s has coarse pitch %f and first fine pitch %s mm", (thread, coarse, fine) => {
    expect(numberOf(thread, "coarse pitch", "mm")).toBe(coarse);
    if (fine !== undefined) expect(numberOf(thread, "fine pitch", "mm")).toBe(fine);
  });

  test("flanks: UN and M 60°, Whitworth 55° (BS 84), BA 47.5° (BS 93); the Whitworth form is 0.640327 of the pitch deep", () => {
    for (const [family, degrees] of [
      ["UNC", 60],
      ["metric", 60],
      ["BSW", 55],
      ["BSP", 55],
      ["BA", 47.5],
    ] as const)
      expect(numberOf(`flank angle ${family}`, "flank angle", "deg")).toBe(degrees);
    expect(numberOf("depth of thread BSW", "depth over pitch")).toBe(0.640327);
    // The geometry of BS 84: two thirds of the triangle's height.
    near(0.640327, 2 / 3 / (2 * Math.tan((27.5 * Math.PI) / 180)), 1e-6);
  });

  // From the diameters, pitches and angles of the tables above.
  test.each([
    ["1/2-13 UNC", "1/2-12 BSW", 0, 7.69, 5],
    ["3/8-16 UNC", "3/8-16 BSW", 0, 0, 5],
    ["M6", "0 BA", 0, 0, 12.5],
    ["2 BA", "M5", 0.3, 1.23, 12.5],
    ["2 BA", "No.10-32 UNF", 0.126, 2.01, 12.5],
    ["M5", "No.10-32 UNF", 0.174, 0.78, 0],
    ["M8", "5/16-18 UNC", 0.0625, 11.42, 0],
    ["M10", "3/8-16 UNC", 0.475, 5.51, 0],
    ["M12", "7/16-14 UNC", 0.8875, 3.54, 0],
    ["M14", "9/16-12 UNC", 0.2875, 5.51, 0],
    ["M16", "5/8-11 UNC", 0.125, 13.39, 0],
    ["1/4-26 BSF", "1/4-28 UNF", 0, 7.14, 5],
    ["1-12 UNF", "1-14 UNS", 0, 14.29, 0],
    ["G 1/4", "1/4 NPT", 0.559, 5.26, 5],
  ])("%s and %s don't go together: %f mm, %f %%, %f°", (a, b, diameter, pitch, angle) => {
    const query = `look-alike ${a} and ${b}`;
    expect(figureOf(query, "go together")).toBe("no");
    within(numberOf(query, "diameters apart"), diameter, 0.001);
    within(numberOf(query, "pitches apart"), pitch, 0.01);
    expect(numberOf(query, "flanks apart")).toBe(angle);
  });
});

describe("bolts", () => {
  // SAE J429, ksi: the ranges include the upper size.
  test.each([
    ["grade 1 1/2 in", 33, 36, 60],
    ["grade 2 3/4 in", 55, 57, 74],
    ["grade 2 over 3/4 in", 33, 36, 60],
    ["grade 5 1 in", 85, 92, 120],
    ["grade 5 over 1 in", 74, 81, 105],
    ["SAE J429 grade 8", 120, 130, 150],
    ["1-8 UNC grade 5", 85, 92, 120],
  ])("%s: proof %i, yield %i, tensile %i ksi", (query, proof, yields, tensile) => {
    expect([numberOf(query, "proof stress", "ksi"), numberOf(query, "yield", "ksi"), numberOf(query, "tensile strength", "ksi")]).toEqual([
      proof,
      yields,
      tensile,
    ]);
  });

  // ISO 898-1:2013 table 3, MPa.
  test.each([
    ["class 4.6", 225, 400],
    ["class 4.8", 310, 420],
    ["class 5.6", 280, 500],
    ["class 5.8", 380, 520],
    ["class 6.8", 440, 600],
    ["class 8.8 M16", 580, 800],
    ["class 8.8 (d>16)", 600, 830],
    ["class 8.8 M18", 600, 830],
    ["class 9.8", 650, 900],
    ["class 10.9", 830, 1040],
    ["class 12.9", 970, 1220],
  ])("%s: %i and %i MPa", (query, proof, tensile) => {
    expect([numberOf(query, "proof stress", "MPa"), numberOf(query, "tensile strength", "MPa")]).toEqual([proof, tensile]);
  });

  // F = 0.75·Sp·As, T = K·D·F, K = 0.20 (Shigley eq. 8-27 and 8-31), as published tables have them (areas rounded: 0.7 %).
  test.each([
    ["1/4-20 UNC", 2, 1312, 5.47],
    ["3/4-10 UNC", 2, 13778, 172],
    ["1/2-20 UNF", 2, 6600, 55],
    ["3/8-16 UNC", 5, 4941, 30.9],
    ["1/2-20 UNF", 5, 10200, 85],
    ["5/8-11 UNC", 5, 14408, 150],
    ["1-8 UNC", 5, 38633, 643.9],
    ["1/2-13 UNC", 8, 12770.9, 106.42],
  ])("torque of %s grade %i: %f lbf, %f lbf.ft, an estimate", (thread, grade, force, torque) => {
    const query = `torque ${thread} grade ${grade} K 0.2`;
    near(numberOf(query, "preload", "lbf"), force, 0.007);
    near(numberOf(query, "torque", "lbf.ft"), torque, 0.007);
    expect(known(query)).toMatchObject({ confidence: "estimate" });
    expect(known(query).line).toMatch(/^Estimate/);
  });
  test.each([
    ["M10", 25.225, 50.45],
    ["M12", 36.656, 87.97],
  ])("torque of %s class 8.8: %f kN, %f N.m", (thread, force, torque) => {
    near(numberOf(`torque ${thread} class 8.8 K 0.2`, "preload", "N") / 1000, force, 0.003);
    near(numberOf(`torque ${thread} class 8.8 K 0.2`, "torque", "N.m"), torque, 0.003);
  });

  test("Shigley example 8-3: 67.02 kpsi at 25 kip, 72.17 kpsi under 6 kip more, 3750 lbf.in at K = 0.20", () => {
    // The example takes 0.373 in² from the table where the formula has 0.37296: 0.02 kpsi.
    within(numberOf("stress 25000 lbf on 3/4-16 UNF", "stress", "ksi"), 67.02, 0.02);
    const joint = "joint 3/4-16 UNF preload 25000 lbf load 6000 lbf stiffness 6.5, 13.8";
    within(numberOf(joint, "stress", "ksi"), 72.17, 0.02);
    within(numberOf(joint, "share of the load"), 0.32, 0.001);
    expect(known(joint).confidence).toBe("estimate");
    near(numberOf("torque 3/4-16 UNF K 0.2 force 25000 lbf", "torque", "lbf.in"), 3750, 1e-9);
  });
  test("Shigley table 8-14: mean 34.18 and standard deviation 2.88 kN of ten preloads at one torque", () => {
    const query = "mean 30.3, 32.5, 32.5, 32.9, 32.9, 33.8, 34.3, 34.7, 37.4, 40.5 kN";
    within(numberOf(query, "mean", "kN"), 34.18, 0.005);
    within(numberOf(query, "standard deviation", "kN"), 2.88, 0.005);
  });
  test("nut factors of Shigley table 8-15", () => {
    for (const [surface, k] of [
      ["non-plated", 0.3],
      ["zinc-plated", 0.2],
      ["lubricated", 0.18],
      ["cadmium-plated", 0.16],
      ["anti-seize", 0.12],
    ] as const)
      expect(numberOf(`K ${surface}`, `K ${surface}`)).toBe(k);
  });
  test("the wrench: 71.111 for 80 in line with L = 40, E = 5; nothing to correct at 90°; more back over the handle", () => {
    within(numberOf("torque 80 extension 5 on 40 at 0", "setting"), 71.111, 0.005);
    expect(numberOf("torque 80 lbf.ft with extension 5 in on 40 in at 90 deg", "setting", "lbf.ft")).toBe(80);
    within(numberOf("torque 80 lbf.ft with extension 5 in on 40 in at 180 deg", "setting", "lbf.ft"), (80 * 40) / 35, 1e-9);
  });
});

describe("retention", () => {
  // American practice after the appendix of ASME B18.8.1, from memory: pin and hole, inches.
  test.each([
    ["1/4", 1 / 16, 5 / 64],
    ["3/8", 3 / 32, 7 / 64],
    ["1/2", 1 / 8, 9 / 64],
    ["5/8", 5 / 32, 11 / 64],
    ["7/8", 5 / 32, 11 / 64],
    ["1", 3 / 16, 13 / 64],
    ["1-1/4", 7 / 32, 15 / 64],
    ["1-1/2", 1 / 4, 17 / 64],
  ])("split pin for %s UNF: %f in, hole %f in, from memory", (size, pin, hole) => {
    const query = `split pin for ${size} UNF`;
    expect([numberOf(query, "split pin", "in"), numberOf(query, "hole", "in")]).toEqual([pin, hole]);
    expect(known(query).confidence).toBe("from memory");
    expect(known(query).line).toContain("from memory");
  });
  // ASME B18.8.1: shank largest, least, gauge hole, inches.
  test.each([
    ["1/16", 0.06, 0.056, 0.078],
    ["5/64", 0.076, 0.072, 0.094],
    ["3/32", 0.09, 0.086, 0.109],
    ["1/8", 0.12, 0.116, 0.141],
    ["5/32", 0.15, 0.146, 0.172],
    ["3/16", 0.176, 0.172, 0.203],
    ["1/4", 0.225, 0.22, 0.266],
    ["5/16", 0.28, 0.275, 0.312],
  ])("%s in pin: shank %f and %f, gauge hole %f in", (pin, largest, least, hole) => {
    const query = `split pin ${pin} in`;
    expect([numberOf(query, "shank largest"), numberOf(query, "shank least"), numberOf(query, "gauge hole")]).toEqual([largest, least, hole]);
  });
  // BS 1768 (UNC, UNF) and BS 1083 (BSW, BSF): cross-hole in inches, drill in mm; slots of BS 1083.
  test.each([
    ["1/4 UNF", 0.079, 0.084, 2],
    ["3/8 UNC", 0.112, 0.117, 2.85],
    ["1/2 UNF", 0.146, 0.152, 3.7],
    ["5/8 UNC", 0.177, 0.184, 4.5],
    ["1/4 BSF", 0.07, 0.075, 1.8],
    ["1/2 BSW", 0.104, 0.11, 2.65],
    ["5/8 BSF", 0.136, 0.143, 3.5],
    ["7/8 BSW", 0.166, 0.174, 4.2],
  ])("cross-hole for %s: %f .. %f in, drill %f mm", (thread, least, largest, drill) => {
    const query = `cross-hole for ${thread}`;
    expect([numberOf(query, "cross-hole least"), numberOf(query, "cross-hole largest"), numberOf(query, "drill")]).toEqual([least, largest, drill]);
  });
  test("slots of BS 1083: 1/2 in 0.125 .. 0.135 in", () => {
    expect([numberOf("split pin for 1/2 BSW", "slot least", "in"), numberOf("split pin for 1/2 BSW", "slot largest", "in")]).toEqual([0.125, 0.135]);
  });
  // DIN 935-1, ISO 7035, ISO 1234: pin × length, slot, mm.
  test.each([
    ["M4", 1, 10, 1.2, 1.45],
    ["M6", 1.6, 14, 2, 2.25],
    ["M8", 2, 16, 2.5, 2.75],
    ["M12", 3.2, 22, 3.5, 3.8],
    ["M16", 4, 28, 4.5, 4.8],
    ["M20", 4, 36, 4.5, 4.8],
    ["M22", 5, 36, 5.5, 5.8],
  ])("castle nut %s: pin %f x %f, slot %f .. %f mm, six slots", (thread, pin, length, least, largest) => {
    const query = `castle nut ${thread}`;
    expect([
      numberOf(query, "split pin"),
      numberOf(query, "length"),
      numberOf(query, "slot least"),
      numberOf(query, "slot largest"),
      numberOf(query, "slots"),
    ]).toEqual([pin, length, least, largest, 6]);
  });
  // ISO 1234 table 1, from memory: pin for bolts over, up to, mm.
  test.each([
    ["0.6", 0, 2.5],
    ["1.6", 5.5, 7],
    ["3.2", 11, 14],
    ["5", 20, 27],
    ["6.3", 27, 39],
    ["13", 80, 120],
  ])("%s mm pin: for bolts over %f up to %f mm", (pin, over, to) => {
    expect([numberOf(`split pin ${pin} mm`, "for bolts over"), numberOf(`split pin ${pin} mm`, "up to")]).toEqual([over, to]);
    expect(known(`split pin ${pin} mm`).confidence).toBe("from memory");
  });
  // DIN 935: slots by size; two holes at 90° halve the step of six (gcd of 60° and 90°).
  test("slots and travel", () => {
    for (const [size, slots, angle] of [
      ["M30", 6, 60],
      ["M45", 8, 45],
      ["M72", 10, 36],
    ] as const) {
      const query = `slots ${size}`;
      expect([numberOf(query, "slots"), numberOf(query, "angle", "deg")]).toEqual([slots, angle]);
    }
    expect(numberOf("slots 6 holes 2", "smallest turn", "deg")).toBe(30);
    // 1/13 in and 1.75 mm, over six.
    near(numberOf("slot travel for 1/2-13 UNC", "travel", "in"), 1 / 13 / 6, 1e-12);
    near(numberOf("slots M12 travel", "travel", "mm"), 1.75 / 6, 1e-12);
    const { cautions } = known("slots M12 travel");
    expect(cautions.join(" ")).toMatch(/clamps.*next slot.*BACK/s);
  });
});
