// The one list of what is open: everything that stands between a job and its release, each matter once.
// `check` and `release-blocked`, the release and its record, how it was left, the way back's end and the other sheets of the machine read it, and none keeps another.
// Invariant: an error is always open; a warning is where it leaves a fault, a doubt or a decision behind. What is accepted with its why stands apart, and is never lost.
import type { Slices } from "../../grammar/slices.ts";
import type { Entry } from "../../grammar/tree.ts";
import { where } from "../model/where.ts";
import type { Moment, Story } from "../story/story.ts";
import { type OpenGroup, openGroupOf } from "./open-groups.ts";
import { type Pardon, pardonsIn } from "./pardons.ts";
import { safetyRules } from "./ids.ts";
import type { Related, Said } from "./rule.ts";

export interface OpenMatter {
  readonly said: Said;
  /** Of a safety rule. */
  readonly safety: boolean;
  readonly group: OpenGroup;
}

/** What a rule said and somebody has answered in that entry. */
export interface Pardoned {
  readonly said: Said;
  readonly pardon: Pardon;
}

export interface OpenList {
  readonly open: readonly OpenMatter[];
  readonly pardoned: readonly Pardoned[];
  /** Warnings that stand and hold nothing: whoever signs is to know of them. */
  readonly warned: readonly Said[];
}

/** So many a slice. */
const manySaid = 1000;

/** In slices: what is open of a job, from all that the rules said of it and of its entries. `story` is that of a job released, or asked as if it were to be released now. */
export function* openListing(story: Story, said: readonly Said[]): Slices<OpenList> {
  const open: OpenMatter[] = [];
  const pardoned: Pardoned[] = [];
  const warned: Said[] = [];
  for (const [i, it] of said.entries()) {
    if (i % manySaid === manySaid - 1) yield;
    // What is declared for a critical thing's locking can't be accepted away.
    const pardon = it.report.firm === true ? undefined : pardonsIn(it.report.where.entry).find(({ rule }) => rule.text === it.rule);
    if (pardon !== undefined) {
      if (blocks(it) || it.report.severity === "warning") pardoned.push({ said: it, pardon });
    } else if (blocks(it)) open.push(matter(it));
    else if (it.report.severity === "warning") warned.push(it);
  }
  for (const found of [plannedSteps, workSince, datedAfterRelease, stillWaited]) {
    yield;
    for (const report of found(story)) open.push(matter({ rule: "release-blocked", report: { severity: "error", ...report } }));
  }
  return { open, pardoned, warned };
}

function matter(said: Said): OpenMatter {
  const group = openGroupOf(said.rule);
  // Said of a step that is done, it is not the doing that is wanted.
  const isOver = group === "Planned, not done" && said.rule !== "release-blocked" && isDone(said.report.where.entry);
  return { said, safety: safetyRules.has(said.rule), group: isOver ? "In doubt" : group };
}

function isDone({ kind, details }: Entry): boolean {
  return kind === "step" && details.some((it) => it.kind === "done" && it.fault === undefined && it.blanks === undefined);
}

/** Warnings that leave something open, though on a sheet under way they only warn. */
const openWarnings: ReadonlySet<string> = new Set([
  "figure-slip",
  "found-loose",
  "limit-worn",
  "limit-doubt",
  "spread-over",
  "out-of-round",
  "tapered",
  "check-bad",
  "reading-stale",
  "part-undecided",
  "part-failed",
  "part-leaking",
  "fluid-wrong",
  "part-wrong",
  "part-missing",
  "set-split",
  "debris-unexplained",
  "run-dry",
  "question-open",
  "step-one-side",
  "fellow-unchecked",
]);

/** What a rule says of itself holds before its severity: what is outside `new` after a renewal is out, and what is conceded by somebody else is not open. */
function blocks({ rule, report }: Said): boolean {
  if (rule === "release-blocked") return false;
  if (report.severity === "error") return true;
  return report.open ?? (report.severity === "warning" && openWarnings.has(rule));
}

/** Each step, or side of a step, that is planned and not done. A side left of a step that was begun is said by its own rule. */
function plannedSteps(story: Story): Related[] {
  const begun = new Set(story.visits.filter((it) => it.phase === "done").map((it) => it.entry));
  return story.visits
    .filter((visit) => visit.phase === "planned" && !begun.has(visit.entry))
    .map((visit) => ({
      where: where(visit.file, visit.entry, 0, visit.entry.name?.at ?? visit.entry.keyword),
      message: `The step ${stepWords(visit.entry)} is planned, not done.`,
    }));
}

