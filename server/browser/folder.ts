// The door for a page in a browser: a folder of sheets as texts in memory, and what the other doors make of it.
// Invariant: nothing is read but the texts that were given; nothing is fetched or kept.
import { formatSheet } from "../../grammar/format.ts";
import { type SheetText, readSheet } from "../../grammar/sheet-text.ts";
import { type Answer, figure } from "../features/figure.ts";
import type { Files, PriceFile } from "../model/files.ts";
import { type CheckJson, checkJson } from "../reports/check/json.ts";
import { orderHtml } from "../reports/order/html.ts";
import { orderJson } from "../reports/order/json.ts";
import { partsOrder } from "../reports/order/order.ts";
import { releaseHtml } from "../reports/release/html.ts";
import { releaseJson } from "../reports/release/json.ts";
import { releaseReport } from "../reports/release/release.ts";
import type { Choosing } from "../supply/choose.ts";
import { createChecker } from "../rules/check.ts";

export interface Folder {
  /** Puts a sheet or a price list (`.csv`) in, in place of one of the same path. */
  put(path: string, text: string): void;
  /** As `splitpin check --format json` tells it. Empty where there is no such sheet. */
  check(path: string): readonly CheckJson[];
  /** The parts order of the sheets named, as a page or as JSON. `choosing` names a way to choose and the solver, which `solver.js` beside this module loads. */
  order(paths: readonly string[], format: "html" | "json", choosing?: Choosing): string;
  /** What stands in the way of release, as a page or as JSON. Undefined where there is no such sheet. */
  release(path: string, format: "html" | "json"): string | undefined;
}

/** Paths are joined by `/`, without `.` and `..`. */
export function openFolder(texts: Readonly<Record<string, string>>): Folder {
  const sheets = new Map<string, SheetText>();
  const lists = new Map<string, PriceFile>();
  const put = (path: string, text: string) => {
    if (/\.csv$/i.test(path)) lists.set(path, { text });
    else sheets.set(path, readSheet(text));
  };
  for (const [path, text] of Object.entries(texts)) put(path, text);
  const files: Files = { read: (path) => sheets.get(path) ?? "missing", jobsheets: () => [...sheets.keys()], prices: (path) => lists.get(path) ?? "missing" };
  const checker = createChecker();
  const asGiven = (path: string) => path;

  return {
    put,
    check: (path) => checker.check(files, path).map((it) => checkJson(it, asGiven)),
    order(paths, format, choosing) {
      const report = partsOrder(files, paths, choosing);
      return format === "html" ? orderHtml(report) : orderJson(report);
    },
    release(path, format) {
      const report = releaseReport(files, path);
      if (report === undefined) return undefined;
      return format === "html" ? releaseHtml(report) : releaseJson([report]);
    },
  };
}

/** The layout of `splitpin format`. */
export function format(text: string): string {
  return formatSheet(text);
}

/** The answer of `splitpin figure`. */
export function ask(question: string): Answer {
  return figure(question);
}
