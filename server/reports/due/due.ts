// What is due over all jobs, the gravest first: releases that don't hold, what hangs, rechecks past, machines apart and why, gauges, parcels, questions; and the next
// thing to do for each machine.
// Invariant: a plain value; the day is given. What is open is said by the one list, what parcels do by the plan; nothing is judged here.
import type { Slices } from "../../../grammar/slices.ts";
import { orderText } from "../../model/titles.ts";
import type { Entry } from "../../../grammar/tree.ts";
import type { Files } from "../../model/files.ts";
import { memo } from "../../model/memo.ts";
import type { Gauge } from "../../model/things.ts";
import type { Where } from "../../model/where.ts";
import { addDays, addMonths } from "../../quantities/days.ts";
import { compare } from "../../quantities/exact.ts";
import { capital, counted, firstSentence, listed } from "../../rules/wording.ts";
import { titlesListed } from "../draw/so-many.ts";
import { usualHours } from "../../plan/calendar.ts";
import { type MachineStories, lastCounter, machinesOf } from "../../story/machines.ts";
import { type RecheckDue, rechecksOf } from "../../story/rechecks.ts";
import type { Story } from "../../story/story.ts";
import { telling } from "../draw/heading.ts";
import { type Line, lineFinder } from "../draw/line.ts";
import { reportingLeft, type LeftGroup } from "../left/left.ts";
import { planning } from "../plan/plan.ts";
import type { ParcelShown, PlanReport } from "../plan/shapes.ts";
import { releasing } from "../release/release.ts";
import type { OpenItem } from "../release/shapes.ts";
import type { JobDue } from "./job-due.ts";
import { nextOf } from "./next.ts";
import { type DueGroup, type DueItem, type DueReport, type MachineDue, dueGroups } from "./shapes.ts";

export type { DueReport } from "./shapes.ts";

/** Of the sheets at `paths`, on `day` (ISO 8601). A path that can't be read is left out; undefined where none can. */
export function* reportingDue(files: Files, paths: readonly string[], day: string): Slices<DueReport | undefined> {
  const jobs: JobDue[] = [];
  for (const path of new Set(paths)) {
    const due = yield* jobDue(files, path);
    if (due !== undefined) jobs.push(due);
    yield;
  }
  if (jobs.length === 0) return undefined;
  const byStory = new Map(jobs.map((it) => [it.story, it]));
  const machines = machinesOf(jobs.map((it) => it.story));
  const plan = yield* planning(
    files,
    jobs.map((it) => it.path),
    { from: day, hoursADay: usualHours },
  );
  const items: DueItem[] = [];
  const machineDues: MachineDue[] = [];
  for (const machine of machines) {
    yield;
    const own = machine.stories.map((story) => byStory.get(story) as JobDue);
    const mine = own.flatMap((job) => [
      ...released(job, machine),
      ...hurts(job, machine),
      ...rechecks(job, machine, day),
      ...apart(job, machine),
      ...questions(job, machine, plan),
    ]);
    items.push(...mine, ...together(own, machine));
    const counters = (["length", "time"] as const).flatMap((it) => lastCounter(machine, it)?.text ?? []);
    machineDues.push({
      machine: machine.title,
      serial: machine.serial ?? null,
      counter: counters.length === 0 ? null : counters.join(", "),
      jobs: own.map((it) => it.title),
      ...nextOf(own, mine, plan),
    });
  }
  items.push(...gauges(jobs, day));
  if (plan !== undefined) items.push(...parcels(plan, jobs, machines, day));
  const rank = (it: DueItem) => dueGroups.indexOf(it.group);
  items.sort((a, b) => rank(a) - rank(b) || order(a.day, b.day));
  return {
    ...headOf(jobs, machines),
    day,
    machines: machineDues,
    items,
  };
}

function order(a: string | null, b: string | null): number {
  if (a === b) return 0;
  return (a ?? "9999") < (b ?? "9999") ? -1 : 1;
}

function headOf(jobs: readonly JobDue[], machines: readonly MachineStories[]): Pick<DueReport, "title"> {
  return { title: `${counted(machines.length, "machine")}, ${counted(jobs.length, "sheet")}` };
}

