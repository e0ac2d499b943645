// The facts of a sheet, a line each: each detail behind the head that it belongs to, comments and layout left out. For `git diff`, which then shows which fact changed of what.
// Invariant: nothing that a sheet says is lost; a line that can't be read stands as it is written.
import { formatSheet } from "../../grammar/format.ts";
import { commentAt } from "../../grammar/line-parser.ts";
import { lineText, readSheet } from "../../grammar/sheet-text.ts";

/** Ends each fact with a line feed; nothing of a sheet without facts. */
export function factsOf(text: string): string {
  const sheet = readSheet(formatSheet(text.replace(/^\ufeff/, "")));
  const facts: string[] = [];
  let label = "";
  let next = 0;
  for (let line = 0; line < sheet.lineCount; line++) {
    const fact = saidBy(lineText(sheet, line));
    if (sheet.starts[next] === line) {
      label = fact
        .replace(/"(?:[^"\\]|\\.)*"?/g, "")
        .replace(/\s+/g, " ")
        .trim();
      next++;
      if (fact !== "") facts.push(fact);
    } else if (fact !== "") facts.push(label === "" ? fact : `${label}: ${fact}`);
  }
  return facts.map((it) => `${it}\n`).join("");
}

function saidBy(line: string): string {
  const from = commentAt(line);
  return (from === undefined ? line : line.slice(0, from)).trim();
}
