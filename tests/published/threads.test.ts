// Threads: counts, pitches and diameters as tables give them, stress areas by formula and by table, look-alike pairs.
import { describe, expect, test } from "vitest";
import { figure } from "../../server/quantities/exact.ts";
import { lookAlike, sameThread, threadOf } from "../../server/trade/threads.ts";
import { near, within } from "./near.ts";

const t = (designation: string) => threadOf(designation) ?? expect.fail(`${designation} is not known`);
const squareInch = 25.4 * 25.4;

// ASME B1.1 (UNC, UNF), BS 84 (BSW, BSF): threads per inch.
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
])("%s in has %i UNC, %i UNF, %i BSW and %i BSF", (size, unc, unf, bsw, bsf) => {
  expect([t(`${size} UNC`).tpi, t(`${size} UNF`).tpi, t(`${size} BSW`).tpi, t(`${size} BSF`).tpi]).toEqual([unc, unf, bsw, bsf]);
  expect([t(`${size} UNC`).flankAngle, t(`${size} BSW`).flankAngle]).toEqual([60, 55]);
});

// A thread gauge maker's table after BS 84: BSW and BSF outside 1/4 to 1 in.
test.each([
  ["1/8", 40, undefined],
  ["3/16", 24, 32],
  ["1-1/8", 7, 9],
  ["1-1/4", 7, 9],
  ["1-1/2", 6, 8],
])("%s in has %i BSW and %s BSF", (size, bsw, bsf) => {
  expect([threadOf(`${size} BSW`)?.tpi, threadOf(`${size} BSF`)?.tpi]).toEqual([bsw, bsf]);
});

// BS 84, the sizes that no table was seen for (from memory of the standard); 13/16 and 9/32 are of the second choice.
test.each([
  ["1/16", 60, undefined],
  ["3/32", 48, undefined],
  ["5/32", 32, undefined],
  ["7/32", 24, 28],
  ["9/32", undefined, 26],
  ["11/16", 11, 14],
  ["13/16", 10, 12],
  ["1-3/8", 6, 8],
  ["1-5/8", 5, 8],
  ["1-3/4", 5, 7],
])("%s in has %s BSW and %s BSF, from memory", (size, bsw, bsf) => {
  expect([threadOf(`${size} BSW`)?.tpi, threadOf(`${size} BSF`)?.tpi]).toEqual([bsw, bsf]);
});

// ASME B1.1 (1-3/4 UNC) and ISO 262, coarse pitches, from memory of the standards.
test("the largest and the smallest: 1-3/4-5 UNC; M1.6, M3.5 and M39 to M48 coarse", () => {
  expect(t("1-3/4 UNC").tpi).toBe(5);
  const coarse = { "M1.6": "0.35", "M3.5": "0.6", M39: "4", M42: "4.5", M45: "4.5", M48: "5" };
  for (const [size, pitch] of Object.entries(coarse)) expect(t(size).pitchMm.equals(figure(pitch)), size).toBe(true);
});

// ISO 261, from memory of the standard: fine pitches of the sizes above M36, and no others.
test("fine pitches above M36: M39 has 3, 2 and 1.5; M42, M45 and M48 have 4 besides", () => {
  const fine = (size: string) => ["6", "5", "4", "3", "2", "1.5", "1.25", "1"].filter((pitch) => threadOf(`${size}x${pitch}`)?.mark === "memory");
  // 4 is the coarse pitch of M39, and 5 that of M48.
  expect(fine("M39").filter((it) => it !== "4")).toEqual(["3", "2", "1.5"]);
  expect(["M42", "M45", "M48"].map((it) => fine(it).filter((pitch) => pitch !== "5"))).toEqual(Array(3).fill(["4", "3", "2", "1.5"]));
});

