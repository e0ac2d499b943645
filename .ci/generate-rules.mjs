// Writes server/rules/all.ts from the files that stand in the rooms of the rules: one file, one rule.
// `--check` writes nothing and fails where the file is stale.
import { readFileSync, readdirSync, writeFileSync } from "node:fs";

const root = new URL("../server/rules/", import.meta.url);
const rooms = ["writing", "units", "locking", "tightness", "limits", "parts", "energy", "steps", "supply", "release"];
const names = [];
for (const room of rooms)
  for (const file of readdirSync(new URL(`${room}/`, root)).sort()) if (file.endsWith(".ts")) names.push({ room, id: file.slice(0, -3) });
const word = (id) => id.replace(/-([a-z])/g, (_, letter) => letter.toUpperCase());
const text = `// Every rule, in the order of the rules page. Written by .ci/generate-rules.mjs; a test fails where it is stale.
${names.map(({ room, id }) => `import { rule as ${word(id)} } from "./${room}/${id}.ts";`).join("\n")}
import type { Rule } from "./rule.ts";

export const rules: readonly Rule[] = [
${names.map(({ id }) => `  ${word(id)},`).join("\n")}
];
`;
const target = new URL("all.ts", root);
if (process.argv.includes("--check")) {
  if (readFileSync(target, "utf8") !== text) {
    console.error("server/rules/all.ts is stale: run npm run generate");
    process.exit(1);
  }
} else writeFileSync(target, text);
