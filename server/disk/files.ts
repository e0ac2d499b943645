// The sheets, price lists and photos in some folders of the disk, with what is open in an editor laid over them. Several folders are one workspace: their sheets
// know one another by paths from the folder that they share.
// Invariant: nothing is read outside of the folders given, links followed, and nothing that is not a job sheet, a price list or a picture.
import { type Stats, realpathSync, statSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { type SheetText, readingSheet, sheetEntryOf } from "../../grammar/sheet-text.ts";
import { type FileAnswer, type Files, type InSlices, type PriceAnswer, sheetEntryIn } from "../model/files.ts";
import { type Slices, carriedOn, runThrough } from "../../grammar/slices.ts";
import { type ShutFolder, filesIn, neighbourhood, tooMany } from "./list-sheets.ts";
import { type PriceReading, type Reading, isInside, isPriceListName, isSheetName, readSheetFile, readingPriceFile } from "./read-file.ts";
import { isPictureName, readPhoto } from "./read-photo.ts";
import { followed } from "./write-whole.ts";

export interface DiskFiles extends Required<Files> {
  /** The path by which the core knows a file of the disk: from the folder that all share, joined by `/`. */
  pathOf(absolute: string): string;
  absoluteOf(path: string): string;
  /** A sheet as text, or why it can't be had. */
  reading(absolute: string): Reading;
  /** Whether this file was read: a sheet, a price list or a photo, by its path with links followed. */
  hasRead(real: string): boolean;
  /** What was read is read again when it is asked for. */
  forget(): void;
}

/** What is open in an editor, by path: it comes before what is on the disk. `missing`: it is open, and can't be read. */
export interface Over {
  read(path: string): SheetText | "missing" | undefined;
  paths(): Iterable<string>;
}

export interface Ways {
  readonly over?: Over;
  /** What was read once stays so, as a run of the command line wants it; otherwise a file is read again when it has changed. */
  readonly once?: true;
}

const nothing: Over = { read: () => undefined, paths: () => [] };

/** `folders` are absolute. */
export function diskFiles(folders: readonly string[], { over = nothing, once }: Ways = {}): DiskFiles {
  const base = commonFolder(folders);
  const known = new Known(once === true);
  const reals = new Set<string>();
  const pathOf = (absolute: string) => slashed(relative(base, absolute));
  const absoluteOf = (path: string) => join(base, path);
  const listings = new Listings(folders, pathOf, once === true);
  // A sheet may lead by `..` to a place that is outside of every folder given, though inside of what they share.
  const isOutside = (absolute: string) => !folders.some((folder) => isInside(absolute, folder));
  const outside = (absolute: string) => (isOutside(absolute) ? ({ kind: "outside", why: "lies outside of the workspace" } as const) : undefined);
  const noted = <R extends Reading | PriceReading>(it: R): R => {
    if (it.kind === "text") reals.add(it.real);
    return it;
  };
  const sheetText = (absolute: string): Reading => outside(absolute) ?? noted(readSheetFile(absolute, realsOf(folders)));
  const reading = (absolute: string): Reading => known.of(`reading ${absolute}`, absolute, () => sheetText(absolute));

  const inSlices: InSlices = {
    of: { read: (path) => runThrough(inSlices.read(path)), prices: (path) => runThrough(inSlices.prices(path)) },
    *read(path) {
      const open = over.read(path);
      if (open !== undefined) return open;
      const absolute = absoluteOf(path);
      return yield* known.inSlices(`sheet ${absolute}`, absolute, function* (): Slices<FileAnswer> {
        const it = once === true ? reading(absolute) : sheetText(absolute);
        yield;
        return it.kind === "text" ? yield* readingSheet(it.text) : it.kind === "outside" ? "outside" : "missing";
      });
    },
    *prices(path) {
      const absolute = absoluteOf(path);
      return yield* known.inSlices(`prices ${absolute}`, absolute, function* (): Slices<PriceAnswer> {
        return priceAnswer(outside(absolute) ?? noted(yield* readingPriceFile(absolute, realsOf(folders))));
      });
    },
  };

  return {
    pathOf,
    absoluteOf,
    reading,
    inSlices,
    read: inSlices.of.read,
    head(path) {
      const open = over.read(path);
      if (open !== undefined) return open === "missing" ? undefined : sheetEntryIn(open);
      const absolute = absoluteOf(path);
      return known.of(`head ${absolute}`, absolute, () => {
        const it = once === true ? reading(absolute) : sheetText(absolute);
        return it.kind === "text" ? sheetEntryOf(it.text) : undefined;
      });
    },
    prices: inSlices.of.prices as Required<Files>["prices"],
    jobsheets() {
      return [...new Set([...over.paths(), ...listings.of(isSheetName).paths])].sort(byName);
    },
    hasMore: () => listings.of(isSheetName).hasMore,
    listed: (what) => [...new Set(listings.of(what === "photo" ? isPictureName : isPriceListName).paths)].sort(byName),
    photo(path) {
      const absolute = absoluteOf(path);
      reals.add(followed(absolute));
      return isOutside(absolute) ? { kind: "outside", why: "lies outside of the workspace, so it was not read" } : readPhoto(absolute, realsOf(folders));
    },
    hasRead: (real) => reals.has(real),
    forget() {
      known.clear();
      reals.clear();
    },
  };
}

/** What is open in an editor and lies on no disk: nothing else can be had there. */
export function openFiles(over: Over): Required<Omit<Files, "inSlices">> {
  return {
    read: (path) => over.read(path) ?? "missing",
    head(path) {
      const open = over.read(path) ?? "missing";
      return open === "missing" ? undefined : sheetEntryIn(open);
    },
    jobsheets: () => [...over.paths()].sort(byName),
    hasMore: () => false,
    prices: () => ({ why: "is not on this machine's disk, so it was not read" }),
    listed: () => [],
    photo: () => ({ kind: "missing", why: "is not on this machine's disk" }),
  };
}

/** By the bytes of the names, so that every machine has the same order. */
export function byName(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

type IsNamed = (name: string) => boolean;

interface Listing {
  readonly at: number;
  readonly paths: readonly string[];
  readonly hasMore: boolean;
}

/** What lies in some folders, by how it is named. A folder is not walked at every keystroke; a file that is new there may wait so many milliseconds to be seen. */
class Listings {
  readonly #folders: readonly string[];
  readonly #pathOf: (absolute: string) => string;
  readonly #once: boolean;
  readonly #known = new Map<IsNamed, Listing>();

  constructor(folders: readonly string[], pathOf: (absolute: string) => string, once: boolean) {
    this.#folders = folders;
    this.#pathOf = pathOf;
    this.#once = once;
  }

  of(isNamed: IsNamed): Listing {
    const now = Date.now();
    const before = this.#known.get(isNamed);
    if (before !== undefined && (this.#once || now - before.at <= listedFor)) return before;
    const shut: ShutFolder[] = [];
    const paths = this.#folders.flatMap((folder) => filesIn(folder, isNamed, neighbourhood, shut)).map(this.#pathOf);
    const listing = { at: now, paths, hasMore: shut.some(({ why }) => why === tooMany) };
    this.#known.set(isNamed, listing);
    return listing;
  }
}

const listedFor = 10_000;

/** Answers, each for as long as its file is the same by its time, its size and its number; or for good. */
class Known {
  readonly #once: boolean;
  readonly #answers = new Map<string, { readonly mark: string; readonly answer: unknown }>();
  readonly #begun = new Map<string, { readonly mark: string; readonly goOn: unknown }>();

  constructor(once: boolean) {
    this.#once = once;
  }

  of<A>(question: string, absolute: string, answer: () => A): A {
    const mark = this.#once ? "" : markOf(absolute);
    const before = this.#answers.get(question);
    if (before?.mark === mark) return before.answer as A;
    const made = answer();
    this.#answers.set(question, { mark, answer: made });
    return made;
  }

  /** The same of what is worked out in slices: one who is given up leaves to the next what was done. */
  *inSlices<A>(question: string, absolute: string, answer: () => Slices<A>): Slices<A> {
    const mark = this.#once ? "" : markOf(absolute);
    const before = this.#answers.get(question);
    if (before?.mark === mark) return before.answer as A;
    const begun = this.#begun.get(question);
    const goOn = begun?.mark === mark ? (begun.goOn as () => Slices<A>) : carriedOn(answer());
    this.#begun.set(question, { mark, goOn });
    const made = yield* goOn();
    // It may have been forgotten meanwhile, or read anew.
    if (this.#begun.get(question)?.goOn !== goOn) return made;
    this.#begun.delete(question);
    this.#answers.set(question, { mark, answer: made });
    return made;
  }

  clear(): void {
    this.#answers.clear();
    this.#begun.clear();
  }
}

function markOf(absolute: string): string {
  let status: Stats | undefined;
  try {
    status = statSync(absolute, { throwIfNoEntry: false });
  } catch {
    // A link that leads round to itself, or a folder that may not be looked into: none.
  }
  return status === undefined ? "none" : `${status.mtimeMs} ${status.size} ${status.ino}`;
}

/** The folders with their own links followed; of one that is gone, none. */
function realsOf(folders: readonly string[]): string[] {
  return folders.flatMap((folder) => {
    try {
      return [realpathSync.native(folder)];
    } catch {
      return [];
    }
  });
}

function priceAnswer(reading: PriceReading): PriceAnswer {
  if (reading.kind === "text") return { text: reading.text };
  return reading.kind === "refused" ? { why: reading.why } : reading.kind;
}

function commonFolder(folders: readonly string[]): string {
  let common = folders[0] ?? sep;
  for (const folder of folders) while (!isInside(folder, common) && dirname(common) !== common) common = dirname(common);
  return common;
}

function slashed(path: string): string {
  return sep === "/" ? path : path.split(sep).join("/");
}
