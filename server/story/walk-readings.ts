// The measures of a walk: each line of figures is a reading, and goes with the pieces that it was taken of.
import { unsaid } from "../../grammar/blanks.ts";
import type { Slices } from "../../grammar/slices.ts";
import type { MeasureEntry, Name, ReadingDetail, Stage } from "../../grammar/tree.ts";
import { asItStood } from "../model/as-it-stood.ts";
import { type Job, placesOf } from "../model/job.ts";
import { memo } from "../model/memo.ts";
import type { Gauge, Limit } from "../model/things.ts";
import { measuredList } from "../model/values.ts";
import { where } from "../model/where.ts";
import { dayWithWhatCame } from "./came-above.ts";
import { tellsTooManyApart } from "./mover.ts";
import { readSo } from "./pieces.ts";
import type { Cell, Reading, Spot } from "./story.ts";
import { type Walk, dated } from "./walk-state.ts";

/** So many lines of one measure a slice. */
const someLines = 20;

/** What its lines of figures have in common. */
interface Measuring {
  readonly entry: MeasureEntry;
  readonly stage: Stage;
  readonly limit: Limit;
  /** The limit with the figures that it had then. */
  readonly stood: Limit;
  readonly gauge: Gauge | undefined;
  readonly on: string | undefined;
  readonly lines: readonly ReadingDetail[];
  /** How many lines of figures it has, by their place. */
  readonly linesAt: ReadonlyMap<string, number>;
}

export function* takeReadings(walk: Walk, entry: MeasureEntry): Slices<void> {
  const { job, day } = walk;
  const limit = entry.limit === undefined ? undefined : job.things.get(entry.limit.text);
  if (limit?.kind !== "limit" || entry.stage === undefined) return;
  const by = entry.by === undefined ? undefined : job.things.get(entry.by.text);
  const gauge = by?.kind === "gauge" && !by.implied ? by : undefined;
  const on = dated(walk, entry.date?.text) ?? dayWithWhatCame(job, { day, where: { entry } });
  const stood = asItStood(job, limit, entry);
  const lines = entry.details.filter((it) => it.kind === "reading");
  const linesAt = new Map<string, number>();
  for (const [i, detail] of lines.entries()) {
    if (i % someLines === someLines - 1) yield;
    const { place } = readingPlace(job, limit, detail);
    linesAt.set(place, (linesAt.get(place) ?? 0) + 1);
  }
  const measuring = { entry, stage: entry.stage, limit, stood, gauge, on, lines, linesAt };
  for (const [i, detail] of entry.details.entries()) {
    if (i % someLines === someLines - 1) yield;
    if (detail.kind === "reading" && !unsaid(detail)) takeReading(walk, measuring, detail);
  }
}

function takeReading(walk: Walk, measuring: Measuring, detail: ReadingDetail): void {
  const { job, mover } = walk;
  const { entry, stage, limit, stood, gauge, on } = measuring;
  const spots = spotsOf(detail);
  const [first] = spots;
  if (first === undefined) return;
  const { place, position } = readingPlace(job, limit, detail);
  // Written out field by field: an object that is spread into a larger one costs several times its size.
  const reading: Reading = {
    seq: mover.seq++,
    phase: mover.phase,
    where: where(walk.file, entry, detail.row, first.at),
    day: on,
    visit: undefined,
    entry,
    detail,
    stage,
    limit,
    stood,
    place,
    spots,
    position,
    gauge,
  };
  walk.readings.push(reading);
  // What is tried says nothing of a piece; a setting belongs to the machine.
  if (stage === "trial" || stood.set !== undefined) return;
  const alone = position === undefined && limit.positions.length === 0 && detail.again === undefined && limit.of.length === 1;
  for (const name of limit.of)
    for (const cell of cellsRead(walk, name, place))
      if ((cell.kind === "part" || cell.kind === "fastener") && !tellsTooManyApart(mover, cell, reading.where))
        readSo(cell, reading, alone && isOnlyLineOf(measuring, cell, place));
}

/** The measure has no other line of figures that is of these pieces. */
function isOnlyLineOf({ lines, linesAt }: Measuring, cell: Cell, place: string): boolean {
  return lines.length === 1 || (cell.place === place && linesAt.get(place) === 1);
}

/** A thing without declared places is where the sheet names it, and else where it was read. */
function cellsRead({ job, cells }: Walk, name: Name, place: string): readonly Cell[] {
  const thing = job.things.get(name.text);
  if (thing === undefined || ("placeKind" in thing && thing.placeKind !== undefined)) return cells.beside(name, place);
  const known = cells.all(name.text);
  if (known.length === 0) return cells.of(name.text, []);
  const same = known.filter((cell) => cell.place === place);
  return same.length > 0 ? same : known;
}

/** Which of a reading's words is the place, and which the position. */
function readingPlace(job: Job, limit: Limit, detail: ReadingDetail): { place: string; position: string | undefined } {
  const [first, second] = detail.words;
  const has = limit.placeKind !== undefined && placesOf(job, limit)[0] !== "";
  const firstIsPlace = has || (limit.implied && first !== undefined && job.kindsOfPlace.has(first.text));
  return firstIsPlace ? { place: first?.text ?? "", position: second?.text } : { place: "", position: first?.text };
}

/** The spots of one line of figures: one a figure, or one for all of them where the same spot was read again. They hang on that line alone. */
const spotsOf: (detail: ReadingDetail) => readonly Spot[] = memo(makeSpots);

function makeSpots(detail: ReadingDetail): Spot[] {
  const figures = measuredList(detail.figures);
  const known = figures.flatMap((it, i) => (it === undefined ? [] : [{ it, at: (detail.figures[i] as { at: Spot["at"] }).at }]));
  const [first] = known;
  if (detail.again === undefined || first === undefined) return known.map(({ it, at }) => ({ value: it.value, figures: [it], again: false, at }));
  const last = known[known.length - 1] as (typeof known)[number];
  const sum = known.slice(1).reduce((total, { it }) => total.add(it.value), first.it.value);
  return [{ value: sum.div(known.length), figures: known.map(({ it }) => it), again: true, at: { from: first.at.from, to: last.at.to } }];
}
