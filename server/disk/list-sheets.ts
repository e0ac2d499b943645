// Which job sheets lie in a folder, and which pictures and price lists.
// Invariant: links to folders are not followed, so that no walk goes in a circle or leaves the folder.
import { type Dirent, readdirSync } from "node:fs";
import { join } from "node:path";
import { isSheetName } from "./read-file.ts";

const deepest = 64;

/**
 * Every sheet in a folder and the folders below; hidden folders and those of packages are left out.
 * `most` bounds the names that are looked at, for a folder that nobody asked to have searched. `shut` is given the folders that were not looked into, or not to their end.
 */
export function sheetsIn(folder: string, most = Number.POSITIVE_INFINITY, shut: ShutFolder[] = []): string[] {
  return filesIn(folder, isSheetName, most, shut);
}

export interface ShutFolder {
  readonly path: string;
  /** In words that follow its name. */
  readonly why: string;
}

const tooDeep = "lies too deep in its folders, and what is in it was not looked at";

/** Why a folder was not searched to its end. */
export const tooMany = "has too much in it, and was not searched to its end";

/** The same of files by another name. */
export function filesIn(folder: string, isNamed: (name: string) => boolean, most = Number.POSITIVE_INFINITY, shut: ShutFolder[] = []): string[] {
  const out: string[] = [];
  let seen = 0;
  // By level, so that what lies near is found where the bound cuts the search short.
  let level = [folder];
  for (let depth = 0; level.length > 0 && depth <= deepest; depth++) {
    const below: string[] = [];
    for (const each of level) {
      for (const it of namesIn(each, shut)) {
        if (++seen > most) {
          shut.push({ path: folder, why: tooMany });
          return out;
        }
        const path = join(each, it.name);
        if (it.isDirectory()) {
          if (it.name !== "node_modules" && !it.name.startsWith(".")) below.push(path);
        } else if (isNamed(it.name) && (it.isFile() || it.isSymbolicLink())) out.push(path);
      }
    }
    level = below;
  }
  for (const path of level) shut.push({ path, why: tooDeep });
  return out;
}

/** Of a folder that can't be read, none; of one that has gone meanwhile there is nothing to tell. */
function namesIn(folder: string, shut: ShutFolder[]): Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true });
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === "ENAMETOOLONG") shut.push({ path: folder, why: tooDeep });
    else if (code !== "ENOENT") shut.push({ path: folder, why: "may not be read by you, and what is in it was not looked at" });
    return [];
  }
}

/** How many names are looked at to find the other sheets of a workspace. */
export const neighbourhood = 20_000;
