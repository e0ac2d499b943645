// Which bands a limit has at a stage, and what one value is against them, to within the doubt of its gauge (ISO 14253-1).
// Invariant: exact; doubt condemns nothing.
import { allWords } from "../model/titles.ts";
import type { Stage } from "../../grammar/tree.ts";
import { memo } from "../model/memo.ts";
import type { Gauge, Limit } from "../model/things.ts";
import { bandOf, figureValue, measured } from "../model/values.ts";
import { type Exact, isNegative } from "../quantities/exact.ts";
import { type Measured, asDifference, quantity } from "../quantities/quantity.ts";
import { type Band, beyond, inside, verdict as compare } from "../quantities/range.ts";
import type { Reading, Spot } from "./story.ts";
import type { BandName, Verdict } from "./verdict.ts";
import { least } from "./worked-out.ts";

/** Only a limit whose own bands go below zero, or one that is worked out or has two directions (toe in and out, an angle), may read below zero. */
export function canBeNegative(limit: Limit): boolean {
  if (limit.expression !== undefined || twoWays.test(allWords(limit))) return true;
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
  /\b(toe(-?(in|out))?(?! of )|camber|cast[oe]r|tracking|lead(?!.?screw)|twist|offset|off ?set|step(?!.?(bearing|pad|nut))|proud|flush|protru\w+|stands? (out|proud|in)|difference|lean|tilt|sag|alignment|out of (line|level|square|plumb)|lower than|higher than)\b/i;

/** One of its bounds is at zero or below: an interference, a preload. */
export function knowsNegative(limit: Limit): boolean {
  return [bandOf(limit.new), bandOf(limit.worn), bandOf(limit.set)].some(
    (band) => band !== undefined && ((band.low !== undefined && isNegative(band.low)) || (band.high !== undefined && band.high.compare(0) <= 0)),
  );
}

export function squared(value: Exact | undefined): Exact | undefined {
  return value === undefined ? undefined : value.mul(value);
}

/** How far two readings of one size may lie apart of which no gauge is told: two hundredths of a millimetre, what a hand makes of one micrometer. Common practice. */
export const ofNoGauge: Exact = (quantity("0.02", "mm") as Measured).value;

/** Expanded (k = 2), in base units, of a gauge at this reading; of both, where an amount and a share of the reading are given, the sum. */
export function uncertaintyOf(gauge: Gauge | undefined, value: Exact): Exact | undefined {
  const amount = measured(gauge?.uncertainty);
  const share = figureValue(gauge?.uncertaintyShare?.figure);
  const own = amount === undefined ? undefined : asDifference(amount);
  const of = share === undefined ? undefined : value.abs().mul(share.abs()).div(100);
  return own === undefined ? of : of === undefined ? own : own.add(of);
}

/** Whether what a reading is of was renewed: of a fit, one half may be new and the other run in. `mended`: nothing new, and worked on to make it fit; `remade`: given new metal, and fitted. */
export type Renewed = "none" | "mended" | "remade" | "some" | "all";

export const isNew = (renewed: Renewed) => renewed === "some" || renewed === "all" || renewed === "remade";

/** Which bands a stage is judged against, in order. */
export function bandsFor(limit: Limit, stage: Stage, renewed: Renewed): { name: "worn" | "set" | "new"; band: Band }[] {
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
    if (fresh !== undefined && half === undefined && (isNew(renewed) || worn === undefined)) list.push({ name: "new", band: fresh });
    // What is inside of both is told by the side to which it wears: of two such the first names the worst figure.
    if (worn !== undefined) list.push({ name: "worn", band: worn });
    if (half !== undefined) list.push({ name: "new", band: half });
    // What somebody worked on has the size that he gave it: on the side where nothing wears there is no width to spare.
    const unworn = renewed === "none" ? unwornBand(limit) : renewed === "mended" ? withoutWear(limit) : undefined;
    if (unworn !== undefined) list.push({ name: "new", band: unworn });
  }
  return list;
}

type Bands = ReturnType<typeof bandsFor>;

/** Of a fit half new of which every figure is as made, that is told first. */
export function asMadeFirst(bands: Bands, { new: made }: Limit, renewed: Renewed, values: readonly Exact[]): Bands {
  const fresh = bandOf(made);
  if (renewed !== "some" || fresh === undefined || !values.every((it) => inside(fresh, it))) return bands;
  return [...bands.filter((it) => it.name === "new"), ...bands.filter((it) => it.name !== "new")];
}

/**
 * As made, on the side to which nothing wears: a bore gets no smaller and a lining no thicker. A figure beyond `new` there by more than the width of `new` is
 * of another part, of parts that don't go together, or a slip. Undefined where wear is bounded on both sides or `new` is not. The width, and the half of a clearance, are our
 * own measure, wide so as not to speak of a gauge's doubt.
 */
export const unwornBand = memo((limit: Limit): Band | undefined => {
  const worn = bandOf(limit.worn);
  const fresh = bandOf(limit.new);
  if (worn === undefined || fresh?.low === undefined || fresh.high === undefined) return undefined;
  const width = fresh.high.sub(fresh.low);
  const { unit, text } = fresh;
  if (worn.low === undefined && worn.high !== undefined) {
    // A clearance as wide as it is narrow would be let go to nothing: at half of the least that it was made with something binds, or is not home.
    const half = fresh.low.div(2);
    const low = fresh.low.sub(width);
    return { low: !isNegative(half) && half.compare(low) > 0 ? half : low, unit, text };
  }
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

export function rank(name: BandName, outcome: Verdict["outcome"]): number {
  if (outcome === "out") return name === "new" ? 2 : 5;
  if (outcome === "doubt") return name === "new" ? 1 : 4;
  return 0;
}

export interface Judgement {
  readonly name: "worn" | "set" | "new";
  readonly band: Band;
  readonly outcome: Verdict["outcome"];
  readonly rank: number;
  readonly excess: Exact;
}

/** The gravest of the bands' judgements on one value. */
export function judgeValue(
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
    if (outcome === "doubt" && name === "new" && (stage === "found" || renewed === "mended" || renewed === "remade")) outcome = "in";
    const it = {
      name,
      band,
      outcome,
      // At a final it is asked what went in, and no doubt of one figure hides another that is out for certain.
      rank: rank(name, outcome) + (name === "new" && stage !== "found" && outcome !== "in" ? (outcome === "doubt" ? 2 : 1.5) : 0),
      excess: beyond(band, value),
    };
    if (gravest === undefined || it.rank > gravest.rank) gravest = it;
  }
  return gravest;
}

const judgedSpots = new WeakMap<Spot, { limit: Limit; gauge: Gauge | undefined; stage: Stage; renewed: Renewed; judgement: Judgement | undefined }>();

/** The judgement on one spot: it hangs on the spot, its limit and its gauge alone, and is remembered with the spot. */
export function judgeSpot(bands: ReturnType<typeof bandsFor>, spot: Spot, { stood: limit, gauge, stage }: Reading, renewed: Renewed): Judgement | undefined {
  let it = judgedSpots.get(spot);
  if (it === undefined || it.limit !== limit || it.gauge !== gauge || it.stage !== stage || it.renewed !== renewed) {
    it = { limit, gauge, stage, renewed, judgement: judgeValue(bands, spot.value, uncertaintyOf(gauge, spot.value), stage, renewed) };
    judgedSpots.set(spot, it);
  }
  return it.judgement;
}

/** Of two alike, the one that is further out, or nearer to the edge. */
export function nearer(a: Judgement, valueA: Exact, b: Judgement, valueB: Exact): boolean {
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
