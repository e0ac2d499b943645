// The price lists of a job: one for each supplier that names one, read through the door.
// Invariant: a path that leads out of the workspace is not asked for; a door that has no price lists to give leaves a job without any.
import { joinPath, pricesAt, type PriceAnswer } from "../model/files.ts";
import { hasLine } from "../model/has.ts";
import type { Job } from "../model/job.ts";
import { type PriceList, priceListReading } from "./price-list.ts";
import { type Supplier, lineOf } from "../model/things.ts";
import { type Where, where } from "../model/where.ts";
import { memoSliced } from "../model/memo.ts";
import type { Slices } from "../../grammar/slices.ts";

export interface SupplierPrices {
  readonly supplier: Supplier;
  /** The path in the line that names the list. */
  readonly where: Where;
  readonly written: string;
  /** By its path in the workspace; undefined where it leads out of it. */
  readonly path: string | undefined;
  readonly answer: PriceAnswer;
  readonly list: PriceList | undefined;
}

const ofJob = memoSliced(collect);

export const pricesOf: (job: Job) => readonly SupplierPrices[] = ofJob.whole;

/** The same, worked out in slices for those who ask for it afterwards. */
export function* readingPrices(job: Job): Slices<void> {
  yield* ofJob.sliced(job);
}

function* collect(job: Job): Slices<readonly SupplierPrices[]> {
  const out: SupplierPrices[] = [];
  if (job.workspace.prices === undefined || !hasLine(job, "prices")) return out;
  for (const supplier of job.things.values()) {
    if (supplier.kind !== "supplier") continue;
    const line = lineOf(supplier, "prices");
    const written = line?.detail.path?.value;
    if (line === undefined || written === undefined) continue;
    const path = joinPath(line.file, written);
    const answer = path === undefined ? "outside" : yield* pricesAt(job.workspace, path);
    const list = typeof answer === "object" && "text" in answer ? yield* priceListReading(answer, lineOf(supplier, "currency")?.detail.code?.text) : undefined;
    out.push({ supplier, where: where(line.file, line.entry, line.detail.row, line.detail.path?.at ?? line.detail.keyword), written, path, answer, list });
  }
  return out;
}
