// Checks a file: asks every rule and gives what they say as plain diagnostics in the order of lines.
// Invariant: pure, and the same whatever was checked before: what is kept from one check to the next only saves time.
import { factsKey } from "../../grammar/sheet-text.ts";
import type { Entry } from "../../grammar/tree.ts";
import type { Files, PriceAnswer } from "../model/files.ts";
import { type Job, buildJob } from "../model/job.ts";
import { pricesOf } from "../supply/prices.ts";
import { type Changed, rebuildJob } from "../model/rebuild.ts";
import type { Where } from "../model/where.ts";
import type { Story } from "../story/story.ts";
import { judge } from "../story/verdicts.ts";
import { walk } from "../story/walk.ts";
import { rules } from "./all.ts";
import { type Chart, type Footing, type Island, chartOf, footingOf, jobOfIslands, redrawn, standsOn } from "./islands.ts";
import { namingKey } from "./naming.ts";
import type { OpenGroup } from "./open-groups.ts";
import { type OpenList, acceptedBy, openList } from "./open-list.ts";
import { othersOpen } from "./others-open.ts";
import { type Diagnostic, type Placer, type Standing, type Told, mark, placer, remarked, replaced, standingOf } from "./placing.ts";
import type { EntryRule, JobRule, OtherOpen, ReleaseRule, Report, Said } from "./rule.ts";
import { recountMentions } from "./writing/shared/mentions.ts";

export type { Diagnostic, TextEdit } from "./placing.ts";

export interface Checker {
  /** What is wrong in the file at `path`, in the order of its lines. Empty where there is no such file. */
  check(files: Files, path: string): Diagnostic[];
  /**
   * The same, for somebody who types in it: in a job of many entries the rules that look at the whole of it are not asked again, and what they said last
   * stands until the next `check`. `whole` says whether nothing was put off.
   */
  glance(files: Files, path: string): { readonly list: Diagnostic[]; readonly whole: boolean };
}

const entryRules = rules.filter((rule): rule is EntryRule => rule.scope === "entry");
const jobRules = rules.filter((rule): rule is JobRule => rule.scope === "job");
const islandRules = jobRules.filter((rule) => rule.reach === "names");
const namingRules = jobRules.filter((rule) => rule.reach === "naming");
const wholeRules = jobRules.filter((rule) => rule.reach === undefined);
const releaseRules = rules.filter((rule): rule is ReleaseRule => rule.scope === "release");
/** At one place the entries' own rules speak first, and the others in the order of the list. */
const ranks = new Map<string, number>([...entryRules.map((it) => [it.id, -1] as const), ...[...jobRules, ...releaseRules].map((it, i) => [it.id, i] as const)]);

/** Checks a file once: every rule over the whole of its job, and nothing kept. */
export function checkFile(files: Files, path: string): Diagnostic[] {
  const job = buildJob(files, path);
  if (job === undefined) return [];
  const place = placer(job);
  const ofEntry = entryAsker();
  return shown(job, place, [ofEntries(job.own.sheet.entries, path, ofEntry), ofWhole(job, walk(job), place, ofEntry)]).shown;
}

/** Something that stands in the way of release. */
export interface Open extends Diagnostic {
  readonly safety: boolean;
  readonly group: OpenGroup;
}

/** What was said and is accepted with its why. */
export interface AcceptedItem extends Diagnostic {
  readonly why: string;
}

/**
 * Everything that stands in the way of release, in the order of lines, and what was accepted. A sheet without a release is asked as if it were to be
 * released now. Things open in used files are named there.
 */
export function openItems(files: Files, path: string): { readonly open: readonly Open[]; readonly accepted: readonly AcceptedItem[] } {
  const job = buildJob(files, path);
  return job === undefined ? { open: [], accepted: [] } : openOf(job, otherAsker(job));
}

