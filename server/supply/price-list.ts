// A supplier's price list: the columns of its head, its rows as offers, and what is wrong with those that can't be read.
// Invariant: a row is read whole or left out, and named by its line; a figure is never guessed at. Names are not looked up here. Every row is read once, for what is wrong
// with it, and let go: six lists of a hundred thousand rows are little more than their text, and a row is read again where it is asked for.
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Quantity, Thread } from "../../grammar/tree.ts";
import { lockingPhrases } from "../../grammar/words.ts";
import { isNegative } from "../quantities/exact.ts";
import { type Money, money } from "../quantities/money.ts";
import { type CsvRow, eachRow, rowAt } from "./csv.ts";
import { lockingKey } from "./items.ts";
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

/** Rows are looked up, never gone through; only those that somebody asks for are held beside the text. */
export interface PriceList {
  /** How many rows can be used. */
  readonly size: number;
  /** In the order of their lines; that the list is cut off, before all. */
  readonly faults: readonly PriceFault[];
  /** In the order written, as all of these are. */
  byItem(item: string): readonly PriceRow[];
  byNumber(number: string): readonly PriceRow[];
  byMakersNumber(number: string): readonly PriceRow[];
  /** By the key of a locking: the same kind in the same exact sizes, however it is written. */
  byLocking(key: string): readonly PriceRow[];
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
  const faults: PriceFault[] = [];
  const starts = growing();
  const lines = growing();
  const items = indexOfTexts();
  const numbers = indexOfTexts();
  const makersNumbers = indexOfTexts();
  const lockings: number[] = [];
  let head: CsvRow | undefined;
  let columns: ReturnType<typeof columnsOf> | undefined;
  const cutAt = eachRow(
    text,
    mostRows + 1,
    (row, start) => {
      if (head === undefined) {
        head = row;
        columns = columnsOf(row);
        return;
      }
      if (columns === undefined || typeof columns === "string") return;
      const it = readRow(row, head.cells.length, columns, currency);
      if ("message" in it) {
        faults.push(it);
        return;
      }
      const place = starts.put(start);
      lines.put(row.line);
      items.put(it.item, place);
      numbers.put(it.number, place);
      makersNumbers.put(it.makersNumber, place);
      if (it.item !== undefined && firstWords.has(/^\S+/.exec(it.item)?.[0])) lockings.push(place);
    },
    ({ line, kind }) =>
      faults.push({
        line,
        message:
          kind === "quote-open"
            ? 'A quote is opened and not closed. Close it, or double it where a quote is meant: "5/8"" bolt".'
            : 'There is something after a closing quote. A quote that is meant as one is doubled: "5/8"" bolt".',
      }),
  );
  if (head === undefined) return nothing(faults.length > 0 ? faults : [{ line: 1, message: `It is empty. ${headWanted}`, whole: true }]);
  const { line: headLine, cells } = head as CsvRow;
  if (typeof columns === "string") return nothing([{ line: headLine, message: columns, whole: true }]);
  // Said first, for it is of many rows.
  if (cutAt !== undefined)
    faults.unshift({
      line: cutAt,
      message: `So is all that follows: more than ${mostRows} rows of a list are not read. Split it between suppliers, or take out what you never buy.`,
    });
  const known = new Map<number, PriceRow>();
  const rowOf = (place: number): PriceRow | undefined => {
    const before = known.get(place);
    if (before !== undefined) return before;
    const row = readRow(rowAt(text, starts.at(place), lines.at(place)), cells.length, columns as ReadonlyMap<Column, number>, currency);
    if ("message" in row) return undefined;
    known.set(place, row);
    return row;
  };
  const found = (index: Index, wanted: string, of: (row: PriceRow) => string | undefined): PriceRow[] =>
    index.places(wanted).flatMap((place) => {
      const row = rowOf(place);
      return row === undefined || of(row) !== wanted ? [] : [row];
    });
  let byLocking: ReadonlyMap<string, readonly number[]> | undefined;
  return {
    size: starts.size(),
    faults,
    byItem: (item) => found(items, item, (row) => row.item),
    byNumber: (number) => found(numbers, number, (row) => row.number),
    byMakersNumber: (number) => found(makersNumbers, number, (row) => row.makersNumber),
    byLocking: (key) => {
      byLocking ??= lockingsAmong(lockings, (place) => readItem(rowAt(text, starts.at(place), lines.at(place)), columns as ReadonlyMap<Column, number>));
      return (byLocking.get(key) ?? []).flatMap((place) => rowOf(place) ?? []);
    },
  };
}

