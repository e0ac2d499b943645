// `splitpin order`: the parts order of the jobs that were given, drawn as it was asked for.
// Invariant: no order is printed where a sheet could not be read, for a part might be missing from it.
import { resolve } from "node:path";
import { openWorkspace } from "../disk/workspace.ts";
import { writeWhole } from "../disk/write-whole.ts";
import { orderCsv } from "../reports/order-csv.ts";
import { orderHtml } from "../reports/order-html.ts";
import { orderJson } from "../reports/order-json.ts";
import { orderMarkdown } from "../reports/order-markdown.ts";
import { orderTable } from "../reports/order-table.ts";
import { type OrderReport, partsOrder } from "../reports/order.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./run.ts";

export function orderCommand(given: Given, desk: Desk): ExitCode {
  const workspace = openWorkspace(given.paths.length === 0 ? ["."] : given.paths, desk.cwd);
  for (const it of workspace.refused) desk.err(`splitpin: ${it.shown} ${it.why}.\n`);
  if (workspace.refused.length > 0) return 2;

  // A data file is there for others to use; on its own it is no job.
  const jobs = workspace.sheets.filter(({ path }) => {
    const sheet = workspace.files.read(path);
    return typeof sheet !== "string" && sheet.entries.some((entry) => entry.kind === "sheet");
  });
  const paths = (jobs.length === 0 ? workspace.sheets : jobs).map((it) => it.path);
  const report = asShown(partsOrder(workspace.files, paths), workspace.shown);
  const text = draw(report, String(given.values.format ?? "table"), desk);

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

function draw(report: OrderReport, format: string, desk: Desk): string {
  switch (format) {
    case "md":
      return orderMarkdown(report);
    case "csv":
      return orderCsv(report);
    case "html":
      return orderHtml(report);
    case "json":
      return orderJson(report);
    default:
      return orderTable(report, desk.width);
  }
}

/** The report with its files named as the writer knows them. */
function asShown(report: OrderReport, shown: (path: string) => string): OrderReport {
  const named = <T extends { readonly file: string }>(it: T): T => ({ ...it, file: shown(it.file) });
  return {
    ...report,
    jobs: report.jobs.map(named),
    lines: report.lines.map((line) => ({ ...line, why: line.why.map(named) })),
    surplus: report.surplus.map(named),
    waiting: report.waiting.map(named),
  };
}
