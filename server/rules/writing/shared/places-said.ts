// What is said of a place that is not declared or that a thing has not got, of a kind of places, and of words before the figures of a reading: what is likely meant.
// Invariant: it is asked only where the rule has found that something is wrong there.
import type { Entry, Name, ReadingDetail } from "../../../../grammar/tree.ts";
import { numberOf } from "../../../../grammar/plain-words.ts";
import { actionWord, conditions, lockingPhrases, tailMeant, tailsWritten } from "../../../../grammar/words.ts";
import { type Job, isNoPlace, placesOf } from "../../../model/job.ts";
import { nearestNames } from "../../../model/near.ts";
import type { OneAndMany } from "../../../model/one-and-many.ts";
import { referencesOf } from "../../../model/references.ts";
import type { Limit, Thing } from "../../../model/things.ts";
import { where } from "../../../model/where.ts";
import { unitOf } from "../../../quantities/units.ts";
import { type JobContext, type RuleFix, restate, rewrite } from "../../rule.ts";
import { agreeing, called, midSentence } from "../../wording.ts";
import { addEntry } from "./kinds.ts";
import { hasUnreadFile } from "./mentions.ts";
import { isBound, ownPlaces } from "./places-of.ts";

export function unknownKind({ job, report }: JobContext, file: string, entry: Entry, row: number, kind: Name): void {
  const at = where(file, entry, row, kind.at);
  const near = nearestNames(kind.text, job.placeKinds.keys());
  if (near.length === 0 && hasUnreadFile(job)) return;
  const declare = near.length > 0 ? undefined : addEntry(job, `Declare places of the kind ${kind.text}`, `places ${kind.text} ${placesUsed(job, kind.text)}`);
  report({
    where: at,
    severity: "error",
    message:
      near.length > 0
        ? `No \`places ${kind.text}\` is declared. Is ${quoted(near)} meant?`
        : `No \`places ${kind.text}\` is declared. Name them: places ${kind.text} …, ….`,
    fixes: [...near.map((it) => rewrite(`Write ${it}`, at, it)), ...(declare === undefined ? [] : [declare])],
  });
}

/** The places that the sheet names already of what has that kind; where it names none, or one, two that may stand for them. */
function placesUsed(job: Job, kind: string): string {
  const used = new Set<string>();
  const isOf = (name: string) => {
    const thing = job.things.get(name);
    return thing !== undefined && "placeKind" in thing && thing.placeKind?.text === kind;
  };
  for (const entry of job.own.sheet.entries) {
    for (const { name, of } of referencesOf(entry).places) if (!job.kindsOfPlace.has(name.text) && of.length > 0 && of.every(isOf)) used.add(name.text);
    if (entry.kind !== "measure" || entry.limit === undefined || !isOf(entry.limit.text)) continue;
    for (const detail of entry.details) if (detail.kind === "reading" && detail.words[0] !== undefined) used.add(detail.words[0].text);
  }
  if (used.size > 1) return [...used].join(", ");
  return kind === "side" ? "left, right" : `${kind}-1, ${kind}-2`;
}

/** What a fluid is filled and drained by. */
const ofFluids: ReadonlySet<string> = new Set(["volume", "mass"]);