function nothing(faults: readonly PriceFault[]): PriceList {
  const none = () => [];
  return { size: 0, faults, byItem: none, byNumber: none, byMakersNumber: none, byLocking: none };
}

// ---------------------------------------------------------------- where a row stands

/** Whole numbers, one behind the other: four bytes each. */
function growing(): { put(value: number): number; at(place: number): number; size(): number } {
  let values = new Int32Array(1024);
  let size = 0;
  return {
    put(value) {
      if (size === values.length) {
        const more = new Int32Array(size * 2);
        more.set(values);
        values = more;
      }
      values[size] = value;
      size += 1;
      return size - 1;
    },
    at: (place) => values[place] as number,
    size: () => size,
  };
}

interface Index {
  /** A text that is there, and at which place. */
  put(text: string | undefined, place: number): void;
  /** Where it may be, in the order put in; others with the same hash are among them. */
  places(text: string): number[];
}

/** Holds no text: chains of places by the hash of what stands there. */
function indexOfTexts(): Index {
  const heads = new Int32Array(2 ** 16).fill(-1);
  const places = growing();
  const next = growing();
  return {
    put(text, place) {
      if (text === undefined) return;
      const slot = hashOf(text) & (heads.length - 1);
      next.put(heads[slot] as number);
      heads[slot] = places.put(place);
    },
    places(text) {
      const out: number[] = [];
      for (let at = heads[hashOf(text) & (heads.length - 1)] as number; at >= 0; at = next.at(at)) out.push(places.at(at));
      return out.reverse();
    },
  };
}

/** FNV-1a over the text's 16-bit units, with its halves folded together. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return (hash ^ (hash >>> 16)) >>> 0;
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
    return `Its columns are separated by ${(head.cells[0] ?? "").includes("\t") ? "tabs" : "semicolons"}. Save it with commas between them.`;
  return `The columns can't be recognised. ${headWanted}`;
}

// ---------------------------------------------------------------- a row

type Row = { -readonly [K in keyof PriceRow]: PriceRow[K] };

function readRow({ line, cells }: CsvRow, width: number, columns: ReadonlyMap<Column, number>, currency: string | undefined): PriceRow | PriceFault {
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

function readItem({ cells }: CsvRow, columns: ReadonlyMap<Column, number>): string {
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

const firstWords = new Set([...lockingPhrases.keys()].map((phrase) => phrase.split(" ")[0]));
const quantities = new Map<string, Quantity | null>();
const mostRemembered = 5000;

/** So many lines are read as one sheet. */
const linesAtOnce = 1000;

/** The rows that name a locking, by its key, read as a sheet reads it: when somebody first asks for one. The same few stand in many rows, and are read once. */
function lockingsAmong(places: readonly number[], itemAt: (place: number) => string): ReadonlyMap<string, readonly number[]> {
  const byItem = new Map<string, number[]>();
  for (const place of places) {
    const item = oneLine(itemAt(place));
    const list = byItem.get(item);
    if (list === undefined) byItem.set(item, [place]);
    else list.push(place);
  }
  const out = new Map<string, number[]>();
  const items = [...byItem.keys()];
  for (let from = 0; from < items.length; from += linesAtOnce) {
    const some = items.slice(from, from + linesAtOnce);
    const { entries } = readSheet(some.map((item) => `offer ${item} from list\n`).join(""));
    // Each line begins with the keyword of an entry, so there is an entry for each.
    for (const [i, entry] of entries.length === some.length ? entries.entries() : []) {
      if (entry.kind !== "offer" || entry.fault !== undefined || entry.item?.kind !== "locking") continue;
      const key = lockingKey(entry.item.locking);
      out.set(key, [...(out.get(key) ?? []), ...(byItem.get(some[i] as string) ?? [])]);
    }
  }
  for (const list of out.values()) list.sort((a, b) => a - b);
  return out;
}

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
