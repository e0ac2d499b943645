// How a job was left after each pause, and as it stands now: what is off, slack, unlocked, for now, away, drained, live or hanging,
// what else the list of what is open says, and what was next.
// Invariant: done work only, up to the pause; a value with the lines that it comes from. What is open is for the one list to say, of now and of each pause.
import { type Slices, apart, someAtOnce } from "../../../grammar/slices.ts";
import { lineText, readingSheet } from "../../../grammar/sheet-text.ts";
import type { Entry } from "../../../grammar/tree.ts";
import type { Files } from "../../model/files.ts";
import { putInto } from "../../model/grouped.ts";
import { type Where, where } from "../../model/where.ts";
import { type Open, listingOpen } from "../../rules/check.ts";
import { openRoomOf } from "../../rules/open-groups.ts";
import { firstSentence, listed } from "../../rules/wording.ts";
import type { Caution } from "../../trade/cautions.ts";
import { cautionsFor } from "../draw/cautions-for.ts";
import { type Heading, type Told, telling } from "../draw/heading.ts";
import type { Line } from "../draw/line.ts";
import { type GroupName, type Put, standsAt } from "./stands.ts";

export type { GroupName } from "./stands.ts";

export interface LeftReport extends Heading {
  readonly pauses: readonly Left[];
  readonly cautions: readonly Caution[];
}

export interface Left extends Line {
  /** “2026-05-03: Bearings are out of stock”, or “Now”. */
  readonly when: string;
  readonly groups: readonly LeftGroup[];
  readonly next: readonly (Line & { readonly text: string })[];
  /** Of a pause: nothing was done or found since, so that it is now as it was then. */
  readonly asNow: boolean;
}

export interface LeftGroup {
  readonly name: GroupName;
  readonly rows: readonly (Line & { readonly text: string })[];
}

/** Of one job; undefined where there is no such file. The newest first: it is the page to read when the job is taken up again. */
export function* reportingLeft(files: Files, path: string): Slices<LeftReport | undefined> {
  const told = yield* telling(files, path);
  if (told === undefined) return undefined;
  const { story } = told;
  const pauses: Left[] = [];
  for (const it of story.pauses) {
    const when = [it.day, it.entry.why?.value].filter((word) => word !== undefined).join(": ") || "A pause";
    pauses.push(yield* leftAt(files, told, it.seq, it.day, when, it.where, it.where));
  }
  const home = { file: told.job.own.path, entry: (told.job.sheet ?? told.job.own.sheet.entries[0]) as Where["entry"], row: 0, at: { from: 0, to: 0 } };
  const now =
    home.entry === undefined
      ? []
      : [
          yield* leftAt(
            files,
            told,
            story.plannedFrom,
            story.newestDay,
            story.release === undefined ? "Now" : "Now, with its release written",
            home,
            undefined,
          ),
        ];
  return { ...told.heading, pauses: [...now, ...pauses.reverse()], cautions: yield* apart(() => cautionsFor(story)) };
}

/** All that was done before `seq`. */
function* leftAt(files: Files, told: Told, seq: number, day: string | undefined, when: string, at: Where, pause: Where | undefined): Slices<Left> {
  const { story, at: line } = told;
  const groups: Groups = new Map();
  const known = new Map<string, GroupRow>();
  const put: Put = (name, text, from, place = "") => {
    const where = line(from);
    // The same at several places, by one line, is one row.
    const key = JSON.stringify([name, text, where.line, where.file]);
    const same = known.get(key);
    if (same === undefined) {
      const row: GroupRow = { text, places: [place], line: where };
      known.set(key, row);
      putInto(groups, name, row);
    } else if (!same.places.includes(place)) same.places.push(place);
  };
  standsAt(story, seq, day, put);
  for (const thing of story.job.things.values())
    if (thing.kind === "question" && thing.answer === undefined && !thing.implied)
      put("Waiting for an answer", thing.title ?? thing.name, { file: thing.file, entry: thing.entry, row: 0, at: thing.at });
  yield;
  yield* restOfList(files, told, pause, groups, (name, it) => {
    putInto(groups, name, { text: firstSentence(it.message), places: [""], line: { file: it.file, line: it.line + 1 } });
  });
  yield;
  return {
    when,
    ...line(at),
    groups: order.flatMap((name) => {
      const rows = groups.get(name);
      return rows === undefined ? [] : [{ name, rows: rows.map((it) => ({ text: `${listed(it.places)} ${it.text}`.trim(), ...it.line })) }];
    }),
    next: nextSteps(told, pause),
    asNow: pause !== undefined && !happenedSince(told, pause),
  };
}

