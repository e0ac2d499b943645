// Every sheet of the project, and one made of every example in the table of words: what the properties are tried on.
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { type EntryKind, actionWords, conditions, detailWords, entryWords } from "../../grammar/words.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));

export interface Sample {
  readonly name: string;
  readonly text: string;
}

export const samples: readonly Sample[] = ["samples", "tests/sheets"].flatMap((folder) =>
  (readdirSync(`${root}${folder}`, { recursive: true }) as string[])
    .filter((it) => it.endsWith(".jobsheet"))
    .sort()
    .map((it) => ({ name: `${folder}/${it}`, text: readFileSync(`${root}${folder}/${it}`, "utf8") })),
);

/** Every entry with every detail that may stand under it, set in or not; each line once. */
export function wholeLanguage(indent = "  "): string {
  const lines: string[] = [];
  for (const { word, example } of entryWords) {
    lines.push(example.split("\n")[0] as string);
    for (const line of linesUnder(word)) lines.push(indent + line);
    lines.push("");
  }
  return lines.join("\n");
}

function linesUnder(kind: EntryKind): string[] {
  const lines = detailWords.filter((it) => it.under === "any" || it.under.includes(kind)).map((it) => it.example);
  if (kind === "step") lines.push(...actionWords.map((it) => it.example));
  if (kind === "measure") lines.push("left top 0.014, 0.015 in", "right again 0.3 mm, 0.31 mm", "0.006 in");
  if (kind === "finding")
    for (const { syntax } of conditions) lines.push(`is ${syntax.replace(/\[|\]/g, "").replace(/\bN\b/, "2").replace("PART", "sump").replace("Q", "200 ml")}`);
  return lines;
}
