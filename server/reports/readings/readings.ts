// Each limit at each place as it was read: found, trial and final, with mean, span, ovality, taper, uncertainty and the verdict on each.
// Invariant: a value; verdicts are those of the walk, none is made here. Where a thing was measured twice at a stage the latest counts.
import { type Slices, mapping } from "../../../grammar/slices.ts";
import { coversPlace } from "../../story/conceded.ts";
import type { Stage } from "../../../grammar/tree.ts";
import type { Files } from "../../model/files.ts";
import { grouped, putInto } from "../../model/grouped.ts";
import { type Job, placesOf } from "../../model/job.ts";
import { isCritical } from "../../model/relations.ts";
import type { Limit } from "../../model/things.ts";
import { agreeing, midSentence } from "../../model/titles.ts";
import { bandOf, measured, quantityText, rangeText } from "../../model/values.ts";
import { type Exact, decimalText, placesOf as placesOfExact, plainText, rootTo, significantText } from "../../quantities/exact.ts";
import { asDifference, differenceText, meanText, sameUnitText } from "../../quantities/quantity.ts";
import type { Band } from "../../quantities/range.ts";
import { mean, span, taper } from "../../quantities/statistics.ts";
import { type Unit, fromBase } from "../../quantities/units.ts";
import type { Reading } from "../../story/story.ts";
import type { BandName, Unjudged, Verdict } from "../../story/verdict.ts";
import { judge, judging } from "../../story/verdicts.ts";
import { uncertaintyOf } from "../../story/bands.ts";
import { greatest } from "../../story/worked-out.ts";
import { movedSince, readOfTheOld } from "../../rules/stale.ts";
import { isPastNew, verdictValue } from "../../rules/verdict-words.ts";
import { type Heading, type Told, telling } from "../draw/heading.ts";
import type { Line } from "../draw/line.ts";

export interface ReadingsReport extends Heading {
  readonly limits: readonly LimitRead[];
  /** Limits that nobody has measured, with the places. */
  readonly unread: readonly (Line & { readonly limit: string; readonly title: string; readonly places: readonly string[] })[];
}

export interface LimitRead extends Line {
  readonly limit: string;
  readonly title: string;
  readonly critical: boolean;
  /** All figures of this limit are shown in it. */
  readonly unit: string;
  readonly bands: readonly BandShown[];
  /** `ovality max 0.001 in` and the like. */
  readonly forms: readonly string[];
  /** How far apart the figures of one reading may lie: in words, and as a decimal in the limit's unit. */
  readonly spread?: { readonly text: string; readonly wide: string };
  /** What sets it, by their titles. */
  readonly setBy: readonly string[];
  readonly workedOut: boolean;
  readonly source?: string;
  readonly places: readonly PlaceRead[];
}

export interface BandShown {
  readonly name: "new" | "set" | "worn";
  readonly text: string;
  /** Decimals in the limit's unit, exact where a decimal can be. */
  readonly low?: string;
  readonly high?: string;
}

export interface PlaceRead {
  readonly place: string;
  readonly stages: readonly StageRead[];
}

/** `past new`: worn, and inside its limit of wear. */
export type Outcome = "in" | "past new" | "out" | "doubt" | "not judged";

export interface StageRead extends Line {
  readonly stage: Stage;
  readonly day?: string;
  readonly gauge?: string;
  readonly spots: readonly SpotRead[];
  /** With its unit. */
  readonly mean?: string;
  readonly span?: string;
  /** By position where there are positions: “top 0.0006 in”. */
  readonly ovality: readonly string[];
  readonly taper?: string;
  /** U at k = 2, with its unit. */
  readonly uncertainty?: string;
  /** The value that is judged: the worst spot, or what was worked out. */
  readonly value?: string;
  /** For a drawing: decimals without a unit. */
  readonly at?: string;
  readonly u?: string;
  readonly outcome: Outcome;
  readonly verdict: string;
  /** What ovality, taper and spread come to, each in words. */
  readonly more: readonly { readonly outcome: Outcome; readonly verdict: string; readonly value: string }[];
  /** Only its spread or its form has a limit, and was judged. */
  readonly formOnly: boolean;
  /** What else must be known of it: read before the setting was moved again, accepted by somebody, a figure asked about. */
  readonly notes: readonly string[];
  /** It says nothing of the machine as it is now: what sets it was moved since, or it was read of the piece that came out. */
  readonly stale: boolean;
}

