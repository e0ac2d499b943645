// A machine's history, for the terminal.
import { recordOnly } from "../draw/heading.ts";
import type { Line } from "../draw/line.ts";
import { plain } from "../draw/plain.ts";
import type { HistoryReport } from "./shapes.ts";
import { backWords, estimateNote, eventWords, heads, historyHeadline, machineLine, pointWords, sameName, sheetWords, toldWords, trendWords } from "./words.ts";

export function historyText(report: HistoryReport): string {
  const out: string[] = [];
  for (const machine of report.machines) {
    const head = plain(`History: ${machineLine(machine)}`);
    out.push(head, "=".repeat(Math.min(head.length, 100)), "", historyHeadline([machine]), "");
    const list = <T extends Line>(title: string, rows: readonly T[], words: (it: T) => string) => {
      if (rows.length > 0) out.push(title, ...rows.map((it) => plain(`  ${words(it)}  (${place(it)})`)), "");
    };
    list(heads.sheets, machine.sheets, sheetWords);
    list(heads.back, machine.comesBack, backWords);
    if (machine.limits.length > 0) {
      out.push(heads.limits);
      for (const it of machine.limits) {
        out.push(plain(`  ${it.title} (${it.against})`), ...it.points.map((point) => plain(`    ${pointWords(point)}  (${place(point)})`)));
        out.push(...trendWords(it).map(({ over, words }) => plain(`    ${over === "" ? "" : `${over}: `}${words}`)));
      }
      out.push("");
    }
    if (machine.lives.length > 0) {
      out.push(heads.lives);
      for (const it of machine.lives) out.push(plain(`  ${it.title}`), ...it.events.map((event) => plain(`    ${eventWords(event)}  (${place(event)})`)));
      out.push("");
    }
    list(heads.conceded, machine.conceded, toldWords);
    list(heads.owned, machine.ownedUpTo, toldWords);
  }
  out.push(estimateNote, sameName, recordOnly, "");
  return out.join("\n");
}

function place(it: Line): string {
  return `${it.file}:${it.line}`;
}
