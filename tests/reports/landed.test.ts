// Surcharges on exchange, duty and freight, work that is out: worked out by hand beside each.
import { describe, expect, test } from "vitest";
import { orderCsv } from "../../server/reports/order/csv.ts";
import { orderTable } from "../../server/reports/order/table.ts";
import { loadSolver } from "../../server/disk/load-solver.ts";
import { filesFrom, orderMarkdown, orderOf } from "./sheets.ts";
import { partsOrder } from "../in-one-go.ts";

const shoes = (offer: string, finding = "") => `sheet "Brakes"
  currency GBP
places side left, right
part shoe "Brake shoe"
  each side 2
supplier marl "Marl Brake Relining"
  currency GBP
  freight 6.00 GBP free over 90 GBP
  duty 5 %
offer shoe from marl
${offer}
finding shoe left
  is worn
  decision exchange
${finding}`;

describe("surcharges on exchange", () => {
  test("are in the supplier's total, earn no free freight and bear no duty; what goes back is said", () => {
    // 2 x 31.25 = 62.50; surcharges 2 x 15.00 = 30.00: 92.50 together, but the goods are below 90. Duty 5 % of 62.50 = 3.125, to even 3.12.
    const report = orderOf(shoes("  price 31.25 GBP each\n  exchange 15.00 GBP"));
    expect(report.lines[0]).toMatchObject({ total: "62.50", exchange: "30.00" });
    expect(report.suppliers).toMatchObject([{ goods: "62.50", exchange: "30.00", freight: "6.00", duty: "3.12", total: "101.62" }]);
    expect(report.together).toEqual({ amount: "101.62", currency: "GBP" });
    expect(report.back).toMatchObject([{ item: "shoe", supplier: "marl", quantity: "2", packs: false, recovers: "30.00", lost: "0.00", missing: "0" }]);
    const words = "Send 2 × brake shoe (shoe), the old ones, back to Marl Brake Relining: 30.00 GBP comes back.";
    expect(orderTable(report, 200)).toContain(words);
    expect(orderMarkdown(report)).toContain("Send 2 × brake shoe (shoe), the old ones, back to Marl Brake Relining: 30.00 GBP comes back.");
  });
  test("for a pack, where the price is for a pack", () => {
    // One pack of 4 for the 2 that are needed: one surcharge, and no whole pack of old ones to send.
    const report = orderOf(shoes("  price 110.00 GBP a pack\n  pack 4\n  exchange 40.00 GBP"));
    expect(report.suppliers).toMatchObject([{ goods: "110.00", exchange: "40.00", freight: "0.00", duty: "5.50", total: "155.50" }]);
    expect(report.back).toMatchObject([{ quantity: "0", packs: true, recovers: "0.00", lost: "40.00" }]);
    expect(orderTable(report, 200)).toContain(
      "No old brake shoe (shoe) can be sent back to Marl Brake Relining. 40.00 GBP does not come back: fewer old ones come off than are bought.",
    );
  });
  test("what was found missing can't be sent back", () => {
    // Two worn at the left, one of two missing at the right: three bought, two go back.
    const report = orderOf(shoes("  price 31.25 GBP each\n  exchange 15.00 GBP", "finding shoe right\n  is missing 1\n"));
    expect(report.lines[0]).toMatchObject({ need: "3", exchange: "45.00" });
    expect(report.back).toMatchObject([{ quantity: "2", recovers: "30.00", lost: "15.00", missing: "1" }]);
    expect(orderTable(report, 200)).toContain("15.00 GBP does not come back: 1 found missing.");
  });
  test("the total column of the CSV added up is what is paid", () => {
    const rows = orderCsv(orderOf(shoes("  price 31.25 GBP each\n  exchange 15.00 GBP")))
      .trimEnd()
      .split("\r\n")
      .map((line) => line.split(","));
    const column = (rows[0] as string[]).indexOf("total");
    expect(rows.slice(1).reduce((sum, row) => sum + Math.round(Number(row[column] || "0") * 100), 0)).toBe(10162);
  });
  test("the cheapest counts them", async () => {
    // 30.00 and a surcharge of 20.00 against 40.00 without: 50.00 x 2 against 40.00 x 2.
    const sheet = `${shoes("  price 30.00 GBP each\n  exchange 20.00 GBP").replace(/ {2}freight.*\n {2}duty.*\n/, "")}supplier noll "Noll"\noffer shoe from noll\n  price 40.00 GBP each\n`;
    expect(partsOrder(filesFrom({ "job.jobsheet": sheet }), ["job.jobsheet"]).lines[0]?.supplier).toBe("marl");
    expect(partsOrder(filesFrom({ "job.jobsheet": sheet }), ["job.jobsheet"], { way: "cheapest", solver: await loadSolver() }).lines[0]?.supplier).toBe("noll");
  });
});

