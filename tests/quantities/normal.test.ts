// The normal distribution, against printed tables.
import { expect, test } from "vitest";
import { deviationsFor, shareAbove } from "../../server/quantities/normal.ts";

// Abramowitz and Stegun, table 26.1: Φ(x).
test.each([
  [0, 0.5],
  [0.5, 0.69146246],
  [1, 0.84134475],
  [1.5, 0.9331928],
  [2, 0.97724987],
  [2.5, 0.99379033],
  [3, 0.9986501],
])("Φ(%f) is %f", (x, share) => {
  expect(1 - shareAbove(x)).toBeCloseTo(share, 7);
  expect(shareAbove(-x)).toBeCloseTo(share, 7);
});

// The same table far out: 1 − Φ(4) = 3.167124e-5, 1 − Φ(5) = 2.866516e-7.
test.each([
  [4, 3.167124e-5],
  [5, 2.866516e-7],
])("beyond %f lies %f", (x, share) => expect(Math.abs(shareAbove(x) / share - 1)).toBeLessThan(1e-6));

// Percentage points of the normal distribution, as printed in handbooks (NIST/SEMATECH 1.3.6.7.1).
test.each([
  [0.9, 1.281552],
  [0.95, 1.644854],
  [0.975, 1.959964],
  [0.99, 2.326348],
  [0.5, 0],
])("%f lies below %f", (share, k) => expect(deviationsFor(share)).toBeCloseTo(k, 6));

// The check values of Wichura's algorithm AS 241 (Applied Statistics 37, 1988), from memory; Python's statistics.NormalDist says the same.
test.each([
  [0.25, -0.6744897501960817],
  [0.001, -3.090232306167814],
  [1e-20, -9.2623400897984],
])("%f lies below %f, far out as well", (share, k) => expect(deviationsFor(share)).toBeCloseTo(k, 8));

test("no share of nothing or of all", () => expect([deviationsFor(0), deviationsFor(1), deviationsFor(Number.NaN)]).toEqual([undefined, undefined, undefined]));
