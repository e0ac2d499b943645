// Split pins by thread family: the same size has another hole in another family; what no table knows is not judged.
import { expect, test } from "vitest";
import { exact, figure } from "../../server/quantities/exact.ts";
import { crossHole, farTooThin, inchPins, pinSuits, suitablePin } from "../../server/trade/split-pins.ts";
import { threadOf } from "../../server/trade/threads.ts";

const t = (designation: string) => threadOf(designation) ?? expect.fail(`${designation} is not known`);
const inches = (text: string) => (exact(text) ?? expect.fail(text)).mul(figure("25.4"));
const pin = (designation: string) => {
  const it = suitablePin(t(designation))?.pin;
  return it === undefined ? undefined : `${it.figure} ${it.unit}`;
};

test("the same nominal size has different pins in different families", () => {
  // American practice, from memory; BS 1083 has the smaller hole: 0.104 to 0.110 in at 1/2 in, against BS 1768's 0.146 to 0.152.
  expect(pin("1/2 UNF")).toBe("1/8 in");
  expect(pin("1/2 BSF")).toBe("3/32 in");
  expect(pin("5/8 UNF")).toBe("5/32 in");
  expect(pin("5/8 BSF")).toBe("1/8 in");
  expect(crossHole(t("1/2 BSF"))?.drillMm).toBe("2.65");
  expect(crossHole(t("1/2 UNF"))?.drillMm).toBe("3.7");
});

test("a pin by the hole of BS 1083 goes through it (shanks of ASME B18.8.1)", () => {
  for (const size of ["1/4", "5/16", "3/8", "7/16", "1/2", "9/16", "5/8", "3/4", "7/8"]) {
    const suitable = suitablePin(t(`${size} BSF`));
    const shank = inchPins.find((it) => it.nominal === suitable?.pin.figure)?.shankMax ?? expect.fail(size);
    const hole = crossHole(t(`${size} BSF`))?.least ?? expect.fail(size);
    expect(Number(shank), size).toBeLessThan(Number(hole));
  }
});

test("metric threads go by the castle nut, or by ISO 1234", () => {
  expect(pin("M12")).toBe("3.2 mm");
  expect(pin("M12x1.25")).toBe("3.2 mm");
  expect(pin("M24")).toBe("5 mm");
  expect(suitablePin(t("M24"))?.mark).toBe("memory");
  expect(suitablePin(t("M12"))?.mark).toBe("table");
});

test("a pin is judged, with what is usual and how sure that is", () => {
  expect(pinSuits(inches("1/8"), t("1/2-20 UNF"))?.suits).toBe(true);
  const thin = pinSuits(inches("1/16"), t("3/4-16 UNF"));
  expect(thin).toMatchObject({ suits: false, usual: { figure: "5/32", unit: "in" }, mark: "memory" });
  expect(thin?.sentence).toBe(
    "A 1/16 in split pin is too thin here. For 3/4-16 UNF 5/32 in is usual (hole 11/64 in; American practice, from memory). The maker's pin rules.",
  );
  expect(pinSuits(inches("1/8"), t("1/2 BSF"))).toMatchObject({ suits: false, usual: { figure: "3/32", unit: "in" } });
  expect(pinSuits(inches("1/8"), t("1/2 BSF"))?.sentence).toContain("too thick");
  expect(pinSuits(figure("3.2"), t("M12"))?.suits).toBe(true);
  // 3.2 mm and 1/8 in are 0.8 % apart.
  expect(pinSuits(figure("3.2"), t("1/2 UNC"))?.suits).toBe(true);
  expect(pinSuits(figure("2.5"), t("M12"))?.suits).toBe(false);
});

test("what the tables do not know is not judged", () => {
  for (const designation of ["2 BA", "No.10-32 UNF", "1 BSF", "1/8 BSW", "G 1/4"]) {
    expect(pinSuits(figure("2"), t(designation)), designation).toBeUndefined();
  }
});

test("half of the usual pin or less is far too thin; of a thread that no table knows, a twelfth of it", () => {
  // BS 1083: the hole of 5/8 in takes 1/8 in; its half is 1/16, and 5/64 is more.
  expect(farTooThin(inches("1/16"), t("5/8 BSF"))).toContain("half");
  expect(farTooThin(inches("5/64"), t("5/8 BSF"))).toBeUndefined();
  // ISO 1234, from memory: 6.3 mm for bolts over 27 up to 39 mm.
  expect(farTooThin(figure("2.5"), t("M36"))).toContain("half");
  expect(farTooThin(figure("3.2"), t("M36"))).toBeUndefined();
  // No table here has 1-1/4 BSF. By hand: 1.25 in / 12 = 0.104 in; 3/32 is 0.094 and 7/64 is 0.109.
  expect(suitablePin(t("1-1/4 BSF"))).toBeUndefined();
  expect(farTooThin(inches("3/32"), t("1-1/4 BSF"))).toContain("twelfth");
  expect(farTooThin(inches("7/64"), t("1-1/4 BSF"))).toBeUndefined();
});
