// What an entry says by itself: the rules that look at one entry, asked once and remembered with it.
// Invariant: what is remembered hangs on the entry and the name of its file alone.
import type { SheetText } from "../../grammar/sheet-text.ts";
import type { Entry } from "../../grammar/tree.ts";
import { type Slices, runThrough, someAtOnce } from "../../grammar/slices.ts";
import type { Where } from "../model/where.ts";
import { entryRules, inOrder } from "./in-order.ts";
import { readingFigures } from "./units/shared/figures.ts";
import { pardonsIn } from "./pardons.ts";
import { type Diagnostic, type Placed, type Told, lastLine, placeOf } from "./placing.ts";
import { lastEntry } from "./rule.ts";

/** What an entry says by itself. */
export interface OfEntry {
  readonly file: string;
  readonly told: readonly Told[];
  /** Rules that it answers by `accept`. */
  readonly accepts: readonly string[];
  /** What was made of it last, and the line of its head then. */
  placed?: { readonly start: number; readonly list: readonly Diagnostic[] };
}

const noLines: readonly Where[] = [];
const byEntry = new WeakMap<Entry, OfEntry>();

/** Asks the rules that look at one entry, and keeps their answers with it. */
export function ofEntry(file: string, entry: Entry): OfEntry {
  return knownOf(file, entry) ?? runThrough(askingOf(file, entry));
}

function knownOf(file: string, entry: Entry): OfEntry | undefined {
  const known = byEntry.get(entry);
  return known?.file === file ? known : undefined;
}

/** An entry of more lines than this is asked one rule a slice. */
const manyRows = 500;

function* askingOf(file: string, entry: Entry): Slices<OfEntry> {
  const told: Told[] = [];
  // Most rules look at its figures.
  yield* readingFigures(entry);
  for (const rule of entryRules) {
    const slices = rule.check({ file, entry, report: (report) => told.push({ said: { rule: rule.id, report }, lines: noLines }) });
    if (slices !== undefined) yield* slices;
    if (entry.rows > manyRows) yield;
  }
  const known = { file, told, accepts: pardonsIn(entry).map((it) => it.rule.text) };
  byEntry.set(entry, known);
  return known;
}

const nothing: readonly never[] = [];

/** In the order of its lines. */
export function placedOf(own: OfEntry, start: number, sheet: SheetText): readonly Diagnostic[] {
  return runThrough(placing(own, start, sheet));
}

function* placing(own: OfEntry, start: number, sheet: SheetText): Slices<readonly Diagnostic[]> {
  if (own.told.length === 0) return nothing;
  if (own.placed?.start === start) return own.placed.list;
  const line = ({ entry, row }: Where) => (entry === lastEntry ? lastLine(sheet) : start) + row;
  const placed: Placed[] = [];
  for (const it of own.told) if (placed.push(placeOf(it, line, () => sheet)) % someAtOnce === 0) yield;
  const list = inOrder(placed).map((it) => it.diagnostic);
  own.placed = { start, list };
  return list;
}

/** So many entries a slice. */
export const someEntries = 50;

export function* ofOwnEntries(path: string, sheet: SheetText): Slices<OfEntry[]> {
  const out: OfEntry[] = [];
  for (const [i, entry] of sheet.entries.entries()) {
    const own = knownOf(path, entry) ?? (yield* askingOf(path, entry));
    // Placed here, so that putting all together is no long turn.
    yield* placing(own, sheet.starts[i] as number, sheet);
    if (out.push(own) % someEntries === 0) yield;
  }
  return out;
}

/** What each entry of a file said, and the texts that it was asked of. */
interface Before {
  readonly path: string;
  readonly own: readonly OfEntry[];
  readonly texts: ReadonlyMap<string, SheetText>;
}

/** What each entry says by itself. Those that stand where they stood, counted from the top or from the end, are known from `before`. */
export function* ownOf(path: string, sheet: SheetText, before: Before | undefined): Slices<readonly OfEntry[]> {
  const now = sheet.entries;
  const was = before?.path === path ? before.texts.get(path)?.entries : undefined;
  if (before === undefined || was === undefined || was.length !== before.own.length) return yield* ofOwnEntries(path, sheet);
  if (was === now) return before.own;
  const least = Math.min(was.length, now.length);
  let from = 0;
  while (from < least && was[from] === now[from]) from++;
  let [wasTo, to] = [was.length, now.length];
  while (wasTo > from && to > from && was[wasTo - 1] === now[to - 1]) {
    wasTo--;
    to--;
  }
  const out = before.own.slice(0, from);
  let done = 0;
  for (let i = from; i < now.length; i++) {
    const own = i < to ? (knownOf(path, now[i] as Entry) ?? (yield* askingOf(path, now[i] as Entry))) : (before.own[i - to + wasTo] as OfEntry);
    out.push(own);
    // Of those behind the edit only what they said is placed again.
    if (i >= to && own.told.length === 0) continue;
    yield* placing(own, sheet.starts[i] as number, sheet);
    if (++done % someEntries === 0) yield;
  }
  return out;
}
