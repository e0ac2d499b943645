// Names coloured by what has become of the thing: condemned, in a step that is only planned, or off; the first of these that is so.
// Invariant: colour says nothing that the hover does not say in words. Two of them at once would be the colour of whichever a theme names last.
import { type Slices, apart, someAtOnce } from "../../grammar/slices.ts";
import type { SheetText } from "../../grammar/sheet-text.ts";
import type { Entry } from "../../grammar/tree.ts";
import { memo } from "../model/memo.ts";
import { condemned } from "../story/past-wear.ts";
import { isFaulty } from "../story/lots.ts";
import type { Story } from "../story/story.ts";
import { judge } from "../story/verdicts.ts";
import { type NameInEntry, entriesBetween, namesOf } from "./at.ts";
import { indexing } from "./by-entry.ts";

export interface Token {
  /** From 0. */
  readonly line: number;
  readonly from: number;
  readonly length: number;
  /** Bits, in the order of `tokenModifiers`. */
  readonly modifiers: number;
}

const off = 1;
const condemnedBit = 2;
const planned = 4;

/** The names on these lines that have something to say, in order. */
export function* colouring(sheet: SheetText, story: Story, from: number, to: number): Slices<Token[]> {
  const known = yield* indexing(story);
  const states = yield* apart(() => statesOf(story));
  let n = 0;
  const out: Token[] = [];
  for (const { entry, start } of entriesBetween(sheet, from, to)) {
    if (n++ % someAtOnce === 0) yield;
    const of = known.get(entry);
    const isPlanned = entry.kind === "step" && of !== undefined && of.visits.length > 0 && of.visits.every((it) => it.phase === "planned");
    for (const { row, name, declares } of thingsNamed(entry)) {
      const line = start + row;
      if (line < from || line > to) continue;
      const state = states.get(name.text) ?? 0;
      const modifiers = (state & condemnedBit) !== 0 ? condemnedBit : isPlanned && !declares ? planned : state;
      if (modifiers !== 0) out.push({ line, from: name.at.from, length: name.at.to - name.at.from, modifiers });
    }
  }
  return out.sort((a, b) => a.line - b.line || a.from - b.from);
}

/** Of an entry that was not edited they are the same each time: an editor asks for the whole sheet after every check. */
const thingsNamed: (entry: Entry) => readonly NameInEntry[] = memo((entry) => namesOf(entry).filter((it) => it.sort === "thing"));

/** By name: off anywhere, condemned anywhere by a reading or by what was found and not mended since. */
const statesOf: (story: Story) => ReadonlyMap<string, number> = memo((story) => {
  const out = new Map<string, number>();
  const add = (name: string, bit: number) => out.set(name, (out.get(name) ?? 0) | bit);
  for (const cell of [...story.parts, ...story.fasteners]) {
    if (cell.now.on < cell.total && cell.history.length > 0) add(cell.thing.name, off);
    if ([...cell.now.lots, ...cell.now.bench].some(isFaulty)) add(cell.thing.name, condemnedBit);
  }
  for (const name of condemned(judge(story)).keys()) {
    const cells = story.cells(name);
    // A new one in its place is not condemned by what its forerunner read.
    if (cells.some((it) => (it.kind === "part" || it.kind === "fastener") && it.now.lots.some((lot) => !lot.isNew))) add(name, condemnedBit);
  }
  return out;
});

/** As the protocol counts them: each from the one before it. */
export function encoded(tokens: readonly Token[]): number[] {
  const out: number[] = [];
  let line = 0;
  let column = 0;
  for (const it of tokens) {
    const sameLine = it.line === line;
    out.push(it.line - line, sameLine ? it.from - column : it.from, it.length, 0, it.modifiers);
    line = it.line;
    column = it.from;
  }
  return out;
}
