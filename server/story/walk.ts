// Walks a job in the order in which it is written: what is done first, what is planned behind it as a forecast.
// Invariant: never throws; a line with a fault moves nothing and leaves what it names unsure.
import { putInto } from "../model/grouped.ts";
import { memo, memoSliced } from "../model/memo.ts";
import { unsaid } from "../../grammar/blanks.ts";
import { asItStood } from "../model/as-it-stood.ts";
import { lineText } from "../../grammar/sheet-text.ts";
import type { ActionDetail, Detail, Entry, FindingEntry, MeasureEntry, Name, ReadingDetail, ReleaseEntry, ShimsEntry, StepEntry } from "../../grammar/tree.ts";
import { wholeNumber } from "../model/declare.ts";
import { type Job, placesOf } from "../model/job.ts";
import { isSameStack } from "../model/shim-stacks.ts";
import { type Gauge, type Limit, linesOf } from "../model/things.ts";
import type { Slices } from "../../grammar/slices.ts";
import { measuredList } from "../model/values.ts";
import { where } from "../model/where.ts";
import { act, blur } from "./actions.ts";
import { dayWithWhatCame } from "./came-above.ts";
import { makeCells } from "./cells.ts";
import { fastenerMoves } from "./fastener-moves.ts";
import { fluidMoves } from "./fluid-moves.ts";
import { hazardMoves } from "./hazard-moves.ts";
import { type Mover, tellsTooManyApart } from "./mover.ts";
import { partMoves } from "./part-moves.ts";
import { readSo } from "./pieces.ts";
import { inOrderOfDays } from "./written-late.ts";
import type { Beyond, Blurred, Cell, Concession, Found, Moment, Pause, Reading, Seen, Spot, Story, SupportMoment, SupportState, Visit } from "./story.ts";

export const onTheGround: SupportState = { chocked: false, supports: [] };

/** So many entries a slice. */
const someEntries = 50;
/** And so many lines of one step. */
const someLines = 20;

const movesThings: ReadonlySet<Entry["kind"]> = new Set(["step", "finding", "unread", "headless", "release"]);

/**
 * The story of a job. Pure; about a microsecond an action.
 * `asReleased`: a job without a release is walked as if it were to be released at its end.
 */
export function walk(job: Job, asReleased = false): Story {
  return (asReleased ? walkedAsReleased : walked).whole(job);
}

const walked = memoSliced((job: Job) => walkAll(job, false));
const walkedAsReleased = memoSliced(function* (job: Job): Slices<Story> {
  const story = yield* walked.sliced(job);
  return story.release === undefined ? yield* walkAll(job, true) : story;
});

/** The same in slices. */
export function walking(job: Job, asReleased = false): Slices<Story> {
  return (asReleased ? walkedAsReleased : walked).sliced(job);
}