function* jobDue(files: Files, path: string): Slices<JobDue | undefined> {
  const told = yield* telling(files, path);
  const release = yield* releasing(files, path);
  const now = yield* reportingLeft(files, path);
  if (told === undefined || release === undefined) return undefined;
  const { job, story } = told;
  const first = job.sheet ?? job.own.sheet.entries[0];
  const pause = story.pauses.at(-1);
  return {
    story,
    title: release.title,
    by: release.by,
    path,
    head: { file: path, line: first === undefined ? 1 : linesOf(story)({ file: path, entry: first, row: 0, at: first.at }) },
    signed: story.release !== undefined && job.own.sheet.entries.includes(story.release.entry),
    nothingDone: release.nothingDone,
    open: release.open,
    left: now?.pauses.find((it) => it.when.startsWith("Now"))?.groups ?? [],
    why: pause?.entry.why?.value,
  };
}

function row(group: DueGroup, machine: MachineStories | undefined, job: JobDue | undefined, text: string, at: Line, more: Partial<DueItem> = {}): DueItem {
  const { file, line } = at;
  return { group, machine: machine?.title ?? null, job: job?.title ?? null, text, details: [], day: null, counter: null, key: "", ...more, file, line };
}

/** At most three, and how many more there are. */
function cut(list: readonly string[]): string[] {
  return list.length <= 3 ? [...list] : [...list.slice(0, 3), `And ${list.length - 3} more.`];
}

// ---------------------------------------------------------------- releases

function released(job: JobDue, machine: MachineStories): DueItem[] {
  if (!job.signed || job.open.length === 0) return [];
  const since = job.open.filter((it) => isWorkSince(job, it));
  const open = job.open.filter((it) => !since.includes(it));
  const out: DueItem[] = [];
  const [first] = open;
  if (first !== undefined) {
    const text = `${job.title}: a release is written, and ${counted(open.length, "thing is", "things are")} open. Don't use the machine on it.`;
    out.push(row("Released, and something is open", machine, job, text, releaseLine(job), { details: cut(open.map((it) => it.message)) }));
  }
  if (since[0] !== undefined)
    out.push(
      row("Worked on after its release", machine, job, `${job.title}: work was done after the release, and no release speaks of it.`, since[0], {
        details: cut(since.map((it) => it.message)),
      }),
    );
  return out;
}

/** What stands in the way because it was done after the release: a step that is done, said by the release's own rule. */
function isWorkSince(job: JobDue, it: OpenItem): boolean {
  if (it.rule !== "release-blocked" || it.file !== job.path) return false;
  const { starts, entries } = job.story.job.own.sheet;
  const entry = entries[starts.findLastIndex((start) => start <= it.line - 1)];
  return job.story.visits.some((visit) => visit.phase === "done" && (visit.entry as Entry) === entry);
}

function releaseLine(job: JobDue): Line {
  const { release } = job.story;
  return release === undefined ? job.head : lineIn(job.story, release.where);
}

const linesOf = memo((story: Story) => lineFinder(story.job));

function lineIn(story: Story, where: Where): Line {
  return { file: where.file, line: linesOf(story)(where) };
}

// ---------------------------------------------------------------- the state of the machine

function hurts(job: JobDue, machine: MachineStories): DueItem[] {
  const of = (name: LeftGroup["name"]) => job.left.find((it) => it.name === name)?.rows ?? [];
  const put = (group: DueGroup, rows: readonly LeftGroup["rows"][number][], text: string) => {
    const [first] = rows;
    return first === undefined ? [] : [row(group, machine, job, text, first, { details: cut(rows.map((it) => it.text)) })];
  };
  // That it is up on its stands makes no row; where there is one, it says as many as the release does.
  const unsafe =
    job.signed || of("Unsafe").length === 0 ? [] : job.open.flatMap((it) => (it.group === "Unsafe" ? [{ ...it, text: firstSentence(it.message) }] : []));
  return [
    ...put("Hanging", of("Hanging"), `${job.title}: set it down or on stands before anything else.`),
    ...put("Unsafe on the sheet", unsafe, `${job.title}: ${counted(unsafe.length, "unsafe thing is", "unsafe things are")} open.`),
  ];
}

