// Threads as they are written, what is refused, and what looks like what. The figures themselves are checked in tests/published.
import { expect, test } from "vitest";
import { allThreads, dangerousThread, lookAlike, nearestThread, sameThread, threadOf, threadReadings } from "../../server/trade/threads.ts";

const t = (designation: string, leftHand = false) => threadOf(designation, leftHand) ?? expect.fail(`${designation} is not known`);

test("a designation may leave out the count, and is filled in", () => {
  const full = (text: string) => threadOf(text)?.designation;
  expect(full("5/8-18 UNF")).toBe("5/8-18 UNF");
  expect(full("1/2 BSF")).toBe("1/2-16 BSF");
  expect(full("7/16 BSW")).toBe("7/16-14 BSW");
  expect(full("1-8 UNC")).toBe("1-8 UNC");
  expect(full("1-1/8-7 UNC")).toBe("1-1/8-7 UNC");
  expect(full("2 BA")).toBe("2 BA");
  expect(full("M10")).toBe("M10x1.5");
  expect(full("M10x1.5")).toBe("M10x1.5");
  expect(full("M10 x 1.25")).toBe("M10x1.25");
  expect(full("m10×1.25")).toBe("M10x1.25");
  expect(full("M6x1.0")).toBe("M6x1");
  expect(full("No.10-32 UNF")).toBe("No.10-32 UNF");
  expect(full("no. 10 unf")).toBe("No.10-32 UNF");
  expect(full("  1/2   bsf ")).toBe("1/2-16 BSF");
});

test("a thread that is not in the tables is not taken for its neighbour", () => {
  for (const text of [
    "1/2-18 UNF",
    "5/8-16 UNF",
    "M10x1.4",
    "M11",
    "17 BA",
    "5/8-18",
    "3/8-16",
    "10-32",
    "10-32 UNF",
    "1/2",
    "UNF",
    "",
    "1/2 XYZ",
    "2 BSF",
    "M0",
    `M${"9".repeat(50)}`,
    "9".repeat(1e5),
    "1/0 UNF",
    "-1/2 UNF",
  ])
    expect(threadOf(text), text.slice(0, 20)).toBeUndefined();
});

test("left hand is another thread", () => {
  expect(t("1/2 BSF", true).leftHand).toBe(true);
  expect(sameThread(t("1/2 BSF"), t("1/2 BSF", true))).toBe(false);
  expect(lookAlike(t("1/2 BSF"), t("1/2 BSF", true))).toMatchObject({ dangerous: true });
});

test("every thread in the tables reads as itself", () => {
  expect(allThreads().length).toBeGreaterThan(120);
  for (const designation of allThreads()) expect(threadOf(designation)?.designation).toBe(designation);
});

test("the nearest thread is offered where one is", () => {
  expect(nearestThread("1/2-18 UNF")).toBe("1/2-20 UNF");
  expect(nearestThread("5/8-18")).toBe("5/8-18 UNF");
  expect(nearestThread("5/8-18 UNC")).toBe("5/8-18 UNF");
  expect(nearestThread("M10-1.25")).toBe("M10x1.25");
  // Pipe threads are named by the bore (ISO 228-1: G 3/8 is 16.662 mm over the crests); a bolt's 3/8 is 9.525 mm.
  expect(threadOf("3/8-19 BSP")?.designation).toBe("G 3/8");
  expect(nearestThread("3/8-18 BSP")).toBe("G 3/8");
  expect(nearestThread("3/9-18 BSP")).toBeUndefined();
  expect(threadReadings("3/8-19 BSPP")).toEqual([]);
  expect(nearestThread("10-32 UNF")).toBe("No.10-32 UNF");
  // UNC and BSW have the same count here, and different flanks: no guess.
  expect(nearestThread("3/8-16")).toBeUndefined();
  expect(threadReadings("3/8-16")).toEqual(["3/8-16 UNC", "3/8-16 BSW"]);
  expect(threadReadings("1-8")).toEqual(["1-8 UNC", "1-8 BSW"]);
  expect(nearestThread("gibberish")).toBeUndefined();
});

