// What is on order and not needed: what to cancel while it can be, what that saves, and what it does to the carriage; worked out by hand.
import { describe, expect, test } from "vitest";
import { orderTable } from "../../server/reports/order/table.ts";
import { saidBy } from "../rules/sheets.ts";
import { orderOf } from "./sheets.ts";

const sheet = (status: string, over = "") => `sheet "Gate"
part bolt "Bolt"
part seal "Seal"
supplier crane "Crane and Sons"
  currency GBP
  freight 6.00 GBP${over}
  lead 9 d
offer bolt from crane
  price 12.50 GBP
order "77" to crane
  status ${status}
  item bolt 3
  item seal 1 price 4.00 GBP
`;
const needs = "finding bolt\n  is damaged\nfinding seal\n  is damaged\n";

describe("while it can still be cancelled", () => {
  test("held: struck out, and it costs nothing", () => {
    // Three bolts for one: 2 x 12.50.
    const report = orderOf(`${sheet("held 2026-05-01")}${needs}`);
    expect(report.surplus).toMatchObject([
      { item: "bolt", quantity: "2", saves: "25.00", cancel: "strike out", due: null, freightSaved: null, freightDue: null },
    ]);
    expect(orderTable(report, 200)).toContain("2 × bolt: order “77” to Crane and Sons, on hold. Cancelling saves 25.00 GBP.");
  });
  test("placed: to be asked before it is sent, by the day on which it is due", () => {
    // 2026-05-28 and nine days is the 6th of June.
    const report = orderOf(`${sheet("placed 2026-05-28")}${needs}`);
    expect(report.surplus).toMatchObject([{ cancel: "ask", due: "2026-06-06", saves: "25.00" }]);
    expect(orderTable(report, 200)).toContain("placed. It is due 2026-06-06. Ask before it is sent: cancelling saves 25.00 GBP.");
    expect(saidBy("order-surplus", `${sheet("placed 2026-05-28")}${needs}`)).toEqual([
      "12 information [bolt 3] 2 too many: 1 needed, 3 on order. The order is placed, due 2026-06-06: ask whether it can still be cancelled, which saves 25.00 GBP.",
    ]);
  });
  test("sent: too late", () => {
    const report = orderOf(`${sheet("placed 2026-05-28\n  status sent 2026-05-30")}${needs}`);
    expect(report.surplus).toMatchObject([{ cancel: "send back", due: "2026-06-06" }]);
    expect(orderTable(report, 200)).toContain("It is too late to cancel it; if it can be sent back, that saves 25.00 GBP, less the carriage.");
  });
  test("received, cancelled, returned: nothing is said", () => {
    for (const status of ["received", "cancelled", "returned"]) expect(orderOf(`${sheet(status)}${needs}`).surplus).toEqual([]);
  });
});

describe("the carriage", () => {
  test("is saved where nothing is left of the order", () => {
    const report = orderOf(sheet("held"));
    expect(report.surplus.map((it) => [it.item, it.saves, it.freightSaved])).toEqual([
      ["bolt", "37.50", "6.00"],
      ["seal", "4.00", null],
    ]);
    expect(orderTable(report, 200)).toContain("Nothing is left of that order, so its carriage of 6.00 GBP is saved too.");
  });
  test("is not where it was free anyway, or a part is to be worked on in the same order", () => {
    // 41.50 is over 40.
    expect(orderOf(sheet("held", " free over 40.00 GBP")).surplus.map((it) => it.freightSaved)).toEqual([null, null]);
    expect(orderOf(`${sheet("held")}  work seal "turn it"\n`).surplus.map((it) => it.freightSaved)).toEqual([null, null]);
  });
  test("becomes due where the rest no longer earns it free", () => {
    // 41.50 less 25.00 is 16.50, and 40 is asked.
    const report = orderOf(`${sheet("placed 2026-05-28", " free over 40.00 GBP")}${needs}`);
    expect(report.surplus).toMatchObject([{ saves: "25.00", freightDue: "6.00", freightCurrency: "GBP" }]);
    expect(orderTable(report, 200).replace(/\s+/g, " ")).toContain("What is left of that order no longer earns free carriage: 6.00 GBP becomes due.");
    // 41.50 less 25.00 over 16: still free.
    expect(orderOf(`${sheet("held", " free over 16.00 GBP")}${needs}`).surplus).toMatchObject([{ freightDue: null }]);
  });
});
