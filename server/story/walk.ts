// Walks a job in the order in which it is written: what is done first, what is planned behind it as a forecast.
// Invariant: never throws; a line with a fault moves nothing and leaves what it names unsure.
import { unsaid } from "../../grammar/blanks.ts";
import type { Slices } from "../../grammar/slices.ts";
import type { ConcessionEntry, Entry, FindingEntry, Name, PauseEntry, ReleaseEntry, SeenEntry, ShimsEntry } from "../../grammar/tree.ts";
import { wholeNumber } from "../model/declare.ts";
import { isNoPlace, type Job, placesOf } from "../model/job.ts";
import { memoSliced } from "../model/memo.ts";
import { isSameStack, packsOf } from "../model/shim-stacks.ts";
import { where } from "../model/where.ts";
import { dayWithWhatCame } from "./came-above.ts";
import { fastenerMoves } from "./fastener-moves.ts";
import { fluidMoves } from "./fluid-moves.ts";
import { tellsTooManyApart } from "./mover.ts";
import { partMoves } from "./part-moves.ts";
import type { Found, Story } from "./story.ts";
import { doubt, doubtSlips } from "./walk-doubts.ts";
import { takeReadings } from "./walk-readings.ts";
import { type Walk, beginWalk, dated, momentOutsideSteps, storyOf } from "./walk-state.ts";
import { takeStep, visit } from "./walk-steps.ts";
import { inOrderOfDays } from "./written-late.ts";

/** So many entries a slice. */
const someEntries = 50;

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
  const walk = beginWalk(job);
  doubtSlips(walk);
  for (const [index, entry, under] of inOrderOfDays(job.own.sheet.entries)) {
    if (index % someEntries === 0) yield;
    const above = walk.day;
    walk.day = under ?? above;
    walk.mover.day = walk.day;
    doubt(walk, index, entry);
    const saysNothing = unsaid(entry) && entry.kind !== "step" && (entry.kind !== "release" || entry.fault !== undefined);
    if (!saysNothing) yield* take(walk, entry);
    // What is told elsewhere than it stands has its day for itself.
    if (saysNothing || under !== undefined) walk.day = above;
  }
  endOfDone(walk);
  if (asReleased && walk.release === undefined) takeUnwrittenRelease(walk);
  const supportNow = walk.mover.support;
  const plannedFrom = walk.mover.seq;
  walk.mover.phase = "planned";
  for (const [index, { entry, places, alone }] of walk.planned.entries()) {
    if (index % someEntries === 0) yield;
    yield* visit(walk, entry, places, undefined, alone);
  }
  walk.cells.close();
  return storyOf(walk, supportNow, plannedFrom);
}

/** What an entry tells, by its kind; entries that only declare tell nothing. */
function* take(walk: Walk, entry: Entry): Slices<void> {
  switch (entry.kind) {
    case "day":
      dated(walk, entry.date?.text);
      walk.isDayGiven = true;
      if (entry.fault === undefined) walk.day = entry.date?.text ?? walk.day;
      return;
    case "sheet":
      for (const detail of entry.details)
        if (detail.kind === "opened") {
          const date = dated(walk, detail.date?.text);
          if (entry.fault === undefined) walk.day = date ?? walk.day;
        }
      return;
    case "step":
      return yield* takeStep(walk, entry);
    case "measure":
      return yield* takeReadings(walk, entry);
    case "seen":
      return takeLook(walk, entry);
    case "shims":
      return takePack(walk, entry);
    case "finding":
      return takeFinding(walk, entry);
    case "concession":
      return takeConcession(walk, entry);
    case "pause":
      return takePause(walk, entry);
    case "release":
      return takeRelease(walk, entry);
    default:
  }
}

/** All that is done is walked: what follows is planned, and leaves the state of now as it is. */
function endOfDone({ cells }: Walk): void {
  for (const list of [cells.fasteners, cells.parts, cells.fluids, cells.hazards]) for (const cell of list) (cell as { now: unknown }).now = cell.then;
}

/** What was looked at, at each of the places that are named. */
function takeLook(walk: Walk, entry: SeenEntry): void {
  const { job, day } = walk;
  const check = entry.check === undefined ? undefined : job.things.get(entry.check.text);
  if (check?.kind !== "check" || entry.check === undefined || entry.verdict === undefined || entry.stage === undefined) return;
  const on = dated(walk, entry.date?.text) ?? dayWithWhatCame(job, { day, where: { entry } });
  for (const place of entry.places.length === 0 ? [undefined] : entry.places)
    walk.seen.push({
      ...momentOutsideSteps(walk, entry, 0, entry.verdictAt ?? entry.check.at, on),
      entry,
      check,
      stage: entry.stage,
      good: entry.verdict === "good",
      place: place?.text ?? "",
    });
}