test("a numbered size without its No. reads as inches, and is dangerous", () => {
  expect(dangerousThread("10-32")?.meant).toBe("No.10-32 UNF");
  expect(dangerousThread("10-32 UNF")?.why).toContain("10 inches");
  expect(dangerousThread("1-72")?.why).toContain("1 inch across");
  expect(dangerousThread("4-40 UNC")?.meant).toBe("No.4-40 UNC");
  expect(dangerousThread("6-32")?.meant).toBe("No.6-32 UNC");
  for (const text of ["1-8 UNC", "1-12 UNF", "1-14 UNS", "No.10-32 UNF", "5/8-18 UNF", "M10", "11-32"]) expect(dangerousThread(text), text).toBeUndefined();
});

test("what goes together is the same: angle, diameter and pitch", () => {
  expect(sameThread(t("1/2 UNF"), t("1/2-20 UNF"))).toBe(true);
  expect(sameThread(t("M10"), t("M10x1.5"))).toBe(true);
  expect(sameThread(t("3/8 UNC"), t("3/8 BSW"))).toBe(false);
  expect(lookAlike(t("M10"), t("M10x1.5"))).toBeUndefined();
  // Nobody takes one for the other: the pitch differs by a third.
  expect(lookAlike(t("1/2 UNC"), t("1/2 UNF"))).toBeUndefined();
  expect(lookAlike(t("1/4 UNC"), t("1/2 UNC"))).toBeUndefined();
});

test("extra-fine and special threads are read by their own size and count", () => {
  // ASME B1.1: 1/2 in has 28 threads in UNEF and 1 in has 20; 1-14 is a special one.
  expect(t("1/2-28 UNEF")).toMatchObject({ designation: "1/2-28 UNEF", tpi: 28, size: "1/2" });
  expect(t("1 UNEF")).toMatchObject({ designation: "1-20 UNEF", tpi: 20 });
  expect(t("1-14 UNS")).toMatchObject({ tpi: 14, size: "1" });
  for (const text of ["1/2-20 UNEF", "1-1/8-14 UNS"]) expect(threadOf(text), text).toBeUndefined();
  // Tensile stress area 0.170 sq in (Machinery's Handbook, from memory; 0.7854 (0.5 - 0.9743/28)^2 = 0.1700).
  const area = t("1/2-28 UNEF").stressAreaMm2?.div(645.16).valueOf();
  expect(area).toBeGreaterThan(0.1695);
  expect(area).toBeLessThan(0.1705);
});

test("flanks are spoken of where they differ, and only there (ISO 68-1: 60 degrees; BS 84: 55)", () => {
  expect(lookAlike(t("M10x1.5"), t("M10x1.25"))?.why).not.toContain("flanks");
  expect(lookAlike(t("M8x1.25"), t("5/16 BSW"))?.why).toContain("60\u00b0 and 55\u00b0");
});

test("what is far too long is no thread, whatever it begins with", () => expect(threadOf(`M10${" ".repeat(60)}`)).toBeUndefined());

// A special thread is special by its count (ASME B1.1), and model engineers have 1/4 in at 32 and at 40: none of them is the one that is meant.
test("a size of a series without a usual count is no thread until the count is said", () => {
  for (const text of ["1/2 UNS", "1 UNS", "1/4 ME"]) expect(threadOf(text), text).toBeUndefined();
  expect(threadReadings("1/4 ME")).toEqual(["1/4-40 ME", "1/4-32 ME"]);
  expect(threadReadings("1/2 UNS").every((it) => it.endsWith(" UNS"))).toBe(true);
  expect(t("1/4-32 ME").tpi).toBe(32);
  // Cycle threads have one: 26 (BS 811).
  expect(t("1/2 BSC").tpi).toBe(26);
});
