// Checks a file: asks every rule and gives what they say as plain diagnostics in the order of lines.
// Invariant: pure. Nothing is kept from one check to the next but what an entry's own rules said, and that hangs on the entry alone.
import type { SheetText } from "../../grammar/sheet-text.ts";
import type { Entry } from "../../grammar/tree.ts";
import { type Files, sheetAt } from "../model/files.ts";
import { type Job, building } from "../model/job.ts";
import { countAhead } from "../model/halving.ts";
import { memoSliced } from "../model/memo.ts";
import { turningRound } from "../model/relations.ts";
import { type Slices, mapping, run, runThrough } from "../../grammar/slices.ts";
import type { Where } from "../model/where.ts";
import type { Story } from "../story/story.ts";
import { judge, judging } from "../story/verdicts.ts";
import { supplying } from "../supply/supply.ts";
import { walking } from "../story/walk.ts";
import { inOrder, jobRules, ranks, releaseRules, sorted } from "./in-order.ts";
import { type OfEntry, ofEntry, ofOwnEntries, ownOf, placedOf, someEntries } from "./of-entry.ts";
import type { OpenGroup } from "./open-groups.ts";
import { type OpenList, openListing } from "./open-list.ts";
import { othersOpen } from "./others-open.ts";
import type { Pardon } from "./pardons.ts";
import { type Diagnostic, type Placed, type Placer, type Told, mark, placer, remarked } from "./placing.ts";
import type { OtherSheets, Read, Report, Said } from "./rule.ts";
import { findingNeeds } from "./sequence.ts";
import { type Shift, shiftOf, standing } from "./standing.ts";
import { lookingForUnits } from "./units/shared/issues.ts";

export type { Diagnostic, TextEdit } from "./placing.ts";

/** What a check has found, and on what texts. */
export interface Checked {
  readonly path: string;
  /** In the order of lines. */
  readonly list: readonly Diagnostic[];
  /** What is said of the whole job, in the same order; what an entry's own rules say is not among it. */
  readonly ofJob: readonly Placed[];
  /** What each entry of the file says by itself, in their order. */
  readonly own: readonly OfEntry[];
  readonly texts: ReadonlyMap<string, SheetText>;
  /** Of the last whole check: its entries that still stand in the sheet are as they were then. Undefined before there was one. */
  readonly story: Story | undefined;
}

/** What is wrong in the file at `path`, in the order of its lines. Empty where there is no such file. */
export function checkFile(files: Files, path: string): readonly Diagnostic[] {
  return runThrough(checking(files, path))?.list ?? [];
}

/** The same in slices; undefined where there is no such file. Each slice of a sheet of 10,000 lines takes some ten milliseconds at most. */
export function* checking(files: Files, path: string): Slices<Checked | undefined> {
  // As they were read: what an entry says by itself does not hang on what its names are taken for in the job.
  const sheet = yield* sheetAt(files, path);
  const job = yield* building(files, path, sheet);
  if (job === undefined || typeof sheet === "string") return undefined;
  yield;
  const own = yield* ofOwnEntries(path, sheet);
  yield* turningRound(job);
  const story = yield* walking(job);
  yield* judging(story);
  yield;
  const place = placer(job);
  const told = yield* ofWhole(job, story, place, othersAsked(job));
  const placed: Placed[] = [];
  for (const it of told) {
    if (it.said.report.where.file !== path) continue;
    if (placed.push(place.place(it)) % someEntries === 0) yield;
  }
  const ofJob = inOrder(placed);
  yield;
  return { path, list: yield* together(sheet, path, own, ofJob), ofJob, own, texts: new Map(job.files.map((it) => [it.path, it.sheet])), story };
}

/**
 * What the entries of a text say by themselves, and nothing of the job: before it is checked, which then has no more to ask of them, or where it is too long to be. `before`: the same of
 * an earlier text.
 */
export function* ofLines(path: string, sheet: SheetText, before?: Checked): Slices<Checked> {
  const own = yield* ownOf(path, sheet, before);
  return { path, list: yield* together(sheet, path, own, []), ofJob: [], own, texts: new Map([[path, sheet]]), story: undefined };
}

/**
 * What can be said of a file before it is checked anew: what each entry's own rules say now, and of the check `before` what still stands, moved with
 * its lines. `ofJob` and `texts` are for the next edit.
 */