export interface SpotRead {
  readonly position?: string;
  /** With its unit, as it is shown; of a spot tried again the mean. */
  readonly text: string;
  /** How many times it was tried. */
  readonly times: number;
  /** For a drawing. */
  readonly at: string;
}

/** Of one job; undefined where there is no such file. */
export function* reportingReadings(files: Files, path: string): Slices<ReadingsReport | undefined> {
  const told = yield* telling(files, path);
  if (told === undefined) return undefined;
  const { job, story, heading, at } = told;
  const judged = yield* judging(story);
  const readingsOf = grouped(story.readings, (it) => it.limit);
  const verdictsOf = grouped(judged.verdicts, (it) => it.limit);
  const unjudgedOf = grouped(judged.unjudged, (it) => it.limit);
  const limits: LimitRead[] = [];
  const unread: ReadingsReport["unread"][number][] = [];
  for (const thing of job.things.values()) {
    if (thing.kind !== "limit") continue;
    yield;
    const own = readingsOf.get(thing) ?? [];
    const judged = verdictsOf.get(thing) ?? [];
    const home = at({ file: thing.file, entry: thing.entry, row: 0, at: thing.at });
    const alone = unjudgedOf.get(thing) ?? [];
    const places = placesRead(job, thing, own, [...judged, ...alone]);
    const unit = unitFor(thing, own, judged, alone);
    const read: PlaceRead[] = [];
    for (const place of places) {
      const stages = (yield* stagesAt(thing, place, own, judged, alone, at)).map((stage) => ({ ...stage, ...notesOn(told, thing, place, stage) }));
      if (stages.length > 0) read.push({ place, stages });
    }
    const without = places.filter((place) => !read.some((it) => it.place === place));
    if (without.length > 0) unread.push({ limit: thing.name, title: thing.title ?? thing.name, places: without.filter((it) => it !== ""), ...home });
    if (read.length === 0) continue;
    limits.push({
      limit: thing.name,
      title: thing.title ?? thing.name,
      critical: isCritical(job, thing),
      unit: unit?.spelling ?? "",
      bands: bandsOf(thing, unit),
      forms: (["spread", "ovality", "taper"] as const).flatMap((it) => (thing[it] === undefined ? [] : [`${it} max ${quantityText(thing[it])}`])),
      ...spreadOf(thing, unit),
      setBy: thing.setBy.map((it) => calledBy(job, it.text)),
      workedOut: thing.expression !== undefined,
      ...(thing.source === undefined ? {} : { source: thing.source }),
      places: read,
      ...home,
    });
  }
  return { ...heading, limits, unread };
}

function notesOn(told: Told, limit: Limit, place: string, { stage }: StageRead): Pick<StageRead, "notes" | "stale"> {
  const { story, at } = told;
  const notes: string[] = [];
  for (const { reading, spot } of judge(story).slips) {
    if (reading.limit === limit && reading.place === place && reading.stage === stage)
      notes.push(
        `${spot.figures.map((it) => it.figure).join(", ")} at line ${at(reading.where).line} looks like a slip and is not judged until it is answered`,
      );
  }
  if (stage !== "final") return { notes, stale: false };
  const reading = story.readings.findLast((it) => it.limit === limit && it.place === place && it.stage === "final");
  const moved = reading === undefined ? undefined : movedSince(story, reading);
  const old = reading === undefined || limit.setBy.length > 0 ? undefined : readOfTheOld(story, reading);
  if (moved !== undefined)
    notes.push(
      `read before ${midSentence(moved.cell.thing, moved.cell.place)} ${agreeing(moved.cell.thing, "was")} moved or locked again (line ${at(moved.moment.where).line}): measure it once more`,
    );
  if (old !== undefined) notes.push(`read of the one that came out before ${midSentence(old.cell.thing, old.cell.place)} went in: measure the one that is in`);
  for (const it of story.concessions) {
    if (it.thing.name === limit.name && coversPlace(it, place))
      notes.push(`accepted outside its limit by ${it.entry.by?.value ?? "somebody unnamed"} (line ${at(it.where).line})`);
  }
  return { notes, stale: moved !== undefined || old !== undefined };
}

