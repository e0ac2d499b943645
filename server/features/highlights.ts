// Every mention of the piece under the cursor in its sheet: the thing at that place, and lines that speak of it at all places; what works on it apart from what only names it.
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import type { Detail, Entry } from "../../grammar/tree.ts";
import type { SheetText } from "../../grammar/sheet-text.ts";
import { type NameInEntry, nameAt, namesOf } from "./at.ts";

export interface Highlight {
  /** From 0. */
  readonly line: number;
  readonly from: number;
  readonly to: number;
  /** The line works on it, declares it or says what it was found like. */
  readonly works: boolean;
}

/** `line` and `column` count from 0. Where the line names a place too, only lines of that place and of no place count. */
export function* highlighting(sheet: SheetText, line: number, column: number): Slices<Highlight[]> {
  const named = nameAt(sheet, line, column);
  if (named === undefined) return [];
  const places = named.sort === "thing" ? placesOn(sheet, line) : new Set<string>();
  const out: Highlight[] = [];
  for (const [i, entry] of sheet.entries.entries()) {
    if (i % someAtOnce === 0) yield;
    const names = namesOf(entry);
    for (const it of names) {
      if (it.sort !== named.sort || it.name.text !== named.name.text) continue;
      const own = placesIn(names, it.row);
      if (places.size > 0 && own.size > 0 && ![...own].some((place) => places.has(place))) continue;
      out.push({ line: (sheet.starts[i] ?? 0) + it.row, from: it.name.at.from, to: it.name.at.to, works: works(entry, it) });
    }
  }
  return out.sort((a, b) => a.line - b.line || a.from - b.from);
}

function placesOn(sheet: SheetText, line: number): Set<string> {
  const index = sheet.starts.findLastIndex((it) => it <= line);
  const entry = sheet.entries[index];
  return entry === undefined ? new Set() : placesIn(namesOf(entry), line - (sheet.starts[index] ?? 0));
}

function placesIn(names: readonly NameInEntry[], row: number): Set<string> {
  return new Set(names.filter((it) => it.row === row && it.sort === "place").map((it) => it.name.text));
}

function works(entry: Entry, { row, declares }: NameInEntry): boolean {
  if (declares) return true;
  if (row === 0) return entry.kind === "finding" || entry.kind === "measure" || entry.kind === "seen";
  return entry.details.some((it: Detail) => it.row === row && it.kind === "action");
}
