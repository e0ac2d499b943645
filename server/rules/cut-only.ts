// A later reading that says there is more metal than before, where all that was done since takes metal off.
// Invariant: told of plain sizes alone, by what their limit is called: a shaft that is under size, a bore that is over. Of a gap, a float, a run-out it says nothing.
import type { Name } from "../../grammar/tree.ts";
import { isSamePlace } from "../model/same-place.ts";
import { momentsOf, piecesAt } from "../story/cells.ts";
import { type Job, placesOf } from "../model/job.ts";
import { isCritical } from "../model/relations.ts";
import { grouped } from "../model/grouped.ts";
import { countAhead } from "../model/halving.ts";
import { memo } from "../model/memo.ts";
import { isAt, ordersOf } from "../model/orders.ts";
import { bandOf } from "../model/values.ts";
import { type Where, where } from "../model/where.ts";
import { inside as isInside } from "../quantities/range.ts";
import { isInFixedGuides, mayTakeUp } from "../model/mates.ts";
import { isBetweenPieces, isReadTogether, wordsOf } from "../model/read-with.ts";
import { allWords, wordsIn } from "../model/titles.ts";
import type { Limit } from "../model/things.ts";
import { type Exact, compare, zero } from "../quantities/exact.ts";
import { type Measured, quantity } from "../quantities/quantity.ts";
import { ofNoGauge, uncertaintyOf } from "../story/bands.ts";
import { readingsOn } from "../story/looked-up.ts";
import type { FastenerMoment, PartMoment, Reading, Story } from "../story/story.ts";
import { type Verdict, isDifference } from "../story/verdict.ts";
import { isAnewSince } from "../story/put-right.ts";
import { addsNothing, givesSize, mendsNothing, onlyCuts } from "../story/worked-in.ts";
import { findingsOf } from "../story/decisions.ts";
import { greatest, least } from "../story/worked-out.ts";
import { isReasoned, mountedWith } from "./failures.ts";
import { isLeftAlone, isWorkElsewhere } from "./left-alone.ts";
import type { JobContext } from "./rule.ts";
import { namingNothing } from "./wording.ts";

/** In, of what was out for want of metal, and all that was done between the two took more of it off. */
export function cutsThatAddNothing({ job, story }: JobContext, out: Verdict, later: Verdict): boolean {
  if (out.band !== "worn" || out.outcome !== "out" || out.workedOut || later.outcome !== "in" || later.workedOut || out.limit.expression !== undefined)
    return false;
  if (out.limit.setBy.length > 0 || out.stood.set !== undefined || out.position !== later.position) return false;
  const side = sideOf(out.limit);
  if (side === undefined) return false;
  const { low, high } = out.against;
  const isGrown =
    side === "outside"
      ? low !== undefined && compare(out.value, low) < 0 && compare(later.value, out.value) > 0
      : high !== undefined && compare(out.value, high) > 0 && compare(later.value, out.value) < 0;
  if (!isGrown) return false;
  const again = readingsOn(story, out.limit.name).some(
    (it) => it.stage === "found" && it.seq > out.seq && it.seq < later.seq && it.place === out.place && isReasoned(it),
  );
  if (again) return false;
  return isOnlyCutBetween(job, story, out.limit, out, later, (text) => takesMetalOff(text, side));
}

/**
 * The same inside the limits: a pin that was scored and polished, and is thicker since; a bore that was honed and is smaller; or grown with nothing done to it at all, as two pistons are that changed
 * places. By its worst figures and by more than the gauges let be; without a
 * gauge by more than two hundredths of a millimetre, which is common practice for what a hand and a rule of thumb make of one micrometer.
 */
