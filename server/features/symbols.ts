// Everything that the sheets of a workspace declare or tell, by name: what an editor's search over all files goes through.
import type { Files } from "../model/files.ts";
import type { Slices } from "../../grammar/slices.ts";
import { type OutlineItem, outlining } from "./outline.ts";

export interface SymbolFound {
  readonly file: string;
  readonly item: OutlineItem;
}

/** So many answers are more than anybody reads. */
const most = 200;

/** What is longer is the name of nothing. */
const longest = 1000;

/** Those whose name or title holds the letters of the query in their order; all where it is empty. A sheet a slice: a folder may have thousands. */
export function* findingSymbols(files: Files, query: string): Slices<SymbolFound[]> {
  if (query.length > longest) return [];
  const letters = [...query.toLowerCase().replace(/\s+/g, "")];
  const out: SymbolFound[] = [];
  for (const file of files.jobsheets?.() ?? []) {
    yield;
    const sheet = files.read(file);
    if (typeof sheet === "string") continue;
    for (const item of yield* outlining(sheet)) {
      if (item.kind === "day" || !holds(`${item.label} ${item.detail}`.toLowerCase(), letters)) continue;
      out.push({ file, item });
      if (out.length >= most) return out;
    }
  }
  return out;
}

function holds(text: string, letters: readonly string[]): boolean {
  let at = 0;
  for (const letter of letters) {
    at = text.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}