/** What can hurt first. */
const order: readonly GroupName[] = [
  "Unsafe",
  "Hanging",
  "Live",
  "Off",
  "Slack",
  "Not locked",
  "In for now",
  "Drained",
  "Away",
  "Made safe",
  "Held up",
  "Not to be trusted",
  "Waiting for an answer",
  "Wrong in what is planned",
  "Not clear on the sheet",
];

/** What the state of things shows by itself, in a group of its own: the list says the same of it in other words. */
const shownAs: Readonly<Record<string, readonly GroupName[]>> = {
  "part-left-over": ["Off"],
  "left-slack": ["Slack"],
  "locking-left-off": ["Not locked"],
  "still-for-now": ["In for now"],
  "fluid-left-out": ["Drained"],
  "not-bled": ["Drained"],
  "part-away": ["Away"],
  "hazard-left-safe": ["Made safe"],
  "left-hanging": ["Hanging"],
  "still-raised": ["Held up", "Hanging"],
  // With what it is of off or slack, nobody would take it to be set.
  "reading-missing": ["Off", "Slack"],
  "question-open": ["Waiting for an answer"],
};

interface GroupRow {
  readonly text: string;
  readonly places: string[];
  readonly line: Line;
}

type Groups = Map<GroupName, GroupRow[]>;

/** What a group of the state shows: the lines of its rows, and what each of them names, “left hub”, in small letters, with how long those names are. */
interface Showing {
  readonly lines: ReadonlySet<string>;
  readonly names: ReadonlySet<string>;
  readonly lengths: readonly number[];
}

function showing(rows: readonly GroupRow[]): Showing {
  const lines = new Set<string>();
  const names = new Set<string>();
  for (const { text, places, line } of rows) {
    lines.add(`${line.file} ${line.line}`);
    const thing = text.replace(/(?: \(\d+ of \d+\))?(?:: .*)?$/u, "");
    for (const place of places) names.add(`${place} ${thing}`.trim().toLowerCase());
  }
  return { lines, names, lengths: [...new Set([...names].map((it) => it.length))] };
}

/** Does the state of things show it: by a row of the same line, or one that names the same thing at the same place? */
function isShown(it: Open, shown: ReadonlyMap<GroupName, Showing>): boolean {
  const groups = (shownAs[it.rule] ?? []).flatMap((name) => shown.get(name) ?? []);
  if (asOne.has(it.rule)) return groups.length > 0;
  const said = it.message.toLowerCase();
  return groups.some(({ lines, names, lengths }) => lines.has(`${it.file} ${it.line + 1}`) || lengths.some((length) => names.has(said.slice(0, length))));
}

/** Of the machine as a whole, or of all that it hangs on. */
const asOne: ReadonlySet<string> = new Set(["left-hanging", "still-raised", "reading-missing"]);

/** Is a matter one of a step that is only planned? */
function plannedLines(told: Told): (it: Open) => boolean {
  const spans = told.story.visits
    .filter((it) => it.phase === "planned")
    .map(({ file, entry }) => {
      const first = told.at(where(file, entry, 0, entry.keyword)).line;
      return { file, first, last: first + entry.details.reduce((most, detail) => Math.max(most, detail.row), 0) };
    });
  const begun = new Set(told.story.visits.filter((it) => it.phase === "done").map((it) => told.at(where(it.file, it.entry, 0, it.entry.keyword)).line));
  return ({ file, line }) => spans.some((it) => it.file === file && it.first <= line + 1 && line + 1 <= it.last && !begun.has(it.first));
}

