// Writes server/rules/RULES.md, the page of all rules, from the rules themselves. `--check` writes nothing and fails where the page is stale.
import { readFileSync, writeFileSync } from "node:fs";
import { written as rules } from "../server/rules/all.ts";
import type { WrittenRule as Rule } from "../server/rules/rule.ts";

const target = "server/rules/RULES.md";
const text = pageOf(rules);
if (!process.argv.includes("--check")) writeFileSync(target, text);
else if (readFileSync(target, "utf8") !== text) {
  console.error(`${target} is stale: run npm run generate`);
  process.exitCode = 1;
}

function pageOf(list: readonly Rule[]): string {
  const groups = [...new Set(list.map((rule) => rule.group))];
  const parts = [
    "# The rules",
    "<!-- Written by .ci/generate-rules-page.ts from the rules themselves. Change the rule, not this page. -->",
    [
      "What Splitpin says of a sheet, and why. **Error**: unsafe, or the sheet says nothing. **Warning**: doubt, or work that will not hold.",
      "**Information**: worth knowing. **Hint**: done since, shown faint. A **safety rule** can't be accepted away in a sheet; any other can,",
      'with the reason: `accept RULE "why"` in the entry that it speaks of.',
    ].join("\n"),
    "The maker's data, the local rules and licensed people come before anything that is said here.",
    "In the examples the carets stand under the words that are underlined, with what is said of them; `(fix)` where a fix is offered.",
    groups
      .map(
        (group) =>
          `- ${group}: ${list
            .filter((rule) => rule.group === group)
            .map((rule) => `[${rule.id}](#${rule.id})`)
            .join(", ")}`,
      )
      .join("\n"),
  ];
  for (const group of groups) {
    parts.push(`## ${group}`);
    for (const rule of list) if (rule.group === group) parts.push(...sectionOf(rule));
  }
  return `${parts.join("\n\n")}\n`;
}

function sectionOf(rule: Rule): string[] {
  const parts = [
    `### ${rule.id}`,
    `${rule.title}. *${rule.severity.charAt(0).toUpperCase()}${rule.severity.slice(1)}.*${rule.safety ? " **Safety rule.**" : ""}`,
    rule.why,
    "Wrong:",
    sheet(rule.wrong),
  ];
  for (const [path, content] of Object.entries(rule.files ?? {}))
    parts.push(`With \`${path}\` beside it:`, sheet(content, path.endsWith(".csv") ? "csv" : "jobsheet"));
  if (rule.fixed !== undefined) parts.push("What the fix makes of it:", sheet(rule.fixed));
  parts.push("Right:", sheet(rule.right));
  return parts;
}

function sheet(content: string, kind = "jobsheet"): string {
  return `\`\`\`${kind}\n${content.trimEnd()}\n\`\`\``;
}
