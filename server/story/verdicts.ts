// Judges readings: the worst spot of each limit at each place, each time that it was measured, and the limits worked out from others.
// Invariant: exact, one verdict a place and measure (ISO 14253-1); doubt condemns nothing; a slipped figure gets no verdict until it is answered.
import { unsaid } from "../../grammar/blanks.ts";
import type { MeasureEntry, Stage } from "../../grammar/tree.ts";
import { asItStood } from "../model/as-it-stood.ts";
import { placesOf } from "../model/job.ts";
import { memo } from "../model/memo.ts";
import { isAt, ordersOf } from "../model/orders.ts";
import type { Gauge, Limit } from "../model/things.ts";
import { readWith } from "../model/read-with.ts";
import { type Slices, runThrough } from "../model/slices.ts";
import { bandOf, figureValue, measured } from "../model/values.ts";
import { type Where, where } from "../model/where.ts";
import { type Exact, exact, isNegative } from "../quantities/exact.ts";
import { asDifference } from "../quantities/quantity.ts";
import { type Band, beyond, verdict as compare, inside as isInside } from "../quantities/range.ts";
import { findingsOf } from "./decisions.ts";
import { readingsOn } from "./looked-up.ts";
import { type Slip, slipOf } from "./slips.ts";
import type { FastenerMoment, PartMoment, Reading, Spot, Story } from "./story.ts";
import { type Operand, greatest, least, mean, namesIn, workOut } from "./worked-out.ts";

export type BandName = "worn" | "set" | "new" | "spread" | "ovality" | "taper";

export interface Verdict {
  readonly limit: Limit;
  /** With the figures that it had when it was read: these judge it. */
  readonly stood: Limit;
  readonly place: string;
  readonly position: string | undefined;
  readonly stage: Stage;
  /** Of the last reading that it rests on. */
  readonly seq: number;
  readonly day: string | undefined;
  readonly where: Where;
  readonly reading: Reading;
  readonly value: Exact;
  /** U squared: the expanded uncertainty (k = 2) as given for the gauge. Undefined without a gauge: the plain comparison is made. */
  readonly uncertaintySquared: Exact | undefined;
  readonly gauge: Gauge | undefined;
  readonly band: BandName;
  readonly against: Band;
  readonly outcome: "in" | "out" | "doubt";
  readonly workedOut: boolean;
  readonly approximate: boolean;
  /** Judged as a renewed thing: against `new`. */
  readonly renewed: boolean;
  /** Of what was repaired or worked on outside, and is not new. */
  readonly mended: boolean;
  /** Worked out below zero, where none of its bounds knows such a thing: a figure has slipped, or the parts don't go together. */
  readonly belowZero: boolean;
}

/** A spread, an ovality or a taper: of two readings, and with a limit of its own. */
export function isDifference({ band }: Pick<Verdict, "band">): boolean {
  return band === "spread" || band === "ovality" || band === "taper";
}

export interface Judged {
  readonly verdicts: readonly Verdict[];
  /** The readings that condemn what they are of, past wear or spread, and by which verdict; by which of their spots, where each is judged by itself. */
  readonly condemning: ReadonlyMap<Reading, readonly Condemning[]>;
  readonly disagreeing: readonly Disagreeing[];
  /** What is worked out of readings and has nothing to be judged against. */
  readonly unjudged: readonly Unjudged[];
  readonly slips: readonly { readonly reading: Reading; readonly spot: Spot; readonly slip: Slip }[];
}

/** Worked out at a place and a stage: its least and its greatest value. */
export interface Unjudged {
  readonly limit: Limit;
  readonly place: string;
  readonly stage: Stage;
  readonly seq: number;
  readonly day: string | undefined;
  readonly where: Where;
  /** The last reading that it rests on. */
  readonly reading: Reading;
  readonly low: Exact;
  readonly high: Exact;
  readonly uncertaintySquared: Exact | undefined;
}

/** A limit that is worked out, read directly, and what its own figures made of it then. */
export interface Disagreeing {
  readonly direct: Verdict;
  readonly worked: Verdict;
}

export interface Condemning {
  readonly verdict: Verdict;
  readonly spots: readonly Spot[] | undefined;
}

const remembered = new WeakMap<Story, Judged>();

/** All verdicts of a story, in the order of their readings. */
export function judge(story: Story): Judged {
  return runThrough(judging(story));
}

