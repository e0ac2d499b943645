// Checks a file: runs every rule over its entries and its job, and gives what they say as plain diagnostics in the order of lines.
// Invariant: pure, and the same whatever was checked before: what is kept from one check to the next only saves time.
import { type SheetText, factsKey, lineText } from "../../grammar/sheet-text.ts";
import type { Entry } from "../../grammar/tree.ts";
import type { Files } from "../model/files.ts";
import { type Job, buildJob } from "../model/job.ts";
import { othersOpen } from "../model/others.ts";
import type { Where } from "../model/where.ts";
import { walk } from "../walk/walk.ts";
import { judge } from "../walk/verdicts.ts";
import { rules } from "./all.ts";
import { blocks, plannedSteps, workSince } from "./open.ts";
import { type EntryRule, type JobContext, type JobRule, type ReleaseRule, type Said, type Severity, lineEnd } from "./rule.ts";

export interface Diagnostic {
  readonly file: string;
  /** From 0. */
  readonly line: number;
  /** UTF-16 columns; `to` is exclusive. */
  readonly from: number;
  readonly to: number;
  readonly severity: Severity;
  readonly rule: string;
  readonly message: string;
  readonly related: readonly { readonly file: string; readonly line: number; readonly from: number; readonly to: number; readonly message: string }[];
  readonly fixes: readonly { readonly title: string; readonly edits: readonly TextEdit[] }[];
}

