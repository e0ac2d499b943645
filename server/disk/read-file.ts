// Reads one job sheet or price list from the disk as text, or says in plain words why it can't be read.
// Invariant: opens nothing but an ordinary file that is named as such, is not too large, and lies inside one of the folders given.
import { isUtf8 } from "node:buffer";
import { closeSync, constants, fstatSync, openSync, readFileSync, readSync, realpathSync } from "node:fs";
import { sep } from "node:path";
import type { Slices } from "../../grammar/slices.ts";
import { largestSheet, linesIn, whyTooLong } from "./limits.ts";

export type Reading = { readonly kind: "text"; readonly text: string; readonly real: string } | Refusal;

/** The text of a price list in pieces, each of whole lines. */
export type PriceReading = { readonly kind: "text"; readonly text: readonly string[]; readonly real: string } | Refusal;

interface Refusal {
  readonly kind: "missing" | "outside" | "refused";
  readonly why: string;
}

/** In bytes. One of this size would have some hundred thousand rows: what is larger is something else. */
const largestPriceList = 20 * 1024 * 1024;

/** Such a name comes from the system with a letter in it that stands for what it could not say. */
export const notUtf8 = "has a name that is not UTF-8, and can't be opened by it: rename it";

export function isSheetName(path: string): boolean {
  return /[^/\\]\.jobsheet$/i.test(path);
}

export function isPriceListName(path: string): boolean {
  return /[^/\\]\.csv$/i.test(path);
}

/** `path` is absolute, and so is each of `folders`, whose own links have been followed. */
export function readSheetFile(path: string, folders: readonly string[]): Reading {
  const real = realOf(path, folders, isSheetName, "a job sheet", ".jobsheet");
  const reading = typeof real === "string" ? readText(real) : real;
  if (reading.kind !== "text") return reading;
  const why = whyTooLong(linesIn(reading.text));
  return why === undefined ? reading : { kind: "refused", why };
}

/** The same of a price list, in slices. */
export function* readingPriceFile(path: string, folders: readonly string[]): Slices<PriceReading> {
  const real = realOf(path, folders, isPriceListName, "a price list", ".csv");
  return typeof real === "string" ? yield* readingPieces(real) : real;
}

/** The path of an ordinary file that is named so, with its links followed. */
function realOf(path: string, folders: readonly string[], isNamed: (path: string) => boolean, kind: string, ending: string): string | Refusal {
  if (!isNamed(path)) return { kind: "refused", why: `is not ${kind}: the name of one ends in ${ending}` };
  let real: string;
  try {
    real = realpathSync.native(path);
  } catch (error) {
    if (path.includes("\ufffd")) return { kind: "missing", why: notUtf8 };
    return { kind: "missing", why: whyNot(error) };
  }
  if (!folders.some((folder) => isInside(real, folder))) return { kind: "outside", why: "is a link that leads out of the workspace, so it was not read" };
  // A link may give such a name to something that is none.
  if (!isNamed(real)) return { kind: "refused", why: `is a link to something that is not ${kind}, so it was not read` };
  return real;
}

/** True for the folder itself and all that lies in it. */
export function isInside(path: string, folder: string): boolean {
  return path === folder || path.startsWith(folder.endsWith(sep) ? folder : folder + sep);
}