export function grown({ job, story }: JobContext, final: Verdict): Grown | undefined {
  const { limit, place, stage, workedOut } = final;
  const side =
    stage === "final" && !workedOut && !isDifference(final) && limit.expression === undefined && limit.setBy.length === 0 ? sideOf(limit) : undefined;
  if (side === undefined || !isCritical(job, limit)) return undefined;
  for (const { found, now } of againstFound(story, final)) {
    if (!hasGrown(found, now, side)) continue;
    const isCut = (text: string) => takesMetalOff(text, side) && !jointCut.test(text);
    if (isOnlyCutBetween(job, story, limit, { seq: found.seq, place }, final, isCut)) return { found, isCut: true };
    const isFar = hasGrown(found, now, side, film);
    if (isLeftAlone(job, story, limit, found, final, isFar)) return { found, isCut: false };
  }
  return undefined;
}

/** What a final reads, each end of it by itself, with the last that was found there before. */
function againstFound(story: Story, final: Verdict): readonly { readonly found: Reading; readonly now: Reading }[] {
  const { limit, reading, place } = final;
  return (placed(readingsOn(story, limit.name)).get(place)?.ofEntry.get(reading.entry) ?? []).flatMap((now) => {
    const found = foundBefore(story, final, now.position);
    return found === undefined ? [] : [{ found, now }];
  });
}

function foundBefore(story: Story, { limit, place, seq }: Verdict, position: string | undefined): Reading | undefined {
  const all =
    placed(readingsOn(story, limit.name))
      .get(place)
      ?.found.get(position ?? "") ?? [];
  return all[countAhead(all, (it) => it.seq < seq) - 1];
}

/** At each place, those of an entry, and as it was found those of an end: of thousands of readings of one limit each is looked up. */
const placed = memo(
  (all: readonly Reading[]) =>
    new Map(
      [...grouped(all, (it) => it.place)].map(([place, here]) => [
        place,
        {
          ofEntry: grouped(here, (it) => it.entry),
          found: grouped(
            here.filter((it) => it.stage === "found"),
            (it) => it.position ?? "",
          ),
        },
      ]),
    ),
);

interface Grown {
  readonly found: Reading;
  /** What was done since only takes metal off; else nothing was. */
  readonly isCut: boolean;
}

/** What may be read over an oil film that was wiped on: two hundredths of a millimetre besides the doubt of both gauges. Common practice. What was washed off leaves less to read, and never more. */
const film = (quantity("0.02", "mm") as Measured).value;

/** By more than the gauges let be, and `besides`. */
function hasGrown(found: Reading, now: Reading, side: Side, besides: Exact = zero): boolean {
  if (isReasoned(now) || found.spots.length === 0 || now.spots.length === 0 || found.stood !== now.stood) return false;
  const [was, is] = [valuesOf(found), valuesOf(now)];
  const more = side === "outside" ? least(is).sub(greatest(was)) : least(was).sub(greatest(is));
  const worn = bandOf(found.stood.worn);
  // Past its wear it was out, and that is told of the two as they were judged.
  if (worn !== undefined && was.some((it) => !isInside(worn, it))) return false;
  return more.compare(doubtOf(found, now, greatest(is)).add(besides)) > 0 && more.compare(0) > 0;
}

/**
 * Metal that went by itself, between the first reading and the last of one job: a drum that somebody turned and nobody wrote it. By a third of all that it may wear, and by twice what the gauges let
 * be, both of common practice. Of a sheet that was kept on behind a release, or whose counter went on, it is wear.
 */
export function shrunk({ job, story }: JobContext, final: Verdict): Reading | undefined {
  const { limit, place, reading, stage, workedOut } = final;
  if (stage !== "final" || workedOut || isDifference(final) || limit.expression !== undefined || limit.setBy.length > 0 || !isCritical(job, limit))
    return undefined;
  const side = limit.worn === undefined || limit.new === undefined || story.earlierReleases.length > 0 ? undefined : sideOf(limit);
  if (side === undefined || isReasoned(reading)) return undefined;
  return againstFound(story, final).find(
    ({ found, now }) =>
      hasShrunk(found, now, side) && isLeftAlone(job, story, limit, found, final, hasShrunk(found, now, side, caked)) && !isToldAsWork(story, limit, place),
  )?.found;
}

