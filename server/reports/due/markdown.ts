// What is due, as Markdown: every text from a sheet is written so that it is read as itself.
import { recordOnly } from "../draw/heading.ts";
import { placeOf } from "../draw/markdown-place.ts";
import { text } from "../order/markdown.ts";
import type { DueReport } from "./shapes.ts";
import { byGroup, countedFrom, dueHeadline, machineLine, ofMachine } from "./words.ts";

export function dueMarkdown(report: DueReport): string {
  const out = [`# ${text(`What is due on ${report.day}: ${report.title}`)}`, "", text(dueHeadline(report)), ""];
  for (const { group, rows } of byGroup(report)) {
    out.push(`## ${text(group)}`, "");
    for (const it of rows) {
      const machine = ofMachine(it, report);
      out.push(`- ${text(it.text)}${machine === "" ? "" : ` (${text(machine)})`} ${placeOf(it)}`, ...it.details.map((detail) => `  - ${text(detail)}`));
    }
    out.push("");
  }
  out.push("## Next", "", ...report.machines.map((it) => `- ${text(machineLine(it))}: ${text(it.next)} ${placeOf(it)}`), "");
  out.push(text(countedFrom(report)), "", text(recordOnly), "");
  return out.join("\n");
}
