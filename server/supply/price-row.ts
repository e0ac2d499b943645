// A row of a price list as an offer, by the columns that the head of the list names.
// Invariant: a row is read whole or left out, with what is wrong with it; a figure is never guessed at. Names are not looked up here.
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Quantity, Thread } from "../../grammar/tree.ts";
import { isNegative } from "../quantities/exact.ts";
import { type Money, money } from "../quantities/money.ts";
import { dimensionOf, figureValue, measured } from "../model/values.ts";
import type { CsvRow } from "./csv.ts";

export interface PriceRow {
  /** Of the list, from 1. */
  readonly line: number;
  /** As a sheet would name it: a declared name, a locking with its size, a text. */
  readonly item?: string;
  /** The supplier's number. */
  readonly number?: string;
  readonly makersNumber?: string;
  readonly price: Money;
  readonly per?: "each" | "pack";
  readonly pack?: Quantity;
  /** As a sheet writes it: `9 d`. */
  readonly lead?: string;
  readonly quoted?: string;
  readonly exchange?: Money;
  readonly thread?: Thread;
  readonly equalTo?: string;
}

export interface PriceFault {
  /** Of the list, from 1. */
  readonly line: number;
  /** What is wrong and what would put it right, as a sentence or two. */
  readonly message: string;
  /** Nothing of the list is used for it. */
  readonly whole?: true;
}

/** What the head may hold, in any order, in small or capital letters. Other columns are passed over. */
const priceColumns = ["item", "number", "maker's number", "price", "currency", "per", "pack", "lead", "quoted", "exchange", "thread", "equal to"] as const;
export type Column = (typeof priceColumns)[number];

// ---------------------------------------------------------------- the head

export const headWanted = "Its first row names the columns: price, and item, number or maker's number.";

export function columnsOf(head: CsvRow): ReadonlyMap<Column, number> | string {
  const columns = new Map<Column, number>();
  for (const [i, cell] of head.cells.entries()) {
    const name = cell
      .trim()
      .toLowerCase()
      .replace(/[\s_]+/g, " ")
      .replace(/\u2019/g, "'");
    const column = priceColumns.find((it) => it === name || it.replace("'", "") === name);
    if (column === undefined) continue;
    if (columns.has(column)) return `The column ${column} is there twice. Keep one of them.`;
    columns.set(column, i);
  }
  if (columns.has("price") && (columns.has("item") || columns.has("number") || columns.has("maker's number"))) return columns;
  if (head.cells.length === 1 && /[;\t]/.test(head.cells[0] ?? ""))
    return `Its columns are separated by ${(head.cells[0] ?? "").includes("\t") ? "tabs" : "semicolons"}. Save it with commas between them.`;
  return `The columns can't be recognised. ${headWanted}`;
}

// ---------------------------------------------------------------- a row

type Row = { -readonly [K in keyof PriceRow]: PriceRow[K] };

export function readRow({ line, cells }: CsvRow, width: number, columns: ReadonlyMap<Column, number>, currency: string | undefined): PriceRow | PriceFault {
  const cell = (column: Column): string => cellOf(cells, columns.get(column));
  const fault = (message: string): PriceFault => ({ line, message });
  if (cells.length > width)
    return fault(
      `It has ${cells.length} cells, and the head has ${width}. Put a cell with a comma in quotes, and write a price with a point: ${pointed(cells) ?? '"Washer, plain"'}.`,
    );
  const code = cell("currency") === "" ? currency : cell("currency");
  const price = readPrice(cell("price"), code, "price");
  if (typeof price === "string") return fault(price);
  const row: Row = { line, price };
  const item = cell("item");
  if (item !== "") row.item = item;
  if (cell("number") !== "") row.number = cell("number");
  if (cell("maker's number") !== "") row.makersNumber = cell("maker's number");
  if (row.item === undefined && row.number === undefined && row.makersNumber === undefined)
    return fault("It doesn't say of what: give it an item or a number.");
  const per = cell("per").toLowerCase();
  if (per === "each") row.per = "each";
  else if (per === "a pack" || per === "pack") row.per = "pack";
  else if (per !== "") return fault(`“${cell("per")}” is not what a price is for. Write each or a pack.`);
  if (cell("pack") !== "") {
    const pack = quantityIn("pack", cell("pack"));
    if (pack === undefined) return fault(`A pack of “${cell("pack")}” can't be read. Write how many, or how much with its unit: 25, 400 ml.`);
    row.pack = pack;
  }
  if (cell("lead") !== "") {
    const lead = quantityIn("lead", cell("lead"));
    if (lead?.unit === undefined) return fault(`A lead of “${cell("lead")}” can't be read. Write it with its unit: 9 d.`);
    row.lead = `${lead.figure.text} ${lead.unit.text}`;
  }
  if (cell("quoted") !== "") {
    if (!isDate(cell("quoted"))) return fault(`“${cell("quoted")}” isn't a date. Write it as 2026-03-04.`);
    row.quoted = cell("quoted");
  }
  if (cell("exchange") !== "") {
    const exchange = readPrice(cell("exchange"), code, "exchange");
    if (typeof exchange === "string") return fault(exchange);
    row.exchange = exchange;
  }
  if (cell("thread") !== "") {
    const thread = threadIn(cell("thread"));
    if (thread === undefined) return fault(`“${cell("thread")}” can't be read as a thread. Write it as a sheet does: 5/8-18 UNF, M10.`);
    row.thread = thread;
  }
  if (cell("equal to") !== "") row.equalTo = cell("equal to");
  return row;
}

