// The way back: steps ready to paste that return what came off, with the readings that must follow, in an order that the facts allow.
// Invariant: planned figures, said to be so; nothing is written done, and no reading is made up. Asked again it gives only what is still missing.
import { namesTaken, stepName } from "./names.ts";
import type { Check, Limit } from "../../model/things.ts";
import { midSentence } from "../../model/titles.ts";
import { rangeText } from "../../model/values.ts";
import type { Files } from "../../model/files.ts";
import { openItems } from "../../rules/check.ts";
import type { Caution } from "../../trade/cautions.ts";
import type { Story } from "../../story/story.ts";
import { cautionsFor } from "../draw/cautions-for.ts";
import { type Heading, type Told, tell } from "../draw/heading.ts";
import { plain } from "../draw/plain.ts";
import type { Line } from "../release/release.ts";
import { inOrderOfFitting } from "./order.ts";
import { type ToRead, readingLine, readingsToTake, seenLine } from "./readings.ts";
import { type Act, type Work, workOf } from "./work.ts";

export interface WayBack extends Heading {
  readonly entries: readonly BackEntry[];
  /** What no step can settle: an answer, a decision, a part that is away. */
  readonly unsettled: readonly (Line & { readonly text: string })[];
  readonly cautions: readonly Caution[];
  /** As a sheet would hold it. Empty where nothing is missing. */
  readonly sheet: string;
}

export type BackEntry = BackStep | BackReading;

export interface BackStep {
  readonly kind: "step";
  readonly name: string;
  readonly title: string;
  readonly lines: readonly BackLine[];
}

export interface BackLine extends Line {
  readonly text: string;
  readonly note?: string;
}

export interface BackReading extends Line {
  readonly kind: "reading" | "check";
  /** `measure worm-float final by dial`; of a check, nothing: it is not seen yet. */
  readonly text: string;
  readonly title: string;
  /** Where it is to be read or seen; `""` where there are no places. */
  readonly places: readonly string[];
  /** The lines that wait for figures, or for what was seen. */
  readonly waits: readonly string[];
}

/** What only somebody who has seen it can settle: a decision, an answer, a figure that looks like a slip. */
const forAPerson: ReadonlySet<string> = new Set([
  "part-undecided",
  "decision-unsafe",
  "question-open",
  "fellow-unchecked",
  "debris-unexplained",
  "run-dry",
  "figure-slip",
]);

/** Of one job; undefined where there is no such file. */
export function wayBack(files: Files, path: string): WayBack | undefined {
  const told = tell(files, path);
  if (told === undefined) return undefined;
  const { story, heading, at } = told;
  const { work, unsettled } = workOf(story);
  const ordered = inOrderOfFitting(story, work);
  const readings = readingsToTake(story, ordered);
  const entries = entriesOf(told, ordered, readings);
  const cautions = cautionsFor(story);
  return {
    ...heading,
    entries,
    unsettled: [
      ...unsettled.map((it) => ({ text: it.text, ...at(it.where) })),
      ...openItems(files, path)
        .open.filter((it) => forAPerson.has(it.rule))
        .map((it) => ({ text: it.message, file: it.file, line: it.line + 1 })),
    ],
    cautions,
    sheet: sheetText(entries, cautions),
  };
}

function entriesOf(told: Told, ordered: readonly Work[], readings: readonly ToRead[]): BackEntry[] {
  const { story, at } = told;
  const entries: BackEntry[] = [];
  const taken = namesTaken(told.job);
  let lines: BackLine[] = [];
  let of: Work[] = [];
  const close = () => {
    if (lines.length === 0) return;
    const titles = [...new Set(of.map((it) => midSentence(it.thing)))].map((it) => it.replace(/^`|`$/g, ""));
    const title = of.length === 0 ? "down on its wheels" : `${titles.slice(0, 3).join(", ")}${titles.length > 3 ? " and the rest" : ""}`;
    entries.push({ kind: "step", name: stepName(taken), title: `Way back: ${title}`, lines });
    lines = [];
    of = [];
  };
  const read = (list: readonly ToRead[]) => {
    if (list.length === 0) return;
    close();
    for (const it of list) entries.push(readingOf(story, it, at(it.where)));
  };

  read(readings.filter((it) => it.after.length === 0 && !it.last));
  const done = new Set<string>();
  const open = readings.filter((it) => it.after.length > 0);
  const lowers = isRaised(story);
  let lowered = !lowers;
  for (const it of ordered) {
    if (it.thing.kind === "hazard" && !lowered) {
      read(readings.filter((other) => other.last));
      close();
      lines.push(...lowering(told));
      lowered = true;
    }
    for (const act of it.acts) lines.push({ text: actText(it.thing.name, act), ...(act.note === undefined ? {} : { note: act.note }), ...at(it.where) });
    of.push(it);
    done.add(it.thing.name);
    read(open.filter((other) => other.after.includes(it.thing.name) && other.after.every((name) => done.has(name))));
  }
  // With a machine to let down and a hazard to restore they were read before that.
  if (!lowered || !lowers) read(readings.filter((it) => it.last));
  if (!lowered) {
    close();
    lines.push(...lowering(told));
  }
  close();
  return entries;
}

