// Where a row of a report comes from: a line of a file, from 1.
import type { SheetText } from "../../../grammar/sheet-text.ts";
import type { Entry } from "../../../grammar/tree.ts";
import type { Job } from "../../model/job.ts";
import type { Where } from "../../model/where.ts";

export interface Line {
  readonly file: string;
  readonly line: number;
}

/** Lines from 1, for places in the files of a job. */
export function lineFinder(job: Job): (where: Where) => number {
  const starts = new Map<Entry, number>();
  for (const { sheet } of job.files as readonly { sheet: SheetText }[]) sheet.entries.forEach((entry, i) => starts.set(entry, sheet.starts[i] ?? 0));
  return (where) => (starts.get(where.entry) ?? 0) + where.row + 1;
}
