// The parts order as Markdown: tables and lists that any reader of it shows alike, each reason a link to its line.
// Invariant: what is written in a sheet is text there, never a link, a picture, a heading or markup.
import { hrefOf } from "../draw/html.ts";
import {
  backWords,
  choiceWords,
  hasExchange,
  jobsWords,
  listWords,
  nameWords,
  noSource,
  nothingToGet,
  orderCaution,
  priceWords,
  quantityWords,
  surplusWords,
  titleOf,
  toOrderWords,
  togetherWords,
  waitingWords,
  whereWords,
  workWords,
} from "./words.ts";
import type { OrderReport, OrderRow } from "./order.ts";
import { plain } from "../draw/plain.ts";

export function orderMarkdown(report: OrderReport): string {
  const out: string[] = [`# ${text(titleOf(report))}`, ""];
  const machines = report.jobs.flatMap((it) => (it.machine === null ? [] : [text(it.machine)]));
  if (machines.length > 0) out.push(machines.join("; "), "");
  if (report.lines.length === 0) out.push(nothingToGet, "");
  else {
    out.push(
      "| What | Where | Needed | In stock | On order | To order | From | Their number | Price | Total | Lead |",
      "|---|---|--:|--:|--:|--:|---|---|--:|--:|---|",
      ...report.lines.map(row),
      "",
    );
    out.push("## Why", "");
    for (const it of report.lines) {
      const jobs = jobsWords(it, report);
      out.push(`- **${text(nameWords(it).trim())}**${jobs === "" ? "" : text(`, for ${jobs}`)}`);
      for (const why of it.why) out.push(`  - ${text(why.text)} ([${text(`${why.file}:${why.line}`)}](${link(why.file, why.line)}))`);
      for (const note of it.notes) out.push(`  - ${text(note)}`);
    }
    out.push("");
  }
  if (report.suppliers.length > 0) {
    const exchange = hasExchange(report);
    out.push(
      "## Sums",
      "",
      `| Supplier | Goods |${exchange ? " Exchange |" : ""} Freight | Duty | Total | |`,
      `|---|--:|${exchange ? "--:|" : ""}--:|--:|--:|---|`,
    );
    for (const it of report.suppliers)
      out.push(`| ${text(it.name)} | ${it.goods} |${exchange ? ` ${it.exchange} |` : ""} ${it.freight} | ${it.duty} | ${it.total} | ${text(it.currency)} |`);
    out.push("");
    for (const it of report.suppliers) {
      if (it.unpriced > 0) out.push(`- ${text(it.name)}: without ${it.unpriced} of which no price is known`);
    }
    if (report.suppliers.some((it) => it.unpriced > 0)) out.push("");
  }
  const together = togetherWords(report);
  if (together !== undefined) out.push(text(together), "");
  const choice = choiceWords(report);
  if (choice.length > 0) out.push("## How it was chosen", "", ...choice.map((it) => `- ${text(it)}`), "");
  if (report.back.length > 0) out.push("## To send back", "", ...report.back.map((it) => `- ${text(backWords(it))}`), "");
  list(out, "Work sent out", report.work, workWords);
  list(out, "Not needed after all", report.surplus, surplusWords);
  const without = noSource(report);
  if (without.length > 0)
    out.push(
      "## No source",
      "",
      ...without.map(
        (it) =>
          `- ${text(`${quantityWords(it.toOrder, it.orderUnit)} of ${nameWords(it)}`)}${it.makersNumber === null ? "" : text(`, maker's number ${it.makersNumber}`)}`,
      ),
      "",
    );
  list(out, "Waiting for an answer", report.waiting, waitingWords);
  if (report.lists.length > 0) out.push("## Price lists", "", ...report.lists.map((it) => `- ${text(listWords(it))}`), "");
  out.push(text(orderCaution), "");
  return out.join("\n");
}

function row(it: OrderRow): string {
  const cells = [
    nameWords(it),
    whereWords(it),
    quantityWords(it.need, it.unit),
    quantityWords(it.stock, it.unit),
    quantityWords(it.onOrder, it.unit),
    toOrderWords(it),
    it.supplierName ?? (it.standing === "no source" ? "no source" : "–"),
    it.number ?? "",
    priceWords(it),
    it.total === null ? "–" : `${it.total} ${it.currency ?? ""}`,
    it.lead ?? "",
  ];
  return `| ${cells.map(text).join(" | ")} |`;
}

function list<T extends { readonly file: string; readonly line: number }>(out: string[], title: string, rows: readonly T[], words: (it: T) => string): void {
  if (rows.length === 0) return;
  out.push(`## ${title}`, "", ...rows.map((it) => `- ${text(words(it))} ([${text(`${it.file}:${it.line}`)}](${link(it.file, it.line)}))`), "");
}

/** Brackets and parentheses would end the link. */
function link(file: string, line: number): string {
  return hrefOf(file, line).replace(/[()]/g, (it) => `%${it.charCodeAt(0).toString(16)}`);
}

/** Every sign that Markdown reads as more than itself is written so that it is read as itself. */
export function text(from: string): string {
  // Blanks at the front would make code of a line, or another depth of a list.
  return plain(from)
    .replace(/ {2,}/g, " ")
    .trimStart()
    .replace(/[\\`*_{}[\]<>#|~&!]/g, (it) => `\\${it}`)
    .replace(/^(\s*)([-+=]|\d+[.)](?=\s|$))/, (_, space: string, mark: string) => `${space}${mark.slice(0, -1)}\\${mark.slice(-1)}`)
    .replace(/:(?=\/\/)/g, "\\:")
    .replace(/@/g, "\\@")
    .replace(/\b(www)\./gi, "$1\\.");
}
