// The way back as Markdown: the steps as lists to tick, and the same as a sheet would hold it.
import { machineWords, recordOnly } from "../draw/heading.ts";
import { placeOf } from "../draw/markdown-place.ts";
import { text } from "../draw/markdown-text.ts";
import type { WayBack } from "./way-back.ts";
import { plannedFigures, wayBackHeadline } from "./words.ts";

export function wayBackMarkdown(report: WayBack): string {
  const out = [
    `# ${text(`The way back: ${report.title}`)}`,
    "",
    ...(machineWords(report) === "" ? [] : [text(machineWords(report)), ""]),
    `**${text(wayBackHeadline(report))}**`,
    "",
  ];
  if (report.entries.length > 0) out.push(text(plannedFigures), "");
  for (const entry of report.entries) {
    if (entry.kind === "step")
      out.push(
        `## ${text(entry.title)}`,
        "",
        ...entry.lines.map((it) => `- [ ] ${text(it.text)}${it.note === undefined ? "" : ` – ${text(it.note)}`} ${placeOf(it)}`),
        "",
      );
    else out.push(`## ${text(`${entry.kind === "check" ? "See" : "Measure"}: ${entry.title}`)}`, "", ...entry.waits.map((it) => `- [ ] ${text(it)}`), "");
  }
  if (report.unsettled.length > 0) out.push("## What no step settles", "", ...report.unsettled.map((it) => `- ${text(it.text)} ${placeOf(it)}`), "");
  if (report.cautions.length > 0) out.push("## Cautions", "", ...report.cautions.map((it) => `- ${text(it.words)} (${text(it.source)})`), "");
  out.push(text(recordOnly), "");
  return out.join("\n");
}
