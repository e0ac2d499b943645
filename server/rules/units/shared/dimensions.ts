// What a figure measures, in words, and the units that it is usually given in.
// Invariant: words only; what is right is decided by the units themselves.
import type { Entry } from "../../../../grammar/tree.ts";
import type { Job } from "../../../model/job.ts";
import { type Gauge, type Limit, lineOf } from "../../../model/things.ts";
import { dimensionOf, dimensionOfRange, quantitiesOf } from "../../../model/values.ts";
import type { Dimension } from "../../../quantities/units.ts";
import { memo } from "../../../model/memo.ts";

const words: Readonly<Record<Dimension, string>> = {
  length: "a length",
  angle: "an angle",
  force: "a force",
  torque: "a torque",
  mass: "a mass",
  volume: "a volume",
  pressure: "a pressure",
  temperature: "a temperature",
  time: "a time",
  speed: "a speed",
  rotation: "a speed of rotation",
  power: "a power",
  ratio: "a share of something",
  count: "a plain number",
};

/** “a length”, “a volume or a mass” */
export function dimensionWords(dimensions: readonly Dimension[]): string {
  // What a machine's counter counts.
  if (dimensions.length === 2 && dimensions[0] === "length" && dimensions[1] === "time") return "a distance or a time";
  return dimensions.map((it) => words[it]).join(" or ");
}

/** The units to offer first, metric and inch. */
export const usualUnits: Readonly<Record<Dimension, readonly string[]>> = {
  length: ["mm", "in"],
  angle: ["deg"],
  force: ["N", "lbf"],
  torque: ["N.m", "lbf.ft"],
  mass: ["kg", "lb"],
  volume: ["ml", "l"],
  pressure: ["bar", "psi"],
  temperature: ["degC", "degF"],
  time: ["min", "h"],
  speed: ["km/h", "mph"],
  rotation: ["rpm"],
  power: [],
  ratio: ["%"],
  count: [],
};

/** What a machine's counter shows: no counter runs in millimetres or in minutes. */
const shownByCounters: ReadonlySet<string> = new Set(["km", "mi", "m", "h"]);
/** A first run may be of minutes, and what is looked at again of days. */
const runUntil: ReadonlySet<string> = new Set([...shownByCounters, "min", "d"]);

/** The units in which counters run, those in use first. */
export const counterUnits: readonly string[] = ["km", "mi", "h"];

/** Whether such a unit, called by its first name, may stand in what a counter shows or runs. */
export function countsIn(unit: string, counter: "shows" | "runs"): boolean {
  return (counter === "shows" ? shownByCounters : runUntil).has(unit);
}

/** The dimension that a limit is measured in: that of the first of its lines whose unit says so. */
export const dimensionOfLimit: (limit: Limit) => Dimension | undefined = memo(ofLines);

function ofLines(limit: Limit): Dimension | undefined {
  for (const { detail } of limit.lines) {
    if (detail.kind !== "new" && detail.kind !== "worn" && detail.kind !== "set") continue;
    const dimension = detail.range?.kind === "fit" ? (detail.range.nominal.unit === undefined ? undefined : "length") : dimensionOfRange(detail.range);
    if (dimension !== undefined) return dimension;
  }
  for (const kind of ["spread", "ovality", "taper"] as const) {
    const dimension = dimensionOf(lineOf(limit, kind)?.detail.max?.unit);
    if (dimension !== undefined) return dimension;
  }
  return undefined;
}

/** The unit that a limit is written in, as its writer spelt it. */
export function unitOfLimit(limit: Limit): string | undefined {
  for (const { detail } of limit.lines) {
    if (detail.kind === "new" || detail.kind === "worn" || detail.kind === "set") {
      const unit = detail.range === undefined ? undefined : quantitiesOf(detail.range).findLast((it) => dimensionOf(it.unit) !== undefined)?.unit;
      if (unit !== undefined) return unit.text;
    } else if (detail.kind === "spread" || detail.kind === "ovality" || detail.kind === "taper") {
      if (dimensionOf(detail.max?.unit) !== undefined) return detail.max?.unit?.text;
    }
  }
  return undefined;
}

/** What is counted, and has no unit: clicks of a lever, turns of a screw. */
export function isCounted(word: string): boolean {
  return /^(?:clicks?|notch(?:es)?|drips?|drops?|teeth|tooth|strokes?|pumps?|threads?|leaves|coils?|flats?|turns?|times)$/.test(word);
}

/** The word by which a limit is counted, where it is given so. */
export function countedBy(limit: Limit): string | undefined {
  const ranges = limit.lines.flatMap(({ detail }) => (detail.kind === "new" || detail.kind === "worn" || detail.kind === "set" ? [detail.range] : []));
  return ranges.flatMap((it) => (it === undefined ? [] : quantitiesOf(it))).find((it) => it.unit !== undefined && isCounted(it.unit.text))?.unit?.text;
}

/** The dimension that a gauge reads in: that of its range, its resolution, or for want of those its uncertainty. */
export const dimensionOfGauge: (gauge: Gauge) => Dimension | undefined = memo(
  (gauge) => dimensionOfRange(gauge.range) ?? dimensionOf(gauge.resolution?.unit) ?? dimensionOf(gauge.uncertainty?.unit),
);

/** The limit that an entry declares or measures, or the gauge that it declares: where its figures get their dimension from. */
export function measureOf(job: Job, entry: Entry): Dimension | undefined {
  if (entry.kind !== "limit" && entry.kind !== "measure" && entry.kind !== "gauge") return undefined;
  const name = entry.kind === "measure" ? entry.limit : entry.name;
  const thing = name === undefined ? undefined : job.things.get(name.text);
  if (thing === undefined || thing.implied) return undefined;
  if (thing.kind === "limit") return dimensionOfLimit(thing);
  return thing.kind === "gauge" ? dimensionOfGauge(thing) : undefined;
}
