// What a story tells of each line of a sheet, found by its entry: for what is shown beside the lines that are on the screen.
// Invariant: built once for a story and read line by line; an entry that was edited since has nothing here.
import { type Slices, someAtOnce } from "../../grammar/slices.ts";
import type { Entry } from "../../grammar/tree.ts";
import { memoSliced } from "../model/memo.ts";
import type { FastenerCell, FastenerMoment, Found, PartCell, PartMoment, Story, Visit } from "../story/story.ts";
import type { Verdict } from "../story/verdict.ts";
import { judging } from "../story/verdicts.ts";
import { putInto } from "../model/grouped.ts";

export type CellMoment = { readonly cell: FastenerCell; readonly moment: FastenerMoment } | { readonly cell: PartCell; readonly moment: PartMoment };

export interface OfEntry {
  /** By row. */
  readonly moments: ReadonlyMap<number, readonly CellMoment[]>;
  readonly verdicts: ReadonlyMap<number, readonly Verdict[]>;
  readonly found: readonly Found[];
  readonly visits: readonly Visit[];
}

interface Building {
  readonly moments: Map<number, CellMoment[]>;
  readonly verdicts: Map<number, Verdict[]>;
  readonly found: Found[];
  readonly visits: Visit[];
}

const made = memoSliced(function* (story: Story): Slices<ReadonlyMap<Entry, OfEntry>> {
  const all = new Map<Entry, Building>();
  const of = (entry: Entry): Building => {
    let it = all.get(entry);
    if (it === undefined) {
      it = { moments: new Map(), verdicts: new Map(), found: [], visits: [] };
      all.set(entry, it);
    }
    return it;
  };
  const put = <T>(map: Map<number, T[]>, row: number, it: T) => {
    putInto(map, row, it);
  };
  let n = 0;
  for (const cell of story.fasteners) {
    if (++n % someAtOnce === 0) yield;
    for (const moment of cell.history) put(of(moment.where.entry).moments, moment.where.row, { cell, moment });
  }
  for (const cell of story.parts) {
    if (++n % someAtOnce === 0) yield;
    for (const moment of cell.history) put(of(moment.where.entry).moments, moment.where.row, { cell, moment });
  }
  yield;
  for (const verdict of (yield* judging(story)).verdicts) put(of(verdict.where.entry).verdicts, verdict.where.row, verdict);
  for (const found of story.findings) of(found.entry).found.push(found);
  for (const visit of story.visits) of(visit.entry).visits.push(visit);
  return all;
});
export const indexing: (story: Story) => Slices<ReadonlyMap<Entry, OfEntry>> = made.sliced;
