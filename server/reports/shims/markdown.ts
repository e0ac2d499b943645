// Shims as Markdown: every text from a sheet is written so that it is read as itself.
import { machineWords, recordOnly } from "../draw/heading.ts";
import { placeOf } from "../draw/markdown-place.ts";
import { text } from "../draw/markdown-text.ts";
import { shimFacts, shimTitle, stackLine, workedOutOnly } from "./words.ts";
import type { ShimReport } from "./shims.ts";

export function shimsMarkdown(report: ShimReport): string {
  const out = [`# ${text(`Shims: ${report.title}`)}`, "", ...(machineWords(report) === "" ? [] : [text(machineWords(report)), ""])];
  if (report.jobs.length === 0) out.push("No shims are declared.", "");
  for (const it of report.jobs) {
    out.push(`## ${text(shimTitle(it))}`, "", `${text(shimFacts(it))} ${placeOf(it.reading ?? it)}`, "", `**${text(it.say)}**`, "");
    if (it.stacks.length > 0)
      out.push(
        "| Stack | Now | Then |",
        "|---|---|---|",
        ...it.stacks.map(
          (stack) =>
            `| ${[stack.title, `${stackLine(stack.now)} = ${stack.nowTotal}`, `${stackLine(stack.then)} = ${stack.thenTotal}`].map(text).join(" | ")} |`,
        ),
        "",
      );
    out.push(...it.notes.map((note) => `- ${text(note)}`), "");
  }
  out.push(text(workedOutOnly), "", text(recordOnly), "");
  return out.join("\n");
}