function openOf(job: Job, others: OtherAsker): { readonly open: readonly Open[]; readonly accepted: readonly AcceptedItem[] } {
  const story = walk(job, true);
  const place = placer(job);
  const told: Told[] = [];
  ask(jobRules, job, () => story, told, others);
  const { lines, open, accepted } = gathered(job, story, told, place, entryAsker());
  const placed = (said: Said) => place.diagnostic({ said, lines });
  return {
    open: inOrder(open.map((it) => ({ ...placed(it.said), safety: it.safety, group: it.group }))),
    accepted: inOrder(accepted.map((it) => ({ ...placed(it.said), why: it.why }))),
  };
}

const noLines: readonly Where[] = [];

// ---------------------------------------------------------------- what is kept

/** What the rules of names said at an island's own entries. */
interface Answer {
  readonly footing: Footing;
  readonly told: readonly Told[];
}

/** What rules said of the whole job, and on what. */
interface NamingAnswer {
  readonly entries: readonly Entry[];
  readonly files: readonly string[];
  readonly faults: string;
  readonly told: readonly Told[];
}

interface WholeAnswer {
  readonly entries: readonly Entry[];
  readonly files: readonly string[];
  readonly answers: readonly Answer[];
  readonly naming: NamingAnswer;
  readonly beside: string;
  /** What the door answered for its price lists. */
  readonly lists: readonly PriceAnswer[];
  readonly told: readonly Told[];
}

interface Kept {
  readonly chart: Chart;
  readonly standing: Standing;
  /** By island, as the chart has them. */
  readonly answers: readonly Answer[];
  /** By entry of the checked file: what its own rules said. */
  readonly own: readonly (readonly Told[])[];
  readonly naming: NamingAnswer;
  readonly whole: WholeAnswer;
  readonly list: { readonly unsorted: readonly Diagnostic[]; readonly shown: Diagnostic[] };
}

/** So many entries, some 2,500 lines, are too many for looking at the whole of them between two keystrokes. */
const manyEntries = 400;

/** After so many edits in place everything is looked through again, so that what they left behind can go. */
const mostGone = 4000;

/**
 * A checker that keeps what an edit did not change: by entry what its own rules said, by island what the rules said whose reach is names. The other
 * rules are asked again where any fact of the job has changed. In a job of more than `many` entries a glance puts them off.
 */
export function createChecker({ many = manyEntries } = {}): Checker {
  const kept = new Map<string, Kept>();
  /** By file, and by any of the island's own entries. */
  const answered = new Map<string, WeakMap<Entry, Answer>>();
  const ofEntry = entryAsker();

  return { check: (files, path) => look(files, path, false).list, glance: (files, path) => look(files, path, true) };

  function look(files: Files, path: string, glancing: boolean): { list: Diagnostic[]; whole: boolean } {
    const before = kept.get(path);
    // Should a rule throw, nothing half done is built upon.
    kept.delete(path);
    const edited = before === undefined ? undefined : editedInPlace(before, files);
    const job = edited?.chart.job ?? buildJob(files, path);
    if (job === undefined) return { list: [], whole: true };
    const chart = edited?.chart ?? chartOf(job);
    const standing = edited === undefined ? standingOf(job) : (before as Kept).standing;
    const place = placer(job, standing);
    const story = once(() => walk(job));
    const byEntry = answered.get(path) ?? new WeakMap<Entry, Answer>();
    answered.set(path, byEntry);
    const answers = ofIslands(chart, edited === undefined ? undefined : { ...edited, answers: (before as Kept).answers }, byEntry, place, story);
    const told: Told[] = [];
    for (const answer of answers) for (const it of answer.told) told.push(it);
    const own = ownOf(job, ofEntry, edited === undefined ? undefined : { ...edited, own: (before as Kept).own });
    const naming = ofNaming(job, chart, before?.naming, place);
    const last = lastOfRest(job, chart, before?.whole, answers, naming, place);
    const putOff = last === undefined && glancing && before !== undefined && chart.entries.length > many;
    const whole = last ?? (putOff ? before.whole : ofRest(job, chart, answers, naming, told, place, story, ofEntry));
    const rest = putOff ? whole.told.filter((it) => place.stillStands(it)) : whole.told;
    const list = shown(job, place, [...own, told, naming.told, rest], before?.list);
    kept.set(path, { chart, standing, answers, own, naming, whole, list });
    return { list: list.shown, whole: !putOff };
  }
}

