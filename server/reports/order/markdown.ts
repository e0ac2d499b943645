// The parts order as Markdown: tables and lists that any reader of it shows alike, each reason a link to its line.
// Invariant: what is written in a sheet is text there, never a link, a picture, a heading or markup.
import { hrefOf } from "../draw/html.ts";
import {
  causesOf,
  choiceWords,
  jobByJobWords,
  jobsWords,
  lotsWords,
  nameWords,
  nothingWords,
  orderCaution,
  countColumns,
  fromWords,
  priceWords,
  quantityWords,
  sumAt,
  sumColumns,
  sumNotes,
  titleOf,
  toOrderWords,
  togetherWords,
  warningWords,
  whereWords,
} from "./words.ts";
import { listsOfOrder } from "./lists.ts";
import type { OrderReport, OrderRow } from "./order-report.ts";
import { proseInMarkdown as text } from "../draw/prose.ts";

export function orderMarkdown(report: OrderReport): string {
  const out: string[] = [`# ${text(titleOf(report))}`, ""];
  const machines = report.jobs.flatMap((it) => (it.machine === null ? [] : [text(it.machine)]));
  if (machines.length > 0) out.push(machines.join("; "), "");
  for (const it of warningWords(report)) out.push(`**${text(it)}**`, "");
  if (report.lines.length === 0) out.push(nothingWords(report), "");
  else {
    const counts = countColumns(report);
    const head = ["What", "Where", "Needed", ...counts.map(([name]) => name), "To order", "From", "Their number", "Price", "Total", "Lead"];
    const right = new Set(["Needed", "In stock", "On order", "On hold", "To order", "Price", "Total"]);
    out.push(`| ${head.join(" | ")} |`, `|${head.map((it) => (right.has(it) ? "--:" : "---")).join("|")}|`, ...report.lines.map((it) => row(it, counts)), "");
    out.push("## Why", "");
    for (const it of report.lines) {
      const jobs = jobsWords(it, report);
      out.push(`- **${text(nameWords(it).trim())}**${jobs === "" ? "" : text(`, for ${jobs}`)}`);
      for (const words of lotsWords(it)) out.push(`  - ${text(words)}`);
      for (const cause of causesOf(it))
        out.push(`  - ${text(cause.text)} (${cause.lines.map((why) => `[${text(`${why.file}:${why.line}`)}](${link(why.file, why.line)})`).join(", ")})`);
      for (const note of it.notes) out.push(`  - ${text(note)}`);
    }
    out.push("");
  }
  if (report.suppliers.length > 0) {
    const parts = sumColumns(report);
    out.push("## Sums", "", `| Supplier |${parts.map((it) => ` ${it} |`).join("")} Total | |`, `|---|${parts.map(() => "--:|").join("")}--:|---|`);
    for (const it of report.suppliers)
      out.push(`| ${text(it.name)} |${parts.map((part) => ` ${sumAt(it, part) ?? "–"} |`).join("")} ${it.total} | ${text(it.currency)} |`);
    out.push("");
    const notes = report.suppliers.flatMap((it) => sumNotes(it).map((note) => `- ${text(it.name)}: ${text(note)}`));
    if (notes.length > 0) out.push(...notes, "");
  }
  const together = togetherWords(report);
  if (together !== undefined) out.push(text(together), "");
  const choice = choiceWords(report);
  if (choice.length > 0) out.push("## How it was chosen", "", ...choice.map((it) => `- ${text(it)}`), "");
  const byJob = jobByJobWords(report);
  if (byJob !== undefined) out.push(text(byJob), "");
  for (const { title, rows } of listsOfOrder(report, ["Job by job", "Errors in the sheet"]))
    out.push(
      `## ${title}`,
      "",
      ...rows.map((it) => `- ${text(it.words)}${it.file === undefined ? "" : ` ([${text(`${it.file}:${it.line}`)}](${link(it.file, it.line ?? 1)}))`}`),
      "",
    );
  out.push(text(orderCaution), "");
  return out.join("\n");
}

function row(it: OrderRow, counts: ReturnType<typeof countColumns>): string {
  const cells = [
    nameWords(it),
    whereWords(it),
    quantityWords(it.need, it.unit),
    ...counts.map(([, of]) => quantityWords(of(it), it.unit)),
    toOrderWords(it),
    fromWords(it),
    it.number ?? "",
    priceWords(it),
    it.total === null ? "–" : `${it.total} ${it.currency ?? ""}`,
    it.lead ?? "",
  ];
  return `| ${cells.map(text).join(" | ")} |`;
}

/** Brackets and parentheses would end the link. */
function link(file: string, line: number): string {
  return hrefOf(file, line).replace(/[()]/g, (it) => `%${it.charCodeAt(0).toString(16)}`);
}
