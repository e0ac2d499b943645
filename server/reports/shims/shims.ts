// Shims: from the latest reading, what it should be, and what is in now and in the drawer, the stack that comes nearest the middle with the fewest shims.
// Invariant: the arithmetic is that of the trade room; here it is asked and told. What it would read is worked out, never a reading.
import { isSamePlace } from "../../model/same-place.ts";
import type { Slices } from "../../../grammar/slices.ts";
import type { Files } from "../../model/files.ts";
import { type Job, placesOf } from "../../model/job.ts";
import { relationsOf } from "../../model/relations.ts";
import { isSameStack, packAt, packsOf } from "../../model/shim-stacks.ts";
import { type Limit, type Shims as ShimsThing, lineOf } from "../../model/things.ts";
import { bandOf, figureValue, rangeText } from "../../model/values.ts";
import { where } from "../../model/where.ts";
import { type Exact, compare, decimalText, one, plainText, significantText } from "../../quantities/exact.ts";
import { inside } from "../../quantities/range.ts";
import { greatest, least, mean } from "../../quantities/statistics.ts";
import type { Unit } from "../../quantities/units.ts";
import { type Stack, bestStack, totalOf } from "../../trade/shims.ts";
import type { Shims } from "../../trade/shim-pool.ts";
import { moveShims } from "../../trade/two-sides.ts";
import type { Reading, Story } from "../../story/story.ts";
import { type Heading, type Told, telling } from "../draw/heading.ts";
import type { Line } from "../draw/line.ts";

export interface ShimReport extends Heading {
  readonly jobs: readonly ShimAnswerShown[];
}

export interface ShimAnswerShown extends Line {
  readonly shims: string;
  readonly title: string;
  readonly place: string;
  readonly limit?: string;
  readonly limitTitle?: string;
  /** What it must be left at: `0.10 .. 0.18 mm`. */
  readonly set?: string;
  /** The reading that it starts from: the middle of its spots, with the line. */
  readonly reading?: Line & { readonly text: string; readonly stage: string; readonly spread?: string };
  readonly target?: string;
  readonly outcome: "leave" | "change" | "none" | "no reading" | "unclear" | "too many";
  /** What to do, in a sentence. */
  readonly say: string;
  /** One stack, or two where what leaves one goes to the other. */
  readonly stacks: readonly StackShown[];
  readonly reads?: string;
  readonly notes: readonly string[];
}

export interface StackShown {
  readonly title: string;
  readonly now: readonly ShimShown[];
  readonly then: readonly ShimShown[];
  readonly nowTotal: string;
  readonly thenTotal: string;
  /** `put in 1 of 0.30 mm`, `take out 3 of 0.10 mm` */
  readonly change: readonly string[];
}

export interface ShimShown {
  readonly text: string;
  readonly count: number;
  /** For a drawing: a decimal in the stack's own unit. */
  readonly thickness: string;
}

/** Of one job; undefined where there is no such file. */
export function* reportingShims(files: Files, path: string): Slices<ShimReport | undefined> {
  const told = yield* telling(files, path);
  if (told === undefined) return undefined;
  const { job, heading } = told;
  const sets = relationsOf(job).sets;
  const jobs: ShimAnswerShown[] = [];
  const paired = new Set<string>();
  for (const thing of job.things.values()) {
    if (thing.kind !== "shims" || thing.implied || paired.has(thing.name)) continue;
    yield;
    const limits = (sets.get(thing.name) ?? []).filter((it): it is Limit => it.kind === "limit" && it.set !== undefined);
    if (limits.length === 0)
      jobs.push(without(told, thing, "", "unclear", `No limit is set by ${thing.name}: write \`set RANGE by ${thing.name}\` in the limit that it sets.`));
    for (const limit of limits) {
      const others = limit.setBy.flatMap((name) => {
        const other = job.things.get(name.text);
        return other?.kind === "shims" && other.name !== thing.name ? [other] : [];
      });
      const other = others[0];
      if (others.length === 1 && other !== undefined) {
        paired.add(other.name);
        for (const place of placesOf(job, limit)) jobs.push(twoSided(told, thing, other, limit, place));
      } else for (const place of placesFor(told, thing, limit)) jobs.push(oneSided(told, thing, limit, place));
    }
  }
  return { ...heading, jobs };
}

function placesFor(told: Told, thing: ShimsThing, limit: Limit): readonly string[] {
  const own = placesOf(told.job, limit);
  return own[0] !== "" ? own : placesOf(told.job, thing);
}

// ---------------------------------------------------------------- what is known

