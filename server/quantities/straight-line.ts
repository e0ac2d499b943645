// The straight line that lies best through points (least squares), how far single readings lie from it, and where it comes to a level, with the doubt of that.
// Invariant: exact; a root is taken only of what is shown, to as many decimals as are asked for.
import { type Exact, compare, one, rootTo, sumOf, zero } from "./exact.ts";

export type Point = readonly [x: Exact, y: Exact];

export interface StraightLine {
  readonly n: number;
  readonly slope: Exact;
  readonly intercept: Exact;
  readonly meanX: Exact;
  readonly meanY: Exact;
  /** Sum of squares of x about its mean. */
  readonly sxx: Exact;
  /** Sum of the squares that are left. */
  readonly residual: Exact;
}

/** y = intercept + slope · x. Undefined unless two points differ in x. */
export function straightLine(points: readonly Point[]): StraightLine | undefined {
  const n = points.length;
  if (n < 2) return undefined;
  const meanX = sumOf(points.map(([x]) => x)).div(n);
  const meanY = sumOf(points.map(([, y]) => y)).div(n);
  const sxx = sumOf(points.map(([x]) => square(x.sub(meanX))));
  if (sxx.n === 0n) return undefined;
  const slope = sumOf(points.map(([x, y]) => x.sub(meanX).mul(y.sub(meanY)))).div(sxx);
  const intercept = meanY.sub(slope.mul(meanX));
  const residual = sumOf(points.map(([x, y]) => square(y.sub(slope.mul(x)).sub(intercept))));
  return { n, slope, intercept, meanX, meanY, sxx, residual };
}

/** Square of the standard deviation of the readings about the line, n − 2 degrees of freedom. Undefined of two points. */
export function varianceAbout(line: StraightLine): Exact | undefined {
  return line.n < 3 ? undefined : line.residual.div(line.n - 2);
}

/** Square of the half width of the interval in which one more reading at x is expected (prediction interval), for a variance about the line and Student's t. */
export function predictionSquared(line: StraightLine, variance: Exact, t: Exact, x: Exact): Exact {
  return square(t)
    .mul(variance)
    .mul(one.add(one.div(line.n)).add(square(x.sub(line.meanX)).div(line.sxx)));
}

export interface Crossing {
  /** Where the line itself comes to the level. */
  readonly at: Exact;
  /** Where the edges of the prediction interval come to it: between these a single reading may. Rounded to `places` decimals. */
  readonly earliest: Exact;
  readonly latest: Exact;
}

/**
 * Where the line comes to a level, with the doubt of that (calibration by a straight line, read backwards: the x at which |line − level| is the half width of the
 * prediction interval). Undefined where the slope does not differ from none by more than its doubt: then no such interval ends.
 */
export function crossing(line: StraightLine, level: Exact, variance: Exact, t: Exact, places: number): Crossing | undefined {
  const { n, slope, meanX, meanY, sxx } = line;
  const k = square(t).mul(variance);
  const a = square(slope).sub(k.div(sxx));
  if (compare(a, zero) <= 0) return undefined;
  const d = level.sub(meanY);
  const m = one.add(one.div(n));
  // (slope · u − d)² = k (m + u²/sxx), with u = x − mean x.
  const middle = slope.mul(d).div(a);
  const half = rootTo(k.mul(m.mul(a).add(square(d).div(sxx))).div(square(a)), places) ?? zero;
  return { at: meanX.add(d.div(slope)), earliest: meanX.add(middle).sub(half), latest: meanX.add(middle).add(half) };
}

function square(x: Exact): Exact {
  return x.mul(x);
}