describe("work sent out", () => {
  const sheet = (status: string, more = "") => `sheet "Crank"
  currency GBP
part crank "Crankshaft"
part rod "Rod"
part seal "Seal"
supplier grind "Dene Grinding"
  currency EUR
supplier spares "Spares"
  freight 4.00 GBP
offer seal from spares
  price 2.50 GBP
order "G-1" to grind
  status ${status}
  work crank "grind 0.25 mm under" price 90.00 EUR
  work rod "re-metal"
finding seal
  is damaged
finding crank
  is worn
  decision repair "grind"
${more}`;
  test("its price is in the total, it is never surplus, and nothing of it is to order", () => {
    for (const status of ["held", "placed", "sent"]) {
      // 2.50 + 4.00 = 6.50 GBP, and 90.00 EUR.
      const report = orderOf(sheet(status));
      expect(report.totals).toEqual([
        { amount: "6.50", currency: "GBP" },
        { amount: "90.00", currency: "EUR" },
      ]);
      expect(report.together).toBeNull();
      expect(report.surplus).toEqual([]);
      expect(report.lines.map((row) => row.item)).toEqual(["seal"]);
      expect(report.work).toMatchObject([
        { part: "crank", what: "grind 0.25 mm under", status, supplier: "grind", price: "90.00", currency: "EUR", line: 14 },
        { part: "rod", price: null, line: 15 },
      ]);
      // 90.00 x 0.86 = 77.40; with 6.50 that is 83.90.
      expect(orderOf(sheet(status, "rate 1 EUR = 0.86 GBP\n")).together).toEqual({ amount: "83.90", currency: "GBP" });
      expect(orderTable(report, 200)).toContain(`Crankshaft (crank): grind 0.25 mm under with Dene Grinding (order “G-1”), ${status}: 90.00 EUR.`);
    }
  });
  test("back, cancelled or returned it is out no more", () => {
    for (const status of ["received", "cancelled", "returned"]) expect(orderOf(sheet(status))).toMatchObject({ work: [], together: { amount: "6.50" } });
  });
  test("alone it is all there is to pay", () => {
    const report = orderOf(sheet("sent").replace("finding seal\n  is damaged\n", ""));
    expect(report).toMatchObject({ lines: [], suppliers: [], totals: [{ amount: "90.00", currency: "EUR" }] });
  });
});

test("freight in another currency than the goods is paid in its own", () => {
  const report = orderOf(`part plug "Plug"
supplier a "Ashdown"
  freight 6.00 GBP
offer plug from a
  price 20.00 EUR
finding plug
  is damaged
`);
  expect(report.suppliers.map((it) => [it.currency, it.goods, it.freight, it.total])).toEqual([
    ["EUR", "20.00", "0.00", "20.00"],
    ["GBP", "0.00", "6.00", "6.00"],
  ]);
});

test("each row says which job wants how much of it", () => {
  const shared = 'part seal "Seal"\n  renew\nfluid oil "Oil"\n  capacity 2 l\n';
  const job = (title: string, more: string) => `sheet "${title}"\nuse "shared.jobsheet"\n${more}`;
  const files = filesFrom({
    "shared.jobsheet": shared,
    "one.jobsheet": job("Axle", 'finding seal\n  is damaged\nneed oil 500 ml "priming"\n'),
    "two.jobsheet": job("Hub", "finding seal\n  is damaged\n"),
  });
  const report = partsOrder(files, ["one.jobsheet", "two.jobsheet"]);
  expect(report.lines.map((row) => [row.item, row.need, row.jobs])).toEqual([
    [
      "seal",
      "2",
      [
        { file: "one.jobsheet", title: "Axle", amount: "1" },
        { file: "two.jobsheet", title: "Hub", amount: "1" },
      ],
    ],
    ["oil", "500", [{ file: "one.jobsheet", title: "Axle", amount: "500" }]],
  ]);
  expect(orderTable(report, 200)).toContain("for Axle 1, Hub 1");
  expect(orderMarkdown(report)).toContain("for Axle 1, Hub 1");
});
