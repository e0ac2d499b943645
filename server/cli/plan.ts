// `splitpin plan`: what can be done today, what it waits for, and when the jobs that were given can be finished.
// Invariant: the day is read here, at the door, and nowhere further in. No plan is printed where a sheet could not be read.
import { today } from "../disk/today.ts";
import { openWorkspace } from "../disk/workspace.ts";
import { isDay } from "../quantities/days.ts";
import { asJson } from "../reports/draw/as-json.ts";
import { planHtml } from "../reports/plan/html.ts";
import { planMarkdown } from "../reports/plan/markdown.ts";
import { planText } from "../reports/plan/text.ts";
import { type PlanReport, planReport } from "../reports/plan/plan.ts";
import { usualHours } from "../plan/plan.ts";
import { deliver, jobsIn } from "./deliver.ts";
import { asShown } from "./job-report.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./run.ts";

export function planCommand(given: Given, desk: Desk): ExitCode {
  const from = given.values.from === undefined ? today() : String(given.values.from);
  if (!isDay(from)) return refuse(desk, `--from takes a day, year, month, day, as in 2026-06-01; it was given “${from}”.`);
  const hours = given.values.hours === undefined ? usualHours : Number(given.values.hours);
  if (!Number.isInteger(hours) || hours < 1 || hours > 24)
    return refuse(desk, `--hours takes the hours of work a day has, 1 to 24; it was given “${String(given.values.hours)}”.`);
  const workspace = openWorkspace(given.paths.length === 0 ? ["."] : given.paths, desk.cwd);
  for (const it of workspace.refused) desk.err(`splitpin: ${it.shown} ${it.why}.\n`);
  if (workspace.refused.length > 0) return 2;
  const report = planReport(workspace.files, jobsIn(workspace), { from, hoursADay: hours });
  if (report === undefined) return refuse(desk, "There is no job sheet here.");
  return deliver(draw(asShown(report, workspace.shown), String(given.values.format ?? "text")), given, desk);
}

function draw(report: PlanReport, format: string): string {
  if (format === "json") return asJson([report]);
  return format === "md" ? planMarkdown(report) : format === "html" ? planHtml(report) : planText(report);
}
