// The fixes of what is flagged: those that were asked for, and those that only spell, all at once.
// Invariant: what is written together never overlaps, and no fix that says more than the sheet does is among what is done at once.
import { putInto } from "../model/grouped.ts";
import type { Diagnostic, TextEdit } from "../rules/check.ts";

export interface FixOffered {
  readonly of: Diagnostic;
  readonly fix: Diagnostic["fixes"][number];
  /** It may be done at once: it only spells, and there is no other way to mend this. */
  readonly preferred: boolean;
}

/** Lines from 0, columns in UTF-16 units. */
export interface Marked {
  readonly start: { readonly line: number; readonly character: number };
  readonly end: { readonly line: number; readonly character: number };
}

/** What an editor knows of a diagnostic that it asks about. */
export interface AskedAbout {
  readonly range: Marked;
  readonly code?: string | number | undefined;
  readonly message: unknown;
}

/** With a whole sheet marked, a menu of thousands would help nobody. */
const most = 100;

/** The fixes of those of the list that an editor asks about; where it names none that is here, of those that stand in the range. */
export function fixesFor(list: readonly Diagnostic[], range: Marked, asked: readonly AskedAbout[]): FixOffered[] {
  const named = list.filter((it) => asked.some((about) => isSame(it, about)));
  const out: FixOffered[] = [];
  for (const of of named.length > 0 ? named : list.filter((it) => touches(it, range))) {
    of.fixes.forEach((fix, i) => {
      if (out.length < most) out.push({ of, fix, preferred: i === 0 && onlySpelling(of) !== undefined });
    });
  }
  return out;
}

/** The fixes that only spell, each the one way to mend what it stands for, without any that would write where another does. */
export function spellings(list: readonly Diagnostic[]): FixOffered[] {
  const out: FixOffered[] = [];
  /** By the line that they write on. */
  const written = new Map<string, TextEdit[]>();
  for (const of of list) {
    const fix = onlySpelling(of);
    if (fix === undefined) continue;
    if (fix.edits.some((it) => written.get(lineOf(it))?.some((was) => it.from <= was.to && was.from <= it.to))) continue;
    for (const it of fix.edits) putInto(written, lineOf(it), it);
    out.push({ of, fix, preferred: true });
  }
  return out;
}

function lineOf({ file, line }: TextEdit): string {
  return `${line} ${file}`;
}

function onlySpelling(of: Diagnostic): Diagnostic["fixes"][number] | undefined {
  const [fix] = of.fixes;
  return of.fixes.length === 1 && fix?.spells === true ? fix : undefined;
}

/** An editor moves what it was told with its lines, and says it as it was told. */
function isSame(it: Diagnostic, about: AskedAbout): boolean {
  return it.rule === about.code && it.line === about.range.start.line && it.from === about.range.start.character && it.to === about.range.end.character;
}

function touches(it: Diagnostic, range: Marked): boolean {
  if (it.line < range.start.line || it.line > range.end.line) return false;
  if (it.line === range.start.line && it.to < range.start.character) return false;
  return !(it.line === range.end.line && it.from > range.end.character);
}
