// How it stands with a job in a line, the worst first, and what of it there is to look at: for a status line and a list of jobs.
// Invariant: counts are those of the one list of what is open; nothing is counted here that the checks do not say.
import type { Files } from "../model/files.ts";
import { buildJob } from "../model/job.ts";
import { parcelsOf } from "../plan/parcels.ts";
import { type Open, openItems } from "../rules/check.ts";
import { counted, firstSentence } from "../rules/wording.ts";
import { type Story, hangsOn } from "../story/story.ts";
import { walk } from "../story/walk.ts";
import { supplyOfOne } from "../supply/supply.ts";

export interface Matter {
  readonly text: string;
  readonly file: string;
  /** From 1. */
  readonly line: number;
}

export interface Standing {
  readonly title: string;
  readonly machine: string | null;
  /** Safety rules that speak at error. */
  readonly unsafe: readonly Matter[];
  /** All that stands in the way of release, those above included. */
  readonly open: number;
  /** `jack`: what holds the machine up. */
  readonly hangsOn: string | null;
  readonly late: readonly Matter[];
  readonly questions: readonly Matter[];
  /** Gauges and rechecks that are due. */
  readonly due: readonly Matter[];
  readonly released: boolean;
  /** `2 unsafe · 11 open · on the jack` */
  readonly words: string;
}

/** Undefined for what is no job: a data file, or a path where nothing is. `today` is ISO 8601. */
export function standingOf(files: Files, path: string, today: string): Standing | undefined {
  const job = buildJob(files, path);
  if (job?.sheet === undefined) return undefined;
  const story = walk(job);
  const { open } = openItems(files, path);
  const unsafe = open.filter((it) => it.safety && it.severity === "error");
  const late = lateIn(story, today);
  const held = hangsOn(story.supportNow);
  const released = story.release !== undefined;
  const words = [
    ...(unsafe.length === 0 ? [] : [`${unsafe.length} unsafe`]),
    ...(held === "jack" ? ["on the jack"] : []),
    ...(late.length === 0 ? [] : [counted(late.length, "parcel late", "parcels late")]),
    open.length === 0 ? (released ? "signed off, nothing open" : "nothing open") : `${open.length} open`,
  ];
  return {
    title: job.sheet.title?.value ?? path,
    machine: job.sheet.details.flatMap((it) => (it.kind === "machine" && it.text !== undefined ? [it.text.value] : []))[0] ?? null,
    unsafe: unsafe.map(matterOf),
    open: open.length,
    hangsOn: held ?? null,
    late,
    questions: open.filter((it) => it.rule === "question-open").map(matterOf),
    due: open.filter((it) => it.rule === "gauge-due" || it.rule === "recheck-due").map(matterOf),
    released,
    words: words.join(" · "),
  };
}

/** Every job that a door knows of, by its path: the unsafe ones first, then those with the most open. */
export function jobsOf(files: Files, today: string): { readonly path: string; readonly standing: Standing }[] {
  const jobs = (files.jobsheets?.() ?? []).flatMap((path) => {
    const standing = standingOf(files, path, today);
    return standing === undefined ? [] : [{ path, standing }];
  });
  return jobs.sort((a, b) => b.standing.unsafe.length - a.standing.unsafe.length || b.standing.open - a.standing.open || (a.path < b.path ? -1 : 1));
}

function matterOf(it: Open): Matter {
  return { text: firstSentence(it.message), file: it.file, line: it.line + 1 };
}

function lateIn(story: Story, today: string): Matter[] {
  const { files } = story.job;
  return parcelsOf([story], supplyOfOne(story), today)
    .filter((it) => it.overdue > 0)
    .map(({ item, overdue, reference, where }) => {
      const sheet = files.find((it) => it.path === where.file)?.sheet;
      const start = sheet?.starts[sheet.entries.indexOf(where.entry)] ?? 0;
      return {
        text: `${item.title}${reference === undefined ? "" : ` (“${reference}”)`}: ${counted(overdue, "day")} late`,
        file: where.file,
        line: start + where.row + 1,
      };
    });
}
