// Where a line of a job stands: its file and its number, from 1.
import type { Entry } from "../../../grammar/tree.ts";
import type { Job } from "../../model/job.ts";
import type { Where } from "../../model/where.ts";

export interface LineOf {
  (where: Where): { file: string; line: number };
  /** The entry above it in its file, and a job that knows both. */
  above(entry: Entry): { readonly entry: Entry | undefined; readonly job: Job } | undefined;
}

export function lineFinder(jobs: readonly Job[]): LineOf {
  const starts = new Map<Entry, { line: number; above: { entry: Entry | undefined; job: Job } }>();
  for (const job of jobs)
    for (const { sheet } of job.files)
      for (const [i, entry] of sheet.entries.entries()) starts.set(entry, { line: sheet.starts[i] ?? 0, above: { entry: sheet.entries[i - 1], job } });
  const lineOf = (where: Where) => ({ file: where.file, line: (starts.get(where.entry)?.line ?? 0) + where.row + 1 });
  return Object.assign(lineOf, { above: (entry: Entry) => starts.get(entry)?.above });
}
