// Work for today: each step done, ready or waiting and for what, when it can start and must be finished, and what must be sent for today.
// Invariant: a plain value, worked out here and drawn elsewhere. The day is given. Times are exact and leave as decimal strings; each row has its line and its job.
import { type Slices, apart, mapping } from "../../../grammar/slices.ts";
import type { Entry } from "../../../grammar/tree.ts";
import type { Files } from "../../model/files.ts";
import type { Job } from "../../model/job.ts";
import { type Where, where } from "../../model/where.ts";
import { type Exact, compare, zero } from "../../quantities/exact.ts";
import type { Calendar } from "../../plan/calendar.ts";
import { type Plan, type PlannedStep, planningAll } from "../../plan/plan.ts";
import { toMake } from "../../plan/to-make.ts";
import { gaugesUsed, withoutStep } from "../../plan/without-step.ts";
import { midSentence } from "../../rules/wording.ts";
import { orderText, small } from "../../model/titles.ts";
import type { Story } from "../../story/story.ts";
import { supplyingAll } from "../../supply/supply.ts";
import { cautionsForAll } from "../draw/cautions-for.ts";
import { type Heading, headingOf, storiesOf } from "../draw/heading.ts";
import { type Days, type LineOf, daysOf } from "./days.ts";
import { parcelsShown } from "./parcels.ts";
import type { GaugeShown, JobShown, MakeShown, PlanReport, QuestionShown, When } from "./shapes.ts";
import { isCritical, stepShown, stepTitle } from "./steps.ts";
import { lineFinder } from "../draw/line.ts";

export type { PlanReport } from "./shapes.ts";

/** The plan of the sheets at `paths`, taken together. A path that can't be read is left out; undefined where none can. */
export function* planning(files: Files, paths: readonly string[], calendar: Calendar): Slices<PlanReport | undefined> {
  const stories = yield* storiesOf(files, paths);
  if (stories.length === 0) return undefined;
  const supply = yield* supplyingAll(stories);
  const plan = yield* planningAll(stories, supply, calendar);
  yield;
  const at = linesOf(stories.map((story) => story.job));
  const titles = new Map(stories.map((story) => [story, story.job.sheet?.title?.value ?? story.job.path]));
  const titleOf = (story: Story) => titles.get(story) as string;
  const days = daysOf(calendar);
  const steps = yield* mapping(plan.steps, (it) => stepShown(it, titleOf(it.story), at, days));
  const parcels = yield* apart(() => parcelsShown(plan, at, days, titleOf));
  return {
    ...headOf(stories, titleOf),
    from: calendar.from,
    hoursADay: calendar.hoursADay,
    jobs: yield* mapping(plan.ends, (end) => jobShown(end, plan, titleOf(end.story), at, days)),
    steps,
    parcels: parcels.filter((it) => it.slack !== null || it.items.some((item) => item.steps.length > 0)),
    notPlanned: parcels.filter((it) => it.slack === null && it.items.every((item) => item.steps.length === 0)),
    questions: yield* apart(() => questionsShown(plan, titleOf, at)),
    toMake: yield* apart(() => stories.flatMap((story) => makesShown(story, plan, at))),
    gauges: yield* apart(() => stories.flatMap((story) => gaugesShown(story, plan, at, days))),
    circles: plan.circles.map(({ story, visits }) => ({
      job: titleOf(story),
      steps: visits.map((visit) => ({
        step: visit.entry.name?.text ?? "a step",
        waitsFor: (plan.steps.find((it) => it.visit === visit)?.waits?.steps ?? []).flatMap((wait) =>
          visits.includes(wait.visit) ? [`${wait.visit.entry.name?.text ?? "a step"}: ${wait.why}`] : [],
        ),
        ...at(where(visit.file, visit.entry, 0, visit.entry.keyword)),
      })),
    })),
    meanwhile: yield* apart(() => meanwhileOf(plan, titleOf, days)),
    cautions: yield* apart(() => cautionsForAll(stories)),
  };
}

function linesOf(jobs: readonly Job[]): LineOf {
  const finders = new Map<string, (where: Where) => number>();
  const starts = new Map<Entry, (where: Where) => number>();
  for (const job of jobs) {
    for (const file of job.files) {
      const finder = finders.get(file.path) ?? lineFinder(job);
      finders.set(file.path, finder);
      for (const entry of file.sheet.entries) starts.set(entry, finder);
    }
  }
  return (it) => ({ file: it.file, line: starts.get(it.entry)?.(it) ?? 1 });
}

/** Of one job its own; of several their titles. */
function headOf(stories: readonly Story[], titleOf: (story: Story) => string): Heading {
  const [only] = stories;
  return stories.length === 1 && only !== undefined ? headingOf(only.job, only.job.path) : { title: stories.map(titleOf).join("; ") };
}

function jobShown(end: Plan["ends"][number], plan: Plan, title: string, at: LineOf, days: Days): JobShown {
  const { job } = end.story;
  const own = plan.steps.filter((it) => it.story === end.story);
  const planned = own.filter((it) => it.state !== "done");
  const visits = new Set(planned.map((it) => it.visit));
  const machine = job.sheet?.details.findLast((it) => it.kind === "machine");
  const first = job.sheet ?? job.own.sheet.entries[0];
  const chain = [
    ...planned.filter(isCritical).map((it) => ({ start: it.times?.start ?? zero, text: it.visit.entry.name?.text ?? stepTitle(it) })),
    ...plan.parcels
      .filter((it) => isCritical(it) && it.parcel.days !== undefined && it.parcel.visits.some((visit) => visits.has(visit)))
      .map((it) => ({ start: it.times?.start ?? zero, text: it.parcel.item.written })),
  ].sort((a, b) => compare(a.start, b.start));
  return {
    title,
    machine: machine?.kind === "machine" ? (machine.text?.value ?? null) : null,
    finish: end.finish === undefined ? null : lastOf(planned, end.finish, days),
    atEarliest: end.open,
    unknown: end.open ? unknownOf(planned) : [],
    withoutStep: withoutStep(end.story),
    work: days.span(end.work),
    untimed: end.untimed,
    planned: planned.length,
    done: own.length - planned.length,
    criticalPath: chain.map((it) => it.text),
    ...(first === undefined ? { file: job.path, line: 1 } : at(where(job.path, first, 0, first.keyword))),
  };
}

