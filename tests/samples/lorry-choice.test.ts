// The lorry's half shaft, chosen by hand. Fenland asks 96.00 GBP, Lambert 100.00 EUR = 85.00 GBP at 0.85; but with the half shaft and
// the two hub seals that are on hold there at 5.20 Fenland's goods come to 305.50 + 10.40 = 315.90 GBP, past the 250 that make its carriage free: 96.00 + 0 against
// 85.00 + 12.00 = 97.00. Lambert's own carriage is paid either way, for the clevis pin. Together: 315.90 + (54.00 + 6.00) + (4.20 + 24.00) EUR * 0.85 = 399.87 GBP.
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import { loadSolver } from "../../server/disk/load-solver.ts";
import { partsOrder } from "../in-one-go.ts";

const solver = await loadSolver();
const folder = new URL("../../samples/lorry-rear-axle/", import.meta.url);

function ordered(change: (text: string) => string) {
  const files = { read: (path: string) => readSheet(change(readFileSync(new URL(path, folder), "utf8"))) };
  const { lines, suppliers, together } = partsOrder(files, ["rear-axle.jobsheet"], { way: "cheapest", solver });
  return { from: lines.find((row) => row.item === "half-shaft")?.supplier, suppliers, together };
}

test("the dearer half shaft is the cheaper parcel", () => {
  const { from, suppliers } = ordered((text) => text);
  expect(from).toBe("fenland");
  expect(suppliers.find((it) => it.supplier === "fenland")).toMatchObject({ goods: "315.90", freight: "0.00", total: "315.90" });
});

test("two euros less, and it is not: 98.00 EUR is 83.30 GBP, with carriage 95.30", () => {
  const { from, suppliers } = ordered((text) => text.replace("price 100.00 EUR each", "price 98.00 EUR each"));
  expect(from).toBe("lambert");
  // 315.90 less the half shaft is 219.90, and carriage again.
  expect(suppliers.find((it) => it.supplier === "fenland")).toMatchObject({ goods: "219.90", freight: "12.00", total: "231.90" });
});

test("all together, in pounds", () => {
  expect(ordered((text) => text).together).toMatchObject({ amount: "399.87", currency: "GBP" });
});
