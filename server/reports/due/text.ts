// What is due, for the terminal.
import { recordOnly } from "../draw/heading.ts";
import { plain } from "../draw/plain.ts";
import type { DueReport } from "./shapes.ts";
import { byGroup, countedFrom, dueHeadline, machineLine, ofMachine } from "./words.ts";

export function dueText(report: DueReport): string {
  const head = plain(`What is due on ${report.day}: ${report.title}`);
  const out = [head, "=".repeat(Math.min(head.length, 100)), "", plain(dueHeadline(report)), ""];
  for (const { group, rows } of byGroup(report)) {
    out.push(group);
    for (const it of rows) {
      const machine = ofMachine(it, report);
      out.push(
        plain(`  - ${it.text}${machine === "" ? "" : ` [${machine}]`}  (${it.file}:${it.line})`),
        ...it.details.map((detail) => plain(`      ${detail}`)),
      );
    }
    out.push("");
  }
  out.push("Next", ...report.machines.flatMap((it) => [plain(`  ${machineLine(it)}`), plain(`      ${it.next}  (${it.file}:${it.line})`)]), "");
  out.push(plain(countedFrom(report)), recordOnly, "");
  return out.join("\n");
}
