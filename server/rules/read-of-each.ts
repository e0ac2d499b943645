// Whether what is so many times at each place was read as often: what one bush measures says nothing of the other.
// Invariant: of what was read; that nothing was read at all is for the rules that ask for a reading.
import { wholeNumber } from "../model/declare.ts";
import { grouped } from "../model/grouped.ts";
import { isAt, ordersOf } from "../model/orders.ts";
import { isCritical } from "../model/relations.ts";
import { isSamePlace } from "../model/same-place.ts";
import type { Limit } from "../model/things.ts";
import { bandOf } from "../model/values.ts";
import { inside } from "../quantities/range.ts";
import { readingsOn } from "../story/looked-up.ts";
import { isAnewSince } from "../story/put-right.ts";
import { isDifferenceAlone, sittingOf } from "../story/sittings.ts";
import type { FastenerCell, PartCell, Reading, Spot, Story } from "../story/story.ts";
import type { Verdict } from "../story/verdict.ts";

/** Fewer figures than there are at that place; where all were read as found, fewer than were moved, renewed or found outside. */
export function isShort(story: Story, limit: Limit, place: string, read: readonly Reading[]): boolean {
  const each = eachOf(story, limit, place);
  if (each === 1 || read.length === 0 || limit.expression !== undefined) return false;
  const ends = read.every((it) => it.position !== undefined) ? limit.positions.length : 1;
  if (figuresIn(read) >= each * ends) return false;
  const finals = read.filter((it) => it.stage === "final");
  const [first] = finals;
  if (first === undefined) return true;
  const before = readingsOn(story, limit.name).filter((it) => it.stage === "found" && it.place === place && it.seq < first.seq);
  const last = before.at(-1);
  if (last === undefined || figuresIn(before) < each * ends) return true;
  return figuresIn(finals) < Math.max(movedSince(story, limit, place, last.seq, each) * ends, outsideIn(before));
}

/** All of them were read, then so many were moved, and fewer read since: the others stand as they were left, and nobody knows how. */
export function isShortSince(story: Story, limit: Limit, place: string, read: readonly Reading[]): boolean {
  const each = eachOf(story, limit, place);
  const [first] = read;
  if (each === 1 || first === undefined) return false;
  const ends = read.every((it) => it.position !== undefined) ? limit.positions.length : 1;
  const before = readingsOn(story, limit.name).filter((it) => it.stage !== "trial" && it.place === place && it.seq < first.seq);
  const last = before.at(-1);
  return last !== undefined && figuresIn(before) >= each * ends && figuresIn(read) < movedSince(story, limit, place, last.seq, each) * ends;
}

/**
 * How many there are of a limit at a place: as it says itself; else those of the one thing that it is of, where that was read piece by piece as it was found. Of two, two
 * figures may well be two diameters, unless it is read at one point.
 */
export function eachOf(story: Story, limit: Limit, place: string): number {
  if (limit.perPlace !== undefined && limit.perPlace > 1) return limit.perPlace;
  const bolts = boltsOf(story, limit, place);
  if (bolts > 1) return bolts;
  const [name, other] = limit.of;
  if (name === undefined || other !== undefined || limit.setBy.length > 0 || limit.positions.length > 0) return 1;
  const all = story
    .cells(name.text)
    .reduce((sum, cell) => sum + ((cell.kind === "part" || cell.kind === "fastener") && (cell.place === place || cell.place === "") ? cell.total : 0), 0);
  const isSo = readingsOn(story, limit.name).some(
    (it) => it.stage === "found" && it.place === place && it.spots.length === all && it.spots.every((spot) => !spot.again),
  );
  return isSo && (all > 2 || (all === 2 && onePoint.test(limit.title ?? ""))) ? all : 1;
}

/** A size of a fastener, or how far one is stretched, is of each of them: one figure for six bolts is one bolt. One where its title says that it is of the worst of them. */
function boltsOf(story: Story, limit: Limit, place: string): number {
  const [name, other] = limit.of.length > 0 ? limit.of : stretch.test(limit.title ?? "") ? limit.setBy : [];
  const isAlone = name !== undefined && other === undefined && (limit.setBy.length === 0 || stretch.test(limit.title ?? ""));
  if (!isAlone || story.job.things.get(name.text)?.kind !== "fastener" || limit.positions.length > 0 || ofOne.test(limit.title ?? "")) return 1;
  return story.cells(name.text).reduce((sum, cell) => sum + (cell.kind === "fastener" && isSamePlace(cell.place, place) ? cell.total : 0), 0);
}

