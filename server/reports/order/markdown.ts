// The parts order as Markdown: tables and lists that any reader of it shows alike, each reason a link to its line.
// Invariant: what is written in a sheet is text there, never a link, a picture, a heading or markup.
import { hrefOf } from "../draw/html.ts";
import {
  notOrderedWords,
  backWords,
  causesOf,
  choiceWords,
  jobByJobWords,
  jobsWords,
  listWords,
  lotsWords,
  nameWords,
  noSource,
  nothingWords,
  onHoldWords,
  orderCaution,
  countColumns,
  fromWords,
  priceWords,
  quantityWords,
  sumAt,
  sumColumns,
  sumNotes,
  surplusWords,
  titleOf,
  toOrderWords,
  togetherWords,
  waitingWords,
  warningWords,
  whereWords,
  workWords,
} from "./words.ts";
import type { OrderReport, OrderRow } from "./order.ts";
import { text } from "../draw/markdown-text.ts";

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
  if (report.onHold !== null) out.push("## On hold", "", ...onHoldWords(report.onHold).map((it) => `- ${text(it)}`), "");
  if (report.back.length > 0) out.push("## To send back", "", ...report.back.map((it) => `- ${text(backWords(it))}`), "");
  list(out, "Work sent out", report.work, workWords);
  list(out, "Came and was not ordered", report.notOrdered, notOrderedWords);
  list(out, "Not needed after all", report.surplus, surplusWords);
  const without = noSource(report);
  if (without.length > 0)
    out.push(
      "## Nobody offers it",
      "",
      ...without.map(
        (it) =>
          `- ${text(`${quantityWords(it.toOrder, it.orderUnit)} of ${nameWords(it)}`)}${it.makersNumber === null ? "" : text(`, maker's number ${it.makersNumber}`)}`,
      ),
      "",
    );
  list(out, "Not decided", report.undecided, (it) => it.text);
  list(out, "Waiting for an answer", report.waiting, waitingWords);
  if (report.lists.length > 0) out.push("## Price lists", "", ...report.lists.map((it) => `- ${text(listWords(it))}`), "");
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

function list<T extends { readonly file: string; readonly line: number }>(out: string[], title: string, rows: readonly T[], words: (it: T) => string): void {
  if (rows.length === 0) return;
  out.push(`## ${title}`, "", ...rows.map((it) => `- ${text(words(it))} ([${text(`${it.file}:${it.line}`)}](${link(it.file, it.line)}))`), "");
}

/** Brackets and parentheses would end the link. */
function link(file: string, line: number): string {
  return hrefOf(file, line).replace(/[()]/g, (it) => `%${it.charCodeAt(0).toString(16)}`);
}
