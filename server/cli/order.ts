// `splitpin order`: the parts order of the jobs that were given, drawn as it was asked for.
// Invariant: no order is printed where a sheet could not be read, for a part might be missing from it.
import { loadSolver } from "../disk/load-solver.ts";
import { openWorkspace } from "../disk/workspace.ts";
import { orderCsv } from "../reports/order/csv.ts";
import { orderHtml } from "../reports/order/html.ts";
import { orderJson } from "../reports/order/json.ts";
import { orderLetter, suppliersToWrite } from "../reports/order/letter.ts";
import { orderMarkdown } from "../reports/order/markdown.ts";
import { orderTable } from "../reports/order/table.ts";
import { type OrderReport, partsOrder } from "../reports/order/order.ts";
import { plain } from "../reports/draw/plain.ts";
import { type Way, waysToChoose } from "../supply/choose.ts";
import { deliver, jobsIn } from "./deliver.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./run.ts";

export async function orderCommand(given: Given, desk: Desk): Promise<ExitCode> {
  const workspace = openWorkspace(given.paths.length === 0 ? ["."] : given.paths, desk.cwd);
  for (const it of workspace.refused) desk.err(`splitpin: ${it.shown} ${it.why}.\n`);
  if (workspace.refused.length > 0) return 2;

  const way = given.values.choose;
  if (way !== undefined && !isWay(way)) return refuse(desk, `--choose takes ${waysToChoose.join(", ")}; it was given “${String(way)}”.`);
  const choosing = way === undefined ? undefined : { way, solver: await loadSolver() };
  const report = asShown(partsOrder(workspace.files, jobsIn(workspace), choosing), workspace.shown);
  const format = String(given.values.format ?? "table");
  if (format === "letter") return letter(report, given, desk);
  if (given.values.supplier !== undefined) return refuse(desk, "--supplier goes with --format letter.");
  return deliver(draw(report, format, desk), given, desk);
}

function isWay(word: string | boolean): word is Way {
  return waysToChoose.some((way) => way === word);
}

function letter(report: OrderReport, given: Given, desk: Desk): ExitCode {
  const suppliers = suppliersToWrite(report);
  const list = suppliers.length === 0 ? "Nothing is to be ordered from anybody." : `There is something to order from ${suppliers.map(plain).join(", ")}.`;
  const asked = given.values.supplier;
  // Where there is only one it need not be named.
  const supplier = typeof asked === "string" ? asked : suppliers.length === 1 ? suppliers[0] : undefined;
  if (supplier === undefined) return refuse(desk, `A letter goes to one supplier: name it with --supplier. ${list}`);
  const text = orderLetter(report, supplier);
  return text === undefined ? refuse(desk, `Nothing is to be ordered from “${supplier}”. ${list}`) : deliver(text, given, desk);
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
    errors: report.errors.map(named),
    undecided: report.undecided.map(named),
    onHold: report.onHold === null ? null : { ...report.onHold, orders: report.onHold.orders.map(named) },
    jobs: report.jobs.map(named),
    lines: report.lines.map((line) => ({
      ...line,
      priceList: line.priceList === null ? null : named(line.priceList),
      lots: line.lots.map((lot) => (lot.priceList === null ? lot : { ...lot, priceList: named(lot.priceList) })),
      jobs: line.jobs.map(named),
      why: line.why.map(named),
    })),
    lists: report.lists.map(named),
    work: report.work.map(named),
    surplus: report.surplus.map(named),
    waiting: report.waiting.map(named),
  };
}
