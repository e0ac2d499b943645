// The parts order as CSV (RFC 4180), for a spreadsheet: one table, each row saying in its first column which list it belongs to.
// Invariant: no cell that came from a sheet is a formula to a spreadsheet, and no line break gets into a cell.
import { notOrderedWords, backWords, holdWords } from "./words.ts";
import type { OrderReport, OrderRow } from "./order-report.ts";
import { plain } from "../draw/plain.ts";

const columns = [
  "list",
  "item",
  "name",
  "where",
  "need",
  "in stock",
  "on order",
  "on hold",
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
    ...report.errors.map((it): Cells => ({ list: "error in the sheet", why: `${it.text} (${it.file}:${it.line})` })),
    ...report.lines.flatMap(lines),
    ...report.back.map(
      (it): Cells => ({
        list: "exchange",
        item: it.item,
        name: it.name,
        supplier: it.supplier,
        total: report.lines.find((row) => row.item === it.item)?.lots.find((lot) => lot.supplier === it.supplier && lot.exchange !== null)?.exchange ?? null,
        currency: it.currency,
        why: backWords(it),
      }),
    ),
    ...report.suppliers.flatMap((it): Cells[] => [
      { list: "freight", supplier: it.supplier, total: it.freight, currency: it.currency },
      { list: "duty", supplier: it.supplier, total: it.duty, currency: it.currency },
      ...(/[1-9]/.test(it.tax) ? [{ list: "tax", supplier: it.supplier, total: it.tax, currency: it.currency }] : []),
    ]),
    ...report.work.map(
      (it): Cells => ({
        list: "work",
        item: it.part,
        name: it.name,
        where: it.place,
        supplier: it.supplier,
        total: it.price,
        currency: it.currency,
        lead: it.lead,
        why: `${it.what}; order ${it.order}, ${it.status} (${it.file}:${it.line})`,
      }),
    ),
    ...report.repairs.map(
      (it): Cells => ({
        list: "to be repaired",
        item: it.part,
        name: it.name,
        where: it.places.join(", "),
        need: it.quantity,
        why: `${it.how ?? "repair"} (${it.file}:${it.line})`,
      }),
    ),
    // What cancelling saves stands in the words, not under `total`: that column added up is what the order costs.
    ...report.surplus.map(
      (it): Cells => ({
        list: "not needed",
        item: it.item,
        name: it.name,
        [it.status === "held" ? "on hold" : "on order"]: it.quantity,
        unit: it.unit,
        supplier: it.supplier,
        why: `order ${it.order}, ${it.status}${it.saves === null || it.isUnasked ? "" : `, cancelling saves ${it.saves} ${it.currency}`} (${it.file}:${it.line})`,
      }),
    ),
    ...report.notOrdered.map(
      (it): Cells => ({
        list: "not ordered",
        item: it.item,
        name: it.name,
        "in stock": it.quantity,
        unit: it.unit,
        supplier: it.supplier,
        why: `${notOrderedWords(it)} (${it.file}:${it.line})`,
      }),
    ),
    ...report.undecided.map((it): Cells => ({ list: "not decided", why: `${it.text} (${it.file}:${it.line})` })),
    ...report.waiting.map(
      (it): Cells => ({
        list: "waiting",
        item: it.item,
        name: it.name,
        where: it.places.join(", "),
        [it.onOrder ? "on order" : "need"]: it.quantity,
        unit: it.unit,
        why: `${it.asks} (${it.file}:${it.line})`,
      }),
    ),
  ];
  const text = [columns.join(","), ...rows.map((row) => columns.map((column) => cell(row[column] ?? "")).join(","))];
  return `${text.join("\r\n")}\r\n`;
}

/** The thing, and where it is bought in several sales a row for each of them. */
function lines(row: OrderRow): Cells[] {
  const [first, ...more] = row.lots;
  if (first === undefined || (more.length === 0 && first.onHold === null)) return [line(row)];
  const sales = row.lots.map(
    (lot): Cells => ({
      list: lot.onHold === null ? "to order" : "on hold",
      item: row.item,
      name: row.name,
      ...(lot.onHold === null ? { "to order": lot.quantity, "order unit": lot.unit, packs: lot.packs } : { "on hold": lot.quantity, unit: lot.unit }),
      supplier: lot.supplier,
      number: lot.number,
      price: lot.unitPrice,
      "price is": lot.per === "pack" ? `a pack${lot.pack === null ? "" : ` of ${lot.pack}`}` : lot.per,
      total: lot.total,
      currency: lot.currency,
      lead: lot.lead,
      why: lot.onHold === null ? null : holdWords(lot),
    }),
  );
  return more.length === 0
    ? [{ ...line(row), why: [line(row).why, holdWords(first)].join("; ") }]
    : [
        {
          ...line(row),
          list: "needed",
          "to order": null,
          packs: null,
          supplier: null,
          number: null,
          price: null,
          "price is": null,
          total: null,
          currency: null,
          lead: null,
        },
        ...sales,
      ];
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
    "on hold": row.held,
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
