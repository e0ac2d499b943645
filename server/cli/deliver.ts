// Where the drawing of a report goes: to the terminal, or whole to a file.
import { resolve } from "node:path";
import type { Workspace } from "../disk/workspace.ts";
import { isSheetName } from "../disk/read-file.ts";
import { followed, writeWhole } from "../disk/write-whole.ts";
import { type Desk, type Given, refuse } from "./desk.ts";

/** Prints it, or writes it whole to `--out FILE`: never over a sheet, and never over anything that was read for it. */
export function deliver(text: string, given: Given, desk: Desk, workspace: Workspace): 0 | 2 {
  const out = given.values.out;
  if (typeof out !== "string") {
    desk.out(text);
    return 0;
  }
  if (out === "") return refuse(desk, "--out takes the name of a file, and was given none.");
  // One takes it for the screen, another for a folder: neither is a file that anybody meant.
  if (out === "-") return refuse(desk, "--out takes the name of a file. Without it what there is to say is printed.");
  if (/[/\\]$/.test(out)) return refuse(desk, `--out takes the name of a file, and ${out} is the name of a folder.`);
  if (out.includes("\ufffd")) return refuse(desk, `--out takes a name in UTF-8, and ${out} is none: it would be written under another.`);
  const path = resolve(desk.cwd, out);
  try {
    const real = followed(path);
    if (isSheetName(path) || isSheetName(real)) return refuse(desk, `${out} is a job sheet: nothing was written over it. Give --out a name of another ending.`);
    if (workspace.hasRead(real)) return refuse(desk, `${out} was read for this: nothing was written over it. Give --out another name.`);
    writeWhole(path, text);
    return 0;
  } catch (error) {
    return refuse(desk, `${out} could not be written: it ${(error as Error).message}.`);
  }
}