function* walkAll(job: Job, asReleased: boolean): Slices<Story> {
  const cells = makeCells(job);
  const visits: Visit[] = [];
  const support: SupportMoment[] = [];
  const blurred: Blurred[] = [];
  const beyond: Beyond[] = [];
  const doubted = new Set<string>();
  const findings: Found[] = [];
  const readings: Reading[] = [];
  const seen: Seen[] = [];
  const concessions: Concession[] = [];
  const pauses: Pause[] = [];
  const planned: { entry: StepEntry; places: readonly string[] | undefined; alone: boolean }[] = [];
  let release: Story["release"];
  const earlierReleases: NonNullable<Story["release"]>[] = [];
  let newestDay: string | undefined;
  let day: string | undefined;
  /** A `day` line stands above: it is the day of what follows. The day that the sheet was opened is that only until a step was done on a later one. */
  let isDayGiven = false;
  let hazardsByStep: Map<string, string[]> | undefined;

  const mover: Mover = {
    job,
    cells,
    seq: 0,
    phase: "done",
    support: onTheGround,
    visit: undefined,
    day: undefined,
    supportMoments: support,
    blurred,
    beyond,
    blankFit: false,
    line: [],
  };
  const file = job.own.path;

  function aged(date: string | undefined): string | undefined {
    if (date !== undefined && (newestDay === undefined || date > newestDay)) newestDay = date;
    return date;
  }

  function moment(entry: Entry, row: number, at: Moment["where"]["at"], on: string | undefined = day): Moment {
    return { seq: mover.seq++, phase: mover.phase, where: where(file, entry, row, at), day: on, visit: undefined };
  }

  // A name that may be a slip for one of several: which of them was moved can't be told.
  for (const [name, near] of job.slips)
    if (near.length > 1) for (const it of [name, ...near]) if (job.things.has(it)) for (const cell of cells.of(it, [])) cell.unsure = true;

  for (const [index, entry, under] of inOrderOfDays(job.own.sheet.entries)) {
    if (index % someEntries === 0) yield;
    const goesOn = day;
    day = under ?? day;
    mover.day = day;
    doubt(index, entry);
    if (unsaid(entry) && entry.kind !== "step" && (entry.kind !== "release" || entry.fault !== undefined)) {
      day = goesOn;
      continue;
    }
    switch (entry.kind) {
      case "day":
        aged(entry.date?.text);
        day = dayBehind(entry, day);
        isDayGiven = true;
        break;
      case "sheet":
        for (const detail of entry.details) if (detail.kind === "opened") aged(detail.date?.text);
        day = dayBehind(entry, day);
        break;
      case "step":
        yield* takeStep(entry);
        if (!isDayGiven) day = lastDone(entry, day);
        break;
      case "measure":
        yield* takeReadings(entry);
        break;
      case "seen": {
        const check = entry.check === undefined ? undefined : job.things.get(entry.check.text);
        if (check?.kind !== "check" || entry.check === undefined || entry.verdict === undefined || entry.stage === undefined) break;
        const on = aged(entry.date?.text) ?? dayWithWhatCame(job, { day, where: { entry } });
        for (const place of entry.places.length === 0 ? [undefined] : entry.places)
          seen.push({
            ...moment(entry, 0, entry.verdictAt ?? entry.check.at, on),
            entry,
            check,
            stage: entry.stage,
            good: entry.verdict === "good",
            place: place?.text ?? "",
          });
        break;
      }
      case "shims":
        takePack(entry);
        break;
      case "finding":
        takeFinding(entry);
        break;
      case "concession": {
        const thing = entry.of === undefined ? undefined : job.things.get(entry.of.text);
        if (thing !== undefined && entry.of !== undefined) {
          const places = entry.places.length > 0 ? textsOf(entry.places) : "placeKind" in thing ? placesOf(job, thing) : [""];
          concessions.push({ ...moment(entry, 0, entry.of.at, aged(entry.date?.text) ?? day), entry, thing, places });
        }
        break;
      }
      case "pause":
        pauses.push({ ...moment(entry, 0, entry.keyword, aged(entry.date?.text) ?? day), entry });
        break;
      case "release":
        // Signed without a day, below what is or came on a later day than the last one known: nobody says when.
        if (!isDayGiven && day !== undefined && ((newestDay !== undefined && newestDay > day) || dayWithWhatCame(job, { day, where: { entry } }) !== day))
          day = undefined;
        if (release !== undefined) earlierReleases.push(release);
        release = { ...moment(entry, 0, entry.keyword, aged(entry.date?.text) ?? day), entry };
        break;
      default:
    }
    if (under !== undefined) day = goesOn;
  }
  for (const list of [cells.fasteners, cells.parts, cells.fluids, cells.hazards]) for (const cell of list) (cell as { now: unknown }).now = cell.then;
  if (asReleased && release === undefined)
    release = {
      ...moment(virtualRelease, 0, nowhere),
      where: where(file, job.sheet ?? job.own.sheet.entries[0] ?? virtualRelease, 0, (job.sheet ?? job.own.sheet.entries[0] ?? virtualRelease).keyword),
      entry: virtualRelease,
    };
  const supportNow = mover.support;
  const plannedFrom = mover.seq;
  mover.phase = "planned";
  for (const [index, { entry, places, alone }] of planned.entries()) {
    if (index % someEntries === 0) yield;
    yield* visit(entry, places, undefined, alone);
  }
  cells.close();

  return {
    job,
    visits,
    fasteners: cells.fasteners,
    parts: cells.parts,
    fluids: cells.fluids,
    hazards: cells.hazards,
    support,
    blurred,
    beyond,
    doubted,
    supportNow,
    findings,
    readings,
    seen,
    concessions,
    pauses,
    ...(release === undefined ? {} : { release }),
    earlierReleases,
    ...(newestDay === undefined ? {} : { newestDay }),
    plannedFrom,
    cell: (name, place) => cells.all(name).find((cell) => cell.place === place),
    cells: (name) => {
      const known = cells.all(name);
      return known.length > 0 ? known : cells.of(name, []);
    },
  };

  // ------------------------------------------------------------- steps

  /** Sorts a step's places into those that are done and those that are still planned. */
  function* takeStep(entry: StepEntry): Slices<void> {
    const donePlaces: string[] = [];
    let done = false;
    let whole = false;
    let on: string | undefined = day;
    for (const detail of entry.details) {
      // A `done` that can't be read was meant: the slip is said, and the step is not taken for one that is planned.
      if (detail.fault !== undefined && (detail.kind === "done" || (detail.kind === "unread" && detail.guess === "done"))) {
        done = true;
        whole = true;
      }
      if (detail.kind !== "done" || unsaid(detail)) continue;
      done = true;
      if (detail.places.length === 0) whole = true;
      for (const place of detail.places) donePlaces.push(place.text);
      on = aged(detail.date?.text) ?? on;
    }
    const places = placesOfStep(entry);
    if (!done) planned.push({ entry, places, alone: false });
    else if (whole || donePlaces.length === 0) yield* visit(entry, places, on, false);
    else {
      yield* visit(entry, donePlaces, on, false);
      const rest = (places ?? placesOfKindOf(donePlaces)).filter((place) => !donePlaces.includes(place));
      if (rest.length > 0) planned.push({ entry, places: rest, alone: true });
    }
  }

  /** The places that a step names; undefined where it names none. */
  function placesOfStep(entry: StepEntry): readonly string[] | undefined {
    for (const detail of entry.details) {
      if (detail.kind === "at" && detail.places.length > 0) return detail.places.map((place) => place.text);
      if (detail.kind === "each" && detail.placeKind !== undefined) return job.placeKinds.get(detail.placeKind.text);
    }
    return undefined;
  }

  function placesOfKindOf(places: readonly string[]): readonly string[] {
    for (const place of places) for (const kind of job.kindsOfPlace.get(place) ?? []) return job.placeKinds.get(kind) ?? [];
    return [];
  }

  /** `alone`: the other places were done before, and what has no place was done with them. */
  function* visit(entry: StepEntry, places: readonly string[] | undefined, on: string | undefined, alone: boolean): Slices<void> {
    const it: Visit = { number: visits.length, phase: mover.phase, file, entry, day: on, places };
    visits.push(it);
    mover.visit = it;
    mover.day = on;
    if (entry.name !== undefined) for (const hazard of hazardsFrom(entry.name.text)) hazardMoves.arises(mover, hazard, entry);
    let lines = 0;
    for (const detail of entry.details) {
      if (++lines % someLines === 0) yield;
      // What is left blank in a planned step counts as far as it is written; in one that is done it says nothing.
      if (detail.fault === undefined && (detail.blanks === undefined || mover.phase !== "done")) {
        if (detail.kind === "action") act(mover, entry, detail as ActionDetail, places, alone);
      } else if (detail.kind === "action") blur(mover, entry, detail.verb);
      else if (detail.kind === "unread") blur(mover, entry, detail.guess);
    }
    mover.visit = undefined;
  }

  function hazardsFrom(step: string): string[] {
    if (hazardsByStep === undefined) {
      hazardsByStep = new Map();
      for (const thing of job.things.values()) {
        if (thing.kind !== "hazard" || thing.from === undefined) continue;
        putInto(hazardsByStep, thing.from.text, thing.name);
      }
    }
    return hazardsByStep.get(step) ?? [];
  }

  /** What a later line says is fitted replaces what was in. */
  function takePack(entry: ShimsEntry): void {
    const thing = entry.name === undefined ? undefined : job.things.get(entry.name.text);
    const line = entry.details.find((it) => it.kind === "fitted" && !unsaid(it));
    if (thing?.kind !== "shims" || line?.kind !== "fitted") return;
    const lines = linesOf(thing, "fitted");
    const before = lines[lines.findIndex((it) => it.detail === line) - 1]?.detail;
    if (before?.kind !== "fitted") return;
    const isSame = isSameStack(before.stacks, line.stacks);
    for (const cell of cells.of(thing.name, [])) if (cell.kind === "part") partMoves.packed(mover, cell, moment(entry, line.row, line.keyword), isSame);
  }

  // ------------------------------------------------------------- findings

  function textsOf(names: readonly Name[]): string[] {
    return names.map((it) => it.text);
  }

  function takeFinding(entry: FindingEntry): void {
    if (entry.of === undefined) return;
    const thing = job.things.get(entry.of.text);
    if (thing === undefined || (thing.kind !== "part" && thing.kind !== "fastener" && thing.kind !== "fluid")) return;
    const on = aged(entry.date?.text) ?? day;
    const conditions: Found["conditions"][number][] = [];
    let decision: Found["decision"];
    for (const detail of entry.details) {
      if (detail.kind === "is")
        for (const condition of detail.conditions) conditions.push({ condition, where: where(file, entry, detail.row, condition.word) });
      if (detail.kind === "decision" && !unsaid(detail)) decision = { detail, where: where(file, entry, detail.row, detail.word ?? detail.at) };
    }
    const list = cells.of(thing.name, textsOf(entry.places));
    const count = wholeNumber(entry.count?.text);
    // Written out field by field here and below: an object that is spread into a larger one costs several times its size.
    const found: Found = {
      seq: mover.seq++,
      phase: mover.phase,
      where: where(file, entry, 0, entry.of.at),
      day: on,
      visit: undefined,
      file,
      entry,
      thing,
      places: list.length > 0 ? list.map((cell) => cell.place) : entry.places.length > 0 ? textsOf(entry.places) : [""],
      conditions,
      count,
      decision,
    };
    findings.push(found);
    for (const cell of list) {
      if (tellsTooManyApart(mover, cell, found.where)) continue;
      if (cell.kind === "fastener") fastenerMoves.found(mover, cell, found);
      else if (cell.kind === "part") partMoves.found(mover, cell, found);
      else if (cell.kind === "fluid") fluidMoves.found(mover, cell, found);
    }
  }

  // ------------------------------------------------------------- readings

  function* takeReadings(entry: MeasureEntry): Slices<void> {
    const limit = entry.limit === undefined ? undefined : job.things.get(entry.limit.text);
    if (limit?.kind !== "limit" || entry.stage === undefined) return;
    const by = entry.by === undefined ? undefined : job.things.get(entry.by.text);
    const gauge = by?.kind === "gauge" && !by.implied ? by : undefined;
    const on = aged(entry.date?.text) ?? dayWithWhatCame(job, { day, where: { entry } });
    const stood = asItStood(job, limit, entry);
    const lines = entry.details.filter((it) => it.kind === "reading");
    const linesAt = new Map<string, number>();
    for (const [i, detail] of lines.entries()) {
      if (i % someLines === someLines - 1) yield;
      const { place } = readingPlace(job, limit, detail);
      linesAt.set(place, (linesAt.get(place) ?? 0) + 1);
    }
    /** The measure has no other line of figures that is of these pieces. */
    const isOnly = (cell: Cell, place: string) => lines.length === 1 || (cell.place === place && linesAt.get(place) === 1);
    for (const [i, detail] of entry.details.entries()) {
      if (i % someLines === someLines - 1) yield;
      if (detail.kind === "reading" && !unsaid(detail)) takeReading(entry, detail, limit, stood, gauge, on, isOnly);
    }
  }

  function takeReading(
    entry: MeasureEntry,
    detail: ReadingDetail,
    limit: Limit,
    stood: Limit,
    gauge: Gauge | undefined,
    on: string | undefined,
    isOnly: (cell: Cell, place: string) => boolean,
  ): void {
    const spots = spotsOf(detail);
    const [first] = spots;
    if (first === undefined) return;
    const { place, position } = readingPlace(job, limit, detail);
    const reading: Reading = {
      seq: mover.seq++,
      phase: mover.phase,
      where: where(file, entry, detail.row, first.at),
      day: on,
      visit: undefined,
      entry,
      detail,
      stage: entry.stage as Reading["stage"],
      limit,
      stood,
      place,
      spots,
      position,
      gauge,
    };
    readings.push(reading);
    // What is tried says nothing of a piece; a setting belongs to the machine.
    if (reading.stage === "trial" || stood.set !== undefined) return;
    const alone = position === undefined && limit.positions.length === 0 && detail.again === undefined && limit.of.length === 1;
    for (const name of limit.of)
      for (const cell of cellsRead(name, place))
        if ((cell.kind === "part" || cell.kind === "fastener") && !tellsTooManyApart(mover, cell, reading.where))
          readSo(cell, reading, alone && isOnly(cell, place));
  }

  /** A thing without declared places is where the sheet names it, and else where it was read. */
  function cellsRead(name: Name, place: string): readonly Cell[] {
    const thing = job.things.get(name.text);
    if (thing === undefined || ("placeKind" in thing && thing.placeKind !== undefined)) return cells.beside(name, place);
    const known = cells.all(name.text);
    if (known.length === 0) return cells.of(name.text, []);
    const same = known.filter((cell) => cell.place === place);
    return same.length > 0 ? same : known;
  }

  // ------------------------------------------------------------- what can't be read

  /** A line that can't be read may have said anything of what it names, where lines of its kind say what was done or found. */
  function doubt(index: number, entry: Entry): void {
    const broken: Pick<Detail, "row">[] = [];
    if ((entry.fault !== undefined && movesThings.has(entry.kind)) || entry.kind === "unread")
      broken.push(entry, ...(entry.kind === "unread" ? entry.details : []));
    if (movesThings.has(entry.kind)) for (const detail of entry.details) if (detail.fault !== undefined) broken.push(detail);
    // What is left blank in done work may turn out to have been anything; in a plan it counts as far as it is written.
    if (entry.kind === "step" && entry.details.some((it) => it.kind === "done"))
      for (const detail of entry.details) if (detail.fault === undefined && detail.blanks !== undefined && detail.kind === "action") broken.push(detail);
    for (const detail of entry.stray) broken.push(detail);
    if (entry.kind === "measure" || entry.kind === "seen") {
      const of = entry.kind === "measure" ? entry.limit : entry.check;
      const lines = [...entry.details.filter(unsaid), ...entry.stray];
      if (of !== undefined && (unsaid(entry) || lines.length > 0)) doubted.add(of.text);
    }
    for (const { row } of broken) {
      const text = lineText(job.own.sheet, (job.own.sheet.starts[index] ?? 0) + row).slice(0, 400);
      for (const word of text.normalize("NFC").match(/\p{L}[\p{L}\p{M}\p{N}-]*/gu) ?? []) {
        const thing = job.things.get(word);
        if (thing?.kind === "limit" || thing?.kind === "check") doubted.add(word);
        if (thing !== undefined) for (const cell of cells.of(word, [])) cell.unsure = true;
      }
    }
  }
}