// ISO 228-1 and ASME B1.20.1, from memory of the standards: threads per inch, and the diameter over them in mm, of the sizes that no table was seen for.
test.each([
  ["G 1/16", 28, 7.723],
  ["G 1/8", 28, 9.728],
  ["G 5/8", 14, 22.911],
  ["1/16 NPT", 27, 7.938],
  ["1/8 NPT", 27, 10.287],
  ["3/8 NPT", 18, 17.145],
  ["3/4 NPT", 14, 26.67],
])("%s has %i threads per inch and is %f mm over them", (designation, tpi, major) => {
  expect([t(designation).tpi, t(designation).majorMm.valueOf()]).toEqual([tpi, major]);
});

// BS 93 by its definition: the pitch is 0.9ⁿ mm, the diameter 6·p^1.2 of the pitch before it is rounded, each to two significant figures.
test("BA threads from 0 to 16 are what their definition makes them", () => {
  for (let n = 0; n <= 16; n++) {
    const pitch = 0.9 ** n;
    expect(t(`${n} BA`).pitchMm.valueOf(), `${n} BA`).toBe(Number(pitch.toPrecision(2)));
    expect(t(`${n} BA`).majorMm.valueOf(), `${n} BA`).toBe(Number((6 * pitch ** 1.2).toPrecision(2)));
  }
});

// Shigley's Mechanical Engineering Design, table 8-2, compiled from ANSI B1.1-1974: major diameter in, UNC count and area in², UNF count and area.
test.each([
  ["No.0", 0.06, undefined, undefined, 80, 0.0018],
  ["No.1", 0.073, 64, 0.00263, 72, 0.00278],
  ["No.2", 0.086, 56, 0.0037, 64, 0.00394],
  ["No.3", 0.099, 48, 0.00487, 56, 0.00523],
  ["No.4", 0.112, 40, 0.00604, 48, 0.00661],
  // No.5-44 is 0.0083 in two makers' tables after ASME B1.1; the stored page of Shigley reads 0.0088, a 3 taken for an 8.
  ["No.5", 0.125, 40, 0.00796, 44, 0.0083],
  ["No.6", 0.138, 32, 0.00909, 40, 0.01015],
  ["No.8", 0.164, 32, 0.014, 36, 0.01474],
  ["No.10", 0.19, 24, 0.0175, 32, 0.02],
  ["No.12", 0.216, 24, 0.0242, 28, 0.0258],
  ["1/4", 0.25, 20, 0.0318, 28, 0.0364],
  ["5/16", 0.3125, 18, 0.0524, 24, 0.058],
  ["3/8", 0.375, 16, 0.0775, 24, 0.0878],
  ["7/16", 0.4375, 14, 0.1063, 20, 0.1187],
  ["1/2", 0.5, 13, 0.1419, 20, 0.1599],
  ["9/16", 0.5625, 12, 0.182, 18, 0.203],
  ["5/8", 0.625, 11, 0.226, 18, 0.256],
  ["3/4", 0.75, 10, 0.334, 16, 0.373],
  ["7/8", 0.875, 9, 0.462, 14, 0.509],
  ["1", 1, 8, 0.606, 12, 0.663],
  // 1-1/8 and 1-3/8: two makers' tables after ASME B1.1.
  ["1-1/8", 1.125, 7, 0.763, 12, 0.856],
  ["1-1/4", 1.25, 7, 0.969, 12, 1.073],
  ["1-3/8", 1.375, 6, 1.155, 12, 1.315],
  ["1-1/2", 1.5, 6, 1.405, 12, 1.581],
])("%s: diameter, counts and stress areas of Shigley table 8-2", (size, major, unc, areaUnc, unf, areaUnf) => {
  if (unc !== undefined && areaUnc !== undefined) {
    expect(t(`${size} UNC`).tpi).toBe(unc);
    // Table areas are rounded by their makers: 0.4 %.
    near((t(`${size} UNC`).stressAreaMm2?.valueOf() ?? 0) / squareInch, areaUnc, 0.004, `${size} UNC`);
  }
  expect(t(`${size} UNF`).tpi).toBe(unf);
  near((t(`${size} UNF`).stressAreaMm2?.valueOf() ?? 0) / squareInch, areaUnf, 0.004, `${size} UNF`);
  near(t(`${size} UNF`).majorMm, major * 25.4, 1e-12);
});

