// Student's t for an interval that holds 95 of 100 single readings, both sides counted.
// Source: the table of critical values that handbooks of statistics print (0.975 quantile), from memory; the tests hold each to a library's own working out.
import { type Exact, figure } from "./exact.ts";

/** By degrees of freedom, from 1. */
const upTo30 = `12.706 4.303 3.182 2.776 2.571 2.447 2.365 2.306 2.262 2.228 2.201 2.179 2.160 2.145 2.131 2.120 2.110 2.101 2.093 2.086
  2.080 2.074 2.069 2.064 2.060 2.056 2.052 2.048 2.045 2.042`
  .split(/\s+/)
  .map(figure);

const beyond: readonly (readonly [degrees: number, t: string])[] = [
  [120, "1.980"],
  [60, "2.000"],
  [40, "2.021"],
];

/** Between two rows of the table the larger t holds. Undefined below one degree of freedom. */
export function student95(degrees: number): Exact | undefined {
  if (degrees < 1) return undefined;
  const row = beyond.find(([from]) => degrees >= from);
  return row === undefined ? upTo30[Math.min(Math.floor(degrees), 30) - 1] : figure(row[1]);
}