function isRaised(story: Story): boolean {
  return story.support.at(-1)?.after.raised !== undefined;
}

function lowering(told: Told): BackLine[] {
  const last = told.story.support.at(-1);
  if (last === undefined) return [];
  const line = told.at((last.after.raised ?? { moment: last }).moment.where);
  return [
    ...(last.after.under === undefined ? [] : [{ text: "clear", ...line }]),
    { text: "lower", note: "nobody underneath, all that carries it tight and locked", ...line },
  ];
}

function actText(name: string, act: Act): string {
  return [act.verb, name, act.count, act.places.join(", "), act.isNew === true ? "new" : undefined, act.rest]
    .filter((it) => it !== undefined && it !== "")
    .join(" ");
}

function readingOf(story: Story, it: ToRead, line: Line): BackReading {
  const title = it.thing.title ?? it.thing.name;
  if (it.thing.kind === "check")
    return { kind: "check", text: "", title, places: it.places, waits: it.places.map((place) => seenLine(it.thing as Check, place)), ...line };
  const limit: Limit = it.thing;
  const last = story.readings.findLast((reading) => reading.limit === limit);
  const by = last?.gauge === undefined ? "" : ` by ${last.gauge.name}`;
  const band =
    limit.set !== undefined
      ? `set ${rangeText(limit.set)}`
      : [limit.worn === undefined ? "" : `worn ${rangeText(limit.worn)}`, limit.new === undefined ? "" : `new ${rangeText(limit.new)}`]
          .filter((words) => words !== "")
          .join(", ");
  const waits = it.places.flatMap((place) => {
    const lineAt = (position: string) => `${readingLine(place)}${position === "" ? "" : ` at ${position}`}${band === "" ? "" : `  (${band})`}`;
    return limit.positions.length === 0 ? [lineAt("")] : limit.positions.map(lineAt);
  });
  return { kind: "reading", text: `measure ${limit.name} final${by}`, title, places: it.places, waits, ...line };
}

// ---------------------------------------------------------------- as a sheet

function sheetText(entries: readonly BackEntry[], cautions: readonly Caution[]): string {
  if (entries.length === 0) return "";
  const out = [
    "# The way back, as the sheet stood. All of it is planned: it counts when a step is marked done.",
    "# The torques are planned figures: write the one that you read. A line with \u2026 waits for a reading.",
    "# A part may be measured before it goes in; the figure is written behind the step that fits it. A reading may be moved down to where it can be taken.",
    "# A record and a reminder, not an inspection: the maker's data and your local rules come first.",
    ...cautions.map((it) => `# Caution: ${it.words} (${it.source})`),
  ];
  for (const entry of entries) {
    out.push("");
    if (entry.kind === "step") {
      out.push(`step ${entry.name} ${quotedTitle(entry.title)}`);
      for (const line of entry.lines) out.push(`  ${line.text}${line.note === undefined ? "" : `  # ${plain(line.note)}`}`);
    } else if (entry.kind === "reading") out.push(entry.text, ...entry.waits.map((it) => `  # ${plain(it)}`));
    else out.push(...entry.waits.map((it) => `# ${plain(it)}`));
  }
  return `${out.join("\n")}\n`;
}

function quotedTitle(title: string): string {
  return `"${plain(title).replace(/["\\]/g, "\\$&")}"`;
}
