// Writes a file whole or not at all: beside it first, then in its place.
// Invariant: at every moment the name holds the old content or the new, never a part; a file's rights stay as they were.
import { chmodSync, closeSync, fsyncSync, openSync, realpathSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { basename, dirname, join } from "node:path";

/** Throws as the file system does, and leaves nothing behind when it does. */
export function writeWhole(path: string, text: string): void {
  const target = followed(path);
  const beside = join(dirname(target), `.${basename(target)}.${process.pid}.part`);
  try {
    const descriptor = openSync(beside, "wx");
    try {
      writeFileSync(descriptor, text, "utf8");
      fsyncSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
    const before = statSync(target, { throwIfNoEntry: false });
    if (before !== undefined) chmodSync(beside, before.mode & 0o7777);
    renameSync(beside, target);
  } catch (error) {
    rmSync(beside, { force: true });
    throw error;
  }
}

/** A link stays a link: what it leads to is written. */
function followed(path: string): string {
  try {
    return realpathSync.native(path);
  } catch {
    return path;
  }
}
