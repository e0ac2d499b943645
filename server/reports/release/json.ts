// What stands in the way of release, as JSON. Lines count from 1.
import { json } from "../draw/as-json.ts";
import type { ReleaseReport } from "./shapes.ts";

/** Several sheets are released together or not at all. */
export function releaseJson(reports: readonly ReleaseReport[]): string {
  const value = {
    released: reports.length > 0 && reports.every((it) => it.released),
    open: reports.flatMap((it) => it.open),
    warned: reports.flatMap((it) => it.warned),
    rechecks: reports.flatMap((it) => it.rechecks),
    concessions: reports.flatMap((it) => it.concessions),
    photos: reports.flatMap((it) => it.photos),
  };
  return json(value);
}
