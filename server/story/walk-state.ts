// What is known and gathered as a job is walked line by line; the story is made of it at the end.
// Invariant: `day` is the day of the lines that are taken, `mover.day` that of the step which is gone through.
import type { Entry, StepEntry } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import { where } from "../model/where.ts";
import { Cells } from "./cells.ts";
import type { Mover } from "./mover.ts";
import type { Beyond, Blurred, Concession, Found, Moment, Pause, Reading, Seen, Story, SupportMoment, SupportState, Visit } from "./story.ts";

/** A step, or what is left of it, that is gone through behind all that is done. `alone`: its other places were done before. */
interface PlannedStep {
  readonly entry: StepEntry;
  readonly places: readonly string[] | undefined;
  readonly alone: boolean;
}

export interface Walk {
  readonly job: Job;
  readonly file: string;
  readonly cells: Cells;
  readonly mover: Mover;
  readonly visits: Visit[];
  readonly support: SupportMoment[];
  readonly blurred: Blurred[];
  readonly beyond: Beyond[];
  readonly doubted: Set<string>;
  readonly findings: Found[];
  readonly readings: Reading[];
  readonly seen: Seen[];
  readonly concessions: Concession[];
  readonly pauses: Pause[];
  readonly planned: PlannedStep[];
  readonly earlierReleases: NonNullable<Story["release"]>[];
  release: Story["release"];
  newestDay: string | undefined;
  day: string | undefined;
  /** A `day` line stands above: it is the day of what follows. The day that the sheet was opened is that only until a step was done on a later one. */
  isDayGiven: boolean;
}

const onTheGround: SupportState = { chocked: false, supports: [] };

/** Nothing of the job is walked yet. */
export function beginWalk(job: Job): Walk {
  const cells = new Cells(job);
  const support: SupportMoment[] = [];
  const blurred: Blurred[] = [];
  const beyond: Beyond[] = [];
  return {
    job,
    file: job.own.path,
    cells,
    mover: {
      job,
      cells,
      seq: 0,
      phase: "done",
      support: onTheGround,
      visit: undefined,
      day: undefined,
      supportMoments: support,
      blurred,
      beyond,
      blankFit: false,
      line: [],
    },
    visits: [],
    support,
    blurred,
    beyond,
    doubted: new Set(),
    findings: [],
    readings: [],
    seen: [],
    concessions: [],
    pauses: [],
    planned: [],
    earlierReleases: [],
    release: undefined,
    newestDay: undefined,
    day: undefined,
    isDayGiven: false,
  };
}

/** A date that a line names, if it names one: the newest of them is kept. */
export function dated(walk: Walk, date: string | undefined): string | undefined {
  if (date !== undefined && (walk.newestDay === undefined || date > walk.newestDay)) walk.newestDay = date;
  return date;
}

/** The moment of an entry that is no step: it belongs to no visit. */
export function momentOutsideSteps(walk: Walk, entry: Entry, row: number, at: Moment["where"]["at"], on: string | undefined = walk.day): Moment {
  return { seq: walk.mover.seq++, phase: walk.mover.phase, where: where(walk.file, entry, row, at), day: on, visit: undefined };
}

/** What was walked, as it stands for whoever asks. */
export function storyOf(walk: Walk, supportNow: SupportState, plannedFrom: number): Story {
  const { job, cells, release, newestDay } = walk;
  return {
    job,
    visits: walk.visits,
    fasteners: cells.fasteners,
    parts: cells.parts,
    fluids: cells.fluids,
    hazards: cells.hazards,
    support: walk.support,
    blurred: walk.blurred,
    beyond: walk.beyond,
    doubted: walk.doubted,
    supportNow,
    findings: walk.findings,
    readings: walk.readings,
    seen: walk.seen,
    concessions: walk.concessions,
    pauses: walk.pauses,
    ...(release === undefined ? {} : { release }),
    earlierReleases: walk.earlierReleases,
    ...(newestDay === undefined ? {} : { newestDay }),
    plannedFrom,
    cell: (name, place) => cells.all(name).find((cell) => cell.place === place),
    cells: (name) => {
      const known = cells.all(name);
      return known.length > 0 ? known : cells.of(name, []);
    },
  };
}
