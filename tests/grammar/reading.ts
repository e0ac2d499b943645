// What the tests of the grammar share: a sheet's lines with their absolute numbers, its faults.
import { type SheetText, readSheet } from "../../grammar/sheet-text.ts";
import type { Detail, Entry, Fault, LineFix } from "../../grammar/tree.ts";

export interface PlacedLine {
  readonly line: number;
  readonly node: Entry | Detail;
  readonly owner: Entry;
  readonly stray: boolean;
}

export function placedLines(sheet: SheetText): PlacedLine[] {
  const out: PlacedLine[] = [];
  sheet.entries.forEach((owner, i) => {
    const start = sheet.starts[i] as number;
    if (owner.kind !== "headless") out.push({ line: start, node: owner, owner, stray: false });
    for (const node of owner.details) out.push({ line: start + node.row, node, owner, stray: false });
    for (const node of owner.stray) out.push({ line: start + node.row, node, owner, stray: true });
  });
  return out.sort((a, b) => a.line - b.line);
}

export interface PlacedFault {
  readonly line: number;
  readonly fault: Fault;
}

export function faultsOf(sheet: SheetText): PlacedFault[] {
  const out: PlacedFault[] = [];
  sheet.entries.forEach((entry, i) => {
    for (const node of [entry, ...entry.details, ...entry.stray])
      if (node.fault !== undefined) out.push({ line: (sheet.starts[i] as number) + node.row, fault: node.fault });
  });
  return out.sort((a, b) => a.line - b.line);
}

export function faultsIn(text: string): PlacedFault[] {
  return faultsOf(readSheet(text));
}

/** The one detail that a text holds, under a head of the kind that it needs. */
export function detailIn(head: string, line: string): Detail {
  const sheet = readSheet(`${head}\n  ${line}\n`);
  const found = sheet.entries.flatMap((it) => [...it.details, ...it.stray]);
  if (sheet.entries.length !== 1 || found.length !== 1) throw new Error(`${head} / ${line}: ${sheet.entries.length} entries, ${found.length} details`);
  return found[0] as Detail;
}

/** A line with a fix carried out. */
export function fixedLine(line: string, fix: LineFix): string {
  let out = line;
  for (const { at, text } of [...fix.edits].sort((a, b) => b.at.from - a.at.from)) out = out.slice(0, at.from) + text + out.slice(at.to);
  return out;
}

/** A tree without columns and rows' text positions, to compare meanings: spans are left out wherever they stand. */
export function withoutColumns(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutColumns);
  if (value === null || typeof value !== "object") return value;
  if (isSpan(value)) return "span";
  const out: Record<string, unknown> = {};
  for (const [key, it] of Object.entries(value)) if (!["at", "written", "edits"].includes(key)) out[key] = withoutColumns(it);
  return out;
}

function isSpan(value: object): boolean {
  const keys = Object.keys(value);
  return keys.length === 2 && keys.includes("from") && keys.includes("to") && typeof (value as { from: unknown }).from === "number";
}
