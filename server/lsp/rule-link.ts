// Where an editor finds the page of a rule: the packaged rules page, at the line of the rule's heading.
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

declare const SPLITPIN_BUNDLED: boolean | undefined;

const page = new URL(typeof SPLITPIN_BUNDLED === "boolean" ? "../server/rules/RULES.md" : "../rules/RULES.md", import.meta.url);
let lines: ReadonlyMap<string, number> | undefined;

/** A `file:` URI; editors that open one go to the line in its fragment (`L12`). Undefined where the page is not at hand. */
export function hrefOfRule(rule: string): string | undefined {
  lines ??= headings();
  const line = lines.get(rule);
  return line === undefined ? undefined : `${page.href}#L${line}`;
}

/** Rule by rule, the line of its heading, from 1. */
function headings(): ReadonlyMap<string, number> {
  const out = new Map<string, number>();
  const path = fileURLToPath(page);
  if (!existsSync(path)) return out;
  readFileSync(path, "utf8")
    .split(/\r?\n/)
    .forEach((line, i) => {
      const id = line.match(/^#+ `?([a-z][a-z0-9-]*)`?\s*$/)?.[1];
      if (id !== undefined && !out.has(id)) out.set(id, i + 1);
    });
  return out;
}