/** The same in slices. */
export function* judging(story: Story): Slices<Judged> {
  let judged = remembered.get(story);
  if (judged === undefined) {
    judged = yield* judgeAll(story);
    remembered.set(story, judged);
  }
  return judged;
}

/** So many groups of readings a slice. */
const someGroups = 50;

interface Group {
  readonly limit: Limit;
  readonly stood: Limit;
  readonly place: string;
  readonly entry: MeasureEntry;
  readonly stage: Stage;
  readonly readings: Reading[];
}

function* judgeAll(story: Story): Slices<Judged> {
  const verdicts: Verdict[] = [];
  const unjudged: Unjudged[] = [];
  const slips: Judged["slips"][number][] = [];
  const condemning = new Map<Reading, Condemning[]>();
  const groups = grouped(story);
  const sound = new Map<Reading, readonly Spot[]>();
  for (const [index, group] of groups.entries()) {
    if (index % someGroups === 0) yield;
    const accepted = group.entry.details.some((it) => it.kind === "accept" && !unsaid(it) && it.rule?.text === "figure-slip");
    for (const reading of group.readings) {
      const slipped = new Set<Spot>();
      for (const spot of reading.spots) {
        const slip = accepted || (isAbove(group.stood, spot) && isReported(story, group)) ? undefined : slipOf(group.stood, spot);
        if (slip === undefined) continue;
        slips.push({ reading, spot, slip });
        slipped.add(spot);
      }
      sound.set(reading, impossibleTaken(group.stood, slipped.size === 0 ? reading.spots : reading.spots.filter((it) => !slipped.has(it))));
    }
    const main = worstOf(story, group, sound);
    if (main !== undefined) {
      verdicts.push(main);
      if (main.band === "worn" && main.outcome === "out") for (const reading of group.readings) condemn(reading, main, wornSpots(reading, main, sound));
    }
    for (const it of spreads(group, sound)) {
      verdicts.push(it);
      if (it.outcome === "out") for (const reading of group.readings) condemn(reading, it, undefined);
    }
  }
  verdicts.push(...overPlaces(groups, sound));
  let byLimit: Map<string, Group[]> | undefined;
  for (const limit of story.job.things.values()) {
    if (limit.kind !== "limit" || limit.expression === undefined) continue;
    yield;
    byLimit ??= groupsByLimit(groups);
    verdicts.push(...workedOut(story, limit, byLimit, sound, unjudged));
  }
  verdicts.sort((a, b) => a.seq - b.seq);
  return { verdicts, slips, condemning, disagreeing: disagreeingOf(verdicts), unjudged };

  function condemn(reading: Reading, verdict: Verdict, spots: readonly Spot[] | undefined): void {
    if (spots?.length === 0 || verdict.stage === "trial") return;
    condemning.set(reading, [...(condemning.get(reading) ?? []), { verdict, spots }]);
  }
}

/** Beyond the upper end of everything that it may be: play, wear and run-out grow that way. */
function isAbove(stood: Limit, { value }: Spot): boolean {
  const bands = [bandOf(stood.worn), bandOf(stood.set), bandOf(stood.new)].filter((band) => band !== undefined);
  return bands.length > 0 && bands.every(({ high }) => high !== undefined && value.compare(high) > 0);
}

/** As found, and found loose, worn or worse besides: what rocks reads much, and no figure has slipped. */
function isReported(story: Story, { limit, stage, place }: Group): boolean {
  if (stage !== "found") return false;
  return [...limit.of, ...limit.setBy].some((name) =>
    (findingsOf(story).get(name.text) ?? []).some(
      (found) =>
        (place === "" || found.places.includes("") || found.places.includes(place)) && found.conditions.some(({ condition }) => makesPlay.has(condition.kind)),
    ),
  );
}

const makesPlay: ReadonlySet<string> = new Set(["loose", "worn", "broken", "pitted", "missing", "damaged", "stripped", "sheared", "bent"]);

/** Read directly, what is worked out must be what its own figures make of it, to within the doubt of both. */
function disagreeingOf(verdicts: readonly Verdict[]): Disagreeing[] {
  const out: Disagreeing[] = [];
  for (const direct of verdicts) {
    if (direct.limit.expression === undefined || direct.workedOut || direct.stage === "trial" || isDifference(direct)) continue;
    const worked = verdicts.findLast((it) => it.workedOut && it.limit === direct.limit && it.place === direct.place && it.seq < direct.seq);
    if (worked !== undefined && !agrees(direct, worked)) out.push({ direct, worked });
  }
  return out;
}

