// How the core is given its sheets. A door reads the disk, an editor's buffers or a page's fields, and answers by path.
// Invariant: the core asks for a path and never opens one.
import type { SheetText } from "../../grammar/sheet-text.ts";
import type { Slices } from "../../grammar/slices.ts";
import type { SheetEntry } from "../../grammar/tree.ts";

/** `outside`: the path leaves the workspace, and is refused unread. */
export type FileAnswer = SheetText | "missing" | "outside";

/** The text of a price list: the same object for as long as the file has not changed. A long one may be in pieces, each of whole lines. */
export interface PriceFile {
  readonly text: string | readonly string[];
}

/** `why`: it is there and can't be read, in words that stand behind its name. */
export type PriceAnswer = PriceFile | "missing" | "outside" | { readonly why: string };
/** A photo that a sheet names, as a page can show it; or why it can't be had, in words that follow its name. */
export type PhotoAnswer =
  | {
      readonly kind: "photo";
      readonly type: "image/png" | "image/jpeg" | "image/webp";
      readonly base64: () => string /** Another one once the file is another. */;
      readonly mark: string;
    }
  | { readonly kind: "missing" | "outside" | "refused"; readonly why: string };

export interface Files {
  /** `path` is relative to the workspace, joined by `/`, without `.` and `..`. */
  read(path: string): FileAnswer;
  /** The `sheet` entry of a sheet, where a door can tell it without reading the whole; undefined where it has none, or can't be read. */
  head?(path: string): SheetEntry | undefined;
  /** Every sheet of the workspace that a door knows of. */
  jobsheets?(): readonly string[];
  /** There is more in the workspace than was looked at, and sheets may lie there that `jobsheets` does not know. */
  hasMore?(): boolean;
  /** A price list, by its path as above; a door that has none to give leaves this out. */
  prices?(path: string): PriceAnswer;
  /** The pictures or the price lists that lie in the workspace, by their names alone: none of them has been opened. */
  listed?(what: "photo" | "price list"): readonly string[];
  /** A photo beside a sheet; `path` as above. A door that has no pictures to give leaves this out. */
  photo?(path: string): PhotoAnswer;
  /** The same answers in slices, of a door that has others to serve meanwhile. */
  readonly inSlices?: InSlices;
}

export interface InSlices {
  /** Whose answers these are: where one of the two is laid over with another, the slices say nothing of what it answers. */
  readonly of: Pick<Files, "read" | "prices">;
  read(path: string): Slices<FileAnswer>;
  prices(path: string): Slices<PriceAnswer>;
}

/** A sheet, read in slices where its door can. */
export function* sheetAt(files: Files, path: string): Slices<FileAnswer> {
  const { inSlices } = files;
  return inSlices === undefined || inSlices.of.read !== files.read ? files.read(path) : yield* inSlices.read(path);
}

/** The same of a price list. */
export function* pricesAt(files: Files, path: string): Slices<PriceAnswer> {
  const { inSlices } = files;
  return inSlices === undefined || inSlices.of.prices !== files.prices ? (files.prices?.(path) ?? "missing") : yield* inSlices.prices(path);
}

/** The `sheet` entry at a path; undefined where there is none. */
export function headAt(files: Files, path: string): SheetEntry | undefined {
  if (files.head !== undefined) return files.head(path);
  const sheet = files.read(path);
  return typeof sheet === "string" ? undefined : sheetEntryIn(sheet);
}

export function sheetEntryIn(sheet: SheetText): SheetEntry | undefined {
  return sheet.entries.find((entry) => entry.kind === "sheet");
}

/**
 * Joins a path written in a sheet to the folder of that sheet.
 * Returns undefined where it climbs out of the workspace or names a place outside of it.
 */
export function joinPath(fromFile: string, written: string): string | undefined {
  if (written === "" || /^[/\\]/.test(written) || /^[A-Za-z][A-Za-z0-9+.-]*:/.test(written) || written.includes("\0")) return undefined;
  const parts = fromFile.split("/").slice(0, -1);
  for (const part of written.split(/[/\\]/)) {
    if (part === "" || part === ".") continue;
    if (part === "..") {
      if (parts.pop() === undefined) return undefined;
    } else parts.push(part);
  }
  return parts.join("/");
}

/** Whether a sheet that the file at `from` names is not there. */
export function isNowhere(files: Files, from: string, path: string): boolean {
  const target = joinPath(from, path);
  return target !== undefined && files.read(target) === "missing";
}
