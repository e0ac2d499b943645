// What moves along as a job is walked, and the moment that each line of it is.
import type { Entry, Span } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import { mostApart } from "../model/largest.ts";
import { type Where, where } from "../model/where.ts";
import type { Cells } from "./cells.ts";
import type { Beyond, Blurred, Cell, Moment, Phase, SupportMoment, SupportState, Visit } from "./story.ts";

/** What moves along as a job is walked. */
export interface Mover {
  readonly job: Job;
  readonly cells: Cells;
  readonly supportMoments: SupportMoment[];
  readonly blurred: Blurred[];
  readonly beyond: Beyond[];
  seq: number;
  phase: Phase;
  support: SupportState;
  visit: Visit | undefined;
  day: string | undefined;
  /** A planned `fit ___` came before: whatever is off may be what goes on there. */
  blankFit: boolean;
  /** The cells that the same line speaks of further on: their order within one line says nothing. */
  line: readonly Cell[];
}

export function momentOf(mover: Mover, entry: Entry, row: number, at: Span): Moment {
  return {
    seq: mover.seq++,
    phase: mover.phase,
    where: where(mover.job.own.path, entry, row, at),
    day: mover.day,
    visit: mover.visit,
  };
}

/**
 * Whether a cell has so many pieces told apart already that a line about some of them is not worked with: each moment keeps them all. From there on what it says of
 * that cell is unsure, and a rule says so.
 */
export function tellsTooManyApart(mover: Mover, cell: Cell, where: Where): boolean {
  if ((cell.kind !== "fastener" && cell.kind !== "part") || cell.then.lots.length + cell.then.bench.length < mostApart) return false;
  if (!mover.beyond.some((it) => it.cell === cell)) mover.beyond.push({ cell, where });
  cell.unsure = true;
  return true;
}
