// Which folder a sheet belongs to, and the sheets that it may use: what is open in the editor comes before what is on the disk.
// Invariant: nothing outside of a sheet's folder is read, and nothing that is not a job sheet or a price list.
import { type Stats, realpathSync, statSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { type SheetText, readSheet } from "../../grammar/sheet-text.ts";
import { neighbourhood, sheetsIn } from "../disk/list-sheets.ts";
import { type Reading, isInside, readPriceFile, readSheetFile } from "../disk/read-file.ts";
import { priceAnswer } from "../disk/workspace.ts";
import { readPhoto } from "../disk/read-photo.ts";
import type { Files, PhotoAnswer, PriceAnswer } from "../model/files.ts";
import type { OpenSheet } from "./open-sheets.ts";

export interface Root {
  /** A folder of the disk, or the part of a URI up to the last `/`. */
  readonly folder: string;
  readonly onDisk: boolean;
  readonly files: Files;
  /** By path in this root. */
  readonly open: Map<string, OpenSheet>;
  /** What was read from the disk is read again when it is asked for. */
  forgetRead(): void;
}

export interface Located {
  readonly root: Root;
  readonly path: string;
}

export interface Workspaces {
  /** The folders that the editor has open, as URIs. */
  setFolders(uris: readonly string[]): void;
  locate(uri: string): Located;
  put(sheet: OpenSheet): void;
  forget(uri: string): void;
  uriOf(root: Root, path: string): string;
  /** The folders that the editor has open, and those of sheets that lie in none of them. */
  roots(): readonly Root[];
}

export function createWorkspaces(): Workspaces {
  let folders: string[] = [];
  const roots = new Map<string, Root>();

  function rootAt(folder: string, onDisk: boolean): Root {
    let root = roots.get(folder);
    if (root === undefined) {
      const open = new Map<string, OpenSheet>();
      const read: Read = { sheets: new Map(), lists: new Map() };
      const forgetRead = () => {
        read.sheets.clear();
        read.lists.clear();
      };
      root = { folder, onDisk, files: filesOf(folder, onDisk, open, read), open, forgetRead };
      roots.set(folder, root);
    }
    return root;
  }

  function locate(uri: string): Located {
    const path = diskPath(uri);
    if (path !== undefined) {
      const folder = folders.filter((it) => isInside(path, it)).sort((a, b) => b.length - a.length)[0] ?? dirname(path);
      return { root: rootAt(folder, true), path: relative(folder, path).split(sep).join("/") };
    }
    const folder = folders.filter((it) => uri.startsWith(`${it}/`)).sort((a, b) => b.length - a.length)[0] ?? uri.replace(/[^/:]*$/, "").replace(/\/$/, "");
    return { root: rootAt(folder, false), path: decoded(uri.slice(folder.length).replace(/^\//, "")) };
  }

  return {
    setFolders(uris) {
      const open = [...roots.values()].flatMap((root) => [...root.open.values()]);
      folders = uris.map((uri) => diskPath(uri) ?? uri.replace(/\/$/, ""));
      roots.clear();
      for (const sheet of open) this.put(sheet);
    },
    locate,
    put(sheet) {
      const { root, path } = locate(sheet.uri);
      root.open.set(path, sheet);
    },
    forget(uri) {
      const { root, path } = locate(uri);
      root.open.delete(path);
      // What it used may be nobody's business any more; what still is, the next check reads.
      root.forgetRead();
      if (root.open.size === 0) roots.delete(root.folder);
    },
    roots() {
      for (const folder of folders) rootAt(folder, !folder.includes("://"));
      return [...roots.values()];
    },
    uriOf(root, path) {
      const open = root.open.get(path);
      if (open !== undefined) return open.uri;
      return root.onDisk ? pathToFileURL(join(root.folder, path)).href : `${root.folder}/${path.split("/").map(encodeURIComponent).join("/")}`;
    },
  };
}

interface OnDisk<A> {
  readonly mark: string;
  readonly answer: A;
}

/** What was read from the disk, by absolute path. */
interface Read {
  readonly sheets: Map<string, OnDisk<SheetText | "missing" | "outside">>;
  readonly lists: Map<string, OnDisk<PriceAnswer>>;
}

function filesOf(folder: string, onDisk: boolean, open: ReadonlyMap<string, OpenSheet>, { sheets, lists }: Read): Files {
  let listed: readonly string[] = [];
  let listedAt = Number.NEGATIVE_INFINITY;
  return {
    read(path): SheetText | "missing" | "outside" {
      const inEditor = open.get(path);
      if (inEditor !== undefined) return inEditor.sheet;
      if (!onDisk) return "missing";
      return asOnDisk(sheets, join(folder, path), (absolute) => {
        const reading = readHere(absolute, folder, readSheetFile);
        if (reading.kind === "text") return readSheet(reading.text);
        return reading.kind === "outside" ? "outside" : "missing";
      });
    },
    prices(path) {
      if (!onDisk) return notOnDisk;
      return asOnDisk(lists, join(folder, path), (absolute) => priceAnswer(readHere(absolute, folder, readPriceFile)));
    },
    jobsheets() {
      // A folder is not walked at every keystroke; a sheet that is new there may wait this long to be seen.
      const now = Date.now();
      if (onDisk && now - listedAt > listedFor) {
        listed = sheetsIn(folder, neighbourhood).map((it) => relative(folder, it).split(sep).join("/"));
        listedAt = now;
      }
      return [...new Set([...open.keys(), ...listed])].sort();
    },
    photo: (path) => (onDisk ? photoIn(folder, path) : { kind: "missing", why: "is not on this machine's disk" }),
  };
}

const notOnDisk: PriceAnswer = { why: "is not on this machine's disk, so it was not read" };

const listedFor = 10_000;

function photoIn(folder: string, path: string): PhotoAnswer {
  try {
    return readPhoto(join(folder, path), [realpathSync.native(folder)]);
  } catch {
    return { kind: "missing", why: "is not there" };
  }
}

/** The path of a `file:` URI; undefined for what is on no disk. */
function diskPath(uri: string): string | undefined {
  if (!uri.startsWith("file:")) return undefined;
  try {
    return fileURLToPath(uri);
  } catch {
    return undefined;
  }
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/** What was answered before, for as long as the file is the same by its time, its size and its number. */
function asOnDisk<A>(known: Map<string, OnDisk<A>>, absolute: string, read: (absolute: string) => A): A {
  const status = statOf(absolute);
  const mark = status === undefined ? "none" : `${status.mtimeMs} ${status.size} ${status.ino}`;
  const before = known.get(absolute);
  if (before !== undefined && before.mark === mark) return before.answer;
  const answer = read(absolute);
  known.set(absolute, { mark, answer });
  return answer;
}

function statOf(absolute: string): Stats | undefined {
  try {
    return statSync(absolute, { throwIfNoEntry: false });
  } catch {
    return undefined;
  }
}

function readHere(absolute: string, folder: string, reader: typeof readSheetFile): Reading {
  try {
    return reader(absolute, [realpathSync.native(folder)]);
  } catch {
    return { kind: "missing", why: "is not there" };
  }
}