/** `thing`: the first of those it is said of that has not got it; `of` are their names. */
export function unknownPlace(
  { job, report }: JobContext,
  file: string,
  entry: Entry,
  row: number,
  place: Name,
  of: readonly string[],
  thing: Thing | undefined,
): void {
  const declared = job.kindsOfPlace.has(place.text);
  const at = where(file, entry, row, place.at);
  const own = thing === undefined ? undefined : ownPlaces(job, thing);
  const choice = own ?? [...job.kindsOfPlace.keys()];
  const nearest = nearestNames(place.text, choice);
  const fluid = declared ? undefined : of.map((name) => job.things.get(name)).find((it) => it?.kind === "fluid");
  if (fluid !== undefined && ofFluids.has(unitOf(place.text)?.dimension ?? "")) {
    report({ where: at, severity: "error", message: `\`${place.text}\` is a unit, and its figure is missing: write how much, ${fluid.name} … ${place.text}.` });
    return;
  }
  // Not typed to its end yet: `fro`.
  const near = nearest.length > 0 || place.text.length === 1 ? nearest : choice.filter((it) => it.startsWith(place.text)).slice(0, 3);
  if (near.length === 0 && thing === undefined && hasUnreadFile(job)) return;
  if (near.length === 0 && dayWords.test(place.text)) {
    report({ where: at, severity: "error", message: `Write a day as a date, year, month, day: 2026-04-11. \`${place.text}\` reads as a place.` });
    return;
  }
  const isName = job.things.get(place.text)?.implied === false;
  const twoWords = near.length > 0 ? undefined : (placeFirst(job, entry, row, of) ?? meantByTwo(job, entry, row, place, of));
  if (twoWords !== undefined) {
    const { before, message, text, to = place.at.to } = twoWords;
    // Told with the first of them.
    if (twoWords.first !== undefined && twoWords.first !== place) return;
    const both = where(file, entry, row, { from: before.at.from, to });
    // What else the line names may be at that place too: that is for its writer.
    report({ where: at, severity: "error", message, fixes: of.length > 1 ? [] : [rewrite(`Write ${text}`, both, text)] });
    return;
  }
  const other = near.length > 0 ? undefined : countOrPerson(entry, row, place);
  if (other !== undefined) {
    report({ where: at, severity: "error", message: other.message, fixes: [rewrite(`Write ${other.text}`, at, other.text)] });
    return;
  }
  const tail = near.length > 0 || declared ? undefined : tailThere(entry, row, place);
  if (tail !== undefined) {
    report({
      where: at,
      severity: "error",
      message: `No place \`${place.text}\` is declared. Is \`${tail}\` meant?`,
      fixes: [restate(`Write ${tail}`, at, tailsWritten[tail] ?? tail)],
    });
    return;
  }
  const meant = near.length > 0 ? undefined : takenForPlace(entry, place, of);
  if (meant !== undefined) {
    report({ where: at, severity: "error", message: meant });
    return;
  }
  if (isName && near.length === 0 && of.length > 0) {
    const message = `\`${place.text}\` is a name and no place. The names come first, joined by commas, then the place of them all; another place has its own line.`;
    report({ where: at, severity: "error", message });
    return;
  }
  report({
    where: at,
    severity: "error",
    message: `${thing !== undefined && own !== undefined ? `${called(thing)} ${agreeing(thing, "has")} no place \`${place.text}\`` : `No place \`${place.text}\` is declared`}. ${near.length > 0 ? `Is ${quoted(near)} meant?` : choice.length > 0 ? `Its place is ${few(choice)}.` : "Name the places of the machine: places side left, right."}`,
    fixes: [
      ...near.map((it) => rewrite(`Write ${it}`, at, it)),
      ...(near.length > 0 || declared || place.text.length === 1 ? [] : declarePlace(job, place.text, thing)),
    ],
  });
}

interface Meant {
  readonly before: Name;
  readonly message: string;
  readonly text: string;
  readonly to?: number;
  readonly first?: Name;
}

/** `remove left outer, inner, seal`: the place of them all stands first. */
function placeFirst(job: Job, entry: Entry, row: number, of: readonly string[]): Meant | undefined {
  const { places, things } = referencesOf(entry);
  const [before, more] = things.filter((it) => it.row === row);
  const names = places.filter((it) => it.row === row).map((it) => it.name);
  const isDeclared = (name: string) => job.things.get(name)?.implied === false;
  if (before === undefined || more !== undefined || of.length !== 1 || names.length < 2) return undefined;
  if (!job.kindsOfPlace.has(before.name.text) || isDeclared(before.name.text) || !names.every((it) => isDeclared(it.text))) return undefined;
  const text = `${names.map((it) => it.text).join(", ")} ${before.name.text}`;
  return { before: before.name, text, to: (names.at(-1) as Name).at.to, first: names[0] as Name, message: `The place of them all comes last: ${text}.` };
}

/** With the word right before it: the place of a thing whose name stands after it (`undo left hub-nut`), or a name without its hyphen (`undo hub nut`). */
function meantByTwo(job: Job, entry: Entry, row: number, place: Name, of: readonly string[]): Meant | undefined {
  const last = of.at(-1);
  const before = referencesOf(entry).things.find((it) => it.row === row && it.name.text === last && it.name.at.to + 1 === place.at.from)?.name;
  if (before === undefined) return undefined;
  const isDeclared = (name: string) => job.things.get(name)?.implied === false;
  if (job.kindsOfPlace.has(before.text) && !isDeclared(before.text) && isDeclared(place.text)) {
    const text = `${place.text} ${before.text}`;
    return { before, text, message: `The place comes after the name: ${text}.` };
  }
  if (entry.kind === "step" && isDeclared(before.text) && isDeclared(place.text) && !job.kindsOfPlace.has(place.text)) {
    const text = `${before.text}, ${place.text}`;
    return { before, text, message: `\`${place.text}\` is no place but a name of its own. Names are joined by commas: ${text}.` };
  }
  const joined = `${before.text}-${place.text}`;
  const text = [joined, joined.replace(/s$/, "")].find(isDeclared);
  return text === undefined ? undefined : { before, text, message: `Is \`${text}\` meant? A name's words are joined by hyphens.` };
}

