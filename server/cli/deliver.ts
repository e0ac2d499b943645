// What every report's command shares: which of the sheets are jobs, and where the drawing goes.
import { resolve } from "node:path";
import type { openWorkspace } from "../disk/workspace.ts";
import { writeWhole } from "../disk/write-whole.ts";
import { type Desk, type Given, refuse } from "./desk.ts";

type Workspace = ReturnType<typeof openWorkspace>;

/** The paths of the jobs. A data file is there for others to use; on its own it is no job. */
export function jobsIn(workspace: Workspace): string[] {
  const jobs = workspace.sheets.filter(({ path }) => {
    const sheet = workspace.files.read(path);
    return typeof sheet !== "string" && sheet.entries.some((entry) => entry.kind === "sheet");
  });
  return (jobs.length === 0 ? workspace.sheets : jobs).map((it) => it.path);
}

/** Prints it, or writes it whole to `--out FILE`. */
export function deliver(text: string, given: Given, desk: Desk): 0 | 2 {
  const out = given.values.out;
  if (typeof out !== "string") {
    desk.out(text);
    return 0;
  }
  try {
    writeWhole(resolve(desk.cwd, out), text);
    return 0;
  } catch (error) {
    return refuse(desk, `${out} could not be written: ${(error as Error).message}`);
  }
}
