// Reads comma-separated values (RFC 4180) row by row, each with the line that it stands on.
// Invariant: a row that is written wrongly costs itself and nothing else. Reading goes on at the next line, so a quote that is never closed swallows no other row.
import { type Slices, runThrough } from "../../grammar/slices.ts";

export interface CsvRow {
  /** Of its first line, from 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

export interface CsvFault {
  readonly line: number;
  readonly kind: "quote-open" | "behind-quote" | "too-long";
}

export interface Csv {
  readonly rows: readonly CsvRow[];
  readonly faults: readonly CsvFault[];
  /** The line of the first row that is not read, where there are more than were asked for. */
  readonly cutAt: number | undefined;
}

/** So many rows a slice. */
const someRows = 500;

/** A cell in quotes may run over lines; one that runs on for longer was never closed. */
const longestCell = 10_000;

/** In letters. A row of more is none that anybody reads. */
export const longestRow = 50_000;

/**
 * Lines may end in CRLF, LF or CR; a byte order mark and empty lines are passed over. A quote within a cell that does not begin with one stands for itself (`5/8" bolt`),
 * as lists that come out of shops have them. `most`: rows that are read; those behind them are left.
 */
export function readCsv(text: string, most = Number.POSITIVE_INFINITY): Csv {
  const rows: CsvRow[] = [];
  const faults: CsvFault[] = [];
  const cutAt = runThrough(
    eachRow(
      text,
      most,
      (row) => rows.push(row),
      (fault) => faults.push(fault),
    ),
  );
  return { rows, faults, cutAt };
}

/** A text, or one in pieces that each end with a line: of a long one a copy of the whole would take tens of milliseconds. */
export type LongText = string | readonly string[];

/**
 * The same row by row, none of them kept. `start` is where a row begins in the text, all pieces counted: what stands there is read again by `rowAt`. Returns what `cutAt` says.
 */
export function* eachRow(
  whole: LongText,
  most: number,
  onRow: (row: CsvRow, start: number) => void,
  onFault: (fault: CsvFault) => void,
): Slices<number | undefined> {
  const pieces = typeof whole === "string" ? [whole] : whole;
  let text = pieces[0] ?? "";
  /** How many pieces are taken, and where in all of them `text` begins. */
  let taken = 1;
  let base = 0;
  let at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  let line = 1;
  let seen = 0;
  let looked = 0;
  for (;;) {
    if (at >= text.length) {
      if (taken >= pieces.length) return undefined;
      base += text.length;
      at -= text.length;
      text = pieces[taken++] as string;
      continue;
    }
    if (seen >= most) return line;
    if (++looked % someRows === 0) yield;
    const start = at;
    const cells: string[] = [];
    let fault: CsvFault["kind"] | undefined;
    let lines = 0;
    for (;;) {
      if (text[at] === '"') {
        const cell = quoted(text, at);
        if (typeof cell === "string") {
          fault = cell;
          break;
        }
        cells.push(cell.value);
        at = cell.end;
        lines += breaksIn(cell.value);
      } else {
        const end = endOfCell(text, at);
        cells.push(text.slice(at, end));
        at = end;
      }
      if (text[at] !== ",") break;
      at += 1;
      if (at - start <= longestRow) continue;
      fault = "too-long";
      break;
    }
    if (fault === "quote-open" && taken < pieces.length && text.length - at <= longestCell) {
      // The quote may be closed in the next piece.
      base += start;
      text = text.slice(start) + (pieces[taken++] as string);
      at = 0;
      continue;
    }
    if (fault !== undefined) {
      onFault({ line, kind: fault });
      seen += 1;
      at = endOfLine(text, start);
      lines = 0;
    } else if (cells.length > 1 || cells[0] !== "") {
      onRow({ line, cells }, base + start);
      seen += 1;
    }
    if (text[at] === "\r" && text[at + 1] === "\n") at += 2;
    else at += 1;
    line += lines + 1;
  }
}

/** The row that begins there, on that line; it was read before. */
export function rowAt(whole: LongText, start: number, line: number): CsvRow {
  if (typeof whole === "string") return rowIn(whole, start, line) as CsvRow;
  let [i, at] = [0, start];
  for (let piece = whole[i]; piece !== undefined && at >= piece.length; piece = whole[++i]) at -= piece.length;
  let text = whole[i] ?? "";
  for (;;) {
    const row = rowIn(text, at, line);
    if (row !== undefined) return row;
    // It goes on in the next piece, within a quote.
    text = text.slice(at) + (whole[++i] ?? '"');
    at = 0;
  }
}

/** Undefined where a quote is not closed. */
function rowIn(text: string, start: number, line: number): CsvRow | undefined {
  const cells: string[] = [];
  let at = start;
  for (;;) {
    const cell = text[at] === '"' ? quoted(text, at) : undefined;
    if (cell === "quote-open") return undefined;
    const end = typeof cell === "object" ? cell.end : endOfCell(text, at);
    cells.push(typeof cell === "object" ? cell.value : text.slice(at, end));
    if (text[end] !== ",") return { line, cells };
    at = end + 1;
  }
}

function quoted(text: string, from: number): { value: string; end: number } | CsvFault["kind"] {
  let at = from + 1;
  for (;;) {
    const quote = text.indexOf('"', at);
    if (quote < 0 || quote - from > longestCell) return "quote-open";
    if (text[quote + 1] === '"') {
      at = quote + 2;
      continue;
    }
    const end = quote + 1;
    const next = text[end];
    if (next !== undefined && next !== "," && next !== "\r" && next !== "\n") return "behind-quote";
    return { value: text.slice(from + 1, quote).replaceAll('""', '"'), end };
  }
}

function endOfCell(text: string, from: number): number {
  for (let at = from; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 0x2c || code === 0x0a || code === 0x0d) return at;
  }
  return text.length;
}

function endOfLine(text: string, from: number): number {
  for (let at = from; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 0x0a || code === 0x0d) return at;
  }
  return text.length;
}

function breaksIn(text: string): number {
  return text.match(/\r\n|\r|\n/g)?.length ?? 0;
}
