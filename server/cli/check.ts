// `splitpin check`: every sheet checked, its diagnostics as text, as JSON, as SARIF or as JUnit XML.
// Invariant: a sheet that could not be read is said on the error stream and ends with 2, whatever the others hold.
import { openWorkspace } from "../disk/workspace.ts";
import { checkJson, checkedAs, isUnclear, json, open } from "../service.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./desk.ts";
import { drawDiagnostics } from "./draw-diagnostics.ts";

/** What makes it end with 1: any error; or only what must not be shared, whatever is still open on the machine. */
const failures = ["error", "unclear"];

export async function checkCommand(given: Given, desk: Desk): Promise<ExitCode> {
  const fails = String(given.values["fail-on"] ?? "error");
  if (!failures.includes(fails)) return refuse(desk, `--fail-on takes ${failures.join(", ")}; it was given “${fails}”.`);
  const workspace = openWorkspace(given.paths.length === 0 ? ["."] : given.paths, desk.cwd);
  for (const it of workspace.refused) desk.err(`splitpin: ${it.shown} ${it.why}.\n`);
  const service = open(workspace.files);
  const diagnostics = service.checkAll(workspace.sheets.map((sheet) => sheet.path));

  const { format } = given.values;
  if (format === "json") desk.out(json({ diagnostics: diagnostics.map((it) => checkJson(it, workspace.shown)) }));
  else if (format === "sarif" || format === "junit") {
    const { shown, refused } = workspace;
    desk.out(await checkedAs(format, { diagnostics, shown, refused, sheets: workspace.sheets.map((it) => it.shown), version: desk.version }));
  } else if (workspace.sheets.length > 0)
    desk.out(drawDiagnostics(diagnostics, workspace, desk, { hints: given.values.hints === true, brief: given.values.brief === true }));

  if (workspace.refused.length > 0) return 2;
  const failing = fails === "unclear" ? diagnostics.filter(isUnclear) : diagnostics;
  return failing.some((it) => it.severity === "error") ? 1 : 0;
}
