// The parts order as CSV (RFC 4180), for a spreadsheet: one table, each row saying in its first column which list it belongs to.
// Invariant: no cell that came from a sheet is a formula to a spreadsheet, and no line break gets into a cell.
import { backWords } from "./words.ts";
import type { OrderReport, OrderRow } from "./order.ts";
import { plain } from "../draw/plain.ts";

const columns = [
  "list",
  "item",
  "name",
  "where",
  "need",
  "in stock",
  "on order",
  "unit",
  "to order",
  "order unit",
  "packs",
  "supplier",
  "number",
  "price",
  "price is",
  "total",
  "currency",
  "lead",
  "for job",
  "why",
] as const;
type Cells = Partial<Record<(typeof columns)[number], string | null>>;

export function orderCsv(report: OrderReport): string {
  const rows: Cells[] = [
    ...report.lines.map(line),
    ...report.back.map((it) => ({
      list: "exchange",
      item: it.item,
      name: it.name,
      supplier: it.supplier,
      total: report.lines.find((row) => row.item === it.item && row.supplier === it.supplier)?.exchange ?? null,
      currency: it.currency,
      why: backWords(it),
    })),
    ...report.suppliers.flatMap((it) => [
      { list: "freight", supplier: it.supplier, total: it.freight, currency: it.currency },
      { list: "duty", supplier: it.supplier, total: it.duty, currency: it.currency },
    ]),
    ...report.work.map((it) => ({
      list: "work",
      item: it.part,
      name: it.name,
      where: it.place,
      supplier: it.supplier,
      total: it.price,
      currency: it.currency,
      why: `${it.what}; order ${it.order}, ${it.status} (${it.file}:${it.line})`,
    })),
    // What cancelling saves stands in the words, not under `total`: that column added up is what the order costs.
    ...report.surplus.map((it) => ({
      list: "not needed",
      item: it.item,
      name: it.name,
      "on order": it.quantity,
      unit: it.unit,
      supplier: it.supplier,
      why: `order ${it.order}, ${it.status}${it.saves === null ? "" : `, cancelling saves ${it.saves} ${it.currency}`} (${it.file}:${it.line})`,
    })),
    ...report.waiting.map((it) => ({
      list: "waiting",
      item: it.item,
      name: it.name,
      where: it.places.join(", "),
      [it.onOrder ? "on order" : "need"]: it.quantity,
      unit: it.unit,
      why: `${it.asks} (${it.file}:${it.line})`,
    })),
  ];
  const lines = [columns.join(","), ...rows.map((row) => columns.map((column) => cell(row[column] ?? "")).join(","))];
  return `${lines.join("\r\n")}\r\n`;
}

function line(row: OrderRow): Cells {
  return {
    list: row.standing,
    item: row.item,
    name: row.name,
    where: row.places.map((it) => (it.amount === null ? it.place : `${it.place} ${it.amount}`)).join(", "),
    need: row.need,
    "in stock": row.stock,
    "on order": row.onOrder,
    unit: row.unit,
    "to order": row.toOrder,
    "order unit": row.orderUnit,
    packs: row.packs,
    supplier: row.supplier,
    number: row.number,
    price: row.unitPrice,
    "price is": row.per === "pack" ? `a pack${row.pack === null ? "" : ` of ${row.pack}`}` : row.per,
    total: row.total,
    currency: row.currency,
    lead: row.lead,
    "for job": row.jobs.map((it) => `${it.title ?? it.file}${it.amount === null ? "" : ` ${it.amount}`}`).join("; "),
    why: [...row.why.map((it) => `${it.text} (${it.file}:${it.line})`), ...row.notes].join("; "),
  };
}

/** A spreadsheet takes a cell that begins so for a formula, or for a command to another program; the full-width signs too. */
const formula = /^[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/;

/** A spreadsheet that parts cells at another sign would begin a cell of its own there; a blank keeps the sign within a text from beginning a formula. */
const within = /([;|\t"'])(\s*)(?=[=+\-@\uff1d\uff0b\uff0d\uff20])/g;

/** A leading apostrophe makes it text to a spreadsheet. The sign is looked for before and behind what is taken out. */
export function cell(text: string): string {
  const shown = plain(text).replace(within, "$1$2'");
  const safe = formula.test(text) || formula.test(shown.trimStart()) ? `'${shown}` : shown;
  return /[",]|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