/** An edit that left every entry in its place, with the names that it had. */
interface Edited {
  readonly chart: Chart;
  readonly changed: readonly Changed[];
  /** The islands whose answers may be others. */
  readonly touched: ReadonlySet<number>;
}

function editedInPlace({ chart, standing }: Kept, files: Files): Edited | undefined {
  if (standing.gone.size > mostGone) return undefined;
  const rebuilt = rebuildJob(chart.job, files);
  const now = rebuilt === undefined ? undefined : redrawn(chart, rebuilt);
  if (rebuilt === undefined || now === undefined) return undefined;
  for (const { at, was, now: is } of rebuilt.changed) if (!replaced(standing, was, is, at)) return undefined;
  recountMentions(chart.job, rebuilt.job, rebuilt.changed);
  return { ...now, changed: rebuilt.changed };
}

/** Islands that stand as they stood keep their answers; all others are asked together, as one job. */
function ofIslands(
  chart: Chart,
  edited: (Edited & { readonly answers: readonly Answer[] }) | undefined,
  byEntry: WeakMap<Entry, Answer>,
  place: Placer,
  story: () => Story,
): Answer[] {
  const answers: Answer[] = edited === undefined ? new Array(chart.islands.length) : [...edited.answers];
  const stale: number[] = [];
  for (const i of edited === undefined ? chart.islands.keys() : edited.touched) {
    const island = chart.islands[i] as Island;
    const answer = answers[i] ?? lastAnswer(chart, island, byEntry);
    let renewed = false;
    const same = (before: Entry, now: Entry) => {
      renewed = true;
      return saysTheSame(before, now, place);
    };
    if (answer === undefined || !standsOn(answer.footing, chart, island, same)) {
      stale.push(i);
      continue;
    }
    answers[i] = answer;
    if (renewed) for (const at of island.own) byEntry.set(chart.entries[at] as Entry, answer);
  }
  if (stale.length === 0) return answers;
  const islands = stale.map((i) => chart.islands[i] as Island);
  const job = jobOfIslands(chart, islands);
  const said: Told[] = [];
  ask(islandRules, job, job === chart.job ? story : once(() => walk(job)), said, noOthers);
  const homes = new Map<Entry, Told[]>();
  for (const [n, island] of islands.entries()) {
    const told: Told[] = [];
    const answer = { footing: footingOf(chart, island), told };
    answers[stale[n] as number] = answer;
    for (const at of island.own) {
      homes.set(chart.entries[at] as Entry, told);
      byEntry.set(chart.entries[at] as Entry, answer);
    }
  }
  // What is said at an entry that was only looked at is for the island to tell whose own it is.
  for (const it of said) homes.get(it.said.report.where.entry)?.push(it);
  return answers;
}

/** The rules that look at names alone, where any entry says something new of these. */
function ofNaming(job: Job, chart: Chart, before: NamingAnswer | undefined, place: Placer): NamingAnswer {
  const faults = JSON.stringify(job.useFaults.map((it) => [it.reason, it.path, it.file, it.circle]));
  if (before !== undefined && before.faults === faults && isAsItWas(before, chart, (a, b) => namingKey(a) === namingKey(b) && place.alias(a, b))) return before;
  const told: Told[] = [];
  ask(namingRules, job, noStory, told, noOthers);
  return { entries: chart.entries, files: chart.files, faults, told };
}

function noStory(): never {
  throw new Error("a rule of names alone has asked for the story");
}

/** What the rules that look at the whole job said last, where nothing in it says anything new. */
function lastOfRest(
  job: Job,
  chart: Chart,
  before: WholeAnswer | undefined,
  answers: readonly Answer[],
  naming: NamingAnswer,
  place: Placer,
): WholeAnswer | undefined {
  // What gathers the islands' answers is kept only with those same answers.
  if (before === undefined || before.naming !== naming || !isSameList(before.answers, answers) || before.beside !== besideOf(job)) return undefined;
  const same = (a: Entry, b: Entry) => saysTheSame(a, b, place);
  return isSameList(before.lists, listsOf(job)) && isAsItWas(before, chart, same) ? before : undefined;
}