function placesRead(job: Job, limit: Limit, own: readonly Reading[], judged: readonly Pick<Verdict, "place">[]): readonly string[] {
  return [
    ...new Set([
      ...placesOf(job, limit).filter((it) => it !== "" || limit.placeKind === undefined),
      ...own.map((it) => it.place),
      ...judged.map((it) => it.place),
    ]),
  ];
}

/** The unit of the limit's own bands, else the one that it was read in. */
function unitFor(limit: Limit, own: readonly Reading[], judged: readonly Verdict[], alone: readonly Unjudged[]): Unit | undefined {
  const band = bandOf(limit.set) ?? bandOf(limit.worn) ?? bandOf(limit.new);
  return (
    band?.unit ?? measured(limit.spread)?.unit ?? own[0]?.spots[0]?.figures[0]?.unit ?? judged[0]?.against.unit ?? alone[0]?.reading.spots[0]?.figures[0]?.unit
  );
}

function bandsOf(limit: Limit, unit: Unit | undefined): BandShown[] {
  const end = (value: Exact | undefined) => (value === undefined || unit === undefined ? undefined : plainText(fromBase(value, unit)));
  return (["new", "set", "worn"] as const).flatMap((name) => {
    const range = limit[name];
    const band = bandOf(range);
    if (range === undefined || band === undefined) return [];
    const low = end(band.low);
    const high = end(band.high);
    return [{ name, text: rangeText(range), ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }) }];
  });
}

function spreadOf({ spread }: Limit, unit: Unit | undefined): Pick<LimitRead, "spread"> {
  const most = measured(spread);
  if (spread === undefined || most === undefined || unit === undefined || most.unit.dimension !== unit.dimension) return {};
  return { spread: { text: `max ${quantityText(spread)}`, wide: plainText(asDifference(most).div(unit.factor)) } };
}

const mains: ReadonlySet<BandName> = new Set(["worn", "set", "new"]);

function* stagesAt(
  limit: Limit,
  place: string,
  own: readonly Reading[],
  judged: readonly Verdict[],
  alone: readonly Unjudged[],
  at: (where: Reading["where"]) => Line,
): Slices<StageRead[]> {
  const out: StageRead[] = [];
  for (const stage of ["found", "trial", "final"] as const) {
    const here = own.filter((it) => it.place === place && it.stage === stage);
    // What was read at another position of it, in an entry before, still stands.
    const readings = notReadAgain(here);
    const verdicts = judged.filter(
      (it) => it.place === place && it.stage === stage && (it.workedOut || readings.some((own) => own.entry === it.reading.entry)),
    );
    const direct = verdicts.filter((it) => !it.workedOut);
    const workedOut = verdicts.filter((it) => it.workedOut).at(-1);
    const unit = unitFor(limit, own, judged, alone);
    const unjudged = alone.find((it) => it.place === place && it.stage === stage);
    if (unit === undefined) continue;
    yield;
    if (readings.length > 0) out.push(yield* directRead(limit, stage, readings, direct, unit, at));
    else if (workedOut !== undefined) out.push(workedRead(stage, workedOut, unit, at));
    else if (unjudged !== undefined) out.push(unjudgedRead(unjudged, unit, at));
  }
  return out;
}

/** Those that no later entry reads again at the same position; or of the whole, which all positions are of. */
function notReadAgain(readings: readonly Reading[]): readonly Reading[] {
  const later = new Set<string | undefined>();
  const covered = ({ position }: Reading) => (position === undefined ? later.size > 0 : later.has(position) || later.has(undefined));
  // From the last entry back; what one entry reads twice stands, both times.
  return [...grouped(readings, (it) => it.entry).values()]
    .reverse()
    .map((ofEntry) => {
      const stand = ofEntry.filter((it) => !covered(it));
      for (const it of ofEntry) later.add(it.position);
      return stand;
    })
    .reverse()
    .flat();
}

