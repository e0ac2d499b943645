// The reports of a sheet as commands that any editor can ask for: the page, the values and the text, and where the files are to which its rows lead.
import { today } from "../disk/today.ts";
import type { Files } from "../model/files.ts";
import { asJson } from "../reports/as-json.ts";
import { leftHtml } from "../reports/left-html.ts";
import { leftMarkdown } from "../reports/left-markdown.ts";
import { leftText } from "../reports/left-text.ts";
import { leftReport } from "../reports/left.ts";
import { orderHtml } from "../reports/order-html.ts";
import { orderJson } from "../reports/order-json.ts";
import { orderMarkdown } from "../reports/order-markdown.ts";
import { partsOrder } from "../reports/order.ts";
import { planHtml } from "../reports/plan-html.ts";
import { planMarkdown } from "../reports/plan-markdown.ts";
import { planText } from "../reports/plan-text.ts";
import { planReport } from "../reports/plan.ts";
import { readingsHtml } from "../reports/readings-html.ts";
import { readingsMarkdown } from "../reports/readings-markdown.ts";
import { readingsText } from "../reports/readings-text.ts";
import { readingsReport } from "../reports/readings.ts";
import { releaseHtml } from "../reports/release-html.ts";
import { releaseJson } from "../reports/release-json.ts";
import { releaseMarkdown } from "../reports/release-markdown.ts";
import { releaseReport } from "../reports/release.ts";
import { shimsHtml } from "../reports/shims-html.ts";
import { shimsMarkdown } from "../reports/shims-markdown.ts";
import { shimsText } from "../reports/shims-text.ts";
import { shimReport } from "../reports/shims.ts";
import { wayBackHtml } from "../reports/way-back-html.ts";
import { wayBackMarkdown } from "../reports/way-back-markdown.ts";
import { wayBack } from "../reports/way-back.ts";
import { usualHours } from "../walk/plan.ts";
import type { Located, Workspaces } from "./workspaces.ts";

export interface ReportAnswer {
  /** A whole page: rows carry `data-file` and `data-line`, lines from 1. */
  readonly html: string;
  /** As the command line prints it with `--format json`. */
  readonly json: unknown;
  readonly markdown: string;
  /** As the command line prints it; of the way back, what a sheet would hold, ready to be written into it. */
  readonly text?: string;
  /** The URI of each file that rows lead to, by the name that they give it. */
  readonly files: Readonly<Record<string, string>>;
}

/** By the name of the command, whose argument is the URI of a sheet. */
export const reportCommands: Readonly<Record<string, (uri: string, workspaces: Workspaces) => ReportAnswer | undefined>> = {
  "splitpin.order": orderFor,
  "splitpin.release": releaseFor,
  "splitpin.readings": ofOneJob({ of: readingsReport, html: readingsHtml, markdown: readingsMarkdown, text: readingsText }),
  "splitpin.wayBack": ofOneJob({ of: wayBack, html: wayBackHtml, markdown: wayBackMarkdown, text: (report) => report.sheet }),
  "splitpin.left": ofOneJob({ of: leftReport, html: leftHtml, markdown: leftMarkdown, text: leftText }),
  "splitpin.plan": ofOneJob({
    of: (files, path) => planReport(files, [path], { from: today(), hoursADay: usualHours }),
    html: planHtml,
    markdown: planMarkdown,
    text: planText,
  }),
  "splitpin.shims": ofOneJob({ of: shimReport, html: shimsHtml, markdown: shimsMarkdown, text: shimsText }),
};

interface OneJob<R> {
  of(files: Files, path: string): R | undefined;
  html(report: R): string;
  markdown(report: R): string;
  text(report: R): string;
}

/** A report that is a value of one sheet: whatever in it names a file leads there. */
function ofOneJob<R>(report: OneJob<R>): (uri: string, workspaces: Workspaces) => ReportAnswer | undefined {
  return (uri, workspaces) => {
    const at = workspaces.locate(uri);
    const value = report.of(at.root.files, at.path);
    if (value === undefined) return undefined;
    const files = [...filesNamed(value)].map((file) => ({ file }));
    return {
      html: report.html(value),
      json: JSON.parse(asJson([value])),
      markdown: report.markdown(value),
      text: report.text(value),
      files: filesOf([files], at, workspaces),
    };
  };
}

function filesNamed(value: unknown, into = new Set<string>()): Set<string> {
  if (typeof value !== "object" || value === null) return into;
  for (const [key, it] of Object.entries(value)) {
    if (key === "file" && typeof it === "string") into.add(it);
    else filesNamed(it, into);
  }
  return into;
}

function orderFor(uri: string, workspaces: Workspaces): ReportAnswer {
  const at = workspaces.locate(uri);
  const report = partsOrder(at.root.files, [at.path]);
  const named = [report.jobs, report.lines.flatMap((it) => [...it.why, ...it.jobs]), report.surplus, report.waiting, report.work];
  return { html: orderHtml(report), json: JSON.parse(orderJson(report)), markdown: orderMarkdown(report), files: filesOf(named, at, workspaces) };
}

function releaseFor(uri: string, workspaces: Workspaces): ReportAnswer | undefined {
  const at = workspaces.locate(uri);
  const report = releaseReport(at.root.files, at.path);
  if (report === undefined) return undefined;
  const named = [report.open, report.rechecks, report.concessions, report.tests, report.found, report.done, report.readings, report.fitted];
  return { html: releaseHtml(report), json: JSON.parse(releaseJson([report])), markdown: releaseMarkdown(report), files: filesOf(named, at, workspaces) };
}

function filesOf(named: readonly (readonly { readonly file: string }[])[], at: Located, workspaces: Workspaces): Record<string, string> {
  const files = new Set([at.path, ...named.flatMap((list) => list.map((it) => it.file))]);
  return Object.fromEntries([...files].map((file) => [file, workspaces.uriOf(at.root, file)]));
}
