// A supplier's price list: the columns of its head, its rows as offers, and what is wrong with those that can't be read.
// Invariant: a row is read whole or left out, and named by its line; a figure is never guessed at. Names are not looked up here.
import { memo } from "../model/memo.ts";
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Locking, Quantity, Thread } from "../../grammar/tree.ts";
import { lockingPhrases } from "../../grammar/words.ts";
import { isNegative } from "../quantities/exact.ts";
import { type Money, money } from "../quantities/money.ts";
import { type CsvRow, readCsv } from "./csv.ts";
import type { PriceFile } from "../model/files.ts";
import { dimensionOf, figureValue, measured } from "../model/values.ts";

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

export interface PriceList {
  readonly rows: readonly PriceRow[];
  /** In the order of their lines; that the list is cut off, before all. */
  readonly faults: readonly PriceFault[];
}

/** What the head may hold, in any order, in small or capital letters. Other columns are passed over. */
export const priceColumns = [
  "item",
  "number",
  "maker's number",
  "price",
  "currency",
  "per",
  "pack",
  "lead",
  "quoted",
  "exchange",
  "thread",
  "equal to",
] as const;
type Column = (typeof priceColumns)[number];

const remembered = new WeakMap<PriceFile, Map<string, PriceList>>();

/** `currency`: the supplier's, for prices that name none. */
export function priceListOf(file: PriceFile, currency: string | undefined): PriceList {
  const lists = remembered.get(file) ?? new Map<string, PriceList>();
  remembered.set(file, lists);
  let list = lists.get(currency ?? "");
  if (list === undefined) {
    list = readPriceList(file.text, currency);
    lists.set(currency ?? "", list);
  }
  return list;
}

/** Rows of a list that are read, its head not counted: more than any supplier to the trade has, and few enough for six lists at once. */
export const mostRows = 100_000;

function readPriceList(text: string, currency: string | undefined): PriceList {
  const { rows, faults: broken, cutAt } = readCsv(text, mostRows + 1);
  const faults: PriceFault[] = broken.map(({ line, kind }) => ({
    line,
    message:
      kind === "quote-open"
        ? 'A quote is opened and not closed. Close it, or double it where it stands for itself: "5/8"" bolt".'
        : 'Something stands behind a closing quote. A quote that stands for itself is doubled: "5/8"" bolt".',
  }));
  const [head, ...body] = rows;
  if (head === undefined) return { rows: [], faults: faults.length > 0 ? faults : [{ line: 1, message: `It is empty. ${headWanted}`, whole: true }] };
  const columns = columnsOf(head);
  if (typeof columns === "string") return { rows: [], faults: [{ line: head.line, message: columns, whole: true }] };
  const out: PriceRow[] = [];
  for (const row of body) {
    const it = readRow(row, head.cells.length, columns, currency);
    if ("message" in it) faults.push(it);
    else out.push(it);
  }
  faults.sort((a, b) => a.line - b.line);
  // Said first, for it is of many rows.
  if (cutAt !== undefined)
    faults.unshift({
      line: cutAt,
      message: `So is all that follows: more than ${mostRows} rows of a list are not read. Split it between suppliers, or take out what you never buy.`,
    });
  return { rows: out, faults };
}

// ---------------------------------------------------------------- the head

const headWanted = "Its first row names the columns: price, and item, number or maker's number.";

function columnsOf(head: CsvRow): ReadonlyMap<Column, number> | string {
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
    return `Its columns stand between ${(head.cells[0] ?? "").includes("\t") ? "tabs" : "semicolons"}. Save it with commas between them.`;
  return `The columns can't be told. ${headWanted}`;
}

// ---------------------------------------------------------------- a row

type Row = { -readonly [K in keyof PriceRow]: PriceRow[K] };

function readRow({ line, cells }: CsvRow, width: number, columns: ReadonlyMap<Column, number>, currency: string | undefined): PriceRow | PriceFault {
  const cell = (column: Column): string => {
    const i = columns.get(column);
    const text = i === undefined ? "" : (cells[i] ?? "").trim();
    return /[^\0-\x7f]/.test(text) ? text.normalize("NFC") : text;
  };
  const fault = (message: string): PriceFault => ({ line, message });
  if (cells.length > width)
    return fault(
      `It has ${cells.length} cells, and the head has ${width}. A comma within a cell stands in quotes, and a price has a point: ${pointed(cells) ?? '"Washer, plain"'}.`,
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
    if (!isDate(cell("quoted"))) return fault(`“${cell("quoted")}” is no day. Write it as 2026-03-04.`);
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
      return `\`${code}\` is no currency of ISO 4217. Write its three letters, such as GBP, EUR or USD.`;
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

const firstWords = new Set([...lockingPhrases.keys()].map((phrase) => phrase.split(" ")[0]));
const quantities = new Map<string, Quantity | null>();
const mostRemembered = 5000;

/** The rows that name a locking, read as a sheet reads it: all at once, and only when somebody asks for one. Of most cells the first word says that there is none. */
export const lockingsOf = memo((list: PriceList): ReadonlyMap<PriceRow, Locking> => {
  const rows = list.rows.filter((row) => row.item !== undefined && firstWords.has(/^\S+/.exec(row.item)?.[0]));
  const found = new Map<PriceRow, Locking>();
  const { entries } = readSheet(rows.map((row) => `offer ${oneLine(row.item ?? "")} from list\n`).join(""));
  // Each line begins with the keyword of an entry, so there is an entry for each row.
  for (const [i, entry] of entries.length === rows.length ? entries.entries() : [])
    if (entry.kind === "offer" && entry.fault === undefined && entry.item?.kind === "locking") found.set(rows[i] as PriceRow, entry.item.locking);
  return found;
});

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
function oneLine(cell: string): string {
  return cell.replace(/[\r\n\u2028\u2029]+/g, " ").replaceAll("#", "");
}
