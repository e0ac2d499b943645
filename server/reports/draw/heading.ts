// The head that every report of one job shares: what the job is, of which machine, and where its lines stand.
// Invariant: names and lines only; nothing is judged here.
import type { Slices } from "../../../grammar/slices.ts";
import type { Files } from "../../model/files.ts";
import { type Job, building } from "../../model/job.ts";
import type { Where } from "../../model/where.ts";
import type { Story } from "../../story/story.ts";
import { walking } from "../../story/walk.ts";
import { type Line, lineFinder } from "./line.ts";

export interface Heading {
  readonly title: string;
  /** The sheet that it is a report of. */
  readonly file?: string;
  readonly machine?: string;
  readonly serial?: string;
  readonly by?: string;
  readonly opened?: string;
}

/** A job walked once, with what its reports need of it. */
export interface Told {
  readonly job: Job;
  readonly story: Story;
  readonly heading: Heading;
  /** The file and the line, from 1. */
  readonly at: (where: Where) => Line;
}

/** Undefined where there is no such file. */
export function* telling(files: Files, path: string): Slices<Told | undefined> {
  const job = yield* building(files, path);
  if (job === undefined) return undefined;
  const lines = lineFinder(job);
  const story = yield* walking(job);
  yield;
  return { job, story, heading: headingOf(job, path), at: (where) => ({ file: where.file, line: lines(where) }) };
}

/** The stories of these jobs, each once; a path that can't be read is left out. */
export function* storiesOf(files: Files, paths: readonly string[]): Slices<Story[]> {
  const stories: Story[] = [];
  for (const path of new Set(paths)) {
    const job = yield* building(files, path);
    if (job !== undefined) stories.push(yield* walking(job));
    yield;
  }
  return stories;
}

export function headingOf(job: Job, path: string): Heading {
  const said: { -readonly [key in keyof Heading]: Heading[key] } = { title: job.sheet?.title?.value ?? path, file: path };
  for (const detail of job.sheet?.details ?? []) {
    if ((detail.kind === "machine" || detail.kind === "serial" || detail.kind === "by") && detail.text !== undefined) said[detail.kind] = detail.text.value;
    if (detail.kind === "opened" && detail.date !== undefined) said.opened = detail.date.text;
  }
  return said;
}

/** “Pellworth Drover 30 cwt, 1952, PD 4471”: what stands below the title. */
export function machineWords(heading: Heading): string {
  return [heading.machine, heading.serial].filter((it) => it !== undefined).join(", ");
}

/** Said at the foot of each. */
export const recordOnly = "This is a record and a reminder, not an inspection. The maker's data, your local rules and licensed people come first.";
