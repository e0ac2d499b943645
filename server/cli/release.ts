// `splitpin release`: what stands between a machine and the road, drawn as it was asked for.
// Invariant: 0 only where every job was released with nothing open; a sheet that could not be read gives no verdict.
import { openWorkspace } from "../disk/workspace.ts";
import { releaseHtml } from "../reports/release/html.ts";
import { releaseJson } from "../reports/release/json.ts";
import { releaseMarkdown } from "../reports/release/markdown.ts";
import { releaseText } from "../reports/release/text.ts";
import { releaseReport } from "../reports/release/release.ts";
import { photosInPage } from "../disk/photos-in-page.ts";
import { deliver, jobsIn } from "./deliver.ts";
import { asShown } from "./job-report.ts";
import { type Desk, type ExitCode, type Given, refuse } from "./run.ts";

export function releaseCommand(given: Given, desk: Desk): ExitCode {
  const workspace = openWorkspace(given.paths.length === 0 ? ["."] : given.paths, desk.cwd);
  for (const it of workspace.refused) desk.err(`splitpin: ${it.shown} ${it.why}.\n`);
  if (workspace.refused.length > 0) return 2;
  const reports = jobsIn(workspace).flatMap((path) => {
    const report = releaseReport(workspace.files, path);
    return report === undefined ? [] : [asShown(report, workspace.shown)];
  });
  if (reports.length === 0) return refuse(desk, "There is no job sheet here to be released.");
  const format = String(given.values.format ?? "text");
  if (format === "html" && reports.length > 1) return refuse(desk, "A page holds one job. Name its sheet.");
  const text =
    format === "json"
      ? releaseJson(reports)
      : reports
          .map((report) =>
            format === "md" ? releaseMarkdown(report) : format === "html" ? releaseHtml(report, photosInPage(workspace.files)) : releaseText(report),
          )
          .join("\n");
  const delivered = deliver(text, given, desk);
  return delivered === 0 && !reports.every((it) => it.released) ? 1 : delivered;
}