function ofRest(
  job: Job,
  chart: Chart,
  answers: readonly Answer[],
  naming: NamingAnswer,
  told: readonly Told[],
  place: Placer,
  story: () => Story,
  ofEntry: EntryAsker,
): WholeAnswer {
  const said: Told[] = [];
  ask(wholeRules, job, story, said, otherAsker(job));
  if (releasedIn(job)) askForRelease(job, story, [...told, ...naming.told, ...said], place, ofEntry, said);
  return { entries: chart.entries, files: chart.files, answers, naming, beside: besideOf(job), lists: listsOf(job), told: said };
}

function listsOf(job: Job): readonly PriceAnswer[] {
  return pricesOf(job).map((it) => it.answer);
}

function ownOf(job: Job, ofEntry: EntryAsker, edited: (Edited & { readonly own: Kept["own"] }) | undefined): Kept["own"] {
  const { entries } = job.own.sheet;
  if (edited === undefined) return entries.map((entry) => ofEntry(job.path, entry));
  const own = [...edited.own];
  const first = edited.chart.entries.length - entries.length;
  for (const { at } of edited.changed) if (at >= first) own[at - first] = ofEntry(job.path, entries[at - first] as Entry);
  return own;
}

function lastAnswer(chart: Chart, island: Island, answers: WeakMap<Entry, Answer>): Answer | undefined {
  for (const at of island.own) {
    const answer = answers.get(chart.entries[at] as Entry);
    if (answer !== undefined) return answer;
  }
  return undefined;
}

function isAsItWas(
  before: { readonly entries: readonly Entry[]; readonly files: readonly string[] },
  chart: Chart,
  same: (before: Entry, now: Entry) => boolean,
): boolean {
  if (before.entries.length !== chart.entries.length) return false;
  for (let at = 0; at < chart.entries.length; at++) {
    const was = before.entries[at] as Entry;
    const now = chart.entries[at] as Entry;
    if (before.files[at] !== chart.files[at] || (was !== now && !same(was, now))) return false;
  }
  return true;
}

/** Another entry with the same facts, in the place of one that is no more. */
function saysTheSame(before: Entry, now: Entry, place: Placer): boolean {
  return factsKey(before) === factsKey(now) && place.alias(before, now);
}

/** What a job hangs on beside its entries: files that are not there, and for a released sheet the other sheets of its machine. */
function besideOf(job: Job): string {
  const others = releasedIn(job) ? otherAsker(job)() : [];
  return JSON.stringify([job.useFaults.map((it) => [it.reason, it.path, it.file, it.circle]), others]);
}

function releasedIn(job: Job): boolean {
  return job.own.sheet.entries.some((entry) => entry.kind === "release");
}

// ---------------------------------------------------------------- asking

type EntryAsker = (file: string, entry: Entry) => readonly Told[];

/** Asks the rules that look at one entry, and keeps their answers with it. */
function entryAsker(): EntryAsker {
  const byEntry = new WeakMap<Entry, { file: string; told: Told[] }>();
  return (file, entry) => {
    const known = byEntry.get(entry);
    if (known !== undefined && known.file === file) return known.told;
    const told: Told[] = [];
    for (const rule of entryRules) rule.check({ file, entry, report: (report) => told.push({ said: { rule: rule.id, report }, lines: noLines }) });
    byEntry.set(entry, { file, told });
    return told;
  };
}

function ofEntries(entries: readonly Entry[], file: string, ofEntry: EntryAsker): Told[] {
  const told: Told[] = [];
  for (const entry of entries) for (const it of ofEntry(file, entry)) told.push(it);
  return told;
}

/** Every rule of the job and of its release. */
function ofWhole(job: Job, story: Story, place: Placer, ofEntry: EntryAsker): Told[] {
  const told: Told[] = [];
  ask(jobRules, job, () => story, told, otherAsker(job));
  if (story.release !== undefined) askForRelease(job, () => story, [...told], place, ofEntry, told);
  return told;
}

