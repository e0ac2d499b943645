// Goes through the figures of a job once and finds those whose unit is missing, unknown, means two things or measures something else.
// Invariant: one cause, one issue. A figure with a decimal comma has none here, and an unknown unit is not called wrong as well.
import type { Entry, Item, Name, Quantity } from "../../../../grammar/tree.ts";
import type { Job } from "../../../model/job.ts";
import { unitsOf } from "../../../model/values.ts";
import { type Dimension, ambiguousUnit, unitOf } from "../../../quantities/units.ts";
import { countsIn, measureOf } from "./dimensions.ts";
import { type FigureGroup, figuresOf, fluidAmount } from "./figures.ts";
import { memoSliced } from "../../../model/memo.ts";
import { type Slices, someAtOnce } from "../../../../grammar/slices.ts";

export interface UnitIssue {
  readonly kind: "missing" | "unknown" | "ambiguous" | "kind" | "fraction";
  readonly file: string;
  readonly entry: Entry;
  readonly row: number;
  readonly quantity: Quantity;
  readonly unit?: Name;
  /** What may stand here; empty where that is not known. */
  readonly wants: readonly Dimension[];
  readonly found?: Dimension;
  /** Other figures of the line have a unit. */
  readonly mixed?: boolean;
  /** The thing is counted in pieces, and no unit belongs here. */
  readonly pieces?: boolean;
  /** It is of the machine's counter, which runs in units of its own. */
  readonly counter?: "shows" | "runs";
  /** All figures of its list or range. */
  readonly list: readonly Quantity[];
}

/** In the order of files and lines. Remembered with the job; what an entry alone decides is remembered with the entry. */
const ofJob = memoSliced(collect);

export const unitIssues: (job: Job) => readonly UnitIssue[] = ofJob.whole;

/** The same, looked for in slices for those who ask for it afterwards. */
export const lookingForUnits = (job: Job): Slices<readonly UnitIssue[]> => ofJob.sliced(job);

const none: readonly UnitIssue[] = [];
/** So many lists or ranges of one entry a slice. */
const manyGroups = 500;

/** Eighths and finer are how an inch is divided; nobody reads a millimetre so. */
const isFractionOfInch = (text: string) => /\/(8|16|32|64)$/.test(text);
const metricLengths: ReadonlySet<string> = new Set(["mm", "cm", "um"]);
const byEntry = new WeakMap<Entry, { readonly file: string; readonly measures: Dimension | undefined; readonly issues: readonly UnitIssue[] }>();

function* collect(job: Job): Slices<readonly UnitIssue[]> {
  const all: UnitIssue[] = [];
  let n = 0;
  for (const { path, sheet } of job.files) {
    for (const entry of sheet.entries) {
      for (const it of yield* ofEntry(job, path, entry)) all.push(it);
      if (++n % someAtOnce === 0) yield;
    }
  }
  return all;
}

function* ofEntry(job: Job, file: string, entry: Entry): Slices<readonly UnitIssue[]> {
  switch (entry.kind) {
    case "stock":
    case "need":
    case "offer":
    case "order":
      return yield* judge(file, entry, undefined, job);
    case "limit":
    case "measure":
    case "gauge": {
      const measures = measureOf(job, entry);
      const known = byEntry.get(entry);
      if (known !== undefined && known.measures === measures && known.file === file) return known.issues;
      const issues = yield* judge(file, entry, measures, job);
      byEntry.set(entry, { file, measures, issues });
      return issues;
    }
    default: {
      const known = byEntry.get(entry);
      if (known !== undefined && known.file === file) return known.issues;
      const issues = yield* judge(file, entry, undefined, job);
      byEntry.set(entry, { file, measures: undefined, issues });
      return issues;
    }
  }
}