/** Laid aside to wait for something, and nothing at all is written between that and the release. */
function stillWaited({ release, job, pauses }: Story): Related[] {
  if (release === undefined) return [];
  const { entries } = job.own.sheet;
  const last = entries.slice(0, Math.max(0, entries.indexOf(release.entry))).findLast(({ kind }) => kind !== "day");
  const pause = pauses.find(({ entry }) => entry === last);
  const why = pause?.entry.why?.value ?? "";
  if (pause === undefined || !waits.test(why) || waitsForASignature.test(why)) return [];
  return [
    {
      where: pause.where,
      message:
        "This waits for something, and is the last that was written before the release. Write what came and what was done with it, or why it is not needed.",
    },
  ];
}

const waits = /\b(wait\w*|await\w*)\b/iu;
/** The release itself is what came; or the work is done, and somebody has yet to fetch it. */
const waitsForASignature =
  /\b(wait\w*|await\w*)( for| on)? (the |its |his |her |our |an? )?(\w+ )?((inspector|surveyor|examiner|foreman|inspection|signature|release|collection)( to (sign|look|see|come|pass|inspect|release|witness)\b[^,;]*)?|(owner|customer|driver) to (sign|fetch|collect|come)\b[^,;]*|to be (signed|fetched|collected|inspected|released)\b[^,;]*)$/iu;

/** By its title, where it has one. */
function stepWords({ title, name }: Story["visits"][number]["entry"]): string {
  return title !== undefined ? `\u201c${title.value}\u201d` : name === undefined ? "without a name" : `\`${name.text}\``;
}

const opens: ReadonlySet<string> = new Set(["undo", "slacken", "let", "remove", "fit", "repair", "drain", "lost"]);

/**
 * Done work behind the last release, by its line or by its day, that opened something: that release does not speak of it. To
 * try a nut again is no such work.
 */
function workSince(story: Story): Related[] {
  const { release } = story;
  // Asked as if it were to be released now, no work comes behind it.
  if (release === undefined || !story.job.own.sheet.entries.includes(release.entry)) return [];
  const said = new Set<object>();
  const out: Related[] = [];
  for (const cell of [...story.parts, ...story.fasteners, ...story.fluids]) {
    for (const it of cell.history as readonly (Moment & { readonly verb: string })[]) {
      if (it.phase !== "done" || it.visit === undefined || !opens.has(it.verb) || said.has(it.visit.entry)) continue;
      const later = it.day !== undefined && release.day !== undefined && it.day > release.day;
      if (it.seq < release.seq && !later) continue;
      said.add(it.visit.entry);
      out.push({
        where: it.where,
        message: `This was done ${later ? `on ${it.day ?? ""}, after the release of ${release.day ?? ""}` : "after the release"}. Write a new \`release\` after it.`,
      });
    }
  }
  return out;
}

/**
 * Dated after the release that it is written above: what was tightened, locked, restored, let down, measured or looked at on a later day is nothing that was signed for.
 * What opened something is said by its own line.
 */
function datedAfterRelease(story: Story): Related[] {
  const { release } = story;
  const day = release?.day;
  if (release === undefined || day === undefined || !story.job.own.sheet.entries.includes(release.entry)) return [];
  const out: Related[] = [];
  const said = new Set<object>();
  const late = (it: Moment, entry: object, what: string) => {
    if (it.phase !== "done" || it.seq > release.seq || it.day === undefined || it.day <= day || said.has(entry)) return;
    said.add(entry);
    out.push({
      where: it.where,
      message: `This was ${what} on ${it.day}, and the release above which it is written is of ${day}. Correct the days, or sign when it is done.`,
    });
  };
  const opened = new Set<object>();
  const moments: readonly (Moment & { readonly verb: string })[] = [
    ...[...story.parts, ...story.fasteners, ...story.fluids, ...story.hazards].flatMap(
      (cell) => cell.history as readonly (Moment & { readonly verb: string })[],
    ),
    ...story.support,
  ];
  for (const it of moments) if (it.visit !== undefined && opens.has(it.verb) && it.day !== undefined && it.day > day) opened.add(it.visit.entry);
  for (const it of moments) if (it.visit !== undefined && it.verb !== "found" && !opened.has(it.visit.entry)) late(it, it.visit.entry, "done");
  for (const it of story.readings) if (it.stage === "final") late(it, it.entry, "measured");
  for (const it of story.seen) if (it.stage === "final") late(it, it.entry, "seen");
  for (const it of story.concessions) late(it, it.entry, "conceded");
  return out;
}