// Thread pitch chart after ISO 261: coarse pitch, and fine pitches, beyond those below.
test.each([
  ["M2", "0.4", ["0.25"]],
  ["M2.5", "0.45", ["0.35"]],
  ["M4", "0.7", ["0.5"]],
  ["M6", "1", ["0.75"]],
  ["M7", "1", []],
  ["M8", "1.25", ["0.75"]],
  ["M10", "1.5", ["1"]],
  ["M18", "2.5", ["1.5"]],
  ["M20", "2.5", ["1.5"]],
  ["M22", "2.5", ["1.5"]],
  ["M27", "3", ["2"]],
  ["M30", "3.5", ["2"]],
  ["M33", "3.5", ["2"]],
  ["M36", "4", ["3"]],
])("%s has the coarse pitch %s and among the fine ones %j", (size, coarse, fine) => {
  expect(t(size).pitchMm.equals(figure(coarse))).toBe(true);
  for (const pitch of fine) expect(t(`${size}x${pitch}`).mark).toBe("table");
});

test("a fine pitch that no table was seen for says that it is from memory", () => {
  expect(["M14x1.25", "M24x1.5", "M16x1"].map((it) => t(it).mark)).toEqual(["memory", "memory", "memory"]);
});

// ISO 262: coarse pitch and first fine pitch.
test.each([
  ["M3", "0.5", undefined],
  ["M4", "0.7", undefined],
  ["M5", "0.8", undefined],
  ["M6", "1", undefined],
  ["M8", "1.25", "1"],
  ["M10", "1.5", "1.25"],
  ["M12", "1.75", "1.5"],
  ["M14", "2", "1.5"],
  ["M16", "2", "1.5"],
  ["M18", "2.5", "2"],
  ["M20", "2.5", "2"],
  ["M22", "2.5", "2"],
  ["M24", "3", "2"],
])("%s has the coarse pitch %s and the first fine pitch %s", (size, coarse, fine) => {
  expect(t(size).pitchMm.equals(figure(coarse))).toBe(true);
  expect(t(size).flankAngle).toBe(60);
  if (fine !== undefined) expect(t(`${size}x${fine}`).pitchMm.equals(figure(fine))).toBe(true);
});

// ISO 898-1: nominal stress areas, mm², coarse and fine.
test.each([
  ["M5x0.8", 14.2],
  ["M6x1", 20.1],
  ["M8x1.25", 36.6],
  ["M10x1.5", 58.0],
  ["M12x1.75", 84.3],
  ["M14x2", 115],
  ["M16x2", 157],
  ["M20x2.5", 245],
  ["M24x3", 353],
  ["M8x1", 39.17],
  ["M10x1.25", 61.2],
  ["M12x1.25", 92.07],
  ["M14x1.5", 124.5],
  ["M16x1.5", 167.2],
  ["M20x1.5", 271.5],
  ["M24x2", 384.4],
])("%s has a stress area of %f mm²", (designation, area) => {
  near(t(designation).stressAreaMm2, area, 0.005);
});

// BS 93: pitch and major diameter, mm.
test.each([
  [0, 1.0, 6.0],
  [1, 0.9, 5.3],
  [2, 0.81, 4.7],
  [3, 0.73, 4.1],
  [4, 0.66, 3.6],
  [5, 0.59, 3.2],
  [6, 0.53, 2.8],
  [7, 0.48, 2.5],
  [8, 0.43, 2.2],
  [9, 0.39, 1.9],
  [10, 0.35, 1.7],
  [11, 0.31, 1.5],
  [12, 0.28, 1.3],
])("%i BA: pitch %f mm, major %f mm, as its own rule gives them", (n, pitch, major) => {
  const thread = t(`${n} BA`);
  expect([thread.pitchMm.valueOf(), thread.majorMm.valueOf(), thread.flankAngle]).toEqual([pitch, major, 47.5]);
  // p = 0.9ⁿ and D = 6·p^1.2, each to two significant figures.
  expect(Number((0.9 ** n).toPrecision(2))).toBe(pitch);
  expect(Number((6 * pitch ** 1.2).toPrecision(2))).toBe(major);
});