/** Many changes touch nothing that a rule needs the story for; then it is not walked. */
function ask(list: readonly JobRule[], job: Job, story: () => Story, told: Told[], others: OtherAsker): void {
  const lines: Where[] = [];
  const line = (where: Where) => mark(lines.push(where) - 1);
  for (const rule of list) {
    rule.check({
      job,
      get story() {
        return story();
      },
      get judged() {
        return judge(story());
      },
      line,
      others,
      report: (report: Report) => told.push({ said: { rule: rule.id, report }, lines }),
    });
  }
}

type OtherAsker = () => readonly OtherOpen[];

const noOthers: OtherAsker = () => [];

/** The other sheets of the machine: each is asked for what is open in it, and not for others in turn. */
function otherAsker(job: Job): OtherAsker {
  return () => othersOpen(job, (other) => openOf(other, noOthers).open);
}

/** The rules that gather what is open are given the list of it. */
function askForRelease(job: Job, story: () => Story, all: readonly Told[], place: Placer, ofEntry: EntryAsker, told: Told[]): void {
  const { lines, open } = gathered(job, story(), all, place, ofEntry);
  const line = (where: Where) => mark(lines.push(where) - 1);
  for (const rule of releaseRules) {
    const report = (report: Report) => told.push({ said: { rule: rule.id, report }, lines });
    rule.check({ job, story: story(), judged: judge(story()), line, others: noOthers, open, report });
  }
}

/**
 * What is open by all that was said, rule by rule and down each file. What can't be read, or has no unit, stands in the way as well: what the entries'
 * own rules say comes behind.
 */
function gathered(job: Job, story: Story, all: readonly Told[], place: Placer, ofEntry: EntryAsker): OpenList & { readonly lines: Where[] } {
  const files = new Map(job.files.map((file, i) => [file.path, i]));
  const list = all
    .map((it) => {
      const { where } = it.said.report;
      return { it, rank: ranks.get(it.said.rule) ?? 0, file: files.get(where.file) ?? 0, line: place.line(where), from: where.at.from };
    })
    .sort((a, b) => a.rank - b.rank || a.file - b.file || a.line - b.line || a.from - b.from)
    .map(({ it }) => it);
  for (const file of job.files) list.push(...ofEntries(file.sheet.entries, file.path, ofEntry));
  const lines: Where[] = [];
  const line = (where: Where) => mark(lines.push(where) - 1);
  // Marks stand for lines of a list of their own: one who repeats them has them made anew.
  const said = list.map((it): Said => {
    const { rule, report } = it.said;
    return { rule, report: { ...report, message: remarked(report.message, (index) => (it.lines[index] === undefined ? "" : line(it.lines[index]))) } };
  });
  return { ...openList(story, said), lines };
}

function once<T>(make: () => T): () => T {
  let made: { readonly it: T } | undefined;
  return () => {
    made ??= { it: make() };
    return made.it;
  };
}

// ---------------------------------------------------------------- showing

/** What is said in the checked file, in the order of its lines. A list of the same as before is that same list. */
function shown(job: Job, place: Placer, told: readonly (readonly Told[])[], before?: Kept["list"]): Kept["list"] {
  const unsorted: Diagnostic[] = [];
  for (const some of told)
    for (const it of some) if (it.said.report.where.file === job.path && acceptedBy(it.said) === undefined) unsorted.push(place.diagnostic(it));
  if (before !== undefined && isSameList(before.unsorted, unsorted)) return before;
  return { unsorted, shown: inOrder(unsorted) };
}

function isSameList<T>(a: readonly T[], b: readonly T[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

function inOrder<D extends Diagnostic>(list: readonly D[]): D[] {
  return list
    .map((it, i) => ({ it, i, rank: ranks.get(it.rule) ?? 0 }))
    .sort((a, b) => a.it.line - b.it.line || a.it.from - b.it.from || a.rank - b.rank || a.i - b.i)
    .map(({ it }) => it);
}
