// The line through a limit's readings, over days or over the counter, and when the limit would be reached if all went on so: an estimate, with its doubt, or why there is none.
// Invariant: exact up to the roots that are shown. An estimate is called one; with too few readings, or where they scatter more than they move, none is given.
import { addDays, daysBetween } from "../../quantities/days.ts";
import { type Exact, compare, decimalText, plainText, ratio, rootTo, significantText, zero } from "../../quantities/exact.ts";
import type { Band } from "../../quantities/range.ts";
import { type StraightLine, crossing, predictionSquared, straightLine, varianceAbout } from "../../quantities/straight-line.ts";
import { student95 } from "../../quantities/student.ts";
import { resolutionSquared } from "../../quantities/uncertainty.ts";
import type { Unit } from "../../quantities/units.ts";
import { counted } from "../../rules/wording.ts";
import type { Point } from "./points.ts";
import type { Estimate, Trend } from "./shapes.ts";

/** How x is counted: whole days from the first reading, or the counter in the base unit of its dimension. */
interface Axis {
  readonly unit: string;
  /** One of the unit in x. */
  readonly one: Exact;
  /** For the change that is told: so many of the unit, and how that is called. */
  readonly per: Exact;
  readonly perWords: string;
  readonly x: (it: Point) => Exact | undefined;
  readonly show: (x: Exact) => string | undefined;
}

/** `points`: since it became another. `first`: the day from which days are counted. `band`: the limit that it would reach; undefined where none is declared. `unit`: of the limit. */
export function trendOverDays(points: readonly Point[], first: string | undefined, band: Band | undefined, unit: Unit): Trend {
  const day = ratio(1);
  return trend(points, band, unit, {
    unit: "d",
    one: day,
    per: ratio(365),
    perWords: "a year",
    x: (it) => {
      const days = first === undefined || it.day === undefined ? undefined : daysBetween(first, it.day);
      return days === undefined ? undefined : ratio(days);
    },
    // A month is as near as such a line can tell.
    show: (x) => (first === undefined ? undefined : addDays(first, Number(decimalText(x, 0)))?.slice(0, 7)),
  });
}

export function trendOverCounter(points: readonly Point[], band: Band | undefined, unit: Unit): Trend {
  const counter = points.findLast((it) => it.counter !== undefined)?.counter?.unit;
  if (counter === undefined) return without(null, 0, "No counter is written with its readings.");
  const per = counter.dimension === "time" ? ratio(100) : ratio(1000);
  return trend(points, band, unit, {
    unit: counter.spelling,
    one: counter.factor,
    per: per.mul(counter.factor),
    perWords: `${plainText(per)} ${counter.spelling}`,
    x: (it) => (it.counter?.unit.dimension === counter.dimension ? it.counter.value : undefined),
    show: (x) => `${significantText(x.div(counter.factor), 3)} ${counter.spelling}`,
  });
}

function without(unit: string | null, readings: number, words: string): Trend {
  return { unit, readings, slope: null, line: null, estimate: null, words };
}

function trend(points: readonly Point[], band: Band | undefined, unit: Unit, axis: Axis): Trend {
  const known = points.flatMap((it) => {
    const x = axis.x(it);
    return x === undefined ? [] : [{ x, y: it.verdict.value, it }];
  });
  const n = known.length;
  const line = straightLine(known.map(({ x, y }) => [x, y]));
  const variance = line === undefined ? undefined : varianceAbout(line);
  const t = student95(n - 2);
  if (line === undefined) return without(axis.unit, n, n < 2 ? tooFew(n) : `${counted(n, "reading")}, all at one time: no line goes through them.`);
  const slope = decimalText(line.slope.mul(axis.one).div(unit.factor), 12);
  if (variance === undefined || t === undefined) return { ...without(axis.unit, n, tooFew(n)), slope };
  // Readings that lie on a line by chance are no better known than the gauge and the last figure that it shows.
  const held = [variance, ...known.map(({ it }) => ownDoubt(it))].reduce((a, b) => (compare(b, a) > 0 ? b : a));
  const xs = known.map(({ x }) => x).sort(compare);
  const [from, to] = [xs[0] as Exact, xs.at(-1) as Exact];
  const shown = [from, to].map((x) => ({
    x: decimalText(x.div(axis.one), 6),
    y: decimalText(line.intercept.add(line.slope.mul(x)).div(unit.factor), 9),
    doubt: decimalText((rootTo(predictionSquared(line, held, t, x), 12) ?? zero).div(unit.factor), 9),
  }));
  const change = `It moved by ${signed(line.slope.mul(axis.per).div(unit.factor))} ${unit.spelling} in ${axis.perWords} (${counted(n, "reading")}).`;
  const { estimate, words } = reached(line, held, t, band, axis, known.at(-1)?.y as Exact, from, to);
  return { unit: axis.unit, readings: n, slope, line: shown, estimate: estimate ?? null, words: `${change} ${words}` };
}

function tooFew(n: number): string {
  return `${counted(n, "reading")} since it was new or set: too few for an estimate, which needs three.`;
}

/** Square of the standard uncertainty of one reading: half of U, and never less than the last figure that was read. */
function ownDoubt({ verdict }: Point): Exact {
  const figure = verdict.reading.spots[0]?.figures[0];
  const step = figure === undefined || figure.places < 0 ? zero : figure.unit.factor.div(10 ** figure.places);
  const last = resolutionSquared(step);
  const gauge = verdict.uncertaintySquared?.div(4) ?? zero;
  return compare(gauge, last) > 0 ? gauge : last;
}

/** So many times the span of the readings ahead of the last of them nothing is told: a line is no prophet. */
const furthest = 3;

function reached(
  line: StraightLine,
  variance: Exact,
  t: Exact,
  band: Band | undefined,
  axis: Axis,
  last: Exact,
  from: Exact,
  to: Exact,
): { readonly estimate?: Estimate; readonly words: string } {
  if (band === undefined) return { words: "No limit of wear is declared that it could reach." };
  const rising = compare(line.slope, zero) > 0;
  const end = rising ? band.high : band.low;
  const past = (band.high !== undefined && compare(last, band.high) > 0) || (band.low !== undefined && compare(last, band.low) < 0);
  if (past) return { words: "The last reading is past it already." };
  const at = crossing(line, end ?? zero, variance, t, 6);
  if (at === undefined) return { words: "The readings scatter more than they move: no estimate." };
  if (end === undefined) return { words: "It moves away from its limit." };
  const about = axis.show(at.at);
  const [earliest, latest] = [axis.show(at.earliest), axis.show(at.latest)];
  const ahead = at.at.sub(to);
  if (about === undefined || earliest === undefined || compare(ahead, to.sub(from).mul(furthest)) > 0)
    return { words: `Its limit is further off than ${furthest} times what the readings span: no estimate.` };
  if (compare(ahead, zero) <= 0) return { words: "By the line through its readings it is there already, though the last reading is not: measure it." };
  return {
    estimate: { about, earliest, latest: latest ?? null, x: decimalText(at.at.div(axis.one), 6) },
    words: `Estimate, not a limit: at this rate ${band.text} is reached about ${about}, by single readings from ${earliest}${latest === undefined ? "" : ` to ${latest}`} (95 %). Measure it.`,
  };
}

function signed(x: Exact): string {
  const text = significantText(x.abs(), 2);
  return compare(x, zero) < 0 ? `\u2212${text}` : `+${text}`;
}
