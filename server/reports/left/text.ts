// How a job was left, for the terminal.
import { machineWords, recordOnly } from "../draw/heading.ts";
import { leftWords, meanings } from "./words.ts";
import type { LeftReport } from "./left.ts";
import { plain } from "../draw/plain.ts";

export function leftText(report: LeftReport): string {
  const head = plain(`How it was left: ${report.title}`);
  const out = [head, "=".repeat(Math.min(head.length, 100)), ...(machineWords(report) === "" ? [] : [plain(machineWords(report))]), ""];
  for (const left of report.pauses) {
    out.push(plain(`${left.when}  (line ${left.line})`), `  ${leftWords(left)}`);
    for (const group of left.groups) out.push(`  ${meanings[group.name]}`, ...group.rows.map((it) => plain(`    - ${it.text}  (line ${it.line})`)));
    if (left.next.length > 0) out.push("  Next", ...left.next.map((it) => plain(`    - ${it.text}  (line ${it.line})`)));
    out.push("");
  }
  out.push(recordOnly, "");
  return out.join("\n");
}
