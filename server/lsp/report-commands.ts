// The reports of a sheet as commands that any editor can ask for: the page, the values and the text, and where the files are to which its rows lead.
import { today } from "../disk/today.ts";
import { addressOf, photosInPage } from "../disk/photos-in-page.ts";
import type { Files } from "../model/files.ts";
import { asJson } from "../reports/draw/as-json.ts";
import { leftHtml } from "../reports/left/html.ts";
import { leftMarkdown } from "../reports/left/markdown.ts";
import { leftText } from "../reports/left/text.ts";
import { leftReport } from "../reports/left/left.ts";
import { orderHtml } from "../reports/order/html.ts";
import { orderJson } from "../reports/order/json.ts";
import { orderMarkdown } from "../reports/order/markdown.ts";
import { partsOrder } from "../reports/order/order.ts";
import { planHtml } from "../reports/plan/html.ts";
import { planMarkdown } from "../reports/plan/markdown.ts";
import { planText } from "../reports/plan/text.ts";
import { planReport } from "../reports/plan/plan.ts";
import { readingsHtml } from "../reports/readings/html.ts";
import { readingsMarkdown } from "../reports/readings/markdown.ts";
import { readingsText } from "../reports/readings/text.ts";
import { readingsReport } from "../reports/readings/readings.ts";
import { type PhotoSource, releaseHtml } from "../reports/release/html.ts";
import { releaseJson } from "../reports/release/json.ts";
import { releaseMarkdown } from "../reports/release/markdown.ts";
import { releaseText } from "../reports/release/text.ts";
import { releaseReport } from "../reports/release/release.ts";
import { shimsHtml } from "../reports/shims/html.ts";
import { shimsMarkdown } from "../reports/shims/markdown.ts";
import { shimsText } from "../reports/shims/text.ts";
import { shimReport } from "../reports/shims/shims.ts";
import { wayBackHtml } from "../reports/way-back/html.ts";
import { wayBackMarkdown } from "../reports/way-back/markdown.ts";
import { wayBack } from "../reports/way-back/way-back.ts";
import type { Choosing } from "../supply/choose.ts";
import { usualHours } from "../plan/plan.ts";
import type { Located, Workspaces } from "./workspaces.ts";

export interface ReportAnswer {
  /** A whole page: rows carry `data-file` and `data-line`, lines from 1. */
  readonly html: string;
  /** As the command line prints it with `--format json`. This and the two below are left out where the page only is asked for. */
  readonly json?: unknown;
  readonly markdown?: string;
  /** As the command line prints it; of the way back, what a sheet would hold, ready to be written into it. */
  readonly text?: string;
  /** The URI of each file that rows lead to, by the name that they give it. */
  readonly files: Readonly<Record<string, string>>;
  /** The lines at which the entries of each start, from 1. */
  readonly entries: Readonly<Record<string, readonly number[]>>;
}

/** A report as an editor offers it: `command` takes the URI of a sheet, and `{ only: "page" }` from an editor that redraws a page as the sheet is typed; the order `{ choose: "cheapest" }` too. */
export interface ReportOffered {
  readonly name: string;
  readonly title: string;
  readonly command: string;
}

interface Wishes {
  /** Of the parts order: how the offers are chosen. */
  readonly choosing?: Choosing;
  /** The page and no other drawing of it; it names its photos, which are asked for one by one, and holds none of them. */
  readonly only?: "page";
}

type Report = (uri: string, workspaces: Workspaces, wishes: Wishes) => ReportAnswer | undefined;