/** The day on which what stands below an entry was done, if nothing there says otherwise; `before` is that of the entry itself. */
function dayBehind(entry: Entry, before: string | undefined): string | undefined {
  if (entry.fault !== undefined) return before;
  if (entry.kind === "day") return entry.date?.text ?? before;
  let day = before;
  if (entry.kind === "sheet") for (const detail of entry.details) if (detail.kind === "opened") day = detail.date?.text ?? day;
  return day;
}

/** The day of a step that was done later than that. */
function lastDone(entry: StepEntry, before: string | undefined): string | undefined {
  if (before === undefined || entry.fault !== undefined) return before;
  const done = entry.details.findLast((it) => it.kind === "done" && it.fault === undefined);
  const on = done?.kind === "done" ? done.date?.text : undefined;
  return on !== undefined && on > before ? on : before;
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

const nowhere = { from: 0, to: 0 };
/** Stands for the release that has not been written yet. */
const virtualRelease: ReleaseEntry = { kind: "release", row: 0, at: nowhere, keyword: nowhere, details: [], stray: [], rows: 0 };

/** Which of a reading's words is the place, and which the position. */
export function readingPlace(job: Job, limit: Limit, detail: ReadingDetail): { place: string; position: string | undefined } {
  const [first, second] = detail.words;
  const has = limit.placeKind !== undefined && placesOf(job, limit)[0] !== "";
  const firstIsPlace = has || (limit.implied && first !== undefined && job.kindsOfPlace.has(first.text));
  return firstIsPlace ? { place: first?.text ?? "", position: second?.text } : { place: "", position: first?.text };
}
