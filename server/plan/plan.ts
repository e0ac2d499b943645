// When: each step done, ready or waiting and for what; with the time that steps take and parcels need, the earliest and latest days, and what the finish hangs on.
// Invariant: the day comes from outside. Exact; a time that nobody wrote is not guessed, and what hangs on it says so.
import { type Slices, apart, runThrough } from "../../grammar/slices.ts";
import { grouped, putInto } from "../model/grouped.ts";
import { memo } from "../model/memo.ts";
import { measured } from "../model/values.ts";
import { type Exact, compare, ratio, zero } from "../quantities/exact.ts";
import type { Calendar } from "./calendar.ts";
import { type Activity, type Times, criticalPath } from "./critical-path.ts";
import { type Parcel, parcelsOf } from "./parcels.ts";
import type { Story, Visit } from "../story/story.ts";
import type { Supply } from "../supply/supply.ts";
import { type VisitWaits, waitsOf } from "./waits.ts";

export interface PlannedStep {
  readonly story: Story;
  readonly visit: Visit;
  readonly state: "done" | "ready" | "waiting";
  /** In working days: of a step that is done in part, its share. Undefined where the sheet does not say; it is reckoned as nothing. */
  readonly takes: Exact | undefined;
  /** Undefined where it is done. */
  readonly waits: VisitWaits | undefined;
  /** What it waits for that is not here. */
  readonly parcels: readonly PlannedParcel[];
  /** Undefined where it is done, and in a circle or behind one. */
  readonly times: Times | undefined;
  /** When it could start but for its parcels. */
  readonly couldStart: Exact | undefined;
  /** It hangs on an answer, a parcel without a day or a thing that no step does: its times are the earliest, as if that came on the first day. */
  readonly open: boolean;
}

export interface PlannedParcel {
  readonly parcel: Parcel;
  /** Undefined where no planned step waits for it, and behind a circle. */
  readonly times: Times | undefined;
}

export interface JobEnd {
  readonly story: Story;
  /** The earliest finish of what is planned; undefined where nothing is, and where steps wait for each other. */
  readonly finish: Exact | undefined;
  readonly open: boolean;
  /** Of all planned steps together. */
  readonly work: Exact;
  readonly untimed: number;
}

export interface Plan {
  readonly calendar: Calendar;
  /** In the order of the sheets. */
  readonly steps: readonly PlannedStep[];
  readonly parcels: readonly PlannedParcel[];
  readonly ends: readonly JobEnd[];
  readonly circles: readonly { readonly story: Story; readonly visits: readonly Visit[] }[];
}

/** The plan of jobs that share a shelf; each counts its slack against its own finish. `supply` is of all of them. */
export function planOf(stories: readonly Story[], supply: Supply, calendar: Calendar): Plan {
  return runThrough(planningAll(stories, supply, calendar));
}