/** `remove hub two`, `done Ilse`: how many there are, or who it was, read as a place. */
function countOrPerson(entry: Entry, row: number, place: Name): { message: string; text: string } | undefined {
  const detail = entry.details.find((it) => it.row === row);
  const count = numberOf(place.text);
  if (count !== undefined && (entry.kind === "finding" ? row === 0 : detail?.kind === "action" && detail.places[0] === place))
    return { message: `How many is written as a figure, straight after the name: ${count}.`, text: count };
  const isSigned = detail?.kind === "done" || (entry.kind === "seen" && row === 0 && entry.by === undefined);
  if (!isSigned || !/^\p{Lu}/u.test(place.text) || (detail?.kind === "done" && detail.by !== undefined)) return undefined;
  return { message: `Who it was goes after \`by\`, in quotes: by "${place.text}".`, text: `by "${place.text}"` };
}

/** `lock hub-nut ne`: the last word of an action, where it is the beginning of one that goes on with it. */
function tailThere(entry: Entry, row: number, place: Name): string | undefined {
  const detail = entry.details.find((it) => it.row === row);
  return detail?.kind === "action" && detail.at.to === place.at.to && detail.verb !== undefined ? tailMeant(detail.verb, place.text) : undefined;
}

/** What was read as a place and is none: the second word of a name, of a locking, or what was found. */
function takenForPlace(entry: Entry, { text }: Name, of: readonly string[]): string | undefined {
  const last = of.at(-1);
  if (last === undefined) return undefined;
  if (entry.kind === "step" && of.length > 1 && actionWord(last) !== undefined) return `One line, one fact: ${last} ${text} goes on a line of its own.`;
  if (entry.kind === "step" && needless.test(text)) return `Leave \`${text}\` out: it is no place.`;
  if (entry.kind === "step" && /^(?:(?:hand|finger)-?tight|\w+ly|well|hard|together|home)$/.test(text))
    return `Words of your own go in a note: note "${text}".`;
  if (lockingPhrases.has(`${last} ${text}`))
    return `A ${last} ${text} goes in and comes out with its fastener: \`undo\` takes it out, \`lock FASTENER new\` puts a new one in.`;
  if (entry.kind === "finding" && conditions.some(({ word }) => word === text)) return `What was found goes on a line of its own: is ${text}.`;
  return undefined;
}

const needless = /^(?:back|again|off|out|up|down|on|fully|in)$/;

const dayWords = /^(?:(?:mon|tues|wednes|thurs|fri|satur|sun)day|today|yesterday|tomorrow|now)$/i;

/** A place of what has one alone. */
export function atOnePlace({ job, report, line }: JobContext, file: string, entry: Entry, { row, thing, place, isAlone, first }: OneAndMany): void {
  const kind = job.kindsOfPlace.get(place.text)?.[0] ?? "side";
  const at = where(file, entry, row, { from: place.at.from - 1, to: place.at.to });
  report({
    where: where(file, entry, row, place.at),
    severity: "error",
    message: `${called(thing)} ${agreeing(thing, "has")} one place: line ${line(first)} names none. Leave \`${place.text}\` out, or write \`each ${kind}\` where ${midSentence(thing)} ${agreeing(thing, "is")} declared.`,
    fixes: isAlone ? [restate(`Leave \`${place.text}\` out`, at, "")] : [],
  });
}

/** All that the sheet names as places, where it declares none; a letter alone is no name of one. */
function placesNamed(job: Job): readonly string[] {
  const named = job.own.sheet.entries.flatMap((entry) =>
    referencesOf(entry)
      .places.filter(({ of }) => of.length > 0)
      .map(({ name }) => name.text),
  );
  return [...new Set(named)].filter((it) => !isNoPlace(job, it)).slice(0, 6);
}