/** The day on which the last of its steps closes. */
function lastOf(planned: readonly PlannedStep[], finish: Exact, days: Days): When {
  const last = planned.filter((it) => it.times !== undefined && compare(it.times.finish, finish) === 0).map((it) => days.ends(finish, it.times?.start ?? zero));
  return last.reduce((a, b) => ((b.day ?? "9") > (a.day ?? "9") ? b : a), last[0] ?? days.starts(finish));
}

/** What keeps the planned steps from having a day, each once. */
function unknownOf(planned: readonly PlannedStep[]): string[] {
  const out = new Set<string>();
  for (const it of planned) {
    for (const { parcel } of it.parcels) {
      const order = parcel.reference === undefined ? "" : ` (${orderText(parcel.reference)})`;
      if (parcel.overdue > 0) out.add(`${small(parcel.item.title)}${order}, ${parcel.overdue === 1 ? "a day" : `${parcel.overdue} days`} overdue`);
      else if (parcel.days === undefined)
        out.add(`${small(parcel.item.title)}, ${parcel.supplier === undefined ? "which nobody offers" : "for which nobody gives a lead"}`);
    }
  }
  for (const it of planned) {
    for (const { name } of it.waits?.questions ?? []) out.add(`an answer: \u201c${it.story.job.things.get(name)?.title ?? name}\u201d`);
    for (const { text } of it.waits?.unmet ?? []) out.add(text);
  }
  return [...out];
}

function makesShown(story: Story, plan: Plan, at: LineOf): MakeShown[] {
  return toMake(story).map(({ cell, count, how, where: from, visits }) => ({
    item: cell.thing.name,
    name: midSentence(cell.thing, cell.place),
    count,
    how: how ?? null,
    steps: plan.steps.filter((it) => visits.includes(it.visit)).map((it) => stepTitle(it)),
    ...at(from),
  }));
}

/** Gauges whose check runs out before the earliest day of a step that uses them. */
function gaugesShown(story: Story, plan: Plan, at: LineOf, days: Days): GaugeShown[] {
  const out = new Map<string, GaugeShown>();
  for (const { gauge, due, visit, limit, where: from } of gaugesUsed(story)) {
    const step = plan.steps.find((it) => it.visit === visit);
    const day = step?.times === undefined ? undefined : (days.starts(step.times.start).day ?? undefined);
    if (step === undefined || day === undefined || day <= due || out.has(gauge.name)) continue;
    out.set(gauge.name, {
      gauge: gauge.name,
      name: gauge.title ?? gauge.name,
      due,
      step: limit === undefined ? stepTitle(step) : (limit.title ?? limit.name),
      day,
      ...at(from),
    });
  }
  return [...out.values()];
}

// ---------------------------------------------------------------- questions, and what can be done meanwhile

function questionsShown(plan: Plan, titleOf: (story: Story) => string, at: LineOf): QuestionShown[] {
  const out = new Map<string, { shown: QuestionShown; steps: string[] }>();
  for (const it of plan.steps) {
    for (const { name, where: from } of it.waits?.questions ?? []) {
      const question = it.story.job.things.get(name);
      const home = question === undefined || question.implied ? from : { file: question.file, entry: question.entry, row: 0, at: question.at };
      const key = `${home.file} ${name} ${titleOf(it.story)}`;
      const known = out.get(key) ?? { shown: { question: name, asks: question?.title ?? name, job: titleOf(it.story), steps: [], ...at(home) }, steps: [] };
      known.steps.push(stepTitle(it));
      out.set(key, known);
    }
  }
  return [...out.values()].map(({ shown, steps }) => ({ ...shown, steps }));
}

/** Where the finish of a job waits for a parcel, the steps of that job and of the others that can be begun before it comes. */
function meanwhileOf(plan: Plan, titleOf: (story: Story) => string, days: Days): PlanReport["meanwhile"] {
  return plan.ends.flatMap(({ story }) => {
    const own = plan.steps.filter((it) => it.story === story && it.state !== "done");
    const visits = new Set(own.map((it) => it.visit));
    const awaited = plan.parcels
      .filter((it) => isCritical(it) && compare(it.times?.finish ?? zero, zero) > 0 && it.parcel.visits.some((visit) => visits.has(visit)))
      .sort((a, b) => compare(a.times?.finish ?? zero, b.times?.finish ?? zero));
    const [next] = awaited;
    const until = next?.times?.finish;
    if (next === undefined || until === undefined) return [];
    // Where work on the path can go on today nothing stands still.
    if (own.some((it) => isCritical(it) && it.times !== undefined && compare(it.times.start, until) < 0)) return [];
    const steps = own.filter((it) => it.times !== undefined && compare(it.times.start, until) < 0 && !it.open).map((it) => stepTitle(it));
    return [{ job: titleOf(story), until: days.day(Number(until.n)), waitsFor: next.parcel.item.title, steps }];
  });
}