/** All that is open and that no state above shows. What is only planned stands under what is next; of a pause, what a release asks for is not asked yet. */
function* restOfList(files: Files, told: Told, pause: Where | undefined, groups: Groups, put: (name: GroupName, it: Open) => void): Slices<void> {
  const path = told.job.own.path;
  const questions = questionLines(told);
  const planned = plannedLines(told);
  // Of the state of things, and of no row that the list itself puts there.
  const shown = new Map([...groups].map(([name, rows]) => [name, showing(rows)]));
  const { open } = yield* listingOpen(pause === undefined ? files : yield* filesAt(files, told, pause), path);
  for (const [i, it] of open.entries()) {
    if (i % someAtOnce === 0) yield;
    if (it.rule === "release-blocked" && it.file === path && told.story.release === undefined) continue;
    if (pause !== undefined && openRoomOf(it.rule) === "Release") continue;
    if (it.rule === "question-open" ? questions.has(`${it.file} ${it.line + 1}`) : isShown(it, shown)) continue;
    const group = planned(it) ? "Wrong in what is planned" : it.group === "Unsafe" || it.group === "Not clear on the sheet" ? it.group : "Not to be trusted";
    put(group, it);
  }
}

/** Questions without an answer stand in their own words: the lines of their heads. */
function questionLines(told: Told): ReadonlySet<string> {
  const lines = new Set<string>();
  for (const it of told.job.things.values())
    if (it.kind === "question" && !it.implied) lines.add(`${it.file} ${told.at({ file: it.file, entry: it.entry, row: 0, at: it.at }).line}`);
  return lines;
}

const happens: ReadonlySet<string> = new Set(["step", "finding", "measure", "seen", "order", "concession", "stock", "pause", "day", "release"]);

/** The sheet as it was at a pause: what is written to have happened further down is left out, and what was declared there holds. */
function* filesAt(files: Files, told: Told, pause: Where): Slices<Files> {
  const { sheet, path } = told.job.own;
  const lines = Array.from(sheet.lines, (_, i) => lineText(sheet, i));
  const from = sheet.starts.findIndex((_, i) => sheet.entries[i] === pause.entry);
  sheet.entries.forEach((entry, i) => {
    if (i <= from || !happens.has(entry.kind)) return;
    const start = sheet.starts[i] as number;
    for (let line = start; line < (sheet.starts[i + 1] ?? lines.length); line++) lines[line] = "";
  });
  const then = yield* readingSheet(lines.join("\n"));
  return { ...files, read: (asked) => (asked === path ? then : files.read(asked)) };
}

/** Is anything further down written to have happened? What is only planned, and the release, has not. */
function happenedSince({ story, job }: Told, pause: Where): boolean {
  const entries = job.own.sheet.entries;
  const done = new Set<Entry>(story.visits.filter((it) => it.phase === "done").map((it) => it.entry));
  return entries
    .slice(entries.indexOf(pause.entry) + 1)
    .some((it) => happens.has(it.kind) && it.kind !== "day" && it.kind !== "pause" && it.kind !== "release" && (it.kind !== "step" || done.has(it)));
}

/** Of a pause: the steps written below it, the first five. Of now: the planned ones. */
function nextSteps(told: Told, pause: Where | undefined): Left["next"] {
  const { story, at, job } = told;
  const entries = job.own.sheet.entries;
  const from = pause === undefined ? -1 : entries.indexOf(pause.entry);
  const planned = new Set(story.visits.filter((it) => it.phase === "planned").map((it) => it.entry));
  return entries
    .flatMap((entry, i) => (entry.kind === "step" && (pause === undefined ? planned.has(entry) : i > from) ? [entry] : []))
    .slice(0, 5)
    .map((entry) => ({ text: entry.title?.value ?? entry.name?.text ?? "a step", ...at(where(job.own.path, entry, 0, entry.at)) }));
}
