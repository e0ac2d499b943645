// `splitpin format`: sets the layout of sheets in their files, or with `--check` names those that it would change.
import { openWorkspace } from "../disk/workspace.ts";
import { writeWhole } from "../disk/write-whole.ts";
import { format } from "../service.ts";
import type { Desk, ExitCode, Given } from "./desk.ts";
import { visible } from "./visible.ts";

export function formatCommand(given: Given, desk: Desk): ExitCode {
  const workspace = openWorkspace(given.paths.length === 0 ? ["."] : given.paths, desk.cwd);
  for (const it of workspace.refused) desk.err(`splitpin: ${it.shown} ${it.why}.\n`);
  const onlyCheck = given.values.check === true;
  let changed = 0;
  let failed = workspace.refused.length > 0;
  for (const sheet of workspace.sheets) {
    const reading = workspace.reading(sheet);
    if (reading.kind !== "text") continue;
    const formatted = format(reading.text);
    if (formatted === reading.text) continue;
    try {
      if (!onlyCheck) writeWhole(reading.real, formatted);
      changed += 1;
      desk.out(`${visible(sheet.shown)}${onlyCheck ? " would change" : ""}\n`);
    } catch (error) {
      failed = true;
      desk.err(`splitpin: ${sheet.shown} could not be written, and is as it was: it ${(error as Error).message}.\n`);
    }
  }
  const count = workspace.sheets.length;
  desk.err(`${changed} of ${count} ${count === 1 ? "sheet" : "sheets"} ${onlyCheck ? "would change" : "changed"}.\n`);
  if (failed) return 2;
  return onlyCheck && changed > 0 ? 1 : 0;
}
