// Uncertainty of measurement: from what a gauge's maker says to one figure, and how parts combine (JCGM 100, the GUM).
// Invariant: works on squares, which are exact; a root is taken only to show one. Never presents an estimate as a limit.
import { type Exact, sumOf, zero } from "./exact.ts";
import type { Uncertainty } from "./range.ts";

/** How a half-width a is spread, and the square of its standard uncertainty over a² (JCGM 100, 4.3.7 and 4.3.9). */
const shares = { rectangular: 3, triangular: 6, arcsine: 2 } as const;

/** Square of the standard uncertainty of a half-width: a²/3, a²/6, a²/2. */
export function standardSquared(halfWidth: Exact, shape: keyof typeof shares): Exact {
  return halfWidth.mul(halfWidth).div(shares[shape]);
}

/** Square of the standard uncertainty of a digital step: step²/12, a rectangle half a step to either side. */
export function resolutionSquared(step: Exact): Exact {
  return standardSquared(step.div(2), "rectangular");
}

export interface Part {
  /** By how much the result changes for one unit of this part: its derivative. */
  readonly slope: Exact;
  readonly uncertainty: Uncertainty;
}

/** Root of the sum of squares of independent parts, each by its derivative (JCGM 100, 5.1.2), as a square. Expanded in, expanded out, if k is the same. */
export function combined(parts: readonly Part[]): { readonly squared: Exact } {
  return { squared: sumOf(parts.map(({ slope, uncertainty }) => slope.mul(slope).mul(squareOf(uncertainty)))) };
}

/** Expanded by a factor k: U = k·u. */
export function expanded(uncertainty: Uncertainty, k: Exact): { readonly squared: Exact } {
  return { squared: squareOf(uncertainty).mul(k).mul(k) };
}

/** Effective degrees of freedom, Welch–Satterthwaite (JCGM 100, G.4.1): u⁴/Σ(uᵢ⁴/νᵢ). Parts without degrees count as known for certain. */
export function effectiveDegrees(parts: readonly { readonly squared: Exact; readonly degrees?: number }[]): Exact | undefined {
  const whole = sumOf(parts.map((it) => it.squared));
  const weighed = sumOf(parts.map((it) => (it.degrees === undefined ? zero : it.squared.mul(it.squared).div(it.degrees))));
  return weighed.n === 0n ? undefined : whole.mul(whole).div(weighed);
}

/** Width of the tolerance over 2·U, the test uncertainty ratio of ANSI/NCSL Z540.3. 4 and more is comfortable. Undefined for U = 0. */
export function uncertaintyRatio(width: Exact, uncertainty: Exact): Exact | undefined {
  return uncertainty.n === 0n ? undefined : width.div(uncertainty.mul(2));
}

export function squareOf(uncertainty: Uncertainty): Exact {
  return "squared" in uncertainty ? uncertainty.squared : uncertainty.mul(uncertainty);
}
