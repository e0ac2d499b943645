// The way back: steps ready to paste that return what came off, with the readings that must follow, in an order that the facts allow.
// Invariant: planned figures, said to be so; nothing is written done, and no reading is made up. Asked again it gives only what is still missing.
import { type Slices, apart, mapping, someAtOnce } from "../../../grammar/slices.ts";
import { type SheetText, editingSheet } from "../../../grammar/sheet-text.ts";
import type { Files } from "../../model/files.ts";
import type { Check, Limit } from "../../model/things.ts";
import { midSentence } from "../../model/titles.ts";
import { quantityText, rangeText } from "../../model/values.ts";
import type { Where } from "../../model/where.ts";
import { listingOpen } from "../../rules/check.ts";
import type { Read } from "../../rules/rule.ts";
import type { Story } from "../../story/story.ts";
import type { Caution } from "../../trade/cautions.ts";
import { judging } from "../../story/verdicts.ts";
import { supplying } from "../../supply/supply.ts";
import { cautionsFor } from "../draw/cautions-for.ts";
import { type Heading, type Told, telling } from "../draw/heading.ts";
import { plain } from "../draw/plain.ts";
import { inList } from "../draw/so-many.ts";
import type { Line } from "../draw/line.ts";
import { actText, filledAs, noteOf } from "./acts.ts";
import { type AsDone, takenAsDone } from "./as-done.ts";
import { closedInBy } from "./closed-in.ts";
import { type ToLook, lookLine, looksToTake } from "./looks.ts";
import { namesTaken, stepCalled, stepName } from "./names.ts";
import { openingOf } from "./opening.ts";
import type { Deed } from "./deeds.ts";
import { inOrderOfFitting } from "./order.ts";
import { placedIn } from "./placed.ts";
import { unsettledRows } from "./unsettled.ts";
import { type Due, type ToRead, readingsToTake } from "./readings.ts";
import { readingLine, seenLine } from "./waits-in-sheet.ts";
import { type Work, greased, workOf } from "./work.ts";

export interface WayBack extends Heading {
  readonly entries: readonly BackEntry[];
  /** What no step can settle: an answer, a decision, a part that is away. */
  readonly unsettled: readonly (Line & { readonly text: string })[];
  readonly cautions: readonly Caution[];
  /** As a sheet would hold it. Empty where nothing is missing. */
  readonly sheet: string;
}

export type BackEntry = BackStep | BackReading | BackLook;

export interface BackStep {
  readonly kind: "step";
  readonly name: string;
  readonly title: string;
  readonly lines: readonly BackLine[];
}

export interface BackLine extends Line {
  readonly text: string;
  readonly note?: string;
  /** The line as it would be with its blank filled in as planned. */
  readonly filled?: string;
  /** The part that comes off by it. */
  readonly off?: string;
}

export interface BackReading extends Line {
  readonly kind: "reading" | "check";
  /** `measure worm-float final by dial`; of a check, nothing: it is not seen yet. */
  readonly text: string;
  readonly title: string;
  /** The planned step that fits what is measured, and is done after that, as it is called: `“Boom back”`. */
  readonly before?: string;
  /** Where it is to be read or seen; `""` where there are no places. */
  readonly places: readonly string[];
  /** The lines that wait for figures, or for what was seen. */
  readonly waits: readonly string[];
  /** Of each of those lines, where its figure is read: a place, a position there; `""` where there is none. */
  readonly spots: readonly { readonly place: string; readonly position: string }[];
  /** What it may read, `set 0.10 .. 0.18 mm`; `""` where nothing says so, and of a check. */
  readonly allowed: string;
}

