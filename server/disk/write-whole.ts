// Writes a file whole or not at all: beside it first, then in its place.
// Invariant: at every moment the name holds the old content or the new, never a part. A file's owner and rights stay as they were, a link stays a link; what may
// not be written, or is no ordinary file, is left alone. What an earlier program that was killed left beside it is taken away.
import {
  chmodSync,
  chownSync,
  closeSync,
  fsyncSync,
  openSync,
  readdirSync,
  readlinkSync,
  realpathSync,
  renameSync,
  rmSync,
  type Stats,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join, resolve } from "node:path";

/** Throws an `Error` whose message follows the name of the file, and leaves nothing behind when it does. `path` is absolute. */
export function writeWhole(path: string, text: string): void {
  const target = followed(path);
  if (leadsThroughSystem(path)) throw new Error(notAFile);
  const before = statusOf(target);
  if (before !== undefined) mayBeReplaced(before);
  const folder = dirname(target);
  clearLeftBehind(folder);
  const beside = join(folder, partName(basename(target), process.pid));
  try {
    const descriptor = openSync(beside, "wx");
    try {
      writeFileSync(descriptor, text, "utf8");
      fsyncSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
    if (before !== undefined) keepOwner(beside, before);
    renameSync(beside, target);
  } catch (error) {
    rmSync(beside, { force: true });
    throw new Error(whyNotWritten(error));
  }
  syncFolder(folder);
}

/** What a path leads to, over links; of a link that leads nowhere yet, where it leads. */
export function followed(path: string): string {
  let at = path;
  for (let links = 0; links < 40; links++) {
    try {
      return realpathSync.native(at);
    } catch {
      try {
        at = resolve(dirname(at), readlinkSync(at));
      } catch {
        return at;
      }
    }
  }
  throw new Error("is a link that leads back to itself");
}

/**
 * `/dev/stdout` and its like lead to whatever the shell has opened. Where that is a file the shell goes on writing to it by its number: put another in its place, and
 * what was printed is lost.
 */
function leadsThroughSystem(path: string): boolean {
  let at = path;
  for (let links = 0; links < 40; links++) {
    try {
      const here = join(realpathSync.native(dirname(at)), basename(at));
      if (/^\/(?:proc|dev)\//.test(here) && !here.startsWith("/dev/shm/")) return true;
      at = resolve(dirname(here), readlinkSync(here));
    } catch {
      // No link, or in no folder: it is what it is.
      return false;
    }
  }
  return false;
}

const notAFile = "is not a file but a device or a pipe: print it, and lead what is printed there";

function statusOf(target: string): Stats | undefined {
  try {
    return statSync(target, { throwIfNoEntry: false });
  } catch (error) {
    throw new Error(whyNotWritten(error));
  }
}

function mayBeReplaced(status: Stats): void {
  if (status.isDirectory()) throw new Error("is a folder");
  if (!status.isFile()) throw new Error(notAFile);
  // Whoever is root may write all the same: what somebody has shut stays shut.
  if ((status.mode & 0o222) === 0) throw new Error("is read-only");
  if (status.nlink > 1) throw new Error("has more than one name on the disk, and the others would keep the old text: write it under a name of its own");
}

/** Where the owner may not be kept the file would become somebody else's, and is not written. */
function keepOwner(beside: string, before: Stats): void {
  const now = statSync(beside);
  if (now.uid !== before.uid || now.gid !== before.gid) chownSync(beside, before.uid, before.gid);
  chmodSync(beside, before.mode & 0o7777);
}

/** So that the new name is on the disk too. Not every system lets a folder be opened. */
function syncFolder(folder: string): void {
  try {
    const descriptor = openSync(folder, "r");
    try {
      fsyncSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
  } catch {
    // The file itself is whole; only its name may be the old one after a power cut.
  }
}

/** Of a long name its beginning: with what is put to it the whole may be one too long for the disk. */
const partName = (name: string, pid: number) => `.${[...name].slice(0, 40).join("")}.${pid}.splitpin-part`;
const isPart = /^\..+\.([1-9]\d*)\.splitpin-part$/s;

/** Parts of programs that are no more, of whatever file in the folder. */
function clearLeftBehind(folder: string): void {
  let names: readonly string[];
  try {
    names = readdirSync(folder);
  } catch {
    return;
  }
  for (const it of names) {
    const pid = isPart.exec(it)?.[1];
    if (pid === undefined || isRunning(Number(pid))) continue;
    try {
      rmSync(join(folder, it), { force: true });
    } catch {
      // Another's, or no file: it lies as it lay.
    }
  }
}

function isRunning(pid: number): boolean {
  if (pid === process.pid) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

function whyNotWritten(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  if (code === "ENOENT" || code === "ENOTDIR") return "has no folder to lie in";
  if (code === "EACCES" || code === "EPERM" || code === "EROFS") return "may not be written by you";
  if (code === "ENOSPC" || code === "EDQUOT") return "does not fit: the disk is full";
  if (code === "ENAMETOOLONG") return "has too long a name";
  if (code === "ELOOP") return "is behind a link that leads back to itself";
  if (code === "EIO") return "can't be written: the disk gives a fault";
  if (code === "EFBIG") return "is larger than may be written there";
  return code === undefined ? message : `can't be written (${code})`;
}