/** What a later entry says is fitted replaces what was in. */
function takePack(walk: Walk, entry: ShimsEntry): void {
  const thing = entry.name === undefined ? undefined : walk.job.things.get(entry.name.text);
  if (thing?.kind !== "shims") return;
  const packs = packsOf(thing);
  const index = packs.findIndex((it) => it.lines[0].entry === entry);
  const [before, pack] = [packs[index - 1], packs[index]];
  const line = pack?.lines.find((it) => !unsaid(it.detail))?.detail;
  if (before === undefined || pack === undefined || line === undefined) return;
  const isSame = isSameStack(before.stack, pack.stack);
  for (const cell of walk.cells.of(thing.name, []))
    if (cell.kind === "part") partMoves.packed(walk.mover, cell, momentOutsideSteps(walk, entry, line.row, line.keyword), isSame);
}

function takeFinding(walk: Walk, entry: FindingEntry): void {
  if (entry.of === undefined) return;
  const { mover, file } = walk;
  const thing = walk.job.things.get(entry.of.text);
  if (thing === undefined || (thing.kind !== "part" && thing.kind !== "fastener" && thing.kind !== "fluid")) return;
  if (entry.places.length > 0 && entry.places.every(({ text }) => isNoPlace(walk.job, text))) return;
  const on = dated(walk, entry.date?.text) ?? walk.day;
  const conditions: Found["conditions"][number][] = [];
  let decision: Found["decision"];
  for (const detail of entry.details) {
    if (detail.kind === "is") for (const condition of detail.conditions) conditions.push({ condition, where: where(file, entry, detail.row, condition.word) });
    if (detail.kind === "decision" && !unsaid(detail)) decision = { detail, where: where(file, entry, detail.row, detail.word ?? detail.at) };
  }
  const list = walk.cells.of(thing.name, textsOf(entry.places));
  // Written out field by field: an object that is spread into a larger one costs several times its size.
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
    count: wholeNumber(entry.count?.text),
    decision,
  };
  walk.findings.push(found);
  for (const cell of list) {
    if (tellsTooManyApart(mover, cell, found.where)) continue;
    if (cell.kind === "fastener") fastenerMoves.found(mover, cell, found);
    else if (cell.kind === "part") partMoves.found(mover, cell, found);
    else if (cell.kind === "fluid") fluidMoves.found(mover, cell, found);
  }
}

function takeConcession(walk: Walk, entry: ConcessionEntry): void {
  const thing = entry.of === undefined ? undefined : walk.job.things.get(entry.of.text);
  if (thing === undefined || entry.of === undefined) return;
  const places = entry.places.length > 0 ? textsOf(entry.places) : "placeKind" in thing ? placesOf(walk.job, thing) : [""];
  walk.concessions.push({ ...momentOutsideSteps(walk, entry, 0, entry.of.at, dated(walk, entry.date?.text)), entry, thing, places });
}

function takePause(walk: Walk, entry: PauseEntry): void {
  walk.pauses.push({ ...momentOutsideSteps(walk, entry, 0, entry.keyword, dated(walk, entry.date?.text)), entry });
}

/** The last one counts; those above it are kept. */
function takeRelease(walk: Walk, entry: ReleaseEntry): void {
  const { job, day, newestDay } = walk;
  // Signed without a day, below what is or came on a later day than the last one known: nobody says when.
  if (!walk.isDayGiven && day !== undefined && ((newestDay !== undefined && newestDay > day) || dayWithWhatCame(job, { day, where: { entry } }) !== day))
    walk.day = undefined;
  if (walk.release !== undefined) walk.earlierReleases.push(walk.release);
  walk.release = { ...momentOutsideSteps(walk, entry, 0, entry.keyword, dated(walk, entry.date?.text)), entry };
}

const nowhere = { from: 0, to: 0 };
/** Stands for the release that has not been written yet. */
const unwrittenRelease: ReleaseEntry = { kind: "release", row: 0, at: nowhere, keyword: nowhere, details: [], stray: [], rows: 0 };

/** It is told at the head of the sheet, for there is no line of it. */
function takeUnwrittenRelease(walk: Walk): void {
  const head = walk.job.sheet ?? walk.job.own.sheet.entries[0] ?? unwrittenRelease;
  walk.release = { ...momentOutsideSteps(walk, head, 0, head.keyword), entry: unwrittenRelease };
}

function textsOf(names: readonly Name[]): string[] {
  return names.map((it) => it.text);
}