/** A piece that is looked at once more: what it looks like is written as a finding. */
export interface BackLook extends Line {
  readonly kind: "look";
  readonly title: string;
  /** Where; `""` where there are no places. */
  readonly places: readonly string[];
  /** The heads of the findings, which wait for what was seen. */
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
export function* goingBack(files: Files, path: string): Slices<WayBack | undefined> {
  const told = yield* telling(files, path);
  if (told === undefined) return undefined;
  const opened = yield* wayIn(files, path, told);
  const { story, heading } = opened.told;
  const { at } = opened;
  yield* judging(story);
  yield* supplying(story);
  const { work: first, unsettled } = yield* workOf(story, opened.step?.name);
  yield;
  function* stepsBy(work: readonly Work[], readings: readonly ToRead[], looks: readonly ToLook[]): Slices<BackEntry[]> {
    const deeds = yield* inOrderOfFitting(story, work, readings, looks);
    return [...(opened.step === undefined ? [] : [opened.step]), ...(yield* entriesOf(opened, deeds))];
  }
  const asks = yield* stillAsked(files, path, told.story, yield* stepsBy(first, [], []));
  const work = yield* apart(() => greased(story, first, asks.greases));
  const readings = yield* apart(() => readingsToTake(story, work, asks.due));
  const entries = yield* stepsBy(work, readings, looksToTake(story, asks.looks));
  const cautions = yield* apart(() => cautionsFor(story));
  const done = yield* takenAsDone(files, path, stepsDone(entries, lineText));
  const asItIs = asItIsIn(path, done);
  const list = yield* listingOpen(done.files, path);
  const open = yield* mapping(list.open, (it) => {
    const { rule, message, leaves } = it;
    const [cause] = it.related.flatMap((one) => asItIs(one) ?? []);
    const line = asItIs(it);
    // What the sheet itself has done too early is said there, and is not of these steps.
    if (leaves !== undefined && cause !== undefined && (rule !== "step-too-early" || line === undefined)) return [{ rule, message: leaves, ...cause }];
    return line === undefined || !forAPerson.has(rule) ? [] : [{ rule, message, ...line }];
  });
  return {
    ...heading,
    entries,
    unsettled: yield* apart(() => unsettledRows(story, unsettled, open.flat(), at)),
    cautions,
    sheet: sheetText(entries),
  };
}

interface Opened {
  /** The job with its way in open, as far as that is planned. */
  readonly told: Told;
  readonly step?: BackStep;
  /** Lines as the sheet has them now. */
  readonly at: (where: Where) => Line;
}

/** What must come off first is planned first; all else is asked of the sheet as it then stands. What that uses up comes off in its turn. */
function* wayIn(files: Files, path: string, told: Told): Slices<Opened> {
  const sheet = files.read(path);
  const name = stepName(namesTaken(told.job));
  let opened: Opened = { told, at: told.at };
  if (typeof sheet === "string") return opened;
  let things: readonly Work["thing"][] = [];
  for (let round = 0; round < mostRounds; round++) {
    yield* judging(opened.told.story);
    yield* supplying(opened.told.story);
    const more = yield* openingOf(opened.told.story, name);
    if (more.lines.length === 0) break;
    things = [...new Set([...things, ...more.things])];
    const { at } = opened;
    const lines = [...(opened.step?.lines ?? [])];
    // A gasket comes off with what it is renewed with, where nothing has to be undone for it.
    const isOnlyOff = more.lines.length === 1 || more.lines.every(({ off }) => off !== undefined);
    for (const it of more.lines) {
      const line = {
        text: it.text,
        ...(it.note === undefined ? {} : { note: it.note }),
        ...(it.filled === undefined ? {} : { filled: it.filled }),
        ...(it.off === undefined ? {} : { off: it.off.name }),
        ...at(it.where),
      };
      const by = isOnlyOff ? it.off?.with : undefined;
      const i = by === undefined || by.length === 0 ? -1 : lines.findLastIndex(({ off }) => off !== undefined && by.includes(off));
      lines.splice(i < 0 ? lines.length : i + 1, 0, line);
    }
    const next = yield* asOpened(files, path, sheet, { kind: "step", name, title: `Way in: ${titlesOf(things)}`, lines });
    if (next === undefined) break;
    opened = next;
  }
  return opened;
}

/** What is renewed with what comes off may be held by something in its turn; no sheet goes deeper. */
const mostRounds = 8;

/**
 * What the release would still ask for if all that is planned were done and its blanks filled in: readings and looks, by their names, the places and the line that asks;
 * what goes back without its grease; and what nobody has looked at since it was put right.
 */
function* stillAsked(files: Files, path: string, story: Story, entries: readonly BackEntry[]): Slices<StillAsked> {
  const done = yield* takenAsDone(
    files,
    path,
    stepsDone(entries, (it) => it.filled ?? it.text),
    story,
  );
  const due = new Map<string, { places: Set<string>; at: Line | undefined }>();
  const looked: (Read & { readonly at: Line | undefined })[] = [];
  const { open } = yield* listingOpen(done.files, path);
  const asItIs = asItIsIn(path, done);
  for (const [i, { reads, looks, related, file, line }] of open.entries()) {
    if (i % someAtOnce === 0) yield;
    const own = asItIs({ file, line });
    // Asked by a repair that is only written here, it is asked by what was found.
    const [cause] = related.flatMap((it) => asItIs(it) ?? []);
    for (const it of looks) looked.push({ ...it, at: own ?? cause });
    for (const { name, places } of reads) {
      const known = due.get(name) ?? { places: new Set<string>(), at: undefined };
      for (const place of places) known.places.add(place);
      due.set(name, { ...known, at: known.at ?? own });
    }
  }
  return { due, greases: open.flatMap((it) => it.greases), looks: looked };
}

/** The line of the sheet as it stands; undefined of one that is only written here. */
function asItIsIn(path: string, done: AsDone): (it: { readonly file: string; readonly line: number }) => Line | undefined {
  return ({ file, line: row }) => {
    const line = file === path ? done.asItIs(row) : row;
    return line === undefined ? undefined : { file, line: line + 1 };
  };
}

interface StillAsked {
  readonly due: Due;
  readonly greases: readonly Read[];
  readonly looks: readonly (Read & { readonly at: Line | undefined })[];
}

/** Each with its `done`, as a sheet would hold them. */
function stepsDone(entries: readonly BackEntry[], text: (line: BackLine) => string): string {
  return entries
    .flatMap((it) => (it.kind === "step" ? [[`step ${it.name}`, ...it.lines.map((line) => `  ${text(line)}`), "  done"].join("\n")] : []))
    .join("\n\n");
}

/** The job with that step planned in it. */
function* asOpened(files: Files, path: string, sheet: SheetText, step: BackStep): Slices<Opened | undefined> {
  const { line, column, text } = placedIn(sheet, stepText(step).join("\n"));
  const after = yield* editingSheet(sheet, { startLine: line, startColumn: column, endLine: line, endColumn: column, text });
  const told = yield* telling({ read: (asked) => (asked === path ? after : files.read(asked)) }, path);
  if (told === undefined) return undefined;
  const more = after.lines.length - sheet.lines.length;
  const at = (where: Where): Line => {
    const it = told.at(where);
    return it.file === path && it.line > line + 1 ? { ...it, line: it.line - more } : it;
  };
  return { told, step, at };
}

function* entriesOf({ told, at }: Opened, deeds: readonly Deed[]): Slices<BackEntry[]> {
  yield;
  const { story, job } = told;
  const entries: BackEntry[] = [];
  const taken = namesTaken(job);
  /** Each line as it is, and without what stands behind its comment sign. */
  const stands = new Set(job.own.sheet.lines.flatMap((it) => [it.trim(), (it.split("  #")[0] as string).trim()]));
  let lines: BackLine[] = [];
  let of: Work["thing"][] = [];
  const close = () => {
    const title = of.length === 0 ? "down again" : titlesOf(of);
    if (lines.length > 0) entries.push({ kind: "step", name: stepName(taken), title: `Way back: ${title}`, lines });
    lines = [];
    of = [];
  };
  for (const [i, deed] of deeds.entries()) {
    if (i % someAtOnce === 0) yield;
    if (deed.kind === "read") {
      close();
      entries.push(readingOf(story, deed.read, deed.stage, deed.read.at ?? at(deed.read.where)));
    } else if (deed.kind === "look") {
      close();
      const { thing, places } = deed.look;
      const line = deed.look.at ?? at({ file: thing.file, entry: thing.entry, row: 0, at: thing.at });
      entries.push({ kind: "look", title: thing.title ?? thing.name, places, waits: places.map((place) => lookLine(thing, place)), ...line });
    } else if (deed.kind === "lower") {
      close();
      lines.push(...lowering(told, at));
    } else {
      for (const act of deed.acts) {
        // A blank says the same before and after the others are planned beside it.
        const before = !act.blank && (act.verb === "fit" || act.verb === "tighten") ? closedInBy(story, deed.thing, act.places) : undefined;
        const notes = [noteOf(deed.thing.name, act), ...(before === undefined ? [] : [`before ${before}, which closes it in`])];
        const note = notes.every((it) => it === undefined) ? undefined : notes.filter((it) => it !== undefined).join("; ");
        const line = { text: actText(deed.thing.name, act), ...(note === undefined ? {} : { note }), ...filledAs(deed.thing.name, act), ...at(deed.where) };
        // A blank that stands in the sheet already waits there.
        if (line.filled !== undefined && stands.has(act.blank ? lineText(line) : line.text)) continue;
        lines.push(line);
        of.push(deed.thing);
      }
    }
  }
  close();
  return entries;
}

/** Three of them, or fewer where they are long: a title is read at a glance. */
function titlesOf(things: readonly Work["thing"][]): string {
  const titles = [...new Set(things.map((it) => inList(midSentence(it))))].map((it) => it.replace(/`/g, ""));
  let named = Math.min(3, titles.length);
  while (named > 1 && titles.slice(0, named).join(", ").length > 120) named--;
  return `${titles.slice(0, named).join(", ")}${titles.length > named ? " and the rest" : ""}`;
}

function lowering({ story }: Told, at: Opened["at"]): BackLine[] {
  const last = story.support.at(-1);
  if (last === undefined) return [];
  const line = at((last.after.raised ?? { moment: last }).moment.where);
  return [
    ...(last.after.under === undefined ? [] : [{ text: "clear", ...line }]),
    { text: "lower", note: "nobody underneath, all that carries it tight and locked", ...line },
  ];
}

function readingOf(story: Story, it: ToRead, stage: "trial" | "final", line: Line): BackReading {
  const title = it.thing.title ?? it.thing.name;
  const before = it.ahead === undefined ? {} : { before: stepCalled(it.ahead) };
  if (it.thing.kind === "check") {
    const waits = it.places.map((place) => seenLine(it.thing as Check, place));
    const spots = it.places.map((place) => ({ place, position: "" }));
    return { kind: "check", text: "", title, ...before, places: it.places, waits, spots, allowed: "", ...line };
  }
  const limit: Limit = it.thing;
  const last = story.readings.findLast((reading) => reading.limit === limit);
  const by = last?.gauge === undefined ? "" : ` by ${last.gauge.name}`;
  const band =
    limit.set !== undefined
      ? `set ${rangeText(limit.set)}`
      : [
          ...(["worn", "new"] as const).flatMap((word) => (limit[word] === undefined ? [] : [`${word} ${rangeText(limit[word])}`])),
          ...(["spread", "ovality", "taper"] as const).flatMap((word) => (limit[word] === undefined ? [] : [`${word} max ${quantityText(limit[word])}`])),
        ].join(", ");
  const spots = it.places.flatMap((place) => (limit.positions.length === 0 ? [""] : limit.positions).map((position) => ({ place, position })));
  const waits = spots.map(({ place, position }) => `${readingLine(place)}${position === "" ? "" : ` at ${position}`}${band === "" ? "" : `  (${band})`}`);
  return { kind: "reading", text: `measure ${limit.name} ${stage}${by}`, title, ...before, places: it.places, waits, spots, allowed: band, ...line };
}

// ---------------------------------------------------------------- as a sheet

function sheetText(entries: readonly BackEntry[]): string {
  if (entries.length === 0) return "";
  const out = [
    "# The way back, as the sheet stood. All of it is planned: it counts when a step is marked done.",
    "# The torques are planned figures: write the one that you read. A line with \u2026 waits for a reading.",
    "# A line with ___ waits for what is not known yet: fill it in. A reading may be moved to where it can be taken.",
    "# A record and a reminder, not an inspection: the maker's data and your local rules come first.",
  ];
  for (const entry of entries) {
    out.push("");
    if (entry.kind === "step") {
      out.push(...stepText(entry));
    } else if (entry.kind === "look") out.push(...entry.waits.flatMap((it) => [`# ${plain(it)}`, "#   is \u2026"]));
    else if (entry.kind === "reading") out.push(entry.text, ...aheadOf(entry), ...entry.waits.map((it) => `  # ${plain(it)}`));
    else out.push(...aheadOf(entry).map((it) => it.trim()), ...entry.waits.map((it) => `# ${plain(it)}`));
  }
  return `${out.join("\n")}\n`;
}

/** A planned step stands above it in the sheet, and is done after it. */
function aheadOf({ before, kind }: BackReading): string[] {
  return before === undefined ? [] : [`  # Before ${plain(before)}: ${kind === "check" ? "look at" : "measure"} the piece, then fit it.`];
}

function stepText(step: BackStep): string[] {
  return [`step ${step.name} ${quotedTitle(step.title)}`, ...step.lines.map((it) => `  ${lineText(it)}`)];
}

function lineText({ text, note }: Pick<BackLine, "text" | "note">): string {
  return note === undefined ? text : `${text}  # ${plain(note)}`;
}

function quotedTitle(title: string): string {
  return `"${plain(title).replace(/["\\]/g, "\\$&")}"`;
}
