// Judges readings: the worst spot of each limit at each place, each time that it was measured, and the limits worked out from others.
// Invariant: exact, one verdict a place and measure (ISO 14253-1); doubt condemns nothing; a slipped figure gets no verdict until it is answered.
import { memo, memoSliced } from "../model/memo.ts";
import { putInto } from "../model/grouped.ts";
import { unsaid } from "../../grammar/blanks.ts";
import type { MeasureEntry } from "../../grammar/tree.ts";
import type { Slices } from "../../grammar/slices.ts";
import type { Limit } from "../model/things.ts";
import { bandOf } from "../model/values.ts";
import { type Exact, exact, isNegative } from "../quantities/exact.ts";
import { type Judgement, type Renewed, asMadeFirst, bandsFor, canBeNegative, isNew, judgeSpot, nearer, squared, uncertaintyOf } from "./bands.ts";
import { findingsOf } from "./decisions.ts";
import { figuresOfOld, namesOf, wasMended, wasRemade, wasRenewed } from "./renewed.ts";
import { sittingOf } from "./sittings.ts";
import { slipOf } from "./slips.ts";
import { none, overEntries, overPlaces, spreads } from "./spreads.ts";
import type { Reading, Spot, Story } from "./story.ts";
import { type Condemning, type Disagreeing, type Group, type Judged, type Unjudged, type Verdict, isDifference, made } from "./verdict.ts";
import { workedOut } from "./worked-out-verdicts.ts";
import { greatest } from "./worked-out.ts";

const judged = memoSliced(judgeAll);

/** All verdicts of a story, in the order of their readings. */
export const judge: (story: Story) => Judged = judged.whole;
/** The same in slices. */
export const judging: (story: Story) => Slices<Judged> = judged.sliced;

/** So many lines of figures of one group a slice. */
const someReadings = 200;

/** So many groups of readings a slice. */
const someGroups = 50;

function* judgeAll(story: Story): Slices<Judged> {
  const verdicts: Verdict[] = [];
  const unjudged: Unjudged[] = [];
  const slips: Judged["slips"][number][] = [];
  const condemning = new Map<Reading, Condemning[]>();
  const groups = grouped(story);
  const sound = new Map<Reading, readonly Spot[]>();
  for (const [index, group] of groups.entries()) {
    if (index % someGroups === 0) yield;
    let n = 0;
    for (const reading of group.readings) {
      if (++n % someReadings === 0) yield;
      const accepted = acceptsSlips(reading.entry);
      const slipped = new Set<Spot>();
      for (const spot of reading.spots) {
        const slip = accepted || (isAbove(group.stood, spot) && isReported(story, group)) ? undefined : slipOf(group.stood, spot);
        if (slip === undefined) continue;
        slips.push({ reading, spot, slip });
        slipped.add(spot);
      }
      sound.set(reading, impossibleTaken(group.stood, slipped.size === 0 ? reading.spots : reading.spots.filter((it) => !slipped.has(it))));
    }
    const main = yield* worstOf(story, group, sound);
    if (main !== undefined) {
      verdicts.push(main);
      if (main.band === "worn" && main.outcome === "out") for (const reading of group.readings) condemn(reading, main, wornSpots(reading, main, sound));
    }
    for (const it of spreads(group, sound)) {
      verdicts.push(it);
      if (it.outcome === "out") for (const reading of group.readings) condemn(reading, it, undefined);
    }
  }
  verdicts.push(...overPlaces(story, groups, sound), ...overEntries(story, groups, sound));
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
    putInto(condemning, reading, { verdict, spots });
  }
}

/** Asked for each reading of an entry, and the same for all. */
const acceptsSlips = memo((entry: Reading["entry"]): boolean =>
  entry.details.some((it) => it.kind === "accept" && !unsaid(it) && it.rule?.text === "figure-slip"),
);

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
  const sat = new Map<MeasureEntry, Map<string, Group>>();
  for (const reading of story.readings) {
    if (reading.entry !== entry) {
      entry = reading.entry;
      const sitting = sittingOf(story, entry);
      last = sat.get(sitting) ?? new Map();
      sat.set(sitting, last);
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

const nobody: ReadonlySet<Spot> = new Set();

/** Of so many pieces some are new: the figures that are not as made are of the others, where there are no more of them than those. */
function ofOld(story: Story, group: Group, sound: ReadonlyMap<Reading, readonly Spot[]>, bands: ReturnType<typeof bandsFor>): ReadonlySet<Spot> {
  const spots = group.readings.flatMap((reading) => (sound.get(reading) ?? none).map((spot) => ({ spot, reading })));
  const old = figuresOfOld(story, group, group.readings[0]?.seq ?? 0, spots.length);
  if (old === 0) return nobody;
  const isSo = (outcome: Verdict["outcome"]) =>
    spots.filter(({ spot, reading }) => judgeSpot(bands, spot, reading, "all")?.outcome === outcome).map(({ spot }) => spot);
  const out = isSo("out");
  // Of those that may be as made or not nobody knows which are whose, unless all of them have room among the old.
  const all = [...out, ...isSo("doubt")];
  return all.length <= old ? new Set(all) : out.length <= old ? new Set(out) : nobody;
}

/** A reading below zero where there can be none is left to the rule that says so. */
function impossibleTaken(limit: Limit, spots: readonly Spot[]): readonly Spot[] {
  return spots.some((spot) => isNegative(spot.value)) && !canBeNegative(limit) ? spots.filter((spot) => !isNegative(spot.value)) : spots;
}

function* worstOf(story: Story, group: Group, sound: ReadonlyMap<Reading, readonly Spot[]>): Slices<Verdict | undefined> {
  const first = group.readings[0] as Reading;
  const fresh = group.stage === "found" ? "none" : wasRenewed(story, namesOf(group.limit), group.place, first.seq);
  const isMended = fresh === "none" && group.stage === "final" && wasMended(story, group, first.seq);
  const renewed = !isMended ? fresh : wasRemade(story, group, first.seq) ? "remade" : "mended";
  const values = renewed === "some" ? group.readings.flatMap((it) => (sound.get(it) ?? none).map((spot) => spot.value)) : [];
  const bands = asMadeFirst(bandsFor(group.stood, group.stage, renewed), group.stood, renewed, values);
  if (bands.length === 0) return undefined;
  let worst: { judgement: Judgement; spot: Spot; reading: Reading; renewed: Renewed } | undefined;
  const run = renewed === "all" && group.stage === "final" ? ofOld(story, group, sound, bands) : nobody;
  const runBands = run.size === 0 ? bands : bandsFor(group.stood, group.stage, "none");
  for (const [i, reading] of group.readings.entries()) {
    if (i % someReadings === someReadings - 1) yield;
    for (const spot of sound.get(reading) ?? []) {
      if (spot.figures.some((it) => it.unit.dimension !== bands[0]?.band.unit.dimension)) continue;
      const asRun = run.has(spot);
      const judgement = judgeSpot(asRun ? runBands : bands, spot, reading, asRun ? "none" : renewed);
      if (judgement === undefined) continue;
      if (
        worst === undefined ||
        judgement.rank > worst.judgement.rank ||
        (judgement.rank === worst.judgement.rank && nearer(judgement, spot.value, worst.judgement, worst.spot.value))
      )
        worst = { judgement, spot, reading, renewed: asRun ? "none" : renewed };
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
      renewed: isNew(worst.renewed),
      mended: renewed === "mended",
      seq: (group.readings[group.readings.length - 1] as Reading).seq,
    },
  );
}