export function* standingMeanwhile(files: Files, path: string, before: Checked | undefined): Slices<Checked | undefined> {
  const sheet = yield* sheetAt(files, path);
  if (typeof sheet === "string") return undefined;
  const shifts = new Map<string, Shift>();
  const texts = new Map<string, SheetText>();
  for (const [file, was] of before?.texts ?? []) {
    const now = yield* sheetAt(files, file);
    yield;
    if (typeof now === "string") continue;
    texts.set(file, now);
    const shift = shiftOf(was, now);
    if (shift !== undefined) shifts.set(file, shift);
  }
  const ofJob = yield* standing(before?.ofJob ?? [], shifts);
  const own = yield* ownOf(path, sheet, before);
  return { path, list: yield* together(sheet, path, own, ofJob), ofJob, own, texts, story: before?.story };
}

/** Something that stands in the way of release. */
export interface Open extends Diagnostic {
  readonly safety: boolean;
  readonly group: OpenGroup;
  /** The readings and looks that close it. */
  readonly reads: readonly Read[];
  /** What is oiled or greased to close it. */
  readonly greases: readonly Read[];
  /** What is looked at, and found, to close it. */
  readonly looks: readonly Read[];
  /** What stays of it for a person once all that is planned is done; undefined where a step settles it. */
  readonly leaves: string | undefined;
}

/** What was said, and accepted or owned up to. */
export interface PardonedItem extends Diagnostic {
  readonly pardon: Pardon;
}

/** The one list, placed. */
export interface OpenItems {
  readonly open: readonly Open[];
  readonly pardoned: readonly PardonedItem[];
  /** Warnings that hold nothing. */
  readonly warned: readonly Diagnostic[];
}

/**
 * Everything that stands in the way of release, in the order of lines, and what was accepted or owned up to. A sheet without a release is asked as if it were to be
 * released now. Things open in used files are named there.
 */
export function* listingOpen(files: Files, path: string): Slices<OpenItems> {
  const job = yield* building(files, path);
  return job === undefined ? { open: [], pardoned: [], warned: [] } : yield* openOfJob.sliced(job);
}

const openOfJob = memoSliced((job: Job) => openOf(job, othersAsked(job)));

type Others = () => Slices<OtherSheets>;

function* openOf(job: Job, others: Others): Slices<OpenItems> {
  const place = placer(job);
  yield* turningRound(job);
  const story = yield* walking(job, true);
  const lines: Where[] = [];
  const told = yield* ofJobRules(job, story, others);
  const list = yield* gathered(job, story, told, place, (where) => mark(lines.push(where) - 1));
  yield;
  const placed = (said: Said) => place.place({ said, lines }).diagnostic;
  const open = yield* mapping(list.open, (it) => ({
    ...placed(it.said),
    safety: it.safety,
    group: it.group,
    reads: it.said.report.reads ?? [],
    greases: it.said.report.greases ?? [],
    looks: it.said.report.looks ?? [],
    leaves: it.said.report.leaves,
  }));
  const pardoned = yield* mapping(list.pardoned, (it) => ({ ...placed(it.said), pardon: it.pardon }));
  const warned = yield* mapping(list.warned, placed);
  return { open: sorted(open, (it) => it), pardoned: sorted(pardoned, (it) => it), warned: sorted(warned, (it) => it) };
}

/** The other sheets of the machine: each is asked for what is open in it, and not for others in turn. */
function othersAsked(job: Job): Others {
  return () =>
    othersOpen(job, function* (other) {
      return (yield* openOf(other, noOthers)).open;
    });
}

const noOthers: Others = () => run({ open: [], unseen: 0, hasMore: false });

// ---------------------------------------------------------------- the rules of the job

/** Every rule of the job and of its release, one a slice. */
function* ofWhole(job: Job, story: Story, place: Placer, others: Others): Slices<Told[]> {
  const told = yield* ofJobRules(job, story, others);
  if (story.release === undefined) return told;
  const lines: Where[] = [];
  const line = (where: Where) => mark(lines.push(where) - 1);
  const { open } = yield* gathered(job, story, told, place, line);
  for (const rule of releaseRules) {
    const report = (report: Report) => told.push({ said: { rule: rule.id, report }, lines });
    rule.check({ job, story, judged: judge(story), line, others: noOthers, open, report });
    yield;
  }
  return told;
}

