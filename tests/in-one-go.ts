// What the doors ask of the core in slices, asked in one go.
import { runThrough } from "../grammar/slices.ts";
import type { Files } from "../server/model/files.ts";
import { type Job, building } from "../server/model/job.ts";
import { drawingPage } from "../server/reports/draw/as-page.ts";
import { type Told, telling } from "../server/reports/draw/heading.ts";
import type { Document } from "../server/reports/draw/sections.ts";
import { ordering } from "../server/reports/order/order.ts";
import type { OrderReport } from "../server/reports/order/order-report.ts";
import { releasing } from "../server/reports/release/release.ts";
import type { ReleaseReport } from "../server/reports/release/shapes.ts";
import { type WayBack, goingBack } from "../server/reports/way-back/way-back.ts";
import { type Way, choosingBy } from "../server/supply/choose.ts";
import type { Solver } from "../server/supply/solver.ts";

export function buildJob(files: Files, path: string): Job | undefined {
  return runThrough(building(files, path));
}

export function tell(files: Files, path: string): Told | undefined {
  return runThrough(telling(files, path));
}

export function partsOrder(files: Files, paths: readonly string[], asked?: { readonly way: Way; readonly solver: Solver }): OrderReport {
  return runThrough(ordering(files, paths, asked === undefined ? undefined : choosingBy(asked.way, asked.solver)));
}

export function releaseReport(files: Files, path: string): ReleaseReport | undefined {
  return runThrough(releasing(files, path));
}

export function wayBack(files: Files, path: string): WayBack | undefined {
  return runThrough(goingBack(files, path));
}

export function asPage(document: Document): string {
  return runThrough(drawingPage(document));
}
