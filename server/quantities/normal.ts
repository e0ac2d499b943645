// The normal distribution: how much of it lies beyond so many standard deviations, and the other way about.
// Invariant: floats, good to about twelve figures; for what is shown beside an uncertainty, never for a verdict.

/** Share of a normal distribution that lies more than k standard deviations above its mean: 1 − Φ(k). */
export function shareAbove(k: number): number {
  return k < 0 ? 1 - shareAbove(-k) : k < 3 ? 0.5 - middle(k) : tail(k);
}

/** How many standard deviations leave this share of a normal distribution below: Φ⁻¹(p). Undefined unless 0 < p < 1. */
export function deviationsFor(share: number): number | undefined {
  if (!(share > 0 && share < 1)) return undefined;
  let low = -40;
  let high = 40;
  // The half of the half, until a double has no more places to give.
  for (let i = 0; i < 200 && high - low > 1e-15; i++) {
    const at = (low + high) / 2;
    // By the tail that is the shorter: 1 − share has lost the digits of a share as small as 10⁻²⁰.
    if (share < 0.5 ? shareAbove(-at) < share : 1 - share < shareAbove(at)) low = at;
    else high = at;
  }
  return (low + high) / 2;
}

const density = (x: number) => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);

/** Φ(x) − ½ by the series x + x³/3 + x⁵/(3·5) + … (Abramowitz and Stegun 26.2.11). */
function middle(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; n < 200 && Math.abs(term) > 1e-17; n++) {
    term = (term * x * x) / (2 * n + 1);
    sum += term;
  }
  return sum * density(x);
}

/** By the continued fraction 1/(x + 1/(x + 2/(x + …))) (Abramowitz and Stegun 26.2.14), for what lies far out. */
function tail(x: number): number {
  let fraction = x;
  for (let n = 80; n > 0; n--) fraction = x + n / fraction;
  return density(x) / fraction;
}
