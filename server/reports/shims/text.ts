// Shims for the terminal.
import { machineWords, recordOnly } from "../draw/heading.ts";
import { plain } from "../draw/plain.ts";
import { shimFacts, shimTitle, stackLine, workedOutOnly } from "./words.ts";
import type { ShimReport } from "./shims.ts";

export function shimsText(report: ShimReport): string {
  const head = plain(`Shims: ${report.title}`);
  const out = [head, "=".repeat(Math.min(head.length, 100)), ...(machineWords(report) === "" ? [] : [plain(machineWords(report))]), ""];
  if (report.jobs.length === 0) out.push("No shims are declared.", "");
  for (const it of report.jobs) {
    out.push(plain(`${shimTitle(it)}  (line ${it.line} of ${it.file})`));
    if (shimFacts(it) !== "") out.push(plain(`  ${shimFacts(it)}${it.reading === undefined ? "" : `  (line ${it.reading.line})`}`));
    out.push(plain(`  ${it.say}`));
    for (const stack of it.stacks)
      out.push(plain(`    ${stack.title}: now ${stackLine(stack.now)} = ${stack.nowTotal}; then ${stackLine(stack.then)} = ${stack.thenTotal}`));
    out.push(...it.notes.map((note) => plain(`  ${note}`)), "");
  }
  out.push(workedOutOnly, recordOnly, "");
  return out.join("\n");
}
