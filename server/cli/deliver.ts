// What every report's command shares: which of the sheets are jobs, and where the drawing goes.
import { resolve } from "node:path";
import type { Workspace } from "../disk/workspace.ts";
import { isSheetName } from "../disk/read-file.ts";
import { followed, writeWhole } from "../disk/write-whole.ts";
import { type Desk, type Given, refuse } from "./desk.ts";

/** The paths of the jobs. A data file is there for others to use; on its own it is no job. */
export function jobsIn(workspace: Workspace): string[] {
  const jobs = workspace.sheets.filter(({ path }) => {
    const sheet = workspace.files.read(path);
    return typeof sheet !== "string" && sheet.entries.some((entry) => entry.kind === "sheet");
  });
  return (jobs.length === 0 ? workspace.sheets : jobs).map((it) => it.path);
}

/** Prints it, or writes it whole to `--out FILE`: never over a sheet, and never over anything that was read for it. */
export function deliver(text: string, given: Given, desk: Desk, workspace: Workspace): 0 | 2 {
  const out = given.values.out;
  if (typeof out !== "string") {
    desk.out(text);
    return 0;
  }
  if (out === "") return refuse(desk, "--out takes the name of a file, and was given none.");
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