/** To within the uncertainty of both; where no gauge is named, to one in the last place that is written. */
function agrees(direct: Verdict, worked: Verdict): boolean {
  const figures = direct.reading.spots.flatMap((spot) => spot.figures);
  const last = greatest(figures.map((it) => it.unit.factor.div(10 ** Math.max(0, it.places))));
  const between = direct.value.sub(worked.value).abs();
  if (between.compare(last) <= 0) return true;
  const u2 = [direct.uncertaintySquared, worked.uncertaintySquared].reduce<Exact>((sum, it) => (it === undefined ? sum : sum.add(it)), exact("0") as Exact);
  return between.mul(between).compare(u2) <= 0;
}

/** The spots of a reading that are past the limit of wear, each by itself. */
function wornSpots(reading: Reading, verdict: Verdict, sound: ReadonlyMap<Reading, readonly Spot[]>): readonly Spot[] {
  const renewed = verdict.renewed ? "all" : "none";
  const bands = bandsFor(reading.stood, reading.stage, renewed);
  return (sound.get(reading) ?? none).filter((spot) => {
    if (spot.figures.some((it) => it.unit.dimension !== bands[0]?.band.unit.dimension)) return false;
    const judgement = judgeSpot(bands, spot, reading, renewed);
    return judgement?.name === "worn" && judgement.outcome === "out";
  });
}

function grouped(story: Story): Group[] {
  const groups: Group[] = [];
  let last: Map<string, Group> = new Map();
  let entry: MeasureEntry | undefined;
  for (const reading of story.readings) {
    if (reading.entry !== entry) {
      entry = reading.entry;
      last = new Map();
    }
    const group = last.get(reading.place);
    if (group !== undefined) group.readings.push(reading);
    else {
      const made = { limit: reading.limit, stood: reading.stood, place: reading.place, entry: reading.entry, stage: reading.stage, readings: [reading] };
      last.set(reading.place, made);
      groups.push(made);
    }
  }
  return groups;
}

function groupsByLimit(groups: readonly Group[]): Map<string, Group[]> {
  const byLimit = new Map<string, Group[]>();
  for (const group of groups) {
    const list = byLimit.get(group.limit.name);
    if (list === undefined) byLimit.set(group.limit.name, [group]);
    else list.push(group);
  }
  return byLimit;
}

/** A reading below zero where there can be none is left to the rule that says so. */
function impossibleTaken(limit: Limit, spots: readonly Spot[]): readonly Spot[] {
  return spots.some((spot) => isNegative(spot.value)) && !canBeNegative(limit) ? spots.filter((spot) => !isNegative(spot.value)) : spots;
}

/** Only a limit whose own bands go below zero, or one that is worked out or has two directions (toe in and out, an angle), may read below zero. */
export function canBeNegative(limit: Limit): boolean {
  if (limit.expression !== undefined || twoWays.test(`${limit.name.replaceAll("-", " ")} ${limit.title ?? ""}`)) return true;
  const bands = [bandOf(limit.new), bandOf(limit.worn), bandOf(limit.set)].filter((band) => band !== undefined);
  return (
    bands.length === 0 ||
    bands.some(
      (band) =>
        (band.low !== undefined && isNegative(band.low)) ||
        (band.high !== undefined && isNegative(band.high)) ||
        band.unit.dimension === "temperature" ||
        band.unit.dimension === "angle",
    )
  );
}

/** Of how two things stand to one another, either of which may be before, above or outside of the other. */
const twoWays =
  /\b(toe(-?(in|out))?|camber|cast[oe]r|tracking|lead|twist|offset|off ?set|step|proud|flush|protru\w+|stands? (out|proud|in)|difference|lean|tilt|sag|alignment|out of (line|level|square|plumb)|lower than|higher than)\b/i;

/** One of its bounds is at zero or below: an interference, a preload. */
function knowsNegative(limit: Limit): boolean {
  return [bandOf(limit.new), bandOf(limit.worn), bandOf(limit.set)].some(
    (band) => band !== undefined && ((band.low !== undefined && isNegative(band.low)) || (band.high !== undefined && band.high.compare(0) <= 0)),
  );
}

export function squared(value: Exact | undefined): Exact | undefined {
  return value === undefined ? undefined : value.mul(value);
}

