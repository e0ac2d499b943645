// Status with a job in a line, the worst first, and what of it there is to look at: for a status line and a list of jobs.
// Invariant: counts are those of the one list of what is open; nothing is counted here that the checks do not say.
import { type Slices, apart } from "../../grammar/slices.ts";
import type { Files } from "../model/files.ts";
import { building, standingStill } from "../model/job.ts";
import { parcelsOf } from "../plan/parcels.ts";
import { type Checked, type Diagnostic, checking, listingOpen } from "../rules/check.ts";
import { type OpenGroup, openGroupOf } from "../rules/open-groups.ts";
import { counted, firstSentence } from "../rules/wording.ts";
import { type Story, hangsOn } from "../story/story.ts";
import { walking } from "../story/walk.ts";
import { supplyOfOne, supplying } from "../supply/supply.ts";

export interface Matter {
  readonly text: string;
  readonly file: string;
  /** From 1. */
  readonly line: number;
}

export interface Standing {
  readonly title: string;
  readonly machine: string | null;
  /** Of what is open, what the report of it calls unsafe. */
  readonly unsafe: readonly Matter[];
  /** All that stands in the way of release, those above included; null of a long sheet, for which it is worked out only where the report is asked for. */
  readonly open: number | null;
  /** `jack`: what holds the machine up. */
  readonly hangsOn: string | null;
  /** Hazards that are live while the machine is apart: those that this job has had to do with, and those that guard what is off or slack. */
  readonly live: readonly Matter[];
  readonly late: readonly Matter[];
  readonly questions: readonly Matter[];
  /** Gauges and rechecks that are due. */
  readonly due: readonly Matter[];
  readonly released: boolean;
  /** `2 unsafe · 11 open · on the jack` */
  readonly words: string;
}

const unsafeGroup: OpenGroup = "Unsafe";

/** Of a sheet with more lines nothing is worked out for a glance beyond what its check has found. */
const manyLines = 1500;

/** Undefined for what is no job: a data file, or a path where nothing is. `today` is ISO 8601; `checked` is the last check, where there was one. */
export function* tellingStanding(files: Files, path: string, today: string, checked?: Checked): Slices<Standing | undefined> {
  const sheet = files.read(path);
  if (typeof sheet === "string" || !sheet.entries.some((it) => it.kind === "sheet")) return undefined;
  const long = sheet.lineCount > manyLines;
  const still = standingStill(files);
  const job = long && checked?.story !== undefined ? checked.story.job : yield* building(still, path);
  if (job?.sheet === undefined) return undefined;
  const story = long && checked?.story !== undefined ? checked.story : yield* walking(job);
  const open = long ? undefined : (yield* listingOpen(still, path)).open;
  const unsafe =
    open?.filter((it) => it.group === unsafeGroup) ??
    (checked?.list ?? (yield* checking(still, path))?.list ?? []).filter((it) => it.severity === "error" && openGroupOf(it.rule) === unsafeGroup);
  yield* supplying(story);
  const late = yield* lateIn(story, today);
  const held = hangsOn(story.supportNow);
  const released = story.release !== undefined;
  const live = released ? [] : yield* apart(() => liveIn(story));
  const words = [
    ...(unsafe.length === 0 ? [] : [`${unsafe.length} unsafe`]),
    ...(live.length === 0 ? [] : [`live: ${live.length > 2 ? `${live[0]?.name} and ${live.length - 1} more` : live.map((it) => it.name).join(", ")}`]),
    ...(held === "jack" ? ["on the jack"] : []),
    ...(late.length === 0 ? [] : [counted(late.length, "parcel late", "parcels late")]),
    ...(open === undefined ? (unsafe.length === 0 ? ["nothing unsafe"] : []) : [openWords(open.length, released)]),
  ];
  return {
    title: job.sheet.title?.value ?? path,
    machine: job.sheet.details.flatMap((it) => (it.kind === "machine" && it.text !== undefined ? [it.text.value] : []))[0] ?? null,
    unsafe: unsafe.map(matterOf),
    open: open?.length ?? null,
    hangsOn: held ?? null,
    live: live.map(({ name: _, ...matter }) => matter),
    late,
    questions: (open ?? unsafe).filter((it) => it.rule === "question-open").map(matterOf),
    due: (open ?? unsafe).filter((it) => it.rule === "gauge-due" || it.rule === "recheck-due").map(matterOf),
    released,
    words: words.join(" · "),
  };
}

function openWords(count: number, released: boolean): string {
  if (count > 0) return `${count} open`;
  return released ? "signed off, nothing open" : "nothing open";
}

function matterOf(it: Diagnostic): Matter {
  return { text: firstSentence(it.message), file: it.file, line: it.line + 1 };
}

function liveIn(story: Story): (Matter & { readonly name: string })[] {
  const apart = new Set(
    [...story.parts, ...story.fasteners].filter((it) => it.now.on < it.total || ("tight" in it.now && !it.now.tight)).map((it) => it.thing.name),
  );
  if (apart.size === 0) return [];
  const live = story.hazards.filter(
    (it) => it.now && !it.unsure && (it.history.some((moment) => moment.phase === "done") || it.thing.safeBefore.some(({ text }) => apart.has(text))),
  );
  return live.flatMap(({ thing }) => {
    const declared = thing.entries[0];
    if (declared === undefined) return [];
    const sheet = story.job.files.find((it) => it.path === declared.file)?.sheet;
    const line = (sheet?.starts[sheet.entries.indexOf(declared.entry)] ?? 0) + 1;
    return [{ name: thing.name, text: `Live: ${thing.title ?? thing.name}`, file: declared.file, line }];
  });
}

function* lateIn(story: Story, today: string): Slices<Matter[]> {
  const { files } = story.job;
  return (yield* parcelsOf([story], supplyOfOne(story), today))
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