describe("look-alikes", () => {
  // Diameters apart in mm, pitches apart in % of the larger, angles apart in °, from the tables above; none of them goes together.
  test.each([
    ["1/2-13 UNC", "1/2-12 BSW", 0, 7.69, 5],
    ["3/8-16 UNC", "3/8-16 BSW", 0, 0, 5],
    ["M6x1", "0 BA", 0, 0, 12.5],
    ["2 BA", "M5x0.8", 0.3, 1.23, 12.5],
    ["2 BA", "No.10-32 UNF", 0.126, 2.01, 12.5],
    ["M5x0.8", "No.10-32 UNF", 0.174, 0.78, 0],
    ["M8x1.25", "5/16-18 UNC", 0.0625, 11.42, 0],
    ["M8x1", "5/16-24 UNF", 0.0625, 5.51, 0],
    ["M10x1.5", "3/8-16 UNC", 0.475, 5.51, 0],
    ["M12x1.75", "7/16-14 UNC", 0.8875, 3.54, 0],
    ["M12x1.75", "1/2-13 UNC", 0.7, 10.43, 0],
    ["M14x2", "9/16-12 UNC", 0.2875, 5.51, 0],
    ["M16x2", "5/8-11 UNC", 0.125, 13.39, 0],
    ["1/4-26 BSF", "1/4-28 UNF", 0, 7.14, 5],
    ["3/8-20 BSF", "3/8-24 UNF", 0, 16.67, 5],
    ["1/4-26 BSF", "1/4-26 BSC", 0, 0, 5],
    ["1-12 UNF", "1-14 UNS", 0, 14.29, 0],
    ["G 1/4", "1/4 NPT", 0.559, 5.26, 5],
    ["G 1/2", "1/2 NPT", 0.381, 0, 5],
  ])("%s and %s", (a, b, diameter, pitch, angle) => {
    expect(sameThread(t(a), t(b))).toBe(false);
    for (const [x, y] of [
      [a, b],
      [b, a],
    ] as const) {
      const alike = lookAlike(t(x), t(y));
      within(alike?.diameterApartMm, diameter, 0.01, `${x} and ${y}`);
      within(alike?.pitchApart, pitch, 0.01, `${x} and ${y}`);
      expect(alike?.anglesApart).toBe(angle);
      expect(alike?.dangerous).toBe(diameter / t(a).majorMm.valueOf() < 0.06 && pitch < 10);
      expect(alike?.why).toMatch(/\.$/);
    }
  });

  test("the wrong belief that equal counts make BSW and UNC one thread", () => {
    expect(lookAlike(t("3/8 UNC"), t("3/8 BSW"))?.why).toContain("Not for a loaded joint");
    // The only coarse pair between 1/4 and 1 in whose count differs.
    const differ = ["1/4", "5/16", "3/8", "7/16", "1/2", "9/16", "5/8", "3/4", "7/8", "1"].filter((it) => t(`${it} UNC`).tpi !== t(`${it} BSW`).tpi);
    expect(differ).toEqual(["1/2"]);
  });
});

test("the wrong belief that a BA screw is six pitches thick: 2 BA is 4.7 mm, not 4.86", () => {
  expect(t("2 BA").majorMm.valueOf()).toBe(4.7);
  expect(t("2 BA").majorMm.valueOf()).not.toBe(6 * 0.81);
});

test("the wrong pitches of an open data set: M8 1.5, M10 1.75, M12 2, M16 2.5, M22 3", () => {
  for (const [size, wrong] of [
    ["M8", "1.5"],
    ["M10", "1.75"],
    ["M12", "2"],
    ["M16", "2.5"],
    ["M22", "3"],
  ] as const)
    expect(threadOf(`${size}x${wrong}`)).toBeUndefined();
});
