// Sheets of the disk, and variants of them, for tests that check one sheet in hundreds of forms: a file is read once, and a variant by an edit of it,
// which reads again the entries that differ. That an edit reads as a fresh reading does is held by tests/grammar/edits.test.ts.
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { type SheetText, editSheet, readSheet, textOf } from "../grammar/sheet-text.ts";
import type { Files } from "../server/model/files.ts";
import { standingStill } from "../server/model/job.ts";

const onDisk = new Map<string, SheetText | "missing">();

/** A sheet of the disk, as it was when it was first asked for. */
export function sheetAt(path: string): SheetText | "missing" {
  let sheet = onDisk.get(path);
  if (sheet === undefined) {
    sheet = readOr(path);
    onDisk.set(path, sheet);
  }
  return sheet;
}

/** The folder of a sheet, with `text` in its place: an edit of `before`, which is best no more than a few lines away from it. Whatever is asked of the same files is asked of one job. */
export function filesAround(path: string, text: string, before = sheetAt(path)): Files {
  const folder = dirname(path);
  const own = path.slice(folder.length + 1);
  const now = before === "missing" ? readSheet(text) : reread(before, text);
  return standingStill({ read: (asked) => (asked === own ? now : sheetAt(join(folder, asked))) });
}

/** `text`, read by one edit of `before` that spans the lines in which they differ. */
export function reread(before: SheetText, text: string): SheetText {
  const was = textOf(before);
  if (was === text) return before;
  if (was.includes("\r") || text.includes("\r")) return readSheet(text);
  const [old, now] = [was.split("\n"), text.split("\n")];
  let from = 0;
  while (from < old.length && from < now.length && old[from] === now[from]) from++;
  let [oldTo, newTo] = [old.length, now.length];
  while (oldTo > from && newTo > from && old[oldTo - 1] === now[newTo - 1]) {
    oldTo--;
    newTo--;
  }
  // What stands between two line ends, with the one behind it; where nothing is behind, with the one before.
  const put = now.slice(from, newTo);
  const tail = oldTo < old.length;
  if (!tail && from > 0) {
    const startLine = from - 1;
    const startColumn = (old[startLine] as string).length;
    const last = old.length - 1;
    return edited(before, [startLine, startColumn, last, (old[last] as string).length], put.map((it) => `\n${it}`).join(""), text);
  }
  const end: [number, number] = tail ? [oldTo, 0] : [old.length - 1, (old[old.length - 1] as string).length];
  return edited(before, [from, 0, ...end], tail ? put.map((it) => `${it}\n`).join("") : put.join("\n"), text);
}

function edited(before: SheetText, [startLine, startColumn, endLine, endColumn]: [number, number, number, number], by: string, text: string): SheetText {
  const sheet = editSheet(before, { startLine, startColumn, endLine, endColumn, text: by });
  if (textOf(sheet) !== text) throw new Error("the edit did not make the text");
  return sheet;
}

function readOr(path: string): SheetText | "missing" {
  try {
    return readSheet(readFileSync(path, "utf8"));
  } catch {
    return "missing";
  }
}