function* judge(file: string, entry: Entry, measures: Dimension | undefined, job: Job): Slices<readonly UnitIssue[]> {
  let issues: UnitIssue[] | undefined;
  const ofLimit = measures === undefined ? anything : single(measures);
  for (const [i, group] of figuresOf(entry).groups.entries()) {
    if (i % manyGroups === manyGroups - 1) yield;
    if (group.by === "item") judgeAmount(group, wantedOf(job, group.item as Item));
    else judgeGroup(group, group.by === undefined ? group.wants : group.wants.length > 0 ? group.wants : ofLimit);
  }
  return issues ?? none;

  function judgeGroup(group: FigureGroup, wants: readonly Dimension[]): void {
    const { list, row, counter } = group;
    const units = list.length === 1 ? undefined : unitsOf(list);
    const last = list.length - 1;
    for (let i = 0; i < list.length; i++) {
      const quantity = list[i] as Quantity;
      if (quantity.unit !== undefined) {
        judgeUnit(list, quantity, quantity.unit, row, wants, false);
        const found = counter === undefined ? undefined : unitOf(quantity.unit.text);
        if (counter !== undefined && found !== undefined && wants.includes(found.dimension) && !countsIn(found.name, counter))
          add({ kind: "kind", file, entry, row, quantity, unit: quantity.unit, wants, found: found.dimension, counter, list });
        continue;
      }
      if (group.bare || quantity.figure.comma || (units !== undefined && units[i] !== undefined)) continue;
      const mixed = list.some((it) => it.unit !== undefined);
      // One missing unit at the end is one slip, however many figures it would have served.
      if (mixed || i === last) add({ kind: "missing", file, entry, row, quantity, wants, mixed, list, ...(counter === undefined ? {} : { counter }) });
    }
  }

  /** Pieces are counted; a fluid is measured; for what nobody declared either may be right. */
  function judgeAmount(group: FigureGroup, wants: Wanted): void {
    const quantity = group.list[0] as Quantity;
    if (quantity.unit !== undefined) judgeUnit(group.list, quantity, quantity.unit, group.row, wants.dimensions, wants.only);
    else if (!wants.pieces && !quantity.figure.comma)
      add({ kind: "missing", file, entry, row: group.row, quantity, wants: wants.dimensions, list: group.list });
  }

  function judgeUnit(list: readonly Quantity[], quantity: Quantity, unit: Name, row: number, wants: readonly Dimension[], pieces: boolean): void {
    const found = unitOf(unit.text);
    if (found?.dimension === "length" && isFractionOfInch(quantity.figure.text) && metricLengths.has(found.name))
      add({ kind: "fraction", file, entry, row, quantity, unit, wants, list });
    // As good as always: a unit that is one, and measures what belongs here.
    if (found !== undefined && !pieces && (wants.length === 0 || wants.includes(found.dimension)) && !(found.dimension === "mass" && wants.includes("volume")))
      return;
    if (quantity.figure.comma) return;
    const base = { file, entry, row, quantity, unit, wants, list };
    if (meaningsOf(unit.text, wants) !== undefined) add({ kind: "ambiguous", ...base });
    else if (found === undefined) add({ kind: "unknown", ...base });
    else if (pieces || (wants.length > 0 && !wants.includes(found.dimension))) add({ kind: "kind", ...base, found: found.dimension, pieces });
  }

  function add(issue: UnitIssue): void {
    issues ??= [];
    issues.push(issue);
  }
}

/**
 * What a unit may mean where that is two things: `pt` always, `oz` where a volume is meant, `lb` where a torque is.
 * A `kg` for a torque has one likely meaning by far in each shop, but it is a mass: it is called one, with fixes.
 */
export function meaningsOf(spelling: string, wants: readonly Dimension[]): readonly string[] | undefined {
  const always = ambiguousUnit(spelling);
  if (always !== undefined) return always.meanings;
  if (wants.includes("volume")) return ambiguousUnit(spelling, "volume")?.meanings;
  return wants.includes("torque") && /^(lb|pound)/.test(spelling) ? ambiguousUnit(spelling, "torque")?.meanings : undefined;
}

export interface Wanted {
  /** Without a unit it is a number of pieces. */
  readonly pieces: boolean;
  /** Pieces, and nothing else. */
  readonly only: boolean;
  readonly dimensions: readonly Dimension[];
}

const anything: readonly Dimension[] = [];
const pieces: Wanted = { pieces: true, only: true, dimensions: anything };
const measuredFluid: Wanted = { pieces: false, only: false, dimensions: fluidAmount };
const wire: Wanted = { pieces: true, only: false, dimensions: ["length"] };
/** Sealant, rags: by the tube, the weight or the metre. */
const either: Wanted = { pieces: true, only: false, dimensions: anything };

/** What an item is counted or measured in. */
export function wantedOf(job: Job, item: Item): Wanted {
  if (item.kind === "text") return either;
  if (item.kind === "locking") return item.locking.kind === "lock wire" ? wire : item.locking.kind === "thread lock" ? either : pieces;
  const thing = job.things.get(item.name.text);
  if (thing === undefined || thing.implied) return either;
  return thing.kind === "fluid" ? measuredFluid : pieces;
}

const singles = new Map<Dimension, readonly Dimension[]>();

function single(dimension: Dimension): readonly Dimension[] {
  let list = singles.get(dimension);
  if (list === undefined) {
    list = [dimension];
    singles.set(dimension, list);
  }
  return list;
}
