// Writes server/rules/ways-need.ts: of each way in the lists of ways, the bits of words that a text must have for it to take it. `--check` writes nothing and fails where the file is stale.
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import * as doubt from "../server/rules/doubt-lists.ts";
import { faults, faultsDenying } from "../server/rules/fault-lists.ts";
import * as tests from "../server/rules/test-lists.ts";
import * as work from "../server/rules/work-lists.ts";
import { needsOf } from "./needs-of.ts";

const target = "server/rules/ways-need.ts";
const lists: readonly (readonly [string, readonly string[]])[] = Object.entries({ faults, faultsDenying, ...tests, ...doubt, ...work });

const text = `// Of each way in the lists of ways, in their order: bits of words of which each text that it takes has one, a line for each way. Written by .ci/generate-ways.ts; a test fails where it is stale.

export const needs = {
${lists.map(([name, ways]) => `  ${name}: \`\n${ways.map((way) => `${asked(name, way)}\n`).join("")}\`,`).join("\n")}
};
`;
const before = existsSync(target) ? readFileSync(target, "utf8") : "";
if (!process.argv.includes("--check")) writeFileSync(target, text);
else if (before !== text) {
  console.error(`${target} is stale: run npm run generate`);
  process.exitCode = 1;
}

/** A way that needs no word would be tried on every text: it is to be written so that it needs one. */
function asked(name: string, way: string): string {
  const them = needsOf(way);
  if (them.length === 0 || them.some((it) => /[`$\\\n]|\//.test(it))) throw new Error(`No text must have a word for this way in "${name}": ${way}`);
  return them.join("/");
}
