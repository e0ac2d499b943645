// The parts order of a sheet for an editor: the page, the values and the text, and where the files are to which its rows lead.
import { orderHtml } from "../reports/order-html.ts";
import { orderJson } from "../reports/order-json.ts";
import { orderMarkdown } from "../reports/order-markdown.ts";
import { partsOrder } from "../reports/order.ts";
import type { Workspaces } from "./workspaces.ts";

export interface OrderAnswer {
  /** A whole page: rows carry `data-file` and `data-line`, lines from 1. */
  readonly html: string;
  /** As `splitpin order --format json` prints it. */
  readonly json: unknown;
  readonly markdown: string;
  /** The URI of each file that rows lead to, by the name that they give it. */
  readonly files: Readonly<Record<string, string>>;
}

export function orderFor(uri: string, workspaces: Workspaces): OrderAnswer {
  const { root, path } = workspaces.locate(uri);
  const report = partsOrder(root.files, [path]);
  const named = [...report.jobs, ...report.lines.flatMap((it) => it.why), ...report.surplus, ...report.waiting].map((it) => it.file);
  return {
    html: orderHtml(report),
    json: JSON.parse(orderJson(report)),
    markdown: orderMarkdown(report),
    files: Object.fromEntries([path, ...named].map((file) => [file, workspaces.uriOf(root, file)])),
  };
}