interface Known {
  readonly fitted: readonly Shims[];
  readonly drawer: readonly Shims[];
  readonly effect: Exact;
  readonly unit: Unit;
}

/** With what was in as it was read, where it was. Undefined where a thickness can't be read. */
function knownOf(job: Job, thing: ShimsThing, start: Start | undefined): Known | undefined {
  const fitted = start === undefined ? packsOf(thing).at(-1) : packAt(job, thing, start.reading.entry);
  const drawer = packsOf(thing, "have");
  const all = [...drawer, ...(fitted === undefined ? [] : [fitted])];
  const unit = all[0]?.stack?.unit;
  const effect = lineOf(thing, "effect")?.detail.figure;
  const factor = effect === undefined ? one : figureValue(effect);
  if (unit === undefined || factor === undefined || all.some((it) => it.stack === undefined)) return undefined;
  return { fitted: fitted?.stack?.shims ?? [], drawer: drawer.flatMap((it) => it.stack?.shims ?? []), effect: factor, unit };
}

/** Other shims went in below what was read: nothing is known of them. */
function changedSince({ job, at }: Told, thing: ShimsThing, { reading }: Start): string | undefined {
  const last = packsOf(thing).at(-1);
  const then = packAt(job, thing, reading.entry);
  if (last === undefined || last === then || isSameStack(last.stack, then?.stack)) return undefined;
  const [{ file, entry, detail }] = last.lines;
  return `Other shims went in at line ${at(where(file, entry, detail.row, detail.keyword)).line}, and it was read before that. Measure it with what is in.`;
}

interface Start {
  readonly reading: Reading;
  readonly middle: Exact;
  readonly low: Exact;
  readonly high: Exact;
}

/** The latest reading of the limit at the place, whatever its stage: half way between its least and its greatest spot. */
function startOf(story: Story, limit: Limit, place: string): Start | undefined {
  const reading = story.readings.findLast((it) => it.limit === limit && isSamePlace(it.place, place));
  if (reading === undefined) return undefined;
  const values = story.readings.filter((it) => it.entry === reading.entry && it.place === reading.place).flatMap((it) => it.spots.map((spot) => spot.value));
  const low = least(values);
  const high = greatest(values);
  const middle = low === undefined || high === undefined ? undefined : mean([low, high]);
  return low === undefined || high === undefined || middle === undefined ? undefined : { reading, middle, low, high };
}

// ---------------------------------------------------------------- one stack

function oneSided(told: Told, thing: ShimsThing, limit: Limit, place: string): ShimAnswerShown {
  const { story } = told;
  const band = bandOf(limit.set);
  const start = startOf(story, limit, place);
  const known = knownOf(told.job, thing, start);
  const base = { limit: limit.name, limitTitle: limit.title ?? limit.name, ...(limit.set === undefined ? {} : { set: rangeText(limit.set) }) };
  if (band !== undefined && band.unit.dimension !== "length")
    return { ...without(told, thing, place, "unclear", noThickness(limit, limit.set === undefined ? "" : rangeText(limit.set))), ...base };
  if (known === undefined || band === undefined)
    return { ...without(told, thing, place, "unclear", "The thicknesses, or what it must be left at, can't be read."), ...base };
  if (start === undefined)
    return { ...without(told, thing, place, "no reading", `Measure ${limit.title ?? limit.name} with the shims that are in, as a trial.`), ...base };
  const changed = changedSince(told, thing, start);
  if (changed !== undefined) return { ...without(told, thing, place, "no reading", changed), ...base };
  const unit = band.unit;
  const answer = bestStack({ reading: start.middle, effect: known.effect, fitted: known.fitted, drawer: known.drawer, ...ends(band) });
  const common = {
    ...without(told, thing, place, "unclear", ""),
    ...base,
    reading: readingShown(told, start, unit),
    ...targetOf(band, unit),
    notes: notesOn(start, known),
  };
  if (answer.kind === "too-many")
    return { ...common, outcome: "too many", say: "There are too many shims to try every stack. Name the ones that you would use." };
  if (answer.kind === "unclear") return { ...common, say: "The effect is 0 or a count is not whole: say what one thickness does to the reading." };
  if (answer.kind === "stack") {
    const stack = shown("Stack", known.fitted, answer.stack, known.unit);
    const wide = spreadNote(start, answer.reading.sub(start.middle), band);
    const now = totalOf(known.fitted);
    if (answer.stack.change.length > 0 && compare(now, answer.stack.total) === 0) {
      const fewer = `With fewer shims the same thickness is ${stackWords(answer.stack, known.unit)}.`;
      return {
        ...common,
        outcome: "leave",
        say: `Leave it: no stack of these comes nearer to the middle. ${fewer}`,
        stacks: [stack],
        reads: length(answer.reading, unit),
        notes: [...common.notes, ...wide],
      };
    }
    if (answer.stack.change.length === 0)
      return {
        ...common,
        outcome: "leave",
        say: "Leave it: no stack of these comes nearer to the middle with fewer shims.",
        stacks: [stack],
        reads: length(answer.reading, unit),
        notes: [...common.notes, ...wide],
      };
    return {
      ...common,
      outcome: "change",
      say: `${sentence(stack.change)}. It should then read ${length(answer.reading, unit)}.`,
      stacks: [stack],
      reads: length(answer.reading, unit),
      notes: [...common.notes, ...wide],
    };
  }
  const stack = shown("The nearest", known.fitted, answer.nearest, known.unit);
  const onto = answer.onto === undefined ? "" : `, on top of ${stackWords(answer.onto, known.unit)}`;
  const between =
    answer.getLeast === undefined || answer.getMost === undefined
      ? ""
      : ` (from ${length(answer.getLeast, known.unit)} to ${length(answer.getMost, known.unit)} would be inside)`;
  const get =
    answer.get === undefined
      ? compare(answer.wanted, one.sub(one)) < 0
        ? "Less than no shims would be needed: shims can't cure it."
        : ""
      : `Get one of ${length(answer.get, known.unit)}${onto}${between}.`;
  return {
    ...common,
    outcome: "none",
    say: `No stack of these brings it inside. The nearest would read ${length(answer.reading, unit)}. ${get}`.trim(),
    stacks: [stack],
    reads: length(answer.reading, unit),
  };
}