const apartNames: readonly LeftGroup["name"][] = ["Off", "Slack", "Not locked", "In for now", "Drained", "Away", "Made safe", "Held up", "Hanging"];

function apart(job: JobDue, machine: MachineStories): DueItem[] {
  const groups = job.left.filter((it) => apartNames.includes(it.name));
  const at = groups[0]?.rows[0];
  const details = groups.map(({ name, rows }) => {
    const words = rows.map((it) => it.text);
    const few = words.length <= 4 ? words : [...words.slice(0, 3), `${words.length - 3} more`];
    // What has a comma of its own is told apart by semicolons.
    return `${name}: ${few.some((it) => it.includes(",")) ? few.join("; ") : listed(few)}.`;
  });
  const why = job.why === undefined ? "" : ` Last laid up: ${job.why}.`;
  if (at !== undefined) return [row("Apart", machine, job, `${job.title}.${why}`, at, { details })];
  if (job.signed || (job.nothingDone && job.open.length === 0)) return [];
  const open = job.open.length === 0 ? "nothing is open, and no release is written" : `${counted(job.open.length, "thing is", "things are")} open`;
  return [
    row("Under way, nothing apart", machine, job, `${job.title}: ${job.nothingDone ? "not begun; " : ""}${open}.${why}`, job.open[0] ?? job.head, {
      details: cut(job.open.map((it) => it.message)),
    }),
  ];
}

/** Jobs of one machine that are under way at once: who is at one of them is told what the other has open. */
function together(jobs: readonly JobDue[], machine: MachineStories): DueItem[] {
  const open = jobs.filter((it) => !it.signed && !it.nothingDone);
  const [first] = open;
  if (first === undefined || open.length < 2) return [];
  const named = open.map((it) => `“${it.title}”${it.by === undefined ? "" : ` (${it.by})`}`);
  const details = open.map((it) => {
    const apart = it.left.filter(({ name }) => apartNames.includes(name)).flatMap(({ rows }) => rows.map((row) => row.text));
    const what =
      apart.length === 0
        ? `${counted(it.open.length, "thing")} open`
        : `${apart.slice(0, 3).join(", ")}${apart.length > 3 ? ` and ${apart.length - 3} more` : ""}`;
    return `${it.title}: ${what}.`;
  });
  return [
    row(
      "Two jobs at one machine",
      machine,
      undefined,
      `${listed(named)} are under way at once. Tell each other before anything is lowered, made live or tried.`,
      first.head,
      { details: cut(details) },
    ),
  ];
}

// ---------------------------------------------------------------- rechecks and gauges

function rechecks(job: JobDue, machine: MachineStories, day: string): DueItem[] {
  return rechecksOf(job.story)
    .filter((it) => !it.done)
    .map((it) => {
      const at = lineIn(job.story, it.where);
      const name = job.story.job.things.get(it.of)?.title ?? it.of;
      const what = `${name}: look at it again after ${it.after}`;
      const { past, words } = fallsDue(it, machine, day);
      return row(past ? "Recheck due" : "Coming up", machine, job, `${what}, ${words}.`, at, {
        key: `recheck ${it.of}`,
        day: it.due?.kind === "day" ? it.due.day : null,
        counter: it.due?.kind === "counter" ? it.due.text : null,
      });
    });
}

/** By the machine's last counter, whichever of its sheets names it. */
function fallsDue(it: RecheckDue, machine: MachineStories, day: string): { readonly past: boolean; readonly words: string } {
  const { due } = it;
  if (due === undefined) return { past: false, words: "and its release names no counter to count from" };
  if (due.kind === "day") return { past: day >= due.day, words: `on ${due.day}` };
  const last = lastCounter(machine, due.unit.dimension);
  if (last === undefined) return { past: false, words: `at ${due.text}` };
  const past = compare(last.value.value, due.value) >= 0;
  return { past, words: `at ${due.text}; the last counter on its sheets is ${last.text}` };
}

