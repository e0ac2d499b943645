// A machine's history, as Markdown: every text from a sheet is written so that it is read as itself.
import { recordOnly } from "../draw/heading.ts";
import type { Line } from "../draw/line.ts";
import { placeOf } from "../draw/markdown-place.ts";
import { text } from "../order/markdown.ts";
import type { HistoryReport } from "./shapes.ts";
import { backWords, estimateNote, eventWords, heads, historyHeadline, machineLine, pointWords, sameName, sheetWords, toldWords, trendWords } from "./words.ts";

export function historyMarkdown(report: HistoryReport): string {
  const out: string[] = [];
  for (const machine of report.machines) {
    out.push(`# ${text(`History: ${machineLine(machine)}`)}`, "", text(historyHeadline([machine])), "");
    const list = <T extends Line>(title: string, rows: readonly T[], words: (it: T) => string) => {
      if (rows.length > 0) out.push(`## ${title}`, "", ...rows.map((it) => `- ${text(words(it))} ${placeOf(it)}`), "");
    };
    list(heads.sheets, machine.sheets, sheetWords);
    list(heads.back, machine.comesBack, backWords);
    if (machine.limits.length > 0) out.push(`## ${heads.limits}`, "");
    for (const it of machine.limits) {
      out.push(`### ${text(`${it.title} (${it.against})`)}`, "", ...it.points.map((point) => `- ${text(pointWords(point))} ${placeOf(point)}`), "");
      out.push(...trendWords(it).flatMap(({ over, words }) => [text(`${over === "" ? "" : `${over}: `}${words}`), ""]));
    }
    if (machine.lives.length > 0) out.push(`## ${heads.lives}`, "");
    for (const it of machine.lives) out.push(`### ${text(it.title)}`, "", ...it.events.map((event) => `- ${text(eventWords(event))} ${placeOf(event)}`), "");
    list(heads.conceded, machine.conceded, toldWords);
    list(heads.owned, machine.ownedUpTo, toldWords);
  }
  out.push(text(estimateNote), "", text(sameName), "", text(recordOnly), "");
  return out.join("\n");
}