/** By the name of the command, whose argument is the URI of a sheet. */
export const reportCommands: Readonly<Record<string, Report>> = {
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

/** In the order in which a page offers them. */
export const reportsOffered: readonly ReportOffered[] = [
  { name: "order", title: "Parts order", command: "splitpin.order" },
  { name: "release", title: "In the way", command: "splitpin.release" },
  { name: "readings", title: "Readings", command: "splitpin.readings" },
  { name: "plan", title: "Work for today", command: "splitpin.plan" },
  { name: "wayBack", title: "Way back", command: "splitpin.wayBack" },
  { name: "left", title: "How it was left", command: "splitpin.left" },
  { name: "shims", title: "Shims", command: "splitpin.shims" },
].filter((it) => Object.hasOwn(reportCommands, it.command));

interface OneJob<R> {
  of(files: Files, path: string): R | undefined;
  html(report: R): string;
  markdown(report: R): string;
  text(report: R): string;
}

/** A report that is a value of one sheet: whatever in it names a file leads there. */
function ofOneJob<R>(report: OneJob<R>): Report {
  return (uri, workspaces, { only }) => {
    const at = workspaces.locate(uri);
    const value = report.of(at.root.files, at.path);
    if (value === undefined) return undefined;
    const page = { html: report.html(value), ...leadsOf(value, at, workspaces) };
    return only === "page" ? page : { ...page, json: JSON.parse(asJson([value])), markdown: report.markdown(value), text: report.text(value) };
  };
}

function orderFor(uri: string, workspaces: Workspaces, { only, choosing }: Wishes): ReportAnswer {
  const at = workspaces.locate(uri);
  const report = partsOrder(at.root.files, [at.path], choosing);
  const page = { html: orderHtml(report), ...leadsOf(report, at, workspaces) };
  return only === "page" ? page : { ...page, json: JSON.parse(orderJson(report)), markdown: orderMarkdown(report) };
}

function releaseFor(uri: string, workspaces: Workspaces, { only }: Wishes): ReportAnswer | undefined {
  const at = workspaces.locate(uri);
  const { files } = at.root;
  const report = releaseReport(files, at.path);
  if (report === undefined) return undefined;
  const leads = leadsOf(report, at, workspaces);
  if (only === "page") return { html: releaseHtml(report, marksOf(files)), ...leads };
  return {
    html: releaseHtml(report, photosInPage(files)),
    ...leads,
    json: JSON.parse(releaseJson([report])),
    markdown: releaseMarkdown(report),
    text: releaseText(report),
  };
}

/** The marks of photos, by which an editor asks for each once. */
function marksOf(files: Files): PhotoSource {
  return (inside) => {
    const answer = files.photo?.(inside);
    return answer?.kind === "photo" ? { mark: answer.mark } : { whyNot: answer?.why ?? "can't be had here" };
  };
}

/** A photo beside a sheet as a `data:` address, for a page that holds none of its own. `inside` is its path in the workspace. */
export function photoFor(uri: string, workspaces: Workspaces, inside: string): string | undefined {
  const at = workspaces.locate(uri);
  const report = releaseReport(at.root.files, at.path);
  // Only what the sheet names as a photo is given.
  if (report === undefined || !report.photos.some((it) => it.inside === inside)) return undefined;
  const answer = at.root.files.photo?.(inside);
  return answer?.kind === "photo" ? addressOf(answer) : undefined;
}

/** Where whatever in a report names a file leads to. */
function leadsOf(report: unknown, at: Located, workspaces: Workspaces): Pick<ReportAnswer, "files" | "entries"> {
  const files: Record<string, string> = {};
  const entries: Record<string, readonly number[]> = {};
  for (const file of filesNamed(report, new Set([at.path]))) {
    files[file] = workspaces.uriOf(at.root, file);
    const sheet = at.root.files.read(file);
    if (typeof sheet !== "string") entries[file] = sheet.starts.map((it) => it + 1);
  }
  return { files, entries };
}

function filesNamed(value: unknown, into: Set<string>): Set<string> {
  if (typeof value !== "object" || value === null) return into;
  for (const [key, it] of Object.entries(value)) {
    if (key === "file" && typeof it === "string") into.add(it);
    else filesNamed(it, into);
  }
  return into;
}
