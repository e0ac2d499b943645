// The lorry's half shaft, chosen by hand. Fenland asks 96.00 GBP, Lambert 100.00 EUR = 85.00 GBP at 0.85; but with the half shaft
// Fenland's goods come to 305.50 GBP, past the 250 that make its carriage free: 96.00 + 0 against 85.00 + 12.00 = 97.00. Lambert's own
// carriage is paid either way, for the clevis pin. Together: 305.50 + (54.00 + 6.00) + (4.20 + 24.00) EUR * 0.85 = 389.47 GBP.
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import { partsOrder } from "../../server/reports/order/order.ts";

const folder = new URL("../../samples/lorry-rear-axle/", import.meta.url);

function ordered(change: (text: string) => string) {
  const files = { read: (path: string) => readSheet(change(readFileSync(new URL(path, folder), "utf8"))) };
  const { lines, suppliers, together } = partsOrder(files, ["rear-axle.jobsheet"], "cheapest");
  return { from: lines.find((row) => row.item === "half-shaft")?.supplier, suppliers, together };
}

test("the dearer half shaft is the cheaper parcel", () => {
  const { from, suppliers } = ordered((text) => text);
  expect(from).toBe("fenland");
  expect(suppliers.find((it) => it.supplier === "fenland")).toMatchObject({ goods: "305.50", freight: "0.00", total: "305.50" });
});

test("two euros less, and it is not: 98.00 EUR is 83.30 GBP, with carriage 95.30", () => {
  const { from, suppliers } = ordered((text) => text.replace("price 100.00 EUR each", "price 98.00 EUR each"));
  expect(from).toBe("lambert");
  // 305.50 less the half shaft is 209.50, and carriage again.
  expect(suppliers.find((it) => it.supplier === "fenland")).toMatchObject({ goods: "209.50", freight: "12.00", total: "221.50" });
});

test("all together, in pounds", () => {
  expect(ordered((text) => text).together).toMatchObject({ amount: "389.47", currency: "GBP" });
});
