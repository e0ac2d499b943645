// Which workspace a sheet belongs to: the folders that the editor has open are one, and a sheet that lies in none of them has the folder that it lies in.
// Invariant: nothing is kept of a workspace in which no sheet is open.
import { dirname } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { type SheetText, readSheet } from "../../grammar/sheet-text.ts";
import { type DiskFiles, type Over, diskFiles, openFiles } from "../disk/files.ts";
import { isInside } from "../disk/read-file.ts";
import { type Service, open as openService } from "../service.ts";
import type { OpenSheet } from "./open-sheets.ts";

export interface Workspace {
  readonly service: Service;
  /** By path in this workspace. */
  readonly open: Map<string, OpenSheet>;
  /** The URI of a file, as the editor knows it where it is open there. */
  uriOf(path: string): string;
  /** What was read from the disk is read again when it is asked for. */
  forgetRead(): void;
}

export interface Located {
  readonly workspace: Workspace;
  readonly path: string;
}

export interface Workspaces {
  /** The folders that the editor has open, as URIs. */
  setFolders(uris: readonly string[]): void;
  locate(uri: string): Located;
  put(sheet: OpenSheet): void;
  forget(uri: string): void;
  /** The text of a file that is on no disk, as the editor gives it; undefined where it is gone. */
  supply(uri: string, text: string | undefined): void;
  /** The workspace of the folders that the editor has open, and those of sheets that lie in none of them. */
  all(): readonly Workspace[];
}

/** A workspace by the name that it is kept under, and how its paths and URIs lead to one another. */
interface Kept {
  readonly workspace: Workspace;
  pathOf(uri: string): string;
}

/** What an editor has given of files that are on no disk, by URI. */
type Supplied = Map<string, { readonly sheet: SheetText; readonly text: string }>;

export function createWorkspaces(): Workspaces {
  /** Folders of the disk, and of what is on no disk the part of the URI up to the last `/`. */
  let folders: string[] = [];
  let elsewhere: string[] = [];
  const kept = new Map<string, Kept>();
  const supplied: Supplied = new Map();

  function keptAs(name: string, make: () => Kept): Kept {
    let it = kept.get(name);
    if (it === undefined) {
      it = make();
      kept.set(name, it);
    }
    return it;
  }

  /** The name of the workspace that a URI belongs to, and how it is made. */
  function homeOf(uri: string): readonly [name: string, make: () => Kept] {
    const disk = diskPath(uri);
    if (disk !== undefined) {
      const home = folders.some((it) => isInside(disk, it)) ? folders : [dirname(disk)];
      return [home.join("\n"), () => onDisk(home)];
    }
    const folder = longest(elsewhere.filter((it) => uri.startsWith(`${it}/`))) ?? uri.replace(/[^/:]*$/, "").replace(/\/$/, "");
    return [folder, () => onNoDisk(folder, supplied)];
  }

  function locate(uri: string): Located {
    const { workspace, pathOf } = keptAs(...homeOf(uri));
    return { workspace, path: pathOf(uri) };
  }

  return {
    setFolders(uris) {
      const open = [...kept.values()].flatMap(({ workspace }) => [...workspace.open.values()]);
      const paths = uris.map((uri) => diskPath(uri) ?? uri.replace(/\/$/, ""));
      folders = [...new Set(paths.filter((_, i) => diskPath(uris[i] as string) !== undefined))];
      elsewhere = paths.filter((_, i) => diskPath(uris[i] as string) === undefined);
      kept.clear();
      for (const sheet of open) this.put(sheet);
    },
    locate,
    supply(uri, text) {
      if (text === undefined || diskPath(uri) !== undefined) supplied.delete(uri);
      else supplied.set(uri, { text, sheet: readSheet(uri.endsWith(".jobsheet") ? text : "") });
    },
    all() {
      if (folders.length > 0) keptAs(folders.join("\n"), () => onDisk(folders));
      for (const folder of elsewhere) keptAs(folder, () => onNoDisk(folder, supplied));
      return [...kept.values()].map((it) => it.workspace);
    },
    put(sheet) {
      const { workspace, path } = locate(sheet.uri);
      workspace.open.set(path, sheet);
    },
    forget(uri) {
      const { workspace, path } = locate(uri);
      workspace.open.delete(path);
      // What it used may be nobody's business any more; what still is, the next check reads.
      workspace.forgetRead();
      if (workspace.open.size === 0) kept.delete(homeOf(uri)[0]);
    },
  };
}

function onDisk(folders: readonly string[]): Kept {
  const open = new Map<string, OpenSheet>();
  const files: DiskFiles = diskFiles(folders, { over: overOf(open) });
  return {
    pathOf: (uri) => files.pathOf(fileURLToPath(uri)),
    workspace: {
      service: openService(files),
      open,
      uriOf: (path) => open.get(path)?.uri ?? pathToFileURL(files.absoluteOf(path)).href,
      forgetRead: () => files.forget(),
    },
  };
}

function onNoDisk(folder: string, supplied: Supplied): Kept {
  const open = new Map<string, OpenSheet>();
  const pathOf = (uri: string) => decoded(uri.slice(folder.length).replace(/^\//, ""));
  const uriOf = (path: string) => open.get(path)?.uri ?? `${folder}/${path.split("/").map(encodeURIComponent).join("/")}`;
  const given = (path: string, ending: string) => {
    if (!path.endsWith(ending)) return undefined;
    // Two ways to write a URI may be the same path.
    for (const [uri, it] of supplied) if (uri.startsWith(`${folder}/`) && pathOf(uri) === path) return it;
    return undefined;
  };
  const named = (ending: string) => [...supplied.keys()].filter((uri) => uri.startsWith(`${folder}/`) && uri.endsWith(ending)).map(pathOf);
  const over = overOf(open);
  const files = openFiles({
    read: (path) => over.read(path) ?? given(path, ".jobsheet")?.sheet,
    paths: () => new Set([...over.paths(), ...named(".jobsheet")]),
  });
  return {
    pathOf,
    workspace: {
      service: openService({
        ...files,
        prices: (path) => given(path, ".csv") ?? files.prices(path),
        listed: (what) => (what === "price list" ? named(".csv") : files.listed(what)),
      }),
      open,
      uriOf,
      forgetRead() {},
    },
  };
}

function overOf(open: ReadonlyMap<string, OpenSheet>): Over {
  return {
    read(path) {
      const it = open.get(path);
      return it === undefined ? undefined : (it.sheet ?? "missing");
    },
    paths: () => open.keys(),
  };
}

function longest(list: readonly string[]): string | undefined {
  return [...list].sort((a, b) => b.length - a.length)[0];
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
