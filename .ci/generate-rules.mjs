// Writes server/rules/all.ts and server/rules/ids.ts from the files that stand in the rooms of the rules: one file, one rule.
// `--check` writes nothing and fails where a file is stale.
import { readFileSync, readdirSync, writeFileSync } from "node:fs";

const root = new URL("../server/rules/", import.meta.url);
const rooms = ["writing", "units", "locking", "tightness", "limits", "parts", "energy", "steps", "supply", "release"];
const names = [];
for (const room of rooms) {
  for (const file of readdirSync(new URL(`${room}/`, root)).sort()) {
    if (!file.endsWith(".ts")) continue;
    const safety = /^ {2}safety: true,$/m.test(readFileSync(new URL(`${room}/${file}`, root), "utf8"));
    names.push({ room, id: file.slice(0, -3), safety });
  }
}
const word = (id) => id.replace(/-([a-z])/g, (_, letter) => letter.toUpperCase());
const texts = {
  "all.ts": `// Every rule, in the order of the rules page. Written by .ci/generate-rules.mjs; a test fails where it is stale.
${names.map(({ room, id }) => `import { rule as ${word(id)} } from "./${room}/${id}.ts";`).join("\n")}
import type { Rule, WrittenRule } from "./rule.ts";

/** With their pages, which are in pages.ts for whoever shows them. */
export const written: readonly WrittenRule[] = [
${names.map(({ id }) => `  ${word(id)},`).join("\n")}
];

export const rules: readonly Rule[] = written;
`,
  "ids.ts": `// The names of all rules, for rules that speak of rules: they can't import the list that they stand in.
// Written by .ci/generate-rules.mjs; a test fails where it is stale.

/** In the order of the rules page, one a line; those with a \`!\` are of safety. */
const written = \`
${names.map(({ id, safety }) => `${safety ? "!" : ""}${id}`).join("\n")}
\`
  .trim()
  .split("\\n");

export const ruleIds: ReadonlySet<string> = new Set(written.map((it) => it.replace("!", "")));

/** Those that a sheet can't accept away. */
export const safetyRules: ReadonlySet<string> = new Set(written.flatMap((it) => (it.startsWith("!") ? it.slice(1) : [])));
`,
};
for (const [file, text] of Object.entries(texts)) {
  const target = new URL(file, root);
  if (!process.argv.includes("--check")) writeFileSync(target, text);
  else if (readFileSync(target, "utf8") !== text) {
    console.error(`server/rules/${file} is stale: run npm run generate`);
    process.exitCode = 1;
  }
}
