// Plans of sheets that stand in a test, and what is compared of them.
import { runThrough } from "../../grammar/slices.ts";
import { type PlanReport, planning } from "../../server/reports/plan/plan.ts";
import { filesFrom } from "./sheets.ts";

export const monday = "2026-06-01";

export function planFrom(texts: Readonly<Record<string, string>>, paths: readonly string[], from = monday, hoursADay = 8): PlanReport {
  return runThrough(planning(filesFrom(texts), paths, { from, hoursADay })) as PlanReport;
}

export function planOfText(text: string, from = monday, hoursADay = 8): PlanReport {
  return planFrom({ "job.jobsheet": text }, ["job.jobsheet"], from, hoursADay);
}

/** step -> its state */
export function statesOf(report: PlanReport): Record<string, string> {
  return Object.fromEntries(report.steps.map((it) => [[it.step, ...(it.places.length === 0 ? [] : [it.places.join("+")])].join(" "), it.state]));
}

/** step -> what it waits for: names of steps, else the words. */
export function waitsOfStep(report: PlanReport, step: string): string[] {
  return report.steps.filter((it) => it.step === step).flatMap((it) => it.waitsFor.map((wait) => wait.step ?? `${wait.kind}: ${wait.text}`));
}

/** A network as a sheet: each step with how long it takes and what it comes after. */
export function sheetOf(network: Readonly<Record<string, readonly [takes: string, after: readonly string[]]>>): string {
  const steps = Object.entries(network).map(
    ([name, [takes, after]]) => `step ${name} "${name}"\n  takes ${takes}\n${after.length === 0 ? "" : `  after ${after.join(", ")}\n`}`,
  );
  return `sheet "Network"\n${steps.join("")}`;
}
