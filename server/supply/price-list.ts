// A supplier's price list: the columns of its head, its rows as offers, and what is wrong with those that can't be read.
// Invariant: a row is read whole or left out, and named by its line; a figure is never guessed at. Names are not looked up here. Every row is read once, for what is wrong
// with it, and let go: six lists of a hundred thousand rows are little more than their text, and a row is read again where it is asked for.
import { readSheet } from "../../grammar/sheet-text.ts";
import { lockingPhrases } from "../../grammar/words.ts";
import type { PriceFile } from "../model/files.ts";
import { putInto } from "../model/grouped.ts";
import { type Slices, runThrough } from "../../grammar/slices.ts";
import { type CsvRow, type LongText, eachRow, longestRow, rowAt } from "./csv.ts";
import { lockingKey } from "./items.ts";
import { type Column, type PriceFault, type PriceRow, columnsOf, headWanted, oneLine, readItem, readRow } from "./price-row.ts";
import { type Index, growing, indexOfTexts } from "./row-index.ts";

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

const remembered = new WeakMap<PriceFile, Map<string, PriceList>>();

/** `currency`: the supplier's, for prices that name none. */
export function priceListOf(file: PriceFile, currency: string | undefined): PriceList {
  return runThrough(priceListReading(file, currency));
}

/** The same in slices. */
export function* priceListReading(file: PriceFile, currency: string | undefined): Slices<PriceList> {
  const lists = remembered.get(file) ?? new Map<string, PriceList>();
  remembered.set(file, lists);
  let list = lists.get(currency ?? "");
  if (list === undefined) {
    list = yield* readPriceList(file.text, currency);
    lists.set(currency ?? "", list);
  }
  return list;
}

/** Rows of a list that are read, its head not counted: more than any supplier to the trade has, and few enough for six lists at once. */
const mostRows = 100_000;

function* readPriceList(text: LongText, currency: string | undefined): Slices<PriceList> {
  const faults: PriceFault[] = [];
  const starts = growing();
  const lines = growing();
  const items = indexOfTexts();
  const numbers = indexOfTexts();
  const makersNumbers = indexOfTexts();
  const lockings: number[] = [];
  let head: CsvRow | undefined;
  let columns: ReturnType<typeof columnsOf> | undefined;
  const cutAt = yield* eachRow(
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
            : kind === "behind-quote"
              ? 'There is something after a closing quote. A quote that is meant as one is doubled: "5/8"" bolt".'
              : `It is longer than ${longestRow} letters. Leave out the cells that say nothing.`,
      }),
  );
  if (head === undefined) return nothing(faults.length > 0 ? faults : [{ line: 1, message: `It is empty. ${headWanted}`, whole: true }]);
  const { line: headLine, cells } = head;
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

const firstWords = new Set([...lockingPhrases.keys()].map((phrase) => phrase.split(" ")[0]));
/** So many lines are read as one sheet. */
const linesAtOnce = 1000;

/** The rows that name a locking, by its key, read as a sheet reads it: when somebody first asks for one. The same few stand in many rows, and are read once. */
function lockingsAmong(places: readonly number[], itemAt: (place: number) => string): ReadonlyMap<string, readonly number[]> {
  const byItem = new Map<string, number[]>();
  for (const place of places) {
    putInto(byItem, oneLine(itemAt(place)), place);
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
      for (const place of byItem.get(some[i] as string) ?? []) putInto(out, key, place);
    }
  }
  for (const list of out.values()) list.sort((a, b) => a - b);
  return out;
}