// ---------------------------------------------------------------- two stacks

function twoSided(told: Told, first: ShimsThing, second: ShimsThing, limit: Limit, place: string): ShimAnswerShown {
  const band = bandOf(limit.set);
  const start = startOf(told.story, limit, place);
  const a = knownOf(told.job, first, start);
  const b = knownOf(told.job, second, start);
  const base = {
    title: `${first.title ?? first.name} and ${second.title ?? second.name}`,
    limit: limit.name,
    limitTitle: limit.title ?? limit.name,
    ...(limit.set === undefined ? {} : { set: rangeText(limit.set) }),
  };
  if (band !== undefined && band.unit.dimension !== "length")
    return { ...without(told, first, place, "unclear", noThickness(limit, limit.set === undefined ? "" : rangeText(limit.set))), ...base };
  if (a === undefined || b === undefined || band === undefined)
    return { ...without(told, first, place, "unclear", "The thicknesses of both sides, or what it must be left at, can't be read."), ...base };
  if (start === undefined)
    return { ...without(told, first, place, "no reading", `Measure ${limit.title ?? limit.name} with the shims that are in, as a trial.`), ...base };
  const other = changedSince(told, first, start) ?? changedSince(told, second, start);
  if (other !== undefined) return { ...without(told, first, place, "no reading", other), ...base };
  const unit = band.unit;
  const answer = moveShims({ reading: start.middle, effect: a.effect, first: a.fitted, second: b.fitted, drawer: [...a.drawer, ...b.drawer], ...ends(band) });
  const notes = [
    "What leaves one side goes to the other: the total stays, and with it what the total sets (a preload).",
    `The effect is that of ${first.name}, for a thickness moved to it.`,
  ];
  const common = { ...without(told, first, place, "unclear", ""), ...base, reading: readingShown(told, start, unit), ...targetOf(band, unit), notes };
  if (answer.kind === "too-many")
    return { ...common, outcome: "too many", say: "There are too many shims to try every way of sharing them out. Name the ones that you would use." };
  if (answer.kind === "unclear") return { ...common, say: "The effect is 0 or a count is not whole: say what one thickness does to the reading." };
  const stacks = [shown(first.title ?? first.name, a.fitted, answer.first, a.unit), shown(second.title ?? second.name, b.fitted, answer.second, b.unit)];
  const reads = length(answer.reading, unit);
  if (answer.kind === "none")
    return {
      ...common,
      outcome: "none",
      say: `No way of sharing these out brings it inside and keeps the total. The nearest would read ${reads}. ${length(answer.toMove.abs(), a.unit)} should go ${compare(answer.toMove, one.sub(one)) < 0 ? "from" : "to"} ${first.title ?? first.name}.`,
      stacks,
      reads,
    };
  const changed = answer.first.change.length > 0 || answer.second.change.length > 0;
  const moves = stacks.filter((it) => it.change.length > 0).map((it) => `${it.title}: ${it.change.join(", ")}`);
  return {
    ...common,
    outcome: changed ? "change" : "leave",
    say: changed ? `${moves.join("; ")}. It should then read ${reads}.` : "Leave it: no way of sharing these out comes nearer to the middle with fewer shims.",
    stacks,
    reads,
  };
}