function declarePlace(job: Job, place: string, thing: Thing | undefined): RuleFix[] {
  const kind =
    thing !== undefined && "placeKind" in thing && thing.placeKind !== undefined
      ? thing.placeKind.text
      : job.placeKinds.size === 1
        ? ([...job.placeKinds.keys()][0] as string)
        : "side";
  const all = job.placeKinds.size === 0 ? placesNamed(job) : [place];
  const list = all.length > 1 && all.includes(place) ? all.join(", ") : place;
  const fix = addEntry(job, list === place ? `Declare it as a place of the kind ${kind}` : `Declare ${list} as places`, `places ${kind} ${list}`);
  return fix === undefined ? [] : [fix];
}

/** Which word before the figures of a reading stands where it says nothing. */
export function misplacedWords({ job, report }: JobContext, file: string, entry: Entry, detail: ReadingDetail, limit: Limit): void {
  const [first, second, third] = detail.words;
  const places = limit.placeKind === undefined ? undefined : placesOf(job, limit);
  const hasPlaces = places !== undefined && places.length > 0 && places[0] !== "";
  // A kind without places is said at its own line.
  if (limit.placeKind !== undefined && !hasPlaces) return;
  let position = first;
  let extra = second;
  if (hasPlaces) {
    if (first === undefined || (!places.includes(first.text) && limit.positions.includes(first.text))) {
      const figure = detail.figures[0];
      const front = first ?? figure?.figure;
      if (front === undefined) return;
      const start = { from: front.at.from, to: front.at.from };
      report({
        where: where(file, entry, detail.row, front.at),
        severity: "error",
        message: `${called(limit)} ${agreeing(limit, "is")} read at ${few(places, "and")}. Write which one before the ${first === undefined ? "figure" : "position"}.`,
        fixes: places.slice(0, 6).map((place) => rewrite(`Write ${place} before it`, where(file, entry, detail.row, start), `${place} `)),
      });
      return;
    }
    if (!places.includes(first.text)) {
      if (!job.kindsOfPlace.has(first.text) && job.unreadNames.has(first.text)) return;
      const at = where(file, entry, detail.row, first.at);
      const near = nearestNames(first.text, places);
      report({
        where: at,
        severity: "error",
        message: `${called(limit)} ${agreeing(limit, "has")} no place \`${first.text}\`. ${near.length > 0 ? `Is ${quoted(near)} meant?` : `Its place is ${few(places)}.`}`,
        fixes: near.map((it) => rewrite(`Write ${it}`, at, it)),
      });
      return;
    }
    position = second;
    extra = third;
  }
  if (position === undefined) return;
  const at = where(file, entry, detail.row, position.at);
  if (limit.positions.length === 0 && isBound(position.text)) {
    const message = `\`${position.text}\` says nothing that can be judged: a reading is the figure that the gauge showed. Write that, or make it a note.`;
    report({ where: at, severity: "error", message });
    return;
  }
  if (limit.positions.length > 0 && !limit.positions.includes(position.text)) {
    const near = nearestNames(position.text, limit.positions);
    const place = !hasPlaces && job.kindsOfPlace.has(position.text);
    if (place && extra === undefined) return;
    report({
      where: at,
      severity: "error",
      message: place
        ? `${called(limit)} ${agreeing(limit, "has")} no places, so \`${position.text}\` is taken for a position. Write \`each ${job.kindsOfPlace.get(position.text)?.[0] ?? "side"}\` in its limit.`
        : `${called(limit)} ${agreeing(limit, "is")} not read at \`${position.text}\`. ${near.length > 0 ? `Is ${quoted(near)} meant?` : `Its position is ${few(limit.positions)}.`}`,
      fixes: place ? [] : near.map((it) => rewrite(`Write ${it}`, at, it)),
    });
  } else if (extra !== undefined) {
    report({
      where: where(file, entry, detail.row, extra.at),
      severity: "error",
      message: hasPlaces
        ? `\`${extra.text}\` is one word too many before the figure: only a place and a position go there.`
        : `${called(limit)} ${agreeing(limit, "has")} no places, so \`${extra.text}\` is one word too many. Write \`each …\` in the limit, if ${midSentence(limit)} ${agreeing(limit, "is")} read at several.`,
    });
  }
}

function quoted(names: readonly string[]): string {
  return names.map((it) => `\`${it}\``).join(" or ");
}

/** “left or right”; of many, the first few. */
function few(names: readonly string[], word = "or"): string {
  const shown = names.slice(0, 6).map((it) => `\`${it}\``);
  if (names.length > 6) return `${shown.join(", ")} …`;
  return shown.length <= 1 ? (shown[0] ?? "") : `${shown.slice(0, -1).join(", ")} ${word} ${shown.at(-1)}`;
}