/** Expanded (k = 2), in base units, of a gauge at this reading; of both, where an amount and a share of the reading are given, the sum. */
export function uncertaintyOf(gauge: Gauge | undefined, value: Exact): Exact | undefined {
  const amount = measured(gauge?.uncertainty);
  const share = figureValue(gauge?.uncertaintyShare?.figure);
  const own = amount === undefined ? undefined : asDifference(amount);
  const of = share === undefined ? undefined : value.abs().mul(share.abs()).div(100);
  return own === undefined ? of : of === undefined ? own : own.add(of);
}

/** Whether what a reading is of was renewed: of a fit, one half may be new and the other run in. `mended`: nothing new, and worked on to make it fit. */
type Renewed = "none" | "mended" | "some" | "all";

const isNew = (renewed: Renewed) => renewed === "some" || renewed === "all";

/** Which bands a stage is judged against, in order. */
function bandsFor(limit: Limit, stage: Stage, renewed: Renewed): { name: "worn" | "set" | "new"; band: Band }[] {
  const worn = bandOf(limit.worn);
  const set = bandOf(limit.set);
  const fresh = bandOf(limit.new);
  const list: { name: "worn" | "set" | "new"; band: Band }[] = [];
  if (stage === "found") {
    if (worn !== undefined) list.push({ name: "worn", band: worn });
    if (fresh !== undefined) list.push({ name: "new", band: fresh });
    return list;
  }
  if (set !== undefined) list.push({ name: "set", band: set });
  else {
    // What was renewed must be as made, and a wear limit beside that says nothing good of it; where no limit of wear is given, as made is all that there is to judge by.
    // A new bush on a pin that has run may have what the pin has worn, and no less than as made.
    const half = renewed === "some" ? withoutWear(limit) : undefined;
    if (fresh !== undefined && (isNew(renewed) || worn === undefined)) list.push({ name: "new", band: half ?? fresh });
    if (worn !== undefined) list.push({ name: "worn", band: worn });
    // What somebody worked on has the size that he gave it: on the side where nothing wears there is no width to spare.
    const unworn = renewed === "none" ? unwornBand(limit) : renewed === "mended" ? withoutWear(limit) : undefined;
    if (unworn !== undefined) list.push({ name: "new", band: unworn });
  }
  return list;
}

/**
 * As made, on the side to which nothing wears: a bore gets no smaller and a lining no thicker. A figure beyond `new` there by more than the width of `new` is
 * of another part, of parts that don't go together, or a slip. Undefined where wear is bounded on both sides or `new` is not. The width is our own measure, wide so as
 * not to speak of a gauge's doubt.
 */
export const unwornBand = memo((limit: Limit): Band | undefined => {
  const worn = bandOf(limit.worn);
  const fresh = bandOf(limit.new);
  if (worn === undefined || fresh?.low === undefined || fresh.high === undefined) return undefined;
  const width = fresh.high.sub(fresh.low);
  const { unit, text } = fresh;
  if (worn.low === undefined && worn.high !== undefined) return { low: fresh.low.sub(width), unit, text };
  if (worn.high === undefined && worn.low !== undefined) return { high: fresh.high.add(width), unit, text };
  return undefined;
});

/** As made, on the side to which nothing wears; undefined where wear is bounded on both sides or on none. */
export const withoutWear = memo((limit: Limit): Band | undefined => {
  const worn = bandOf(limit.worn);
  const fresh = bandOf(limit.new);
  if (worn === undefined || fresh === undefined) return undefined;
  const { low, high, unit, text } = fresh;
  if (worn.low === undefined && worn.high !== undefined) return { ...(low === undefined ? {} : { low }), unit, text };
  if (worn.high === undefined && worn.low !== undefined) return { ...(high === undefined ? {} : { high }), unit, text };
  return undefined;
});

function rank(name: BandName, outcome: Verdict["outcome"]): number {
  if (outcome === "out") return name === "new" ? 2 : 5;
  if (outcome === "doubt") return name === "new" ? 1 : 4;
  return 0;
}

interface Judgement {
  readonly name: "worn" | "set" | "new";
  readonly band: Band;
  readonly outcome: Verdict["outcome"];
  readonly rank: number;
  readonly excess: Exact;
}