function* directRead(
  limit: Limit,
  stage: Stage,
  readings: readonly Reading[],
  verdicts: readonly Verdict[],
  unit: Unit,
  at: (where: Reading["where"]) => Line,
): Slices<StageRead> {
  const first = readings[0] as Reading;
  // Readings in a unit of another kind are no readings of this limit; the rule of units says so.
  const sound = readings.map((reading) => ({
    reading,
    spots: reading.spots.filter((spot) => spot.figures.every((it) => it.unit.dimension === unit.dimension)),
  }));
  const places = placesFor(
    sound.flatMap(({ spots }) => spots.flatMap((spot) => spot.figures)),
    unit,
  );
  const values = sound.flatMap(({ spots }) => spots.map((spot) => spot.value));
  const show = (value: Exact) => sameUnitText(value, unit, places);
  const apart = (value: Exact | undefined) => (value === undefined ? undefined : differenceText(value, unit, places));
  const positions = new Map<string, Exact[]>();
  for (const { reading, spots } of sound) for (const spot of spots) putInto(positions, reading.position ?? "", spot.value);
  // The last word of each entry; of several entries the worst of them.
  const words = [...new Map(verdicts.filter((it) => mains.has(it.band)).map((it) => [it.reading.entry, it])).values()];
  const main = words.reduce<Verdict | undefined>((a, b) => (a !== undefined && graver(a) > graver(b) ? a : b), undefined);
  const gauge = main?.gauge ?? first.gauge;
  // Where nothing says that its form counts, its positions are several things to measure (two shoes, four teeth): nothing is made of them together.
  const round = limit.ovality !== undefined || limit.taper !== undefined;
  const apartEach = positions.size > 1 && !round && limit.spread === undefined;
  yield;
  const average = apartEach ? undefined : mean(values);
  yield;
  const tapered = positions.size > 1 && round ? apart(taper([...positions.values()])) : undefined;
  const wide = values.length > 1 && !apartEach ? apart(span(values)) : undefined;
  const judgedAt = main?.value ?? (values.length === 1 ? values[0] : undefined);
  yield;
  const largest = values.length === 0 ? undefined : greatest(values.map((it) => it.abs()));
  const of = judgedAt ?? largest;
  const u = of === undefined ? undefined : uncertaintyOf(gauge, of);
  return {
    stage,
    ...(first.day === undefined ? {} : { day: first.day }),
    ...(gauge === undefined ? {} : { gauge: gauge.title ?? gauge.name }),
    spots: yield* mapping(
      sound.flatMap(({ reading, spots }) => spots.map((spot) => ({ position: reading.position, spot }))),
      ({ position, spot }) => ({
        ...(position === undefined ? {} : { position }),
        text: show(spot.value),
        times: spot.figures.length,
        at: drawn(spot.value, unit),
      }),
    ),
    ...(average === undefined ? {} : { mean: judgedAt !== undefined && average.equals(judgedAt) ? show(average) : meanText(average, unit, places) }),
    ...(wide === undefined ? {} : { span: wide }),
    ovality: round ? [...positions].flatMap(([position, list]) => (list.length < 2 ? [] : [`${position} ${apart(span(list)) ?? ""}`.trim()])) : [],
    ...(tapered === undefined ? {} : { taper: tapered }),
    ...(u === undefined ? {} : { uncertainty: `${significantText(u.div(unit.factor), 3)} ${unit.spelling}`, u: decimalText(u.div(unit.factor), 9) }),
    ...(judgedAt === undefined ? {} : { value: show(judgedAt), at: drawn(judgedAt, unit) }),
    outcome: main === undefined ? "not judged" : outcomeOf(main),
    verdict: main === undefined ? notJudged(limit) : verdictWords(main),
    more: verdicts.filter((it) => !mains.has(it.band)).map((it) => ({ outcome: it.outcome, verdict: formWords(it), value: `${it.band} ${verdictValue(it)}` })),
    formOnly: main === undefined && !isSized(limit) && verdicts.length > 0,
    notes: [],
    stale: false,
    ...at((main ?? first).where),
  };
}

/** Past new and inside wear is no fault yet. */
function graver(it: Verdict): number {
  const outcome = outcomeOf(it);
  return outcome === "out" ? 3 : outcome === "doubt" ? 2 : outcome === "past new" ? 1 : 0;
}

function workedRead(stage: Stage, it: Verdict, unit: Unit, at: (where: Reading["where"]) => Line): StageRead {
  const places = workedPlaces(it, [it.value], unit);
  const u = it.uncertaintySquared === undefined ? undefined : rootTo(it.uncertaintySquared.div(unit.factor.mul(unit.factor)), 9);
  return {
    stage,
    ...(it.day === undefined ? {} : { day: it.day }),
    spots: [],
    ovality: [],
    value: sameUnitText(it.value, unit, places),
    at: drawn(it.value, unit),
    ...(u === undefined ? {} : { uncertainty: `${significantText(u, 2)} ${unit.spelling}`, u: decimalText(u, 9) }),
    outcome: outcomeOf(it),
    verdict: `${verdictWords(it)}; worked out${it.approximate ? ", near enough" : ""}`,
    more: [],
    formOnly: false,
    notes: [],
    stale: false,
    ...at(it.where),
  };
}