/** Work by so much, of which the words name what is read, and the figures are those of before to the last place: it was done on another, or read of none. */
export function uncut({ job, story }: JobContext, final: Verdict): { readonly found: Reading; readonly at: Where } | undefined {
  const { limit, place, stage, workedOut, seq } = final;
  if (stage !== "final" || workedOut || isDifference(final) || limit.expression !== undefined || limit.setBy.length > 0) return undefined;
  const side = sideOf(limit);
  const same = side === undefined ? [] : againstFound(story, final).filter(({ found, now }) => !isReasoned(now) && isSameToTheLast(found, now));
  const [first] = same;
  if (first === undefined) return undefined;
  const words = new Set(wordsOf(allWords(limit)));
  const isOfIt = (text: string) => cutBy.test(text) && wordsOf(text).some((word) => words.has(word) && !namingNothing.includes(word));
  for (const { text: name } of limit.of) {
    for (const { file, entry, detail, status, sentOn } of ordersOf(job).work.get(name) ?? []) {
      const since = sentOn ?? status?.date?.text;
      const isNamed = detail.places.length > 0 || place === "" || placesOf(job, limit).length < 2;
      if (status?.status !== "received" || !isNamed || !isAt(detail, place) || since === undefined || !isOfIt(detail.text?.value ?? "")) continue;
      if (first.found.day !== undefined && first.found.day < since && first.now.day !== undefined && first.now.day >= (status.date?.text ?? since))
        return { found: first.found, at: where(file, entry, detail.row, detail.part?.at ?? detail.keyword) };
    }
    for (const cell of story.cells(name)) {
      if ((cell.kind !== "part" && cell.kind !== "fastener") || cell.unsure || cell.place !== place) continue;
      const repair = (cell.history as readonly (PartMoment | FastenerMoment)[]).find(
        (it) => it.phase === "done" && it.seq > first.found.seq && it.seq < seq && it.verb === "repair" && isOfIt(it.action?.text?.value ?? ""),
      );
      if (repair !== undefined) return { found: first.found, at: repair.where };
    }
  }
  return undefined;
}

