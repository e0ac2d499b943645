// The parts order as JSON, for other programs. Its names are part of what users rely on: see the command line's page.
// Invariant: quantities and money are decimal strings, null where there is none; lines count from 1. Nothing of the sheet is left out of a string.
import { json } from "../draw/as-json.ts";
import type { OrderReport } from "./order.ts";

export function orderJson(report: OrderReport): string {
  const value = {
    lines: report.lines.map((row) => ({
      item: row.item,
      name: row.name,
      need: row.need,
      stock: row.stock,
      onOrder: row.onOrder,
      unit: row.unit,
      toOrder: row.toOrder,
      orderUnit: row.orderUnit,
      packs: row.packs,
      supplier: row.supplier,
      number: row.number,
      unitPrice: row.unitPrice,
      total: row.total,
      currency: row.currency,
      exchange: row.exchange,
      lead: row.lead,
      priceList: row.priceList,
      places: row.places,
      jobs: row.jobs,
      why: row.why,
    })),
    surplus: report.surplus.map((it) => ({
      item: it.item,
      order: it.order,
      quantity: it.quantity,
      unit: it.unit,
      supplier: it.supplier,
      saves: it.saves,
      currency: it.currency,
      line: it.line,
      file: it.file,
      cancel: it.cancel,
      due: it.due,
      freightSaved: it.freightSaved,
      freightDue: it.freightDue,
      freightCurrency: it.freightCurrency,
    })),
    waiting: report.waiting.map((it) => ({
      item: it.item,
      question: it.question,
      quantity: it.quantity,
      unit: it.unit,
      places: it.places,
      file: it.file,
      line: it.line,
    })),
    suppliers: report.suppliers.map((it) => ({
      supplier: it.supplier,
      currency: it.currency,
      goods: it.goods,
      exchange: it.exchange,
      freight: it.freight,
      duty: it.duty,
      total: it.total,
    })),
    totals: report.totals,
    together: report.together,
    choice: report.choice,
    back: report.back,
    work: report.work,
    lists: report.lists,
  };
  return json(value);
}
