// The sheets that a run of the command line may read: found under the paths that were given, named as the writer knows them.
// Invariant: no folder is read but those given; a link to a folder is not followed.
import { type Stats, statSync } from "node:fs";
import { dirname, isAbsolute, relative, resolve, sep } from "node:path";
import type { Files } from "../model/files.ts";
import { byName, diskFiles } from "./files.ts";
import { type ShutFolder, sheetsIn } from "./list-sheets.ts";
import { type Reading, isInside, notUtf8 } from "./read-file.ts";

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

const noPipe = "stands for a pipe, and sheets are read from files: save it as one, and name that";

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
    else if (status === undefined) refused.push({ shown: slashed(given), why: given.includes("\ufffd") ? notUtf8 : given === "-" ? noPipe : "is not there" });
    else if (status.isDirectory()) {
      folders.add(absolute);
      const shut: ShutFolder[] = [];
      const inside = sheetsIn(absolute, Number.POSITIVE_INFINITY, shut);
      for (const { path, why } of shut) refused.push({ shown: shownOf(path), why });
      if (inside.length === 0 && shut.length === 0)
        refused.push({ shown: slashed(given), why: "has no job sheets in it (files whose names end in .jobsheet)" });
      for (const path of inside) found.set(path, shownOf(path));
    } else {
      folders.add(isInside(absolute, cwd) ? cwd : dirname(absolute));
      found.set(absolute, shownOf(absolute));
    }
  }

  const files = diskFiles([...folders], { once: true });
  const sheets: GivenSheet[] = [];
  for (const absolute of [...found.keys()].sort(byName)) {
    const sheet = { path: files.pathOf(absolute), shown: found.get(absolute) as string, absolute };
    const reading = files.reading(absolute);
    if (reading.kind === "text") sheets.push(sheet);
    else refused.push({ shown: sheet.shown, why: reading.why });
  }
  return {
    sheets,
    files,
    refused,
    shown: (path) => shownOf(files.absoluteOf(path)),
    reading: (sheet) => files.reading(sheet.absolute),
    hasRead: (real) => files.hasRead(real),
  };
}

function slashed(path: string): string {
  return sep === "/" ? path : path.split(sep).join("/");
}

/** What stands at a path; a link that leads round to itself is told from one that leads nowhere. */
function statusOf(path: string): Stats | "circle" | undefined {
  try {
    return statSync(path, { throwIfNoEntry: false });
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "ELOOP" ? "circle" : undefined;
  }
}
