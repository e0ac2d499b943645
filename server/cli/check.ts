// `splitpin check`: every sheet checked, its diagnostics as text, as JSON, as SARIF or as JUnit XML.
// Invariant: a sheet that could not be read is said on the error stream and ends with 2, whatever the others hold.
import { openWorkspace } from "../disk/workspace.ts";
import { json } from "../reports/draw/as-json.ts";
import { checkJson } from "../reports/check/json.ts";
import { junit } from "../reports/check/junit.ts";
import { type CheckedSheets, sarif } from "../reports/check/sarif.ts";
import { rules } from "../rules/all.ts";
import { type Diagnostic, checkFile } from "../rules/check.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./desk.ts";
import { drawDiagnostics } from "./draw-diagnostics.ts";

/** What makes it end with 1: any error; or only what must not be shared, whatever is still open on the machine. */
export const failures = ["error", "unclear"] as const;

export function checkCommand(given: Given, desk: Desk): ExitCode {
  const fails = given.values["fail-on"] ?? "error";
  if (fails !== "error" && fails !== "unclear") return refuse(desk, `--fail-on takes ${failures.join(", ")}; it was given “${String(fails)}”.`);
  const workspace = openWorkspace(given.paths.length === 0 ? ["."] : given.paths, desk.cwd);
  for (const it of workspace.refused) desk.err(`splitpin: ${it.shown} ${it.why}.\n`);
  const diagnostics = workspace.sheets.flatMap((sheet) => checkFile(workspace.files, sheet.path));

  const checked: CheckedSheets = {
    diagnostics,
    shown: workspace.shown,
    sheets: workspace.sheets.map((it) => it.shown),
    refused: workspace.refused,
    version: desk.version,
  };
  if (given.values.format === "json") desk.out(json({ diagnostics: diagnostics.map((it) => checkJson(it, workspace.shown)) }));
  else if (given.values.format === "sarif") desk.out(sarif(checked));
  else if (given.values.format === "junit") desk.out(junit(checked));
  else if (workspace.sheets.length > 0) desk.out(drawDiagnostics(diagnostics, workspace, desk));

  if (workspace.refused.length > 0) return 2;
  const failing = fails === "unclear" ? diagnostics.filter(isUnclear) : diagnostics;
  return failing.some((it) => it.severity === "error") ? 1 : 0;
}

const unclear: ReadonlySet<string> = new Set(rules.filter((it) => it.group === "Writing" || it.group === "Units and figures").map((it) => it.id));

/** A line or a figure that does not say for certain what it means, or a release that does not hold: a machine that is apart is no reason to keep its sheet back. */
function isUnclear(it: Diagnostic): boolean {
  return unclear.has(it.rule) || it.rule === "release-blocked";
}
