// The sheets that a run of the command line may read: found under the paths that were given, named as the writer knows them.
// Invariant: no folder is read but those given; a link to a folder is not followed.
import { type Stats, realpathSync, statSync } from "node:fs";
import { dirname, isAbsolute, join, relative, resolve, sep } from "node:path";
import { type SheetText, readSheet } from "../../grammar/sheet-text.ts";
import type { Files, PriceAnswer } from "../model/files.ts";
import { neighbourhood, sheetsIn } from "./list-sheets.ts";
import { type Reading, isInside, readPriceFile, readSheetFile } from "./read-file.ts";
import { readPhoto } from "./read-photo.ts";
import { followed } from "./write-whole.ts";

export interface GivenSheet {
  /** As the core knows it: relative to `base`, joined by `/`. */
  readonly path: string;
  /** As it is shown: the way it was given, joined by `/`. */
  readonly shown: string;
  readonly absolute: string;
}

export interface Workspace {
  /** In the order of their names, each once. */
  readonly sheets: readonly GivenSheet[];
  readonly files: Files;
  /** What was asked for and can't be had: the path as given, and why. */
  readonly refused: readonly { readonly shown: string; readonly why: string }[];
  /** How a path of the core is shown. */
  shown(path: string): string;
  reading(sheet: GivenSheet): Reading;
  /** Whether this file was read: a sheet, a price list or a photo, by its path with links followed. */
  hasRead(real: string): boolean;
}

/** `paths` are files and folders as they were given, relative to `cwd` or absolute. */
export function openWorkspace(paths: readonly string[], cwd: string): Workspace {
  const refused: { shown: string; why: string }[] = [];
  const found = new Map<string, string>();
  const folders = new Set<string>();
  const wholePaths = paths.some((path) => isAbsolute(path));
  const shownOf = (absolute: string) => slashed(isInside(absolute, cwd) || !wholePaths ? relative(cwd, absolute) : absolute);

  for (const given of paths) {
    if (given === "") {
      refused.push({ shown: "“”", why: "is an empty name, and no sheet or folder has one" });
      continue;
    }
    const absolute = resolve(cwd, given);
    const status = statusOf(absolute);
    if (status === "circle") refused.push({ shown: slashed(given), why: "is a link that leads back to itself" });
    else if (status === undefined) refused.push({ shown: slashed(given), why: "is not there" });
    else if (status.isDirectory()) {
      folders.add(absolute);
      const tooDeep: string[] = [];
      const inside = sheetsIn(absolute, Number.POSITIVE_INFINITY, tooDeep);
      for (const it of tooDeep) refused.push({ shown: shownOf(it), why: "lies too deep in its folders, and what is in it was not looked at" });
      if (inside.length === 0) refused.push({ shown: slashed(given), why: "has no job sheets in it (files whose names end in .jobsheet)" });
      for (const path of inside) found.set(path, shownOf(path));
    } else {
      folders.add(isInside(absolute, cwd) ? cwd : dirname(absolute));
      found.set(absolute, shownOf(absolute));
    }
  }

  const base = commonFolder([...folders]);
  const realFolders = [...folders].map((folder) => realpathSync.native(folder));
  const readings = new Map<string, Reading>();
  const reals = new Set<string>();
  // A sheet may lead by `..` to a place that is outside of every folder given, though inside of what they share.
  const within = (absolute: string, reader: typeof readSheetFile): Reading =>
    [...folders].some((folder) => isInside(absolute, folder)) ? reader(absolute, realFolders) : { kind: "outside", why: "lies outside of the workspace" };
  const read = (absolute: string): Reading => {
    let reading = readings.get(absolute);
    if (reading === undefined) {
      reading = within(absolute, readSheetFile);
      readings.set(absolute, reading);
      if (reading.kind === "text") reals.add(reading.real);
    }
    return reading;
  };

  const sheets: GivenSheet[] = [];
  for (const absolute of [...found.keys()].sort(byName)) {
    const sheet = { path: slashed(relative(base, absolute)), shown: found.get(absolute) as string, absolute };
    const reading = read(absolute);
    if (reading.kind === "text") sheets.push(sheet);
    else refused.push({ shown: sheet.shown, why: reading.why });
  }

  const known = new Map<string, SheetText>();
  const lists = new Map<string, PriceAnswer>();
  let neighbours: readonly string[] | undefined;
  const files: Files = {
    read(path) {
      const before = known.get(path);
      if (before !== undefined) return before;
      const reading = read(join(base, path));
      if (reading.kind === "outside") return "outside";
      if (reading.kind !== "text") return "missing";
      const sheet = readSheet(reading.text);
      known.set(path, sheet);
      return sheet;
    },
    jobsheets() {
      neighbours ??= [...new Set([...folders].flatMap((folder) => sheetsIn(folder, neighbourhood)))].map((it) => slashed(relative(base, it))).sort(byName);
      return neighbours;
    },
    prices(path) {
      let answer = lists.get(path);
      if (answer === undefined) {
        const reading = within(join(base, path), readPriceFile);
        if (reading.kind === "text") reals.add(reading.real);
        answer = priceAnswer(reading);
        lists.set(path, answer);
      }
      return answer;
    },
    photo(path) {
      const absolute = join(base, path);
      reals.add(followed(absolute));
      return [...folders].some((folder) => isInside(absolute, folder))
        ? readPhoto(absolute, realFolders)
        : { kind: "outside", why: "lies outside of the workspace, so it was not read" };
    },
  };
  return { sheets, files, refused, shown: (path) => shownOf(join(base, path)), reading: (sheet) => read(sheet.absolute), hasRead: (real) => reals.has(real) };
}

export function priceAnswer(reading: Reading): PriceAnswer {
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

/** By the bytes of the names, so that every machine has the same order. */
function byName(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** What stands at a path; a link that leads round to itself is told from one that leads nowhere. */
function statusOf(path: string): Stats | "circle" | undefined {
  try {
    return statSync(path, { throwIfNoEntry: false });
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "ELOOP" ? "circle" : undefined;
  }
}
