// `splitpin check`: every sheet checked, its diagnostics as text or as JSON.
// Invariant: a sheet that could not be read is said on the error stream and ends with 2, whatever the others hold.
import { openWorkspace } from "../disk/workspace.ts";
import { checkJson, json, open } from "../service.ts";
import type { Desk, ExitCode, Given } from "./desk.ts";
import { drawDiagnostics } from "./draw-diagnostics.ts";

export function checkCommand(given: Given, desk: Desk): ExitCode {
  const workspace = openWorkspace(given.paths.length === 0 ? ["."] : given.paths, desk.cwd);
  for (const it of workspace.refused) desk.err(`splitpin: ${it.shown} ${it.why}.\n`);
  const service = open(workspace.files);
  const diagnostics = workspace.sheets.flatMap((sheet) => service.check(sheet.path));

  if (given.values.format === "json") desk.out(json({ diagnostics: diagnostics.map((it) => checkJson(it, workspace.shown)) }));
  else if (workspace.sheets.length > 0)
    desk.out(drawDiagnostics(diagnostics, workspace, desk, { hints: given.values.hints === true, brief: given.values.brief === true }));

  if (workspace.refused.length > 0) return 2;
  return diagnostics.some((it) => it.severity === "error") ? 1 : 0;
}