function* ofJobRules(job: Job, story: Story, others: Others): Slices<Told[]> {
  const told: Told[] = [];
  let lines: Where[] = [];
  let id = "";
  // One for all of them, for they are asked one behind the other: a hundred made anew took a fifth of the check of a short sheet.
  const asked: Parameters<(typeof jobRules)[number]["check"]>[0] = {
    job,
    story,
    judged: yield* judging(story),
    others,
    line: (where) => mark(lines.push(where) - 1),
    report: (report) => told.push({ said: { rule: id, report }, lines }),
  };
  // Several rules ask for it, and it is the longest of all that they ask for.
  yield* supplying(story);
  yield* lookingForUnits(job);
  yield* findingNeeds(story);
  for (const rule of jobRules) {
    lines = [];
    id = rule.id;
    const slices = rule.check(asked);
    if (slices !== undefined) yield* slices;
    yield;
  }
  return told;
}

/**
 * What is open by all that was said, rule by rule and down each file. What can't be read, or has no unit, stands in the way as well: what the entries'
 * own rules say comes behind.
 */
function* gathered(job: Job, story: Story, told: readonly Told[], place: Placer, line: (where: Where) => string): Slices<OpenList> {
  const files = new Map(job.files.map((file, i) => [file.path, i]));
  const list = told
    .map((it) => {
      const { where } = it.said.report;
      return { it, rank: ranks.get(it.said.rule) ?? 0, file: files.get(where.file) ?? 0, line: place.line(where), from: where.at.from };
    })
    .sort((a, b) => a.rank - b.rank || a.file - b.file || a.line - b.line || a.from - b.from)
    .map(({ it }) => it);
  let n = 0;
  for (const file of job.files) {
    for (const entry of file.sheet.entries) {
      for (const it of ofEntry(file.path, entry).told) list.push(it);
      if (++n % someEntries === 0) yield;
    }
  }
  // Marks stand for lines of a list of their own: one who repeats them has them made anew.
  const said = list.map((it): Said => {
    const { rule, report } = it.said;
    return { rule, report: { ...report, message: remarked(report.message, (index) => (it.lines[index] === undefined ? "" : line(it.lines[index]))) } };
  });
  return yield* openListing(story, said);
}

// ---------------------------------------------------------------- showing

/** What the entries say by themselves and what is said of the job, in the order of lines. */
function* together(sheet: SheetText, path: string, own: readonly OfEntry[], ofJob: readonly Placed[]): Slices<readonly Diagnostic[]> {
  const list: Diagnostic[] = [];
  let next = 0;
  const before = (it: Diagnostic, line: number, from: number) => it.line < line || (it.line === line && it.from < from);
  for (let i = 0; i < own.length; i++) {
    if (i % manyAtOnce === manyAtOnce - 1) yield;
    for (const it of placedOf(own[i] as OfEntry, sheet.starts[i] as number, sheet)) {
      while (next < ofJob.length && before((ofJob[next] as Placed).diagnostic, it.line, it.from)) list.push((ofJob[next++] as Placed).diagnostic);
      list.push(it);
    }
  }
  while (next < ofJob.length) list.push((ofJob[next++] as Placed).diagnostic);
  yield;
  return withoutAccepted(list, path, acceptsIn(sheet, own));
}

/** So many entries a slice, of which nothing is asked any more. */
const manyAtOnce = 5000;

/** What an entry answers by `accept`, and its lines. */
interface Accepted {
  readonly from: number;
  readonly to: number;
  readonly rules: ReadonlySet<string>;
}

/** In the order of the entries. */
function acceptsIn(sheet: SheetText, own: readonly OfEntry[]): Accepted[] {
  const accepted: Accepted[] = [];
  for (let i = 0; i < own.length; i++) {
    const { accepts } = own[i] as OfEntry;
    const from = sheet.starts[i] as number;
    if (accepts.length > 0) accepted.push({ from, to: from + (sheet.entries[i] as Entry).rows, rules: new Set(accepts) });
  }
  return accepted;
}

function withoutAccepted<T extends Diagnostic>(list: readonly T[], path: string, accepted: readonly Accepted[]): readonly T[] {
  if (accepted.length === 0) return list;
  return list.filter((it) => {
    if (it.file !== path || it.firm === true) return true;
    const by = accepted[countAhead(accepted, ({ to }) => to <= it.line)];
    return by === undefined || it.line < by.from || !by.rules.has(it.rule);
  });
}
