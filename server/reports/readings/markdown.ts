// The readings as Markdown: every text from a sheet is written so that it is read as itself.
import { machineWords, recordOnly } from "../draw/heading.ts";
import { placeOf } from "../draw/markdown-place.ts";
import { text } from "../draw/markdown-text.ts";
import { limitFacts, readingsHeadline, signOf, spotLines, stageVerdict } from "./words.ts";
import type { ReadingsReport } from "./readings.ts";

export function readingsMarkdown(report: ReadingsReport): string {
  const out: string[] = [
    `# ${text(`Readings: ${report.title}`)}`,
    "",
    ...(machineWords(report) === "" ? [] : [text(machineWords(report)), ""]),
    `**${text(readingsHeadline(report))}**`,
    "",
  ];
  for (const limit of report.limits) {
    out.push(
      `## ${text(limit.title)}`,
      "",
      `${text(limitFacts(limit))} ${placeOf(limit)}`,
      "",
      "| Where | When | Read | Mean | Span | Ovality | Taper | Uncertainty | Verdict | Line |",
      "|---|---|---|--:|--:|--:|--:|--:|---|---|",
    );
    for (const { place, stages } of limit.places) {
      for (const it of stages) {
        const cells = [
          place,
          it.stage,
          spotLines(it).join("; "),
          it.mean ?? "",
          it.span ?? "",
          it.ovality.join(", "),
          it.taper ?? "",
          it.uncertainty === undefined ? "not given" : `\u00b1 ${it.uncertainty}`,
          `${signOf(it)} ${stageVerdict(it)}`,
        ];
        out.push(`| ${cells.map(text).join(" | ")} | ${placeOf(it)} |`);
      }
    }
    out.push("");
  }
  if (report.unread.length > 0)
    out.push(
      "## Not measured",
      "",
      ...report.unread.map((it) => `- ${text(`${it.title}${it.places.length === 0 ? "" : ` (${it.places.join(", ")})`}`)} ${placeOf(it)}`),
      "",
    );
  out.push(text(recordOnly), "");
  return out.join("\n");
}