/** Each gauge once: of sheets that call it the same, the newest check counts. */
function gauges(jobs: readonly JobDue[], day: string): DueItem[] {
  const newest = new Map<string, { gauge: Gauge; due: string; at: Line }>();
  for (const { story } of jobs) {
    for (const thing of story.job.things.values()) {
      if (thing.kind !== "gauge" || thing.checked === undefined || thing.everyMonths === undefined) continue;
      const due = addMonths(thing.checked, thing.everyMonths);
      if (due === undefined) continue;
      const key = `${thing.name} ${(thing.title ?? "").trim().toLowerCase()}`;
      const known = newest.get(key);
      if (known === undefined || (known.gauge.checked ?? "") < thing.checked)
        newest.set(key, { gauge: thing, due, at: lineIn(story, { file: thing.file, entry: thing.entry, row: 0, at: thing.at }) });
    }
  }
  const nextYear = addMonths(day, 12) ?? day;
  const near = [...newest.values()].filter(({ due }) => due <= nextYear);
  return near.map(({ gauge, due, at }) =>
    row(
      day > due ? "Gauge to be checked" : "Coming up",
      undefined,
      undefined,
      `${gauge.title ?? gauge.name}: to be checked by ${due}; last checked ${gauge.checked}.`,
      at,
      { day: due, key: `gauge ${gauge.name}` },
    ),
  );
}

// ---------------------------------------------------------------- parcels and questions

function parcels(plan: PlanReport, jobs: readonly JobDue[], machines: readonly MachineStories[], day: string): DueItem[] {
  const out: DueItem[] = [];
  for (const it of [...plan.parcels, ...plan.notPlanned]) {
    const [first] = it.items;
    if (first === undefined) continue;
    const job = jobs.find(({ path, title }) => first.file === path || first.jobs.includes(title));
    const shared = new Set(it.items.flatMap((item) => [...item.jobs])).size > 1;
    const machine = job === undefined ? undefined : machines.find(({ stories }) => stories.includes(job.story));
    const put = (group: DueGroup, text: string, due: string | null) =>
      out.push(
        row(group, machine, shared ? undefined : job, text, first, {
          day: due,
          key: `parcel ${it.order ?? ""} ${it.items.map((item) => item.item).join(" ")}`.slice(0, 120),
        }),
      );
    const onItsWay = it.status === "placed" || it.status === "sent";
    if (onItsWay && it.overdue > 0) put("Parcel late", `${parcelWords(it)}: ${counted(it.overdue, "day")} late. Ask for it.`, daysBefore(day, it.overdue));
    else if (it.mustGoToday)
      put("To be sent for today", `${parcelWords(it)}: order ${it.items.length === 1 ? "it" : "them"} today or the job finishes late.`, day);
    else if (onItsWay) put("Coming up", `${parcelWords(it)}: ${it.arrives === null ? "nobody wrote when it comes" : `comes on ${it.arrives}`}.`, it.arrives);
    else if (it.goesOutBy !== null && it.questions.length === 0) put("Coming up", `${parcelWords(it)}: to be sent for by ${it.goesOutBy}.`, it.goesOutBy);
  }
  return out;
}

function daysBefore(day: string, days: number): string | null {
  return addDays(day, -days) ?? null;
}

function parcelWords(it: ParcelShown): string {
  const names = it.items.map((item) => item.name);
  const what = titlesListed(names, names.length <= 4 ? 4 : 3);
  if (it.order !== null) return `${capital(orderText(it.order))}${it.supplier === null ? "" : ` to ${it.supplier}`} (${what})`;
  return it.supplier === null ? capital(what) : `From ${it.supplier}, ${what}`;
}

function questions(job: JobDue, machine: MachineStories, plan: PlanReport | undefined): DueItem[] {
  return [...job.story.job.things.values()].flatMap((thing) => {
    if (thing.kind !== "question" || thing.answer !== undefined || thing.implied) return [];
    const at = lineIn(job.story, { file: thing.file, entry: thing.entry, row: 0, at: thing.at });
    const waiting = plan?.questions.find((it) => it.file === at.file && it.line === at.line)?.steps ?? [];
    const details =
      waiting.length === 0
        ? []
        : [`${listed(waiting.slice(0, 3).map((it) => `“${it}”`))}${waiting.length > 3 ? ` and ${waiting.length - 3} more` : ""} can't be done before.`];
    return [row("Waiting for an answer", machine, job, thing.title ?? thing.name, at, { details, key: thing.name })];
  });
}