/** The gravest of the bands' judgements on one value. */
function judgeValue(
  bands: readonly { name: "worn" | "set" | "new"; band: Band }[],
  value: Exact,
  uncertainty: Exact | { squared: Exact } | undefined,
  stage: Stage,
  renewed: Renewed,
): Judgement | undefined {
  let gravest: Judgement | undefined;
  for (const { name, band } of bands) {
    const raw = compare(band, value, uncertainty);
    let outcome: Verdict["outcome"] = raw === "in" || raw === "in-plain" ? "in" : raw === "out" || raw === "out-plain" ? "out" : "doubt";
    // Doubt about `new` well inside wear says nothing, but at a final it speaks; not of what has run.
    if (outcome === "doubt" && name === "new" && (stage === "found" || renewed === "mended")) outcome = "in";
    const it = {
      name,
      band,
      outcome,
      rank: rank(name, outcome) + (name === "new" && stage !== "found" && outcome === "doubt" ? 2 : 0),
      excess: beyond(band, value),
    };
    if (gravest === undefined || it.rank > gravest.rank) gravest = it;
  }
  return gravest;
}

const judgedSpots = new WeakMap<Spot, { limit: Limit; gauge: Gauge | undefined; stage: Stage; renewed: Renewed; judgement: Judgement | undefined }>();

/** The judgement on one spot: it hangs on the spot, its limit and its gauge alone, and is remembered with the spot. */
function judgeSpot(bands: ReturnType<typeof bandsFor>, spot: Spot, { stood: limit, gauge, stage }: Reading, renewed: Renewed): Judgement | undefined {
  let it = judgedSpots.get(spot);
  if (it === undefined || it.limit !== limit || it.gauge !== gauge || it.stage !== stage || it.renewed !== renewed) {
    it = { limit, gauge, stage, renewed, judgement: judgeValue(bands, spot.value, uncertaintyOf(gauge, spot.value), stage, renewed) };
    judgedSpots.set(spot, it);
  }
  return it.judgement;
}

function worstOf(story: Story, group: Group, sound: ReadonlyMap<Reading, readonly Spot[]>): Verdict | undefined {
  const first = group.readings[0] as Reading;
  const fresh = group.stage === "found" ? "none" : wasRenewed(story, namesOf(group.limit), group.place, first.seq);
  const renewed = fresh === "none" && group.stage === "final" && wasMended(story, group, first.seq) ? "mended" : fresh;
  const bands = bandsFor(group.stood, group.stage, renewed);
  if (bands.length === 0) return undefined;
  let worst: { judgement: Judgement; spot: Spot; reading: Reading } | undefined;
  for (const reading of group.readings) {
    for (const spot of sound.get(reading) ?? []) {
      if (spot.figures.some((it) => it.unit.dimension !== bands[0]?.band.unit.dimension)) continue;
      const judgement = judgeSpot(bands, spot, reading, renewed);
      if (judgement === undefined) continue;
      if (
        worst === undefined ||
        judgement.rank > worst.judgement.rank ||
        (judgement.rank === worst.judgement.rank && nearer(judgement, spot.value, worst.judgement, worst.spot.value))
      )
        worst = { judgement, spot, reading };
    }
  }
  if (worst === undefined) return undefined;
  const { judgement, spot, reading } = worst;
  return made(
    group.limit,
    group.place,
    group.stage,
    reading,
    spot.at,
    spot.value,
    squared(uncertaintyOf(reading.gauge, spot.value)),
    judgement.name,
    judgement.band,
    judgement.outcome,
    {
      renewed: isNew(renewed),
      mended: renewed === "mended",
      seq: (group.readings[group.readings.length - 1] as Reading).seq,
    },
  );
}

/** Of two alike, the one that is further out, or nearer to the edge. */
function nearer(a: Judgement, valueA: Exact, b: Judgement, valueB: Exact): boolean {
  const byExcess = a.excess.compare(b.excess);
  if (byExcess !== 0) return byExcess > 0;
  return room(a.band, valueA).compare(room(b.band, valueB)) < 0;
}

function room(band: Band, value: Exact): Exact {
  const sides = [band.high === undefined ? undefined : band.high.sub(value), band.low === undefined ? undefined : value.sub(band.low)].filter(
    (it): it is Exact => it !== undefined,
  );
  return least(sides.length > 0 ? sides : [value]);
}

const namesOf = (limit: Limit) => limit.of.map((name) => name.text);

/** Were these fitted new before a reading, or is it of new ones that go in next? */
function wasRenewed(story: Story, names: readonly string[], place: string, before: number): Renewed {
  const renewed = names.filter((name) => isRenewed(story, [name], place, before)).length;
  return renewed === 0 ? "none" : renewed < names.length ? "some" : "all";
}