const stretch =
  /\b(bolts?|studs?|nuts?|screws?)\b.*\b(stretch\w*|elongation|extension)\b|\b(stretch|elongation|extension) of (the |each )?[\w -]*\b(bolt|stud|screw)s?\b/iu;
const ofOne = /\b(longest|shortest|worst|least|thinnest|most|mean|average|any|one) (of|one|bolt|stud|pin|in)\b/iu;

/** Where each is read at one point, two figures are two of them. */
const onePoint = /\b(at (its|the) (middle|cent(re|er)|worst|thinnest|narrowest)|(thinnest|worst|narrowest) (place|point|part|spot)|least|thinnest)\b/i;

/**
 * Whether what was outside was read again at each end where it was so, or by a figure that is of no end, and of as many of them as were so: the other one says nothing of it.
 * A taper or a spread is of all that was read for it, at each place where it is told over the places. What was tried is read again by a final.
 */
export function isReadAgainThere(story: Story, { limit, place, stage, seq, reading, band, against, workedOut }: Verdict): boolean {
  if (workedOut) return true;
  const own = readingsOn(story, limit.name).filter((it) => it.place === place || reading.place !== place);
  const outAt = grouped(
    own.filter((it) => it.entry === reading.entry && (it === reading || it.spots.some((spot) => isOutBy(band, against, spot)))),
    (it) => `${it.place} ${it.position ?? ""}`,
  );
  return [...outAt.values()].every((out) => {
    const [{ place: at, position: end }] = out as readonly [Reading, ...Reading[]];
    const later = own.filter(
      (it) =>
        (it.stage === stage || (stage === "trial" && it.stage === "final")) &&
        it.seq > seq &&
        it.place === at &&
        (it.position === end || it.position === undefined || end === undefined),
    );
    const count = out.reduce((sum, it) => sum + it.spots.filter((spot) => isOutBy(band, against, spot)).length, 0);
    return figuresIn(later) >= (eachOf(story, limit, at) === 1 ? 1 : Math.max(1, count));
  });
}

/** A taper or a spread is of all that was read for it; of an ovality only its own end is. */
function isOutBy(band: Verdict["band"], against: Verdict["against"], { value }: Spot): boolean {
  return band === "taper" || band === "spread" || (band !== "ovality" && !inside(against, value));
}

/** The positions, not declared by the limit, at which one measure read it outside. */
export function endsOutside(story: Story, { limit, place, reading, band, against }: Verdict): readonly string[] {
  if (reading.place !== place) return [];
  const out = readingsOn(story, limit.name).filter(
    (it) => it.entry === reading.entry && it.place === place && (it === reading || it.spots.some((spot) => isOutBy(band, against, spot))),
  );
  return endsOf(out);
}

/** The positions of its own at which a setting was found outside: set again, it is read there again. */
export function endsFoundOutside(story: Story, limit: Limit, place: string): readonly string[] {
  if (limit.positions.length > 0 || limit.setBy.length === 0) return [];
  const out = readingsOn(story, limit.name).filter(
    (it) => it.stage === "found" && it.position !== undefined && isSamePlace(it.place, place) && outsideIn([it]) > 0,
  );
  return endsOf(out);
}

/** Whether a final speaks for all of it: of no position, or of the worst of them. */
export function isOfAllEnds({ position }: Reading): boolean {
  return position === undefined || position === "worst";
}

/** Each once. The worst, or the thinnest, was wherever it was. */
function endsOf(read: readonly Reading[]): readonly string[] {
  return [...new Set(read.flatMap((it) => it.position ?? []))].filter((it) => !superlative.test(it));
}

const superlative = /^(?:worst|tightest|slackest|loosest|widest|narrowest|thickest|thinnest|highest|lowest|largest|smallest|deepest|most|least)$/;

export function figuresIn(read: readonly Reading[]): number {
  return read.reduce((sum, it) => sum + it.spots.length, 0);
}

/**
 * The last final of a limit that judges a difference alone, at a place where no final has two figures to differ. A spread of which each place has one figure is over the
 * places.
 */
