// What a page tells a reader to put into an editor's own file, and the program on the path as the page asks for it.
import { chmodSync, mkdirSync, writeFileSync } from "node:fs";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { program } from "../server/wire.ts";

/** The block of that language in a page of client/. */
export function blockOf(page: string, language: string): string {
  const text = readFileSync(fileURLToPath(new URL(`../../client/${page}`, import.meta.url)), "utf8");
  const block = new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``).exec(text)?.[1];
  if (block === undefined) throw new Error(`${page} has no block of ${language}.`);
  return block;
}

/** A folder to be put before the path, in which `splitpin` is. */
export function splitpinOnPath(home: string): string {
  const folder = join(home, "bin");
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "splitpin"), `#!/bin/sh\nexec "${process.execPath}" "${program}" "$@"\n`);
  chmodSync(join(folder, "splitpin"), 0o755);
  return folder;
}
