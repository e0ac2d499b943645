// `splitpin check`: every sheet checked, its diagnostics as text or as JSON.
// Invariant: a sheet that could not be read is said on the error stream and ends with 2, whatever the others hold.
import { openWorkspace } from "../disk/workspace.ts";
import { type Diagnostic, createChecker } from "../rules/check.ts";
import type { Desk, ExitCode, Given } from "./run.ts";
import { drawDiagnostics } from "./draw-diagnostics.ts";

export function checkCommand(given: Given, desk: Desk): ExitCode {
  const workspace = openWorkspace(given.paths.length === 0 ? ["."] : given.paths, desk.cwd);
  for (const it of workspace.refused) desk.err(`splitpin: ${it.shown} ${it.why}.\n`);
  const checker = createChecker();
  const diagnostics = workspace.sheets.flatMap((sheet) => checker.check(workspace.files, sheet.path));

  if (given.values.format === "json") desk.out(`${JSON.stringify({ diagnostics: diagnostics.map((it) => asJson(it, workspace.shown)) }, undefined, 2)}\n`);
  else if (workspace.sheets.length > 0) desk.out(drawDiagnostics(diagnostics, workspace, desk));

  if (workspace.refused.length > 0) return 2;
  return diagnostics.some((it) => it.severity === "error") ? 1 : 0;
}

/** Lines and columns from 1; the end column is the first behind. */
function asJson(it: Diagnostic, shown: (path: string) => string): unknown {
  return {
    file: shown(it.file),
    line: it.line + 1,
    column: it.from + 1,
    endLine: it.line + 1,
    endColumn: it.to + 1,
    severity: it.severity,
    rule: it.rule,
    message: it.message,
    related: it.related.map((related) => ({ file: shown(related.file), line: related.line + 1, message: related.message })),
  };
}