function cellOf(cells: readonly string[], i: number | undefined): string {
  const text = i === undefined ? "" : (cells[i] ?? "").trim();
  return /[^\0-\x7f]/.test(text) ? text.normalize("NFC") : text;
}

export function readItem({ cells }: CsvRow, columns: ReadonlyMap<Column, number>): string {
  return cellOf(cells, columns.get("item"));
}

/** The money of a cell: `9.40`, or with its code behind it. Else what is wrong with it. */
function readPrice(written: string, currency: string | undefined, column: "price" | "exchange"): Money | string {
  if (written === "") return "It has no price.";
  const [, figure = "", own] = /^([^\sA-Za-z]+)\s*([A-Za-z]{3})?$/.exec(written) ?? [];
  const said = column === "price" ? "The price" : "The exchange";
  if (/^\d+,\d{1,2}$/.test(figure)) return `${figure} has a decimal comma. Write ${figure.replace(",", ".")}.`;
  if (/^\d{1,3}(,\d{3})+(\.\d+)?$/.test(figure)) return `${figure} has a comma in it. Write ${figure.replaceAll(",", "")}.`;
  if (!/^\d+(\.\d+)?$|^\.\d+$/.test(figure)) return `${said} “${written}” can't be read. Write the figure alone, with a point: 9.40.`;
  const code = own ?? currency;
  if (code === undefined) return "It has no currency. Give the supplier a `currency`, or the list a column of that name.";
  const read = money(figure, code);
  switch (read.kind) {
    case "money":
      return { amount: read.amount, code };
    case "unknown-currency":
      return `\`${code}\` isn't an ISO 4217 currency. Write its three letters, such as GBP, EUR or USD.`;
    case "too-fine":
      return `${figure} has ${read.written} decimals, and ${code} has ${read.digits === 0 ? "none" : read.digits}. Write what is paid.`;
    default:
      return `${said} “${written}” can't be read. Write the figure alone, with a point: 9.40.`;
  }
}

/** Of cells that a decimal comma has torn in two, the figure as it should be. */
function pointed(cells: readonly string[]): string | undefined {
  for (let i = 0; i + 1 < cells.length; i++)
    if (/^\s*\d+$/.test(cells[i] ?? "") && /^\d{1,2}\s*$/.test(cells[i + 1] ?? "")) return `${cells[i]?.trim()}.${cells[i + 1]?.trim()}`;
  return undefined;
}

function isDate(text: string): boolean {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text) ?? [];
  if (year === undefined) return false;
  const days = [31, Number(year) % 4 === 0 && (Number(year) % 100 !== 0 || Number(year) % 400 === 0) ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  return Number(day) >= 1 && Number(day) <= (days[Number(month) - 1] ?? 0);
}

// ---------------------------------------------------------------- read as a sheet reads it

const quantities = new Map<string, Quantity | null>();
const mostRemembered = 5000;

function threadIn(cell: string): Thread | undefined {
  const detail = readSheet(`offer x from list\n  thread ${oneLine(cell)}\n`).entries[0]?.details[0];
  return detail?.kind === "thread" && detail.fault === undefined ? detail.thread : undefined;
}

/** The same few packs and leads stand in every row. */
function quantityIn(keyword: "pack" | "lead", cell: string): Quantity | undefined {
  const key = `${keyword} ${oneLine(cell)}`;
  let known = quantities.get(key);
  if (known === undefined) {
    const detail = readSheet(`offer x from list\n  ${key}\n`).entries[0]?.details[0];
    known =
      (detail?.fault === undefined && detail?.kind === "pack"
        ? detail.amount
        : detail?.fault === undefined && detail?.kind === "lead"
          ? detail.time
          : undefined) ?? null;
    const worth = known === null || known.unit === undefined ? figureValue(known?.figure) : measured(known)?.value;
    if (worth === undefined || isNegative(worth) || worth.n === 0n) known = null;
    else if (keyword === "lead" && dimensionOf(known?.unit) !== "time") known = null;
    if (quantities.size < mostRemembered) quantities.set(key, known);
  }
  return known ?? undefined;
}

/** A cell is one line to the reader of sheets, and no comment begins in it. */
export function oneLine(cell: string): string {
  return cell.replace(/[\r\n\u2028\u2029]+/g, " ").replaceAll("#", "");
}
