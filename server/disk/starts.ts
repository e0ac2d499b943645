// The starting assemblies that come with the program, read from the folder beside it.
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Start } from "../features/new-sheet.ts";

declare const SPLITPIN_BUNDLED: boolean | undefined;

const folder = new URL(typeof SPLITPIN_BUNDLED === "boolean" ? "../grammar/starts/" : "../../grammar/starts/", import.meta.url);

/** Where they lie, for whoever is to be told that they are not there. */
export function startsFolder(): string {
  return fileURLToPath(folder);
}

/** By name, in the order of their names; none where the folder is not at hand. */
export function readStarts(): Start[] {
  try {
    return readdirSync(folder)
      .filter((it) => it.endsWith(".jobsheet"))
      .sort()
      .map((it) => ({ name: it.replace(/\.jobsheet$/, ""), text: readFileSync(new URL(it, folder), "utf8") }));
  } catch {
    return [];
  }
}
