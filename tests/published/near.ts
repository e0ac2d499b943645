// How a published figure is compared: to so much of itself, or to so much.
import { expect } from "vitest";

/** A figure that may be an exact ratio or a plain number. */
export interface Valued {
  valueOf(): number;
}

/** Within `relative` of the published figure. Undefined fails. */
export function near(got: Valued | undefined, published: number, relative: number, of = ""): void {
  expect(got, of).toBeDefined();
  const value = Number(got);
  expect(Math.abs(value - published), `${of}: ${value} against ${published}`).toBeLessThanOrEqual(Math.abs(published) * relative);
}

/** Within `absolute` of the published figure. Undefined fails. */
export function within(got: Valued | undefined, published: number, absolute: number, of = ""): void {
  expect(got, of).toBeDefined();
  const value = Number(got);
  expect(Math.abs(value - published), `${of}: ${value} against ${published}`).toBeLessThanOrEqual(absolute);
}
