// How a job was left, as Markdown: every text from a sheet is written so that it is read as itself.
import { machineWords, recordOnly } from "../draw/heading.ts";
import { leftWords, meanings } from "./words.ts";
import type { LeftReport } from "./left.ts";
import { placeOf } from "../draw/markdown-place.ts";
import { text } from "../draw/markdown-text.ts";

export function leftMarkdown(report: LeftReport): string {
  const out = [`# ${text(`How it was left: ${report.title}`)}`, "", ...(machineWords(report) === "" ? [] : [text(machineWords(report)), ""])];
  for (const left of report.pauses) {
    out.push(`## ${text(left.when)}`, "", `${text(leftWords(left))} ${placeOf(left)}`, "");
    for (const group of left.groups) out.push(`### ${text(meanings[group.name])}`, "", ...group.rows.map((it) => `- ${text(it.text)} ${placeOf(it)}`), "");
    if (left.next.length > 0) out.push("### Next", "", ...left.next.map((it) => `- ${text(it.text)} ${placeOf(it)}`), "");
  }
  if (report.cautions.length > 0) out.push("## Cautions", "", ...report.cautions.map((it) => `- ${text(it.words)} (${text(it.source)})`), "");
  out.push(text(recordOnly), "");
  return out.join("\n");
}