/** Skimmed, bored, ground by a figure; what is cut to a figure may have had it. */
const cutBy =
  /\b(skim\w*|turned|bored|ground|honed|reamed)( (out|down|off|true|oversize|under ?size))?( by)? (0?\.\d+|\d+(\.\d+)?) ?("|in\b|inch|mm\b|thou\b)(?! (max|under the|below|deep|wide))/iu;

function isSameToTheLast(found: Reading, now: Reading): boolean {
  const [was, is] = [valuesOf(found), valuesOf(now)];
  return was.length > 0 && was.length === is.length && was.every((it, i) => it.compare(is[i] as Exact) === 0);
}

/** No dirt that a gauge was read over is thicker: half a millimetre. Common practice. */
const caked = (quantity("0.5", "mm") as Measured).value;

function hasShrunk(found: Reading, now: Reading, side: Side, besides: Exact = zero): boolean {
  if (found.spots.length === 0 || now.spots.length === 0 || found.stood !== now.stood) return false;
  const [was, is] = [valuesOf(found), valuesOf(now)];
  const less = side === "outside" ? least(was).sub(greatest(is)) : least(is).sub(greatest(was));
  const [fresh, worn] = [bandOf(found.stood.new), bandOf(found.stood.worn)];
  const [whole, end] = side === "outside" ? [fresh?.low, worn?.low] : [fresh?.high, worn?.high];
  if (whole === undefined || end === undefined) return false;
  const allowed = end.sub(whole).abs();
  return less.mul(3).compare(allowed) >= 0 && less.compare(doubtOf(found, now, greatest(is)).mul(2)) > 0 && less.compare(besides) > 0;
}

/** A cut that some line of the sheet tells of, in any words that name it; a line of work on the other side alone is not of this one. */
function isToldAsWork(story: Story, limit: Limit, place: string): boolean {
  const words = new Set(limit.of.flatMap(({ text }) => wordsOf(`${text} ${story.job.things.get(text)?.title ?? ""}`)).concat(wordsOf(limit.title ?? "")));
  const isElsewhere = (line: object) =>
    "verb" in line && "places" in line && Array.isArray(line.places) && line.places.length > 0 && !line.places.some((it: Name) => isSamePlace(it.text, place));
  for (const word of "on in it the their of at to up down by for from and with all each its".split(" ")) words.delete(word);
  return story.job.own.sheet.entries.some(
    (entry) => toldIn.has(entry.kind) && wordsIn(entry, isElsewhere).some((text) => givesSize(text) && wordsOf(text).some((word) => words.has(word))),
  );
}

/** Where work is told; a declaration calls a bore a bore. */
const toldIn: ReadonlySet<string> = new Set(["step", "finding", "measure", "seen", "order", "question", "pause", "note", "release"]);

const valuesOf = (it: Reading): Exact[] => it.spots.map(({ value }) => value);

function doubtOf(found: Reading, now: Reading, at: Exact): Exact {
  const [one, other] = [found, now].map((it) => uncertaintyOf(it.gauge, at));
  return one === undefined || other === undefined ? ofNoGauge : one.add(other);
}

/**
 * How far two pieces clear one another, less than half of what was found and by more than the gauges let be, where neither is new nor was worked on: slack is wear, and no wear goes back.
 * Asked of what is worn to a greatest figure and stands with the pieces; a float or a lash is another each time that it is put together.
 */
export function closed({ job, story }: JobContext, final: Verdict): Reading | undefined {
  const { limit, reading, stage, workedOut } = final;
  if (stage !== "final" || workedOut || limit.expression !== undefined || limit.setBy.length > 0 || isDifference(final) || !isCritical(job, limit))
    return undefined;
  if (limit.worn === undefined || bandOf(limit.worn)?.high === undefined || !isOfFit(limit) || isReasoned(reading)) return undefined;
  const found = foundBefore(story, final, reading.position);
  if (found === undefined || isReasoned(found) || found.spots.length === 0 || reading.spots.length === 0 || found.stood !== reading.stood) return undefined;
  const [was, is] = [least(found.spots.map(({ value }) => value)), greatest(reading.spots.map(({ value }) => value))];
  if (is.compare(0) < 0 || is.mul(2).compare(was) >= 0) return undefined;
  const [one, other] = [uncertaintyOf(found.gauge, was), uncertaintyOf(reading.gauge, is)];
  if (was.sub(is).compare(one === undefined || other === undefined ? ofNoGauge : one.add(other)) <= 0) return undefined;
  return isFitLeftAlone(job, story, limit, found, final) ? found : undefined;
}

/** “Clearance”, “brass on its journal”: what the pieces are worn to. */
function isOfFit(limit: Limit): boolean {
  const words = allWords(limit);
  return (
    (isInFixedGuides(limit) || (!isReadTogether(limit) && !isBetweenPieces(limit))) &&
    /\b(clearances?|(on|in) (its|the|their) (journal|pin|shaft|bush|bore|spindle|bearing|axle|guide|horn|slide|eye|fork)s?)\b/iu.test(words)
  );
}

/**
 * What it is of was sent nowhere, decided on nothing and is the same; and so is all that it is mounted with, or that its words may mean: a journal that was sprayed. A shim makes
 * it another.
 */
function isFitLeftAlone(job: Job, story: Story, limit: Limit, found: Reading, { seq }: Verdict): boolean {
  const { place } = found;
  const own = limit.of.flatMap(({ text }) => job.things.get(text) ?? []);
  const ofOwn = new Set([...own.flatMap((it) => wordsOf(allWords(it))), ..."on in it the their of at to up down side across between and".split(" ")]);
  const others = wordsOf(allWords(limit)).filter((word) => !ofOwn.has(word));
  const isMeant = (text: string) => wordsOf(text).some((word) => others.includes(word));
  const meant = [...job.things.values()].filter((it) => !own.includes(it) && (it.kind === "part" || it.kind === "fastener") && isMeant(allWords(it)));
  const mounted = own.flatMap((it) => [
    ...[...mountedWith(job, it)].filter((name) => mayTakeUp(limit, job.things.get(name) ?? it)),
    ...(it.kind === "part" ? [...it.matchedWith, ...it.heldBy].map(({ text }) => text) : []),
  ]);
  const names = new Set(
    [...limit.of, ...limit.with]
      .map(({ text }) => text)
      .concat(
        mounted,
        meant.map(({ name }) => name),
      ),
  );
  if ([...names].some((name) => job.things.get(name)?.kind === "shims" || /shim|packing|liner/iu.test(name) || isAnewSince(story, name, place, found)))
    return false;
  if (workTexts(story).some((it) => isSamePlace(it.place, place) && isMeant(it.text))) return false;
  return limit.of.every(({ text }) =>
    piecesAt(story, text, place).every((cell) => {
      if (cell.unsure || cell.thing.implied || (ordersOf(job).work.get(text) ?? []).some(({ detail }) => isAt(detail, place))) return false;
      if (
        (findingsOf(story).get(text) ?? []).some((it) => it.decision !== undefined && it.decision.detail.decision !== "reuse" && it.places.includes(cell.place))
      )
        return false;
      return (cell.history as readonly (PartMoment | FastenerMoment)[]).every(
        (it) => it.seq > seq || !(it.verb === "fit" && (it.isNew || it.from !== undefined)),
      );
    }),
  );
}

/** The words of all work, here and outside, and where it was done. */
const workTexts = memo((story: Story): readonly { readonly text: string; readonly place: string }[] => [
  ...[...ordersOf(story.job).work.values()]
    .flat()
    .flatMap(({ detail: { text, places } }) => (places.length === 0 ? [""] : places.map((it) => it.text)).map((place) => ({ text: text?.value ?? "", place }))),
  ...[...story.parts, ...story.fasteners].flatMap(({ history, place }) =>
    (history as readonly (PartMoment | FastenerMoment)[]).flatMap(({ verb, action }) =>
      verb === "repair" ? [{ text: action?.text?.value ?? "", place }] : [],
    ),
  ),
]);

/** Filed at their joint, two halves close on a smaller bore. */
const jointCut = /\b(faces?|joints?|caps?|halves|half|butts?|shims?|nip|clos\w*|ends?|edges?)\b/iu;

/** All that was done to what it is of between the two took metal off, and something was. */
function isOnlyCutBetween(
  job: Job,
  story: Story,
  limit: Limit,
  out: { readonly seq: number; readonly place: string },
  later: Verdict,
  isCut: (text: string) => boolean,
): boolean {
  let cut = false;
  for (const { text: name } of limit.of) {
    for (const cell of piecesAt(story, name, out.place)) {
      if (cell.unsure) return false;
      for (const it of momentsOf(cell)) {
        if (it.phase !== "done" || it.seq < out.seq || it.seq > later.seq) continue;
        if (it.verb === "fit" && (it.isNew || it.action?.from !== undefined)) return false;
        if (it.verb !== "repair") continue;
        const text = it.action?.text?.value ?? "";
        if (mendsNothing(text)) continue;
        if (!isCut(text)) return false;
        cut = true;
      }
    }
    for (const { detail, status } of ordersOf(job).work.get(name) ?? []) {
      const text = detail.text?.value ?? "";
      if (status?.status !== "received" || !isAt(detail, out.place) || mendsNothing(text) || isWorkElsewhere(job, limit, name, text)) continue;
      if (!isCut(text)) return false;
      cut = true;
    }
  }
  return cut;
}

/**
 * A crack that was cut out, a face that is true again, a shaft that was straightened: none has more metal than before. What was cut may stand before the word: “spindle polished”. Of a size over
 * the metal, bushes that went into a bore say nothing.
 */
function takesMetalOff(text: string, side: Side): boolean {
  return (
    addsNothing(text) ||
    onlyCuts(
      (side === "outside" ? text.replace(bushesIn, " ") : text)
        .replace(bluings, " ")
        .replace(/\b(to|for) (the |its |their |our |each )?new [\w-]+/giu, " ")
        .replace(/\b(straight\w*|trued?)\b/giu, " ")
        .replace(cutPiece, "$1")
        .replace(/\bline[- ]?(?=ream|bor|hon)/giu, " ")
        .replace(/\bbor(ed?|ing)\b/giu, "reamed")
        .replace(/\b(out|away|past|beyond|below|true|flat|square|parallel|blended|blend)\b/giu, " "),
    )
  );
}

const bushesIn = /\b(press|fit|put|driv|drove|push)\w* (\w+ ){0,3}bush(es)?( in)?\b|\b(re-?)?bush(ed|ing)?\b|\bdrill(ed|ing)?\b[^,;.]*/giu;
/** How often it was tried in blue. */
const bluings =
  /(^|[,;:]|\band\b)\s*((an?|one|two|three|four|five|six|seven|eight|many|several|\d+) )?(blu(e|ed|es|ing|ings)|passes|goes|times)( each| in all| over)?\s*(?=$|[,;.])/giu;

const cutPiece =
  /(^|[,;:.&+]|\band\b)\s*(?:the |its )?(?:spindle|journal|pin|shaft|seat|taper|face|bore|stem|skirt|disc|drum|rim)s? (?:was |were )?(?=(?:lightly )?(?:polish|ground|skimm|turned|honed|lapped|reamed|dressed|linished)\w*)/giu;

type Side = "outside" | "inside";

/** Of what is measured over the metal, and of what is measured inside it: by the last such word of what the limit is called. */
function sideOf(limit: Limit): Side | undefined {
  const called = `${limit.name.replaceAll("-", " ")}, ${limit.title ?? ""}`;
  // So many pitches of a chain are longer by what its pins have worn.
  if (chain.test(called) && overLinks.test(called) && bandOf(limit.worn)?.low === undefined) return "inside";
  if (gap.test(called)) return undefined;
  if (left.test(called)) return "outside";
  const words = wordsOf((limit.title ?? limit.name).split(/[,;(]| where | at which | under which /)[0] as string);
  const word = words.findLast((it) => outside.has(it) || inside.has(it));
  if (word !== undefined) return outside.has(word) ? "outside" : "inside";
  // What wears to a least size is measured over what is left of it: a link, a tooth, a leaf. A spring sags, and is long again.
  const worn = bandOf(limit.worn);
  return worn?.low !== undefined && worn.high === undefined && worn.unit.dimension === "length" && !sags.test(called) ? "outside" : undefined;
}

const chain = /\bchains?\b/iu;
const overLinks = /\b(pitches|links|stretch\w*|elongation)\b/iu;
/** Of what wears away, how much there is. */
const left = /\b(metal|lining|material|wall|meat) (\w+ )?(left|above|over|remaining)\b|\bthick(ness)?\b/iu;
const sags = /\b(springs?|length|long|leaf spring|camber|arch|level|depth|height|tension|belt|cord|rope|cable|hose|tyre|tread)\b/iu;
const outside: ReadonlySet<string> = new Set(
  "shaft pin journal spindle skirt stem spigot crankpin axle thickness disc rotor trunnion ram rod stub kingpin shank".split(" "),
);
const inside: ReadonlySet<string> = new Set("bore hole drum bush eye liner cylinder".split(" "));
const gap =
  /\b(clearances?|gaps?|floats?|play|(back)?lash|fits?|interference|depths?|grooves?|slots?|keyways?|recess\w*|run-? ?out|twist\w*|bends?|bent|bow|bowed|shake|lift|travel|taper\w*|oval\w*|round|angles?|pitch|distance|centres?|pressure|torque|protru\w*|stand-?off|lips?|ridges?|steps?|burrs?|heights?|flat\w*|square\w*|warp\w*|rough\w*|finish|in (its|the|a)\b)/iu;