function readText(real: string): Reading {
  let descriptor: number | undefined;
  try {
    descriptor = opened(real);
    const why = whyUnfit(descriptor, largestSheet);
    if (why !== undefined) return { kind: "refused", why };
    const bytes = readFileSync(descriptor);
    const notSo = beginsOtherwise(bytes) ?? notText(bytes, 1);
    if (notSo !== undefined) return { kind: "refused", why: notSo };
    return { kind: "text", text: decode(bytes), real };
  } catch (error) {
    return { kind: "missing", why: whyNot(error) };
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
}

/** In bytes: a piece of a long text, which a slice takes some milliseconds for. */
const piece = 256 * 1024;

/** In bytes, of a price list. */
const longestLine = 1024 * 1024;

/** A file that is written to while it is read is begun again so often. */
const mostTries = 3;

/** Each piece ends behind the last line end in it. A text of so many bytes in one would be copied for tens of milliseconds when it is first looked into. */
function* readingPieces(real: string): Slices<PriceReading> {
  for (let tries = 0; tries < mostTries; tries++) {
    const text: string[] = [];
    let [at, line, mark] = [0, 1, ""];
    for (;;) {
      const part = readPart(real, at);
      if ("why" in part) return part;
      if (at > 0 && part.mark !== mark) break;
      mark = part.mark;
      const isLast = at + part.bytes.length >= part.size;
      const bytes = isLast ? part.bytes : part.bytes.subarray(0, wholeLines(part.bytes));
      const why = (at === 0 ? beginsOtherwise(bytes) : undefined) ?? notText(bytes, line);
      if (why !== undefined) return { kind: "refused", why };
      text.push(decode(bytes));
      if (isLast) return { kind: "text", text, real };
      line += linesOf(bytes);
      at += bytes.length;
      yield;
    }
  }
  return { kind: "refused", why: "is being written to, so it was not read" };
}

interface Part {
  readonly bytes: Buffer;
  readonly size: number;
  /** Another one once the file is another. */
  readonly mark: string;
}

/** Opened for each part: who gives the reading up leaves nothing open. A line that is longer than a piece is read whole. */
function readPart(real: string, at: number): Part | Refusal {
  let descriptor: number | undefined;
  try {
    descriptor = opened(real);
    const why = whyUnfit(descriptor, largestPriceList);
    if (why !== undefined) return { kind: "refused", why };
    const { size, mtimeMs, ino } = fstatSync(descriptor);
    const mark = `${mtimeMs} ${size} ${ino}`;
    for (let most = piece; most <= longestLine; most *= 2) {
      const room = Buffer.allocUnsafe(Math.min(most, size - at));
      const bytes = room.subarray(0, readSync(descriptor, room, 0, room.length, at));
      if (bytes.length < room.length) return { bytes, size: at + bytes.length, mark };
      if (at + bytes.length >= size || wholeLines(bytes) > 0) return { bytes, size, mark };
    }
    return { kind: "refused", why: `has a line of more than ${longestLine / 1024 / 1024} MB, so it is no price list` };
  } catch (error) {
    return { kind: "missing", why: whyNot(error) };
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
}

/** How many bytes of it are whole lines. A CR at its very end may be half of a line end. */
function wholeLines(bytes: Buffer): number {
  const feed = bytes.lastIndexOf(10);
  return feed >= 0 ? feed + 1 : bytes.lastIndexOf(13, bytes.length - 2) + 1;
}

/** Without waiting: a pipe under a sheet's name must not hang the reader. */
function opened(real: string): number {
  return openSync(real, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
}

function whyUnfit(descriptor: number, largest: number): string | undefined {
  const status = fstatSync(descriptor);
  if (!status.isFile()) return "is not a file";
  if (status.size > largest) return `has ${Math.ceil(status.size / 1024 / 1024)} MB; more than ${largest / 1024 / 1024} MB is not read`;
  return undefined;
}

/** Keeps a byte order mark, so that the text can be written back as it was. */
function decode(bytes: Uint8Array): string {
  return new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
}

function beginsOtherwise(bytes: Uint8Array): string | undefined {
  return (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff) ? utf16 : undefined;
}

const utf16 = "is written in UTF-16: save it as UTF-8";

/** UTF-16 without its mark: of a text in our letters every second byte is 0, and no other. */
function isHalfEmpty(bytes: Uint8Array): boolean {
  const some = bytes.subarray(0, 512);
  const empty = [0, 0];
  for (let i = 0; i < some.length; i++) if (some[i] === 0) empty[i % 2] = (empty[i % 2] as number) + 1;
  return Math.min(...empty) === 0 && Math.max(...empty) > some.length / 3;
}

/** `line`: the number of its first line. */
function notText(bytes: Uint8Array, line: number): string | undefined {
  if (bytes.includes(0)) return isHalfEmpty(bytes) ? utf16 : "is not text: it has bytes in it that no text has";
  return isUtf8(bytes) ? undefined : `has letters on line ${line + lineOfBadByte(bytes)} that are not UTF-8: save it as UTF-8`;
}

/** The first line, from 0, that is not UTF-8 by itself: a line's end never stands within a letter. */
function lineOfBadByte(bytes: Uint8Array): number {
  let line = 0;
  for (let from = 0; from < bytes.length; line++) {
    const end = bytes.indexOf(10, from);
    const to = end === -1 ? bytes.length : end;
    if (!isUtf8(bytes.subarray(from, to))) return line;
    from = to + 1;
  }
  return line;
}

function linesOf(bytes: Uint8Array): number {
  let lines = 0;
  for (let at = bytes.indexOf(10); at >= 0; at = bytes.indexOf(10, at + 1)) lines++;
  return lines;
}

/** In words that follow the name of the file. */
export function whyNot(error: unknown): string {
  const code = (error as { code?: string }).code;
  if (code === "ENOENT" || code === "ENOTDIR") return "is not there";
  if (code === "EACCES" || code === "EPERM") return "may not be read by you";
  if (code === "ELOOP") return "is a link that leads back to itself";
  if (code === "ENAMETOOLONG") return "has too long a name";
  return `could not be read (${code ?? String(error)})`;
}