// ---------------------------------------------------------------- words

/** A drag, a preload by force or torque, a pressure: no arithmetic leads from a thickness to it. How it is found by trial is common practice. */
function noThickness(limit: Limit, set: string): string {
  const title = limit.title ?? limit.name;
  return `${title} is set to ${set}, which is no thickness: how much a shim changes it depends on how stiff the parts are, so no stack can be worked out from it. Fit a stack, lock it, turn it until the bearings are seated and read it; then change one of the thinnest at a time and read again.`;
}

function without(told: Told, thing: ShimsThing, place: string, outcome: ShimAnswerShown["outcome"], say: string): ShimAnswerShown {
  return {
    shims: thing.name,
    title: thing.title ?? thing.name,
    place,
    outcome,
    say,
    stacks: [],
    notes: [],
    ...told.at(where(thing.file, thing.entry, 0, thing.at)),
  };
}

function ends(band: { readonly low?: Exact; readonly high?: Exact }): { low?: Exact; high?: Exact } {
  return { ...(band.low === undefined ? {} : { low: band.low }), ...(band.high === undefined ? {} : { high: band.high }) };
}

function targetOf(band: { readonly low?: Exact; readonly high?: Exact }, unit: Unit): { target?: string } {
  return band.low === undefined || band.high === undefined ? {} : { target: length(band.low.add(band.high).div(2), unit) };
}

function readingShown(told: Told, start: Start, unit: Unit): NonNullable<ShimAnswerShown["reading"]> {
  const wide = compare(start.low, start.high) < 0;
  return {
    text: length(start.middle, unit),
    stage: start.reading.stage,
    ...(wide ? { spread: `${length(start.low, unit)} to ${length(start.high, unit)}` } : {}),
    ...told.at(start.reading.where),
  };
}

function notesOn(start: Start, known: Known): string[] {
  const notes = [`The shims called fitted are taken to be those that were in when it read so: ${totalWords(known.fitted, known.unit)}.`];
  if (compare(known.effect, one) !== 0) notes.push(`The reading changes by ${plainText(known.effect)} \u00d7 the thickness.`);
  if (start.reading.stage === "found") notes.push("It starts from what was found: take a trial reading before shims are changed.");
  return notes;
}

/** Where the spots lie so far apart that some would be outside though the middle is in. */
function spreadNote(start: Start, shift: Exact, band: Parameters<typeof inside>[0]): string[] {
  return inside(band, start.low.add(shift)) && inside(band, start.high.add(shift))
    ? []
    : ["The spots lie so far apart that not all of them would be inside: find out why first."];
}

/** In its unit, as short as it is exact; five figures where no decimal is. */
function length(value: Exact, unit: Unit): string {
  const figure = value.div(unit.factor);
  const text = plainText(figure);
  return `${text.length > 10 ? significantText(figure, 5) : text} ${unit.spelling}`;
}

function shown(title: string, fitted: readonly Shims[], stack: Stack, unit: Unit): StackShown {
  return {
    title,
    now: fitted.filter((it) => it.count > 0).map((it) => shim(it, unit)),
    then: stack.shims.map((it) => shim(it, unit)),
    nowTotal: length(totalOf(fitted), unit),
    thenTotal: length(stack.total, unit),
    change: stack.change.map((it) => `${it.count > 0 ? "put in" : "take out"} ${Math.abs(it.count)} of ${length(it.thickness, unit)}`),
  };
}

function shim(it: Shims, unit: Unit): ShimShown {
  return { text: length(it.thickness, unit), count: it.count, thickness: decimalText(it.thickness.div(unit.factor), 9) };
}

function stackWords(stack: Stack, unit: Unit): string {
  return stack.shims.length === 0 ? "nothing" : stack.shims.map((it) => `${it.count} of ${length(it.thickness, unit)}`).join(" and ");
}

function totalWords(fitted: readonly Shims[], unit: Unit): string {
  return fitted.length === 0 ? "none" : fitted.map((it) => `${it.count} of ${length(it.thickness, unit)}`).join(", ");
}

function sentence(words: readonly string[]): string {
  const text = words.join(", ");
  return text.charAt(0).toUpperCase() + text.slice(1);
}