/** The same in slices. */
export function* planningAll(stories: readonly Story[], supply: Supply, calendar: Calendar): Slices<Plan> {
  const waits = yield* apart(() => stories.flatMap((story) => waitsOf(story).map((it) => ({ story, waits: it }))));
  const all = yield* parcelsOf(stories, supply, calendar.from);
  const parcels = all.filter((it) => it.visits.length > 0);
  const indexOf = new Map<Visit, number>(waits.map((it, i) => [it.waits.visit, i]));
  const awaited = new Map<Visit, number[]>();
  for (const [i, parcel] of parcels.entries()) for (const visit of parcel.visits) putInto(awaited, visit, waits.length + i);

  const lengths = waits.map(({ waits: { visit }, story }) => lengthOf(story, visit, calendar.hoursADay));
  const activities: Activity[] = [
    ...waits.map(({ waits: it }, i): Activity => {
      const after = [...it.steps.map((step) => indexOf.get(step.visit) as number), ...(awaited.get(it.visit) ?? [])];
      return { kind: "work", length: lengths[i] ?? zero, after, end: it.visit.file };
    }),
    ...parcels.map((it): Activity => ({ kind: "parcel", length: ratio(it.days ?? 0), after: it.after.flatMap((visit) => indexOf.get(visit) ?? []) })),
  ];
  yield;
  const path = criticalPath(activities);
  yield;
  const open = behind(
    activities,
    activities.map((_, i) => {
      const parcel = parcels[i - waits.length];
      if (parcel !== undefined) return parcel.days === undefined || parcel.overdue > 0;
      const it = waits[i]?.waits;
      return it !== undefined && (it.questions.length > 0 || it.unmet.length > 0);
    }),
  );
  const planned = parcels.map((parcel, i): PlannedParcel => ({ parcel, times: path.times[waits.length + i] }));

  yield;
  const steps = waits.map(({ story, waits: it }, i): PlannedStep => {
    const own = (awaited.get(it.visit) ?? []).map((at) => planned[at - waits.length] as PlannedParcel);
    const idle = it.steps.length === 0 && own.length === 0 && it.questions.length === 0 && it.unmet.length === 0;
    const before = it.steps.map((step) => path.times[indexOf.get(step.visit) as number]?.finish);
    return {
      story,
      visit: it.visit,
      state: idle ? "ready" : "waiting",
      takes: lengths[i],
      waits: it,
      parcels: own,
      times: path.times[i],
      couldStart: before.some((time) => time === undefined) ? undefined : before.reduce<Exact>((a, b) => (b !== undefined && compare(b, a) > 0 ? b : a), zero),
      open: open[i] as boolean,
    };
  });
  const done = stories.flatMap((story) =>
    story.visits
      .filter((visit) => visit.phase === "done")
      .map((visit): PlannedStep => {
        const takes = lengthOf(story, visit, calendar.hoursADay);
        return { story, visit, state: "done", takes, waits: undefined, parcels: [], times: undefined, couldStart: undefined, open: false };
      }),
  );
  yield;
  return {
    calendar,
    steps: inOrder([...done, ...steps], stories),
    parcels: [...planned, ...all.filter((it) => it.visits.length === 0).map((parcel) => ({ parcel, times: undefined }))],
    ends: stories.map((story) => {
      const own = steps.filter((it) => it.story === story);
      return {
        story,
        finish: path.ends.get(story.job.own.path),
        open: own.some((it) => it.open),
        work: own.reduce((sum, it) => sum.add(it.takes ?? zero), zero),
        untimed: own.filter((it) => it.takes === undefined).length,
      };
    }),
    circles: path.circles.flatMap((circle) => {
      const visits = circle.flatMap((i) => waits[i]?.waits.visit ?? []);
      const story = waits[circle.find((i) => i < waits.length) ?? -1]?.story;
      return story === undefined ? [] : [{ story, visits }];
    }),
  };
}

/** A step that is done at some of its places and planned at others has a visit for each. */
const visitsOf = memo((story: Story) => grouped(story.visits, (it) => it.entry));

/** `takes 2 d` is two working days; hours, minutes and seconds are of work. Undefined where it is not said, or can't be read. */
function lengthOf(story: Story, visit: Visit, hoursADay: number): Exact | undefined {
  let time: ReturnType<typeof measured>;
  for (const detail of visit.entry.details) if (detail.kind === "takes" && detail.fault === undefined) time = measured(detail.time);
  if (time === undefined || time.unit.dimension !== "time" || compare(time.value, zero) < 0) return undefined;
  const days = time.unit.name === "d" ? time.value.div(86_400) : time.value.div(3600 * hoursADay);
  const parts = visitsOf(story).get(visit.entry) ?? [];
  if (parts.length < 2) return days;
  const places = parts.reduce((sum, it) => sum + (it.places?.length ?? 0), 0);
  return visit.places === undefined || places === 0 ? days : days.mul(ratio(visit.places.length, places));
}

/** Those that are so, and all that wait for them at any remove. */
function behind(activities: readonly Activity[], first: readonly boolean[]): boolean[] {
  const followers: number[][] = activities.map(() => []);
  activities.forEach((it, i) => {
    for (const j of it.after) followers[j]?.push(i);
  });
  const out = [...first];
  const queue = first.flatMap((it, i) => (it ? [i] : []));
  for (const i of queue) {
    for (const j of followers[i] as number[]) {
      if (out[j] === true) continue;
      out[j] = true;
      queue.push(j);
    }
  }
  return out;
}

function inOrder(steps: readonly PlannedStep[], stories: readonly Story[]): PlannedStep[] {
  const ranks = new Map<unknown, number>();
  for (const story of stories) for (const entry of story.job.own.sheet.entries) ranks.set(entry, ranks.size);
  const rank = (it: PlannedStep) => ranks.get(it.visit.entry) ?? 0;
  return [...steps].sort((a, b) => rank(a) - rank(b) || a.visit.number - b.visit.number);
}
