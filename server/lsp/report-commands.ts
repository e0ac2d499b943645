// The reports of a sheet as commands that any editor can ask for: the page, the values and the text, and where the files are to which its rows lead.
import { orderHtml } from "../reports/order-html.ts";
import { orderJson } from "../reports/order-json.ts";
import { orderMarkdown } from "../reports/order-markdown.ts";
import { partsOrder } from "../reports/order.ts";
import { releaseHtml } from "../reports/release-html.ts";
import { releaseJson } from "../reports/release-json.ts";
import { releaseMarkdown } from "../reports/release-markdown.ts";
import { releaseReport } from "../reports/release.ts";
import type { Located, Workspaces } from "./workspaces.ts";

export interface ReportAnswer {
  /** A whole page: rows carry `data-file` and `data-line`, lines from 1. */
  readonly html: string;
  /** As the command line prints it with `--format json`. */
  readonly json: unknown;
  readonly markdown: string;
  /** The URI of each file that rows lead to, by the name that they give it. */
  readonly files: Readonly<Record<string, string>>;
}

/** By the name of the command, whose argument is the URI of a sheet. */
export const reportCommands: Readonly<Record<string, (uri: string, workspaces: Workspaces) => ReportAnswer | undefined>> = {
  "splitpin.order": orderFor,
  "splitpin.release": releaseFor,
};

function orderFor(uri: string, workspaces: Workspaces): ReportAnswer {
  const at = workspaces.locate(uri);
  const report = partsOrder(at.root.files, [at.path]);
  const named = [report.jobs, report.lines.flatMap((it) => it.why), report.surplus, report.waiting];
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
