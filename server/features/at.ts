// What stands at a place in a sheet: the entry, the line that was read, the name under the cursor.
// Invariant: pure, and answers for any line and column, also of a broken sheet.
import { countAhead } from "../model/halving.ts";
import type { SheetText } from "../../grammar/sheet-text.ts";
import type { Detail, Entry, Name } from "../../grammar/tree.ts";
import { kindDeclared } from "../model/declare.ts";
import { referencesOf } from "../model/references.ts";
import type { ThingKind } from "../model/things.ts";

export interface LineAt {
  readonly entry: Entry;
  readonly row: number;
  /** The head or the detail; undefined where the line is blank or a comment. */
  readonly line: Entry | Detail | undefined;
}

export interface NameAt {
  readonly name: Name;
  readonly sort: NameSort;
  /** The line declares it. */
  readonly declares: boolean;
}

/** What sort of name: of a thing, of a place, of a kind of places. The three never mean one another. */
export type NameSort = "thing" | "place" | "kind";

/** `line` counts from 0. Undefined above the first entry. */
export function lineAt(sheet: SheetText, line: number): LineAt | undefined {
  const index = entryIndexAt(sheet, line);
  const entry = sheet.entries[index];
  if (entry === undefined) return undefined;
  const row = line - (sheet.starts[index] ?? 0);
  if (row < 0 || row >= Math.max(1, entry.rows)) return undefined;
  if (row === 0) return { entry, row, line: entry.kind === "headless" ? entry.details.find((it) => it.row === 0) : entry };
  return { entry, row, line: entry.details.find((it) => it.row === row) ?? entry.stray.find((it) => it.row === row) };
}

/** The name that the column stands in or right behind. */
export function nameAt(sheet: SheetText, line: number, column: number): NameAt | undefined {
  const at = lineAt(sheet, line);
  if (at === undefined) return undefined;
  return namesOf(at.entry).find(({ row, name }) => row === at.row && name.at.from <= column && column <= name.at.to);
}

export interface NameInEntry extends NameAt {
  readonly row: number;
  /** Which kinds of things it may be; none for places. */
  readonly wants: readonly ThingKind[];
}

/** Every name in an entry, those that it declares and those that it mentions. */
export function namesOf(entry: Entry): NameInEntry[] {
  const out: NameInEntry[] = [];
  const kind = kindDeclared(entry);
  const declared = (entry as { readonly name?: Name }).name;
  if (kind !== undefined && declared !== undefined) out.push({ name: declared, row: 0, sort: "thing", declares: true, wants: [kind] });
  if (entry.kind === "places") {
    if (entry.placeKind !== undefined) out.push({ name: entry.placeKind, row: 0, sort: "kind", declares: true, wants: [] });
    for (const name of entry.names) out.push({ name, row: 0, sort: "place", declares: true, wants: [] });
  }
  const references = referencesOf(entry);
  for (const it of references.things) out.push({ name: it.name, row: it.row, sort: "thing", declares: false, wants: it.wants });
  for (const it of references.places) out.push({ name: it.name, row: it.row, sort: "place", declares: false, wants: [] });
  for (const it of references.kinds) out.push({ name: it.name, row: it.row, sort: "kind", declares: false, wants: [] });
  for (const detail of entry.details) {
    if (detail.kind !== "reading") continue;
    // The first word of a reading is its place; where the limit has none it is a position, and then no place has its name.
    const first = detail.words[0];
    if (first !== undefined) out.push({ name: first, row: detail.row, sort: "place", declares: false, wants: [] });
  }
  return out;
}

/** The last entry that starts at the line or above it; -1 where there is none. */
function entryIndexAt(sheet: SheetText, line: number): number {
  return countAhead(sheet.starts, (it) => it <= line) - 1;
}

/** The entries that reach into these lines, in order, each with the line of its head. */
export function* entriesBetween(sheet: SheetText, from: number, to: number): Generator<{ readonly entry: Entry; readonly start: number }> {
  const first = sheet.starts.findLastIndex((it) => it <= from);
  for (let i = Math.max(0, first); i < sheet.entries.length; i++) {
    const start = sheet.starts[i] as number;
    if (start > to) return;
    yield { entry: sheet.entries[i] as Entry, start };
  }
}