export interface TextEdit {
  readonly file: string;
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

export interface Checker {
  /** What is wrong in the file at `path`, in the order of its lines. Empty where there is no such file. */
  check(files: Files, path: string): Diagnostic[];
}

/** Checks a file once. */
export function checkFile(files: Files, path: string): Diagnostic[] {
  return createChecker().check(files, path);
}

/** What is kept of the last check of a file: its job's facts, and what the rules said of them. */
interface Kept {
  readonly files: readonly { readonly path: string; readonly entries: readonly Entry[]; readonly keys: readonly string[] }[];
  readonly faults: string;
  readonly said: readonly Said[];
  readonly lines: readonly Where[];
}

const entryRules = rules.filter((rule): rule is EntryRule => rule.scope === "entry");
const jobRules = rules.filter((rule): rule is JobRule => rule.scope === "job");
const releaseRules = rules.filter((rule): rule is ReleaseRule => rule.scope === "release");
const safety = new Set(rules.filter((rule) => rule.safety).map((rule) => rule.id));
const acceptable = new Set(rules.filter((rule) => !rule.safety).map((rule) => rule.id));

/** A checker that keeps what an edit did not change: entries by identity, and a whole job where no fact of it changed. */
export function createChecker(): Checker {
  const kept = new Map<string, Kept>();
  const ofEntry = entryAsker();

  return {
    check(files, path) {
      const job = buildJob(files, path);
      if (job === undefined) return [];
      const faults = JSON.stringify([job.useFaults.map((it) => [it.reason, it.path]), elsewhere(job)]);
      let last = kept.get(path);
      const positions = last === undefined ? undefined : samePositions(last, job, faults);
      if (last === undefined || positions === undefined) {
        last = {
          ...ofJob(job, ofEntry),
          faults,
          files: job.files.map((file) => ({ path: file.path, entries: file.sheet.entries, keys: file.sheet.entries.map(factsKey) })),
        };
        kept.set(path, last);
      }
      const place = placer(job, positions);
      const out: Diagnostic[] = [];
      for (const entry of job.own.sheet.entries) for (const it of ofEntry(path, entry)) out.push(diagnostic(it, place, noLines));
      for (const it of last.said) if (it.report.where.file === path) out.push(diagnostic(it, place, last.lines));
      return inOrder(withoutAccepted(out, job));
    },
  };
}

export interface Open extends Diagnostic {
  readonly safety: boolean;
}

/**
 * Everything that stands in the way of release, in the order of lines. A sheet without a release is asked as if it were to be
 * released now. Things open in used files are named there.
 */
export function openItems(files: Files, path: string): Open[] {
  const job = buildJob(files, path);
  if (job === undefined) return [];
  const ofEntry = entryAsker();
  const { said, lines } = ofJob(job, ofEntry, true);
  const place = placer(job, undefined);
  const entries = job.files.flatMap((file) => file.sheet.entries.flatMap((entry) => ofEntry(file.path, entry)));
  const gathered = [...said, ...entries].filter(blocks);
  const list = gathered.map((it) => ({ ...diagnostic(it, place, lines), safety: safety.has(it.rule) }));
  const story = walk(job);
  const planned = [...plannedSteps(story), ...workSince(story)].map(({ where, message }) => ({
    ...diagnostic({ rule: "release-blocked", report: { where, severity: "error", message } }, place, noLines),
    safety: true,
  }));
  const accepted = withoutAccepted(list, job) as Open[];
  return inOrder([...accepted, ...planned]) as Open[];
}

const noLines: readonly Where[] = [];

/** What a released sheet depends on outside of its own files: the other sheets of its machine. */
function elsewhere(job: Job): readonly string[] {
  if (!job.own.sheet.entries.some((entry) => entry.kind === "release")) return [];
  return othersOpen(job).map((it) => `${it.path} ${it.critical.map((thing) => thing.name).join(" ")}`);
}

type EntryAsker = (file: string, entry: Entry) => readonly Said[];

/** Asks the rules that look at one entry, and keeps their answers with it. */
function entryAsker(): EntryAsker {
  const byEntry = new WeakMap<Entry, { file: string; said: Said[] }>();
  return (file, entry) => {
    const known = byEntry.get(entry);
    if (known !== undefined && known.file === file) return known.said;
    const said: Said[] = [];
    for (const rule of entryRules) rule.check({ file, entry, report: (report) => said.push({ rule: rule.id, report }) });
    byEntry.set(entry, { file, said });
    return said;
  };
}

function ofJob(job: Job, ofEntry: EntryAsker, asReleased = false): { said: Said[]; lines: Where[] } {
  const story = walk(job, asReleased);
  const judged = judge(story);
  const said: Said[] = [];
  const lines: Where[] = [];
  const line = (where: Where) => `\uE000${String(lines.push(where) - 1)}\uE001`;
  for (const rule of jobRules) {
    const context: JobContext = { job, story, judged, line, report: (report) => said.push({ rule: rule.id, report }) };
    rule.check(context);
  }
  if (story.release !== undefined) {
    // What can't be read, or has no unit, stands in the way as well: the entries' own rules are asked too.
    const all = [...said, ...job.files.flatMap((file) => file.sheet.entries.flatMap((entry) => ofEntry(file.path, entry)))];
    for (const rule of releaseRules) rule.check({ job, story, judged, line, said: all, report: (report) => said.push({ rule: rule.id, report }) });
  }
  return { said, lines };
}

/** Where each kept entry stands now, if every fact of the job is as it was; else undefined. */
function samePositions(last: Kept, job: Job, faults: string): Map<Entry, number> | undefined {
  if (last.faults !== faults || last.files.length !== job.files.length) return undefined;
  const positions = new Map<Entry, number>();
  for (let f = 0; f < job.files.length; f++) {
    const was = last.files[f] as Kept["files"][number];
    const { path, sheet } = job.files[f] as Job["files"][number];
    if (was.path !== path || was.entries.length !== sheet.entries.length) return undefined;
    for (let i = 0; i < was.entries.length; i++) {
      const before = was.entries[i] as Entry;
      const now = sheet.entries[i] as Entry;
      if (before !== now && was.keys[i] !== factsKey(now)) return undefined;
      positions.set(before, sheet.starts[i] ?? 0);
    }
  }
  return positions;
}

interface Placer {
  line(where: Where): number;
  end(where: Where): number;
}

function placer(job: Job, positions: Map<Entry, number> | undefined): Placer {
  const sheets = new Map<string, SheetText>(job.files.map((file) => [file.path, file.sheet]));
  const starts = new Map<Entry, number>(positions ?? []);
  for (const { sheet } of job.files) sheet.entries.forEach((entry, i) => starts.set(entry, sheet.starts[i] ?? 0));
  const line = (where: Where) => (starts.get(where.entry) ?? 0) + where.row;
  return {
    line,
    end: (where) => {
      const sheet = sheets.get(where.file);
      return sheet === undefined ? 0 : lineText(sheet, line(where)).length;
    },
  };
}

function diagnostic(it: Said, place: Placer, lines: readonly Where[]): Diagnostic {
  const { report, rule } = it;
  const text = (message: string) => message.replace(/\uE000(\d+)\uE001/g, (_, i) => String(place.line(lines[Number(i)] as Where) + 1));
  const at = (where: Where) => ({
    file: where.file,
    line: place.line(where),
    from: where.at.from === lineEnd ? place.end(where) : where.at.from,
    to: where.at.to === lineEnd ? place.end(where) : where.at.to,
  });
  return {
    ...at(report.where),
    severity: report.severity,
    rule,
    message: text(report.message),
    related: (report.related ?? []).map((related) => ({ ...at(related.where), message: text(related.message) })),
    fixes: (report.fixes ?? []).map((fix) => ({ title: fix.title, edits: fix.edits.map((edit) => ({ ...at(edit.where), text: edit.text })) })),
  };
}

/** `accept RULE "why"` in an entry answers that rule there. A safety rule can't be answered so. */
function withoutAccepted(list: Diagnostic[], job: Job): Diagnostic[] {
  const accepted: { from: number; to: number; rule: string }[] = [];
  job.own.sheet.entries.forEach((entry, i) => {
    for (const detail of entry.details) {
      if (detail.kind !== "accept" || detail.fault !== undefined || detail.rule === undefined || detail.why === undefined || !acceptable.has(detail.rule.text))
        continue;
      const from = job.own.sheet.starts[i] ?? 0;
      accepted.push({ from, to: from + entry.rows, rule: detail.rule.text });
    }
  });
  if (accepted.length === 0) return list;
  return list.filter((it) => it.file !== job.path || !accepted.some((by) => by.rule === it.rule && it.line >= by.from && it.line < by.to));
}

function inOrder(list: Diagnostic[]): Diagnostic[] {
  return list
    .map((it, i) => ({ it, i }))
    .sort((a, b) => a.it.line - b.it.line || a.it.from - b.it.from || a.i - b.i)
    .map(({ it }) => it);
}
