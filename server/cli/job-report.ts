// A command that draws one report of each job given: shared by the reports that are a value of one sheet.
// Invariant: nothing is printed where a sheet could not be read; files are named as the writer knows them.
import { openWorkspace } from "../disk/workspace.ts";
import type { Files } from "../model/files.ts";
import { asJson } from "../reports/draw/as-json.ts";
import { deliver, jobsIn } from "./deliver.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./run.ts";

export interface JobReport<R> {
  of(files: Files, path: string): R | undefined;
  text(report: R): string;
  markdown(report: R): string;
  html(report: R): string;
}

/** Ends with 0 where it was drawn, 2 where it could not be. */
export function jobReportCommand<R>(report: JobReport<R>): (given: Given, desk: Desk) => ExitCode {
  return (given, desk) => {
    const workspace = openWorkspace(given.paths.length === 0 ? ["."] : given.paths, desk.cwd);
    for (const it of workspace.refused) desk.err(`splitpin: ${it.shown} ${it.why}.\n`);
    if (workspace.refused.length > 0) return 2;
    const values = jobsIn(workspace).flatMap((path) => {
      const value = report.of(workspace.files, path);
      return value === undefined ? [] : [asShown(value, workspace.shown)];
    });
    if (values.length === 0) return refuse(desk, "There is no job sheet here.");
    const format = String(given.values.format ?? "text");
    if (format === "html" && values.length > 1) return refuse(desk, "A page holds one job. Name its sheet.");
    const draw = format === "md" ? report.markdown : format === "html" ? report.html : report.text;
    return deliver(format === "json" ? asJson(values) : values.map(draw).join("\n"), given, desk);
  };
}

/** Every `file` of a report, however deep, as the writer knows it. */
export function asShown<T>(value: T, shown: (path: string) => string): T {
  if (Array.isArray(value)) return value.map((it) => asShown(it, shown)) as T;
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, it]) => [key, key === "file" && typeof it === "string" ? shown(it) : asShown(it, shown)])) as T;
}
