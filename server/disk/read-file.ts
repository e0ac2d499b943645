// Reads one job sheet or price list from the disk as text, or says in plain words why it can't be read.
// Invariant: opens nothing but an ordinary file that is named as such, is not too large, and lies inside one of the folders given.
import { closeSync, constants, fstatSync, openSync, readFileSync, realpathSync } from "node:fs";
import { sep } from "node:path";
import { largestSheet, linesIn, whyTooLong } from "./limits.ts";

export type Reading =
  | { readonly kind: "text"; readonly text: string; readonly real: string }
  | { readonly kind: "missing" | "outside" | "refused"; readonly why: string };

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
  const reading = readNamed(path, folders, isSheetName, "a job sheet", ".jobsheet", largestSheet);
  if (reading.kind !== "text") return reading;
  const why = whyTooLong(linesIn(reading.text));
  return why === undefined ? reading : { kind: "refused", why };
}

/** The same of a price list. */
export function readPriceFile(path: string, folders: readonly string[]): Reading {
  return readNamed(path, folders, isPriceListName, "a price list", ".csv", largestPriceList);
}

function readNamed(path: string, folders: readonly string[], isNamed: (path: string) => boolean, kind: string, ending: string, largest: number): Reading {
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
  return readText(real, largest);
}

/** True for the folder itself and all that lies in it. */
export function isInside(path: string, folder: string): boolean {
  return path === folder || path.startsWith(folder.endsWith(sep) ? folder : folder + sep);
}

function readText(real: string, largest: number): Reading {
  let descriptor: number | undefined;
  try {
    // Without waiting: a pipe under a sheet's name must not hang the reader.
    descriptor = openSync(real, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const status = fstatSync(descriptor);
    if (!status.isFile()) return { kind: "refused", why: "is not a file" };
    if (status.size > largest)
      return { kind: "refused", why: `has ${Math.ceil(status.size / 1024 / 1024)} MB; more than ${largest / 1024 / 1024} MB is not read` };
    const bytes = readFileSync(descriptor);
    const why = notText(bytes);
    if (why !== undefined) return { kind: "refused", why };
    return { kind: "text", text: decode(bytes), real };
  } catch (error) {
    return { kind: "missing", why: whyNot(error) };
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
}

/** Keeps a byte order mark, so that the text can be written back as it was. */
function decode(bytes: Uint8Array): string {
  return new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
}

function notText(bytes: Uint8Array): string | undefined {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) return "is written in UTF-16: save it as UTF-8";
  if (bytes.includes(0)) return "is not text: it has bytes in it that no text has";
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return undefined;
  } catch {
    return `has letters on line ${lineOfBadByte(bytes)} that are not UTF-8: save it as UTF-8`;
  }
}

/** The first line, from 1, that is not UTF-8 by itself: a line's end never stands within a letter. */
function lineOfBadByte(bytes: Uint8Array): number {
  let line = 1;
  for (let from = 0; from < bytes.length; line++) {
    const end = bytes.indexOf(10, from);
    const to = end === -1 ? bytes.length : end;
    try {
      new TextDecoder("utf-8", { fatal: true }).decode(bytes.subarray(from, to));
    } catch {
      return line;
    }
    from = to + 1;
  }
  return line;
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