/** Worked out, and nothing to judge it by: the value alone, or how far it spreads. */
function unjudgedRead(it: Unjudged, unit: Unit, at: (where: Reading["where"]) => Line): StageRead {
  const places = workedPlaces(it, [it.low, it.high], unit);
  const u = it.uncertaintySquared === undefined ? undefined : rootTo(it.uncertaintySquared.div(unit.factor.mul(unit.factor)), 9);
  const [low, high] = [sameUnitText(it.low, unit, places), sameUnitText(it.high, unit, places)];
  const middle = mean([it.low, it.high]) ?? it.low;
  return {
    stage: it.stage,
    ...(it.day === undefined ? {} : { day: it.day }),
    spots: [],
    ovality: [],
    value: low === high ? low : `${low} to ${high}`,
    at: drawn(middle, unit),
    ...(u === undefined ? {} : { uncertainty: `${significantText(u, 2)} ${unit.spelling}`, u: decimalText(u, 9) }),
    outcome: "not judged",
    verdict: "worked out; no limit is given for it",
    more: [],
    formOnly: false,
    notes: [],
    stale: false,
    ...at(it.where),
  };
}

/** As many decimals as were written; −1, up to four, where a fraction or another unit was. */
function placesFor(figures: readonly Reading["spots"][number]["figures"][number][], unit: Unit): number {
  return figures.some((it) => it.unit.name !== unit.name || it.places < 0) ? -1 : Math.max(0, ...figures.map((it) => it.places));
}

/** Of what is worked out, no fewer than it has itself: “2.0026 in” less “2 in” is 0.0026 in, and never 0. */
function workedPlaces({ reading }: { readonly reading: Reading }, values: readonly Exact[], unit: Unit): number {
  const places = placesFor(
    reading.spots.flatMap((spot) => spot.figures),
    unit,
  );
  if (places < 0) return places;
  return Math.max(places, ...values.map((it) => Math.min(placesOfExact(fromBase(it, unit)) ?? 0, 6)));
}

function drawn(value: Exact, unit: Unit): string {
  return decimalText(fromBase(value, unit), 9);
}

function outcomeOf(it: Verdict): Outcome {
  if (isPastNew(it)) return "past new";
  return it.outcome === "out" && it.band === "new" && it.stage === "found" && it.stood.worn !== undefined ? "past new" : it.outcome;
}

/** What the verdict says, in words that need no colour. */
function verdictWords(it: Verdict): string {
  const against = `${it.band} ${bandWords(it.stood, it.band, it.against)}`;
  const plain = it.uncertaintySquared === undefined;
  if (outcomeOf(it) === "past new")
    return `worn but usable: past new ${bandWords(it.stood, "new", it.against)}, inside its wear limit${plain ? ", by plain comparison" : ""}`;
  if (it.outcome === "in") return `in, ${against}${plain ? ", by plain comparison" : ""}`;
  if (it.outcome === "doubt") return `in doubt, ${against}: nearer to the limit than the gauge can tell`;
  return `OUT, ${against}${plain ? ", by plain comparison" : ""}`;
}

function formWords(it: Verdict): string {
  const where = it.position === undefined || it.position === "" ? "" : ` at ${it.position}`;
  return `${it.band}${where}: ${it.outcome === "in" ? "in" : it.outcome === "doubt" ? "in doubt" : "OUT"}, max ${it.against.text.replace(/^max /, "")}`;
}

function bandWords(limit: Limit, name: BandName, against: Band): string {
  const range = name === "worn" || name === "set" || name === "new" ? limit[name] : undefined;
  return range === undefined ? against.text : rangeText(range);
}

/** Does it say what size a thing may be, and not only its spread or its form? */
function isSized(limit: Limit): boolean {
  return limit.new !== undefined || limit.worn !== undefined || limit.set !== undefined;
}

function notJudged(limit: Limit): string {
  if (!isSized(limit)) return "not judged: only its spread or its form has a limit";
  return "not judged";
}

/** By its title, where the sheet gives it one. */
function calledBy(job: Job, name: string): string {
  const thing = job.things.get(name);
  return thing === undefined ? name : midSentence(thing);
}