function isRenewed(story: Story, names: readonly string[], place: string, before: number): boolean {
  return names.some((name) =>
    story.cells(name).some((cell) => {
      if (cell.kind !== "part" && cell.kind !== "fastener") return false;
      if (cell.place !== place && cell.place !== "" && place !== "") return false;
      const done = (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done");
      if (done.some((it) => it.verb === "fit" && it.isNew && it.seq < before)) return true;
      // Read on the bench while the place was empty, it is of what goes in there next.
      return done.findLast((it) => it.seq < before)?.after.on === 0 && done.find((it) => it.verb === "fit" && it.seq > before)?.isNew === true;
    }),
  );
}

/**
 * Repaired here, or out for work and back: what is worked on is given its size. Where it was found inside `new`, or as tight as it is now, the work was of something else,
 * or the two ran so.
 */
function wasMended(story: Story, { limit, stood, place }: Group, before: number): boolean {
  if (withoutWear(stood) === undefined || !isMended(story, namesOf(limit), place, before)) return false;
  const found = readingsOn(story, limit.name).filter((it) => it.stage === "found" && it.seq < before && (it.place === place || it.place === ""));
  return isWorn(
    found.flatMap((it) => it.spots.map((spot) => spot.value)),
    stood,
  );
}

/** Outside `new` where it wears, and nowhere else; or never read. */
function isWorn(values: readonly Exact[], limit: Limit): boolean {
  const fresh = bandOf(limit.new);
  const unworn = withoutWear(limit);
  if (fresh === undefined || unworn === undefined) return false;
  return values.length === 0 || (values.some((value) => !isInside(fresh, value)) && values.every((value) => isInside(unworn, value)));
}

function isMended(story: Story, names: readonly string[], place: string, before: number): boolean {
  return names.some(
    (name) =>
      story
        .cells(name)
        .some(
          (cell) =>
            (cell.kind === "part" || cell.kind === "fastener") &&
            (cell.place === place || cell.place === "" || place === "") &&
            (cell.history as readonly (PartMoment | FastenerMoment)[]).some((it) => it.phase === "done" && it.verb === "repair" && it.seq < before),
        ) || (ordersOf(story.job).work.get(name) ?? []).some(({ detail, status }) => isAt(detail, place) && status?.status === "received"),
  );
}

interface Extra {
  readonly renewed?: boolean;
  readonly mended?: boolean;
  readonly seq?: number;
  readonly position?: string;
  readonly workedOut?: boolean;
  readonly approximate?: boolean;
  readonly stood?: Limit;
  readonly belowZero?: boolean;
}

function made(
  limit: Limit,
  place: string,
  stage: Stage,
  reading: Reading,
  at: Spot["at"],
  value: Exact,
  u2: Exact | undefined,
  band: BandName,
  against: Band,
  outcome: Verdict["outcome"],
  extra: Extra = {},
): Verdict {
  return {
    limit,
    stood: extra.stood ?? reading.stood,
    place,
    position: extra.position,
    stage,
    seq: extra.seq ?? reading.seq,
    day: reading.day,
    where: where(reading.where.file, reading.entry, reading.detail.row, at),
    reading,
    value,
    uncertaintySquared: u2,
    gauge: reading.gauge,
    band,
    against,
    outcome,
    workedOut: extra.workedOut ?? false,
    approximate: extra.approximate ?? false,
    renewed: extra.renewed ?? false,
    mended: extra.mended ?? false,
    belowZero: extra.belowZero ?? false,
  };
}

// ---------------------------------------------------------------- spread, ovality, taper

const none: readonly never[] = [];

/** Both are differences of two readings of one gauge: their U is the root of two times the gauge's. */
const two = exact("2") as Exact;

function spreads(group: Group, sound: ReadonlyMap<Reading, readonly Spot[]>): readonly Verdict[] {
  const { limit, stood } = group;
  if (stood.spread === undefined && stood.ovality === undefined && stood.taper === undefined) return none;
  const out: Verdict[] = [];
  const last = group.readings[group.readings.length - 1] as Reading;
  const difference = (name: "spread" | "ovality" | "taper", value: Exact, reading: Reading, spot: Spot, position?: string): void => {
    const most = measured(stood[name]);
    if (most === undefined || spot.figures.some((it) => it.unit.dimension !== most.unit.dimension)) return;
    const u2 = squared(uncertaintyOf(reading.gauge, spot.value))?.mul(two);
    const band: Band = { high: asDifference(most), unit: most.unit, text: `max ${most.figure} ${most.unit.spelling}` };
    const raw = compare(band, value, u2 === undefined ? undefined : { squared: u2 });
    const outcome = raw === "in" || raw === "in-plain" ? "in" : raw === "out" || raw === "out-plain" ? "out" : "doubt";
    out.push(
      made(
        limit,
        group.place,
        group.stage,
        reading,
        spot.at,
        value,
        u2,
        name,
        band,
        outcome,
        position === undefined ? { seq: last.seq } : { position, seq: last.seq },
      ),
    );
  };
  if (stood.spread !== undefined) {
    const all = group.readings.flatMap((reading) => (sound.get(reading) ?? []).map((spot) => ({ reading, spot })));
    if (all.length > 1) {
      const values = all.map((it) => it.spot.value);
      const most = greatest(values);
      const high = all.find((it) => it.spot.value.compare(most) === 0) as (typeof all)[number];
      difference("spread", most.sub(least(values)), high.reading, high.spot);
    }
  }
  const byPosition = new Map<string, { reading: Reading; spots: Spot[] }>();
  for (const reading of group.readings) {
    const spots = sound.get(reading) ?? [];
    const key = reading.position ?? "";
    const at = byPosition.get(key);
    if (at === undefined) byPosition.set(key, { reading, spots: [...spots] });
    else {
      for (const spot of spots) at.spots.push(spot);
      at.reading = reading;
    }
  }
  if (stood.ovality !== undefined) {
    for (const [position, { reading, spots }] of byPosition) {
      if (spots.length < 2) continue;
      const values = spots.map((spot) => spot.value);
      // The one that stands nearest to the limit of wear is the worst of the two.
      const worst = bandOf(stood.worn)?.low !== undefined && bandOf(stood.worn)?.high === undefined ? least(values) : greatest(values);
      const high = spots.find((spot) => spot.value.compare(worst) === 0) as Spot;
      const home = group.readings.find((it) => (sound.get(it) ?? []).includes(high)) ?? reading;
      difference("ovality", greatest(values).sub(least(values)), home, high, position);
    }
  }
  if (stood.taper !== undefined && byPosition.size > 1) {
    const means = [...byPosition.values()].filter((it) => it.spots.length > 0).map((it) => mean(it.spots.map((spot) => spot.value)));
    const spots = sound.get(last) ?? [];
    if (means.length > 1 && spots[0] !== undefined) difference("taper", greatest(means).sub(least(means)), last, spots[0]);
  }
  return out;
}

/**
 * A spread of which each place has one figure is told over the places, each measure by itself: backlash at four spots of one wheel. One figure alone spreads over nothing,
 * so no other spread can be meant. It stands at no place, for it is of all of them.
 */
function overPlaces(groups: readonly Group[], sound: ReadonlyMap<Reading, readonly Spot[]>): Verdict[] {
  const byEntry = new Map<MeasureEntry, Group[]>();
  for (const group of groups) {
    if (group.stood.spread === undefined || group.place === "") continue;
    const list = byEntry.get(group.entry);
    if (list === undefined) byEntry.set(group.entry, [group]);
    else list.push(group);
  }
  return [...byEntry.values()].flatMap((list) => {
    const readings = list.flatMap((it) => it.readings);
    if (list.length < 2 || readings.length !== list.length || readings.some((it) => sound.get(it)?.length !== 1)) return [];
    return spreads({ ...(list[0] as Group), place: "", readings }, sound).filter((it) => it.band === "spread");
  });
}

// ---------------------------------------------------------------- worked out

/** Judged twice at most: from what was found, and from the latest readings where any of them is a final. */
function workedOut(
  story: Story,
  limit: Limit,
  groups: ReadonlyMap<string, readonly Group[]>,
  sound: ReadonlyMap<Reading, readonly Spot[]>,
  unjudged: Unjudged[],
): Verdict[] {
  const expression = limit.expression as NonNullable<Limit["expression"]>;
  const names = [...namesIn(expression)];
  if (names.length === 0 || names.includes(limit.name)) return [];
  const out: Verdict[] = [];
  for (const place of placesOf(story.job, limit)) {
    for (const stage of ["found", "final"] as const) {
      const used: Group[] = [];
      const operand = (name: string): Operand | undefined => {
        const own = (groups.get(name) ?? []).filter(
          (it) =>
            (it.place === place || it.place === "" || place === "") &&
            (stage === "found" ? it.stage === "found" : it.stage !== "trial") &&
            // A figure that slipped is none: the one before it stands.
            it.readings.some((reading) => (sound.get(reading) ?? []).length > 0),
        );
        const latest = own[own.length - 1];
        if (latest === undefined) return undefined;
        // Something renewed since it was last read has no reading that counts.
        const read = [...latest.limit.of.map((it) => it.text), ...readWith(story.job, latest.limit).map((it) => it.name)];
        if (stage === "final" && latest.stage === "found" && isRenewed(story, read, latest.place, Number.POSITIVE_INFINITY)) return undefined;
        const list = place === "" ? own.filter((it) => it.entry === latest.entry) : [latest];
        for (const it of list) used.push(it);
        const spots = list.flatMap((it) => it.readings.flatMap((reading) => (sound.get(reading) ?? []).map((spot) => spot.value)));
        const gauge = list.flatMap((it) => it.readings)[0]?.gauge;
        return {
          spots,
          uncertaintySquared: squared(uncertaintyOf(gauge, greatest(spots.map((it) => it.abs())))) ?? (exact("0") as Exact),
          dimension: undefined,
        };
      };
      const both = workOut(expression, operand);
      if (both === undefined || (stage === "final" && !used.some((it) => it.stage === "final"))) continue;
      const readings = used.flatMap((it) => it.readings).sort((a, b) => a.seq - b.seq);
      const last = readings[readings.length - 1] as Reading;
      const halves = stage === "final" ? used.map((it) => wasRenewed(story, namesOf(it.limit), it.place, last.seq)) : [];
      // What a limit of nothing was read of, nobody knows: it leaves the others as they are.
      const ofThings = halves.filter((_, i) => (used[i]?.limit.of.length ?? 0) > 0);
      const stood = asItStood(story.job, limit, last.entry);
      const old = halves.every((it) => it === "none");
      const foundHere = () => out.filter((it) => it.stage === "found" && it.place === place).map((it) => it.value);
      const isWorkedOn = stage === "final" && old && used.some((it) => isMended(story, namesOf(it.limit), it.place, last.seq)) && isWorn(foundHere(), stood);
      const renewed: Renewed = isWorkedOn ? "mended" : old ? "none" : ofThings.every((it) => it === "all") ? "all" : "some";
      const bands = bandsFor(stood, stage, renewed);
      const known = readings.every((reading) => reading.gauge !== undefined);
      if (bands.length === 0) {
        const values = both.map((it) => it.value);
        const [first] = both;
        const low = least(values);
        const high = greatest(values);
        if (first !== undefined && low !== undefined && high !== undefined)
          unjudged.push({
            ...{ limit, place, stage, seq: last.seq, day: last.day, where: last.where, reading: last, low, high },
            uncertaintySquared: known ? first.uncertaintySquared : undefined,
          });
        continue;
      }
      let worst: { judgement: Judgement; value: Exact; u2: Exact; approximate: boolean } | undefined;
      for (const it of both) {
        const plain = judgeValue(bands, it.value, known ? { squared: it.uncertaintySquared } : undefined, stage, renewed);
        const judgement: Judgement | undefined =
          // Past new and inside wear is no better: nothing wears to less than nothing.
          plain !== undefined && (plain.outcome === "in" || plain.rank === rank("new", "out")) && isNegative(it.value) && !knowsNegative(stood)
            ? { ...plain, outcome: "doubt", rank: 4 }
            : plain;
        if (
          judgement !== undefined &&
          (worst === undefined ||
            judgement.rank > worst.judgement.rank ||
            (judgement.rank === worst.judgement.rank && nearer(judgement, it.value, worst.judgement, worst.value)))
        ) {
          worst = { judgement, value: it.value, u2: it.uncertaintySquared, approximate: it.approximate };
        }
      }
      const spots = sound.get(last) ?? [];
      if (worst === undefined || spots[0] === undefined) continue;
      const end = spots[spots.length - 1] as Spot;
      out.push(
        made(
          limit,
          place,
          stage,
          last,
          end.at,
          worst.value,
          known ? worst.u2 : undefined,
          worst.judgement.name,
          worst.judgement.band,
          worst.judgement.outcome,
          {
            workedOut: true,
            approximate: worst.approximate,
            renewed: isNew(renewed),
            mended: renewed === "mended",
            stood,
            belowZero: isNegative(worst.value) && !knowsNegative(stood),
          },
        ),
      );
    }
  }
  return out;
}
