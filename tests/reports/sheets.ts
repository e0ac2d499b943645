// Sheets by name, for tests of what is worked out from them.
import { type SheetText, readSheet } from "../../grammar/sheet-text.ts";
import type { Files, PriceFile } from "../../server/model/files.ts";
import { standingStill } from "../../server/model/job.ts";
import { reread } from "../reread.ts";
import { asMarkdown } from "../../server/reports/draw/as-markdown.ts";
import { orderSections } from "../../server/reports/order/sections.ts";
import type { OrderReport } from "../../server/reports/order/order-report.ts";
import { asPage, partsOrder } from "../in-one-go.ts";

/** What was read last under each path: the next text there is most often nearly the same. */
const latest = new Map<string, SheetText>();

/** Files that stand in a test. Whatever is asked of the same is asked of one job. */
export function filesFrom(texts: Readonly<Record<string, string>>): Files {
  const read = new Map<string, SheetText>();
  const lists = new Map<string, PriceFile>();
  return standingStill({
    read(path) {
      const text = texts[path];
      if (text === undefined) return "missing";
      const before = latest.get(path);
      const sheet = read.get(path) ?? (before === undefined ? readSheet(text) : reread(before, text));
      read.set(path, sheet);
      latest.set(path, sheet);
      return sheet;
    },
    prices(path) {
      const text = texts[path];
      if (text === undefined) return "missing";
      const list = lists.get(path) ?? { text };
      lists.set(path, list);
      return list;
    },
  });
}

export function orderOf(text: string, others: Readonly<Record<string, string>> = {}): OrderReport {
  return partsOrder(filesFrom({ ...others, "job.jobsheet": text }), ["job.jobsheet"]);
}

/** What is compared of each row: the item, how many needed, in stock, on order, to order, how many packs, and what they cost. */
export function rowsOf(report: OrderReport): string[] {
  const figure = (it: string | null, unit: string | null) => (it === null ? "-" : unit === null ? it : `${it} ${unit}`);
  return report.lines.map((row) =>
    [
      row.item,
      figure(row.need, row.unit),
      figure(row.stock, row.unit),
      figure(row.onOrder, row.unit),
      figure(row.toOrder, row.orderUnit),
      row.packs ?? "-",
      row.total === null ? "-" : `${row.total} ${row.currency}`,
    ].join(" | "),
  );
}

/** The text of the line that a reason names. */
export function linesNamed(report: OrderReport, item: string, text: string): string[] {
  const lines = text.split("\n");
  return report.lines.filter((row) => row.item === item).flatMap((row) => row.why.map((why) => `${(lines[why.line - 1] ?? "").trim()} <- ${why.text}`));
}

export function orderHtml(report: OrderReport): string {
  return asPage(orderSections(report));
}

export function orderMarkdown(report: OrderReport): string {
  return asMarkdown(orderSections(report));
}