export function readOnce(story: Story, limit: Limit): { readonly it: Reading; readonly what: string } | undefined {
  if ((limit.spread ?? limit.ovality ?? limit.taper) === undefined) return undefined;
  const what = limit.spread !== undefined ? "spread" : limit.ovality !== undefined ? "ovality" : "taper";
  const finals = readingsOn(story, limit.name).filter((it) => it.stage === "final");
  if (!isDifferenceAlone(limit)) return readOnceBeside(story, limit, finals, what);
  const differs = (it: Reading): boolean => {
    const beside = finals.filter((other) => sittingOf(story, other.entry) === sittingOf(story, it.entry));
    const here = beside.filter((other) => other.place === it.place);
    if (what === "ovality") return here.some((other) => figuresIn(here.filter((same) => same.position === other.position)) > 1);
    const isOverPlaces = what === "spread" && new Set(beside.map((other) => other.place)).size === beside.length && figuresIn(beside) === beside.length;
    return figuresIn(isOverPlaces ? beside : here) > 1;
  };
  for (const it of [...finals].reverse()) if (!finals.some((other) => other.place === it.place && differs(other))) return { it, what };
  return undefined;
}

/**
 * The same of a critical limit that judges a size as well: no figure beside the last one, of that place or of any, unless the difference was read as it was found and nothing was done to
 * the piece since, nor what sets it moved.
 */
function readOnceBeside(story: Story, limit: Limit, finals: readonly Reading[], what: string): { readonly it: Reading; readonly what: string } | undefined {
  if (!isCritical(story.job, limit)) return undefined;
  const it = finals.at(-1);
  if (it === undefined) return undefined;
  const beside = finals.filter((other) => what === "spread" || other.place === it.place);
  // Top and bottom tell of a taper. Of an ovality two figures of one of them tell.
  const figures = what === "ovality" ? beside.filter((other) => other.position === it.position) : beside;
  if (figuresIn(figures) > 1) return undefined;
  const found = readingsOn(story, limit.name).find(
    (was) =>
      was.stage === "found" &&
      was.place === it.place &&
      was.seq < it.seq &&
      figuresIn(readingsOn(story, limit.name).filter((one) => one.entry === was.entry)) > 1,
  );
  const isAsFound =
    found !== undefined && !limit.of.some(({ text }) => isAnewSince(story, text, it.place, found)) && movedSince(story, limit, it.place, found.seq, 1) === 0;
  return isAsFound ? undefined : { it, what };
}

/** Figures past their wear, or outside what it must be left at; of what has neither, outside new. */
function outsideIn(read: readonly Reading[]): number {
  return read.reduce((sum, { stood, spots }) => {
    const bands = [bandOf(stood.worn), bandOf(stood.set)].filter((it) => it !== undefined);
    const fresh = bands.length > 0 ? undefined : bandOf(stood.new);
    return sum + spots.filter(({ value }) => [...bands, ...(fresh === undefined ? [] : [fresh])].some((band) => !inside(band, value))).length;
  }, 0);
}

/** How many of them a move or a renewal since then reaches: all, where fewer things than that set or make them. */
function movedSince(story: Story, limit: Limit, place: string, seq: number, all: number): number {
  let most = 0;
  for (const [names, sets] of [[limit.setBy, true] as const, [limit.of, false] as const]) {
    for (const { text } of names) {
      for (const cell of story.cells(text)) {
        if ((cell.kind !== "part" && cell.kind !== "fastener") || (cell.place !== place && cell.place !== "" && place !== "")) continue;
        const moved = movedOf(cell, seq, sets);
        most = Math.max(most, moved > 0 && cell.total < all ? all : moved);
      }
      // What came back from work has another size, all of it where no count is written.
      for (const { detail, status } of sets ? [] : (ordersOf(story.job).work.get(text) ?? []))
        if (status?.status === "received" && isAt(detail, place)) most = Math.max(most, wholeNumber(detail.count?.text) ?? all);
    }
  }
  return Math.min(most, all);
}

/** What sets it: so many as any line since opened or turned. What it is of: so many as came new or repaired. */
function movedOf(cell: PartCell | FastenerCell, seq: number, sets: boolean): number {
  let turned = 0;
  let fresh = 0;
  for (const it of cell.history) {
    if (it.phase !== "done" || it.seq <= seq) continue;
    if (it.verb === "repair" || (it.verb === "fit" && it.isNew)) fresh += it.count;
    else if (sets && it.verb !== "found" && it.verb !== "lock" && it.verb !== "mark") turned = Math.max(turned, it.count);
  }
  return Math.max(turned, fresh);
}
