// Where an editor finds the page of a rule: the packaged rules page, at the line of the rule's heading.
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

declare const SPLITPIN_BUNDLED: boolean | undefined;

const page = new URL(typeof SPLITPIN_BUNDLED === "boolean" ? "../server/rules/RULES.md" : "../rules/RULES.md", import.meta.url);
let known: ReadonlyMap<string, string> | undefined;

/** A `file:` URI; editors that open one go to the line in its fragment (`L12`). Undefined where the page is not at hand. */
export function hrefOfRule(rule: string): string | undefined {
  known ??= hrefs();
  return known.get(rule);
}

/** Rule by rule, the page at the line of its heading, from 1. */
function hrefs(): ReadonlyMap<string, string> {
  const out = new Map<string, string>();
  const path = fileURLToPath(page);
  if (!existsSync(path)) return out;
  const { href } = page;
  for (const [i, line] of readFileSync(path, "utf8").split("\n").entries()) {
    // Of some thousand lines few are headings.
    if (!line.startsWith("#")) continue;
    const id = line.match(/^#+ `?([a-z][a-z0-9-]*)`?\s*$/)?.[1];
    if (id !== undefined && !out.has(id)) out.set(id, `${href}#L${i + 1}`);
  }
  return out;
}
