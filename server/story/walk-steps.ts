// The steps of a walk: which of their places are done and which are planned, and each gone through line by line.
import { unsaid } from "../../grammar/blanks.ts";
import type { Slices } from "../../grammar/slices.ts";
import type { ActionDetail, StepEntry } from "../../grammar/tree.ts";
import { putInto } from "../model/grouped.ts";
import type { Job } from "../model/job.ts";
import { memo } from "../model/memo.ts";
import { act, blur } from "./actions.ts";
import { hazardMoves } from "./hazard-moves.ts";
import { placesOfStep } from "./step-places.ts";
import type { Visit } from "./story.ts";
import { type Walk, dated } from "./walk-state.ts";

/** So many lines of one step a slice. */
const someLines = 20;

/** Goes through what is done of a step, and keeps what is planned of it for later. */
export function* takeStep(walk: Walk, entry: StepEntry): Slices<void> {
  const { isDone, places: donePlaces, isWhole, on } = doneOf(walk, entry);
  const places = placesOfStep(walk.job, entry);
  if (!isDone) walk.planned.push({ entry, places, alone: false });
  else if (isWhole || donePlaces.length === 0) yield* visit(walk, entry, places, on, false);
  else {
    yield* visit(walk, entry, donePlaces, on, false);
    const rest = (places ?? placesOfKindOf(walk.job, donePlaces)).filter((place) => !donePlaces.includes(place));
    if (rest.length > 0) walk.planned.push({ entry, places: rest, alone: true });
  }
  if (!walk.isDayGiven) walk.day = lastDone(entry, walk.day);
}

/** What its `done` lines say: at which places, or all of it, and on which day, the last of several. */
function doneOf(walk: Walk, entry: StepEntry): { isDone: boolean; places: readonly string[]; isWhole: boolean; on: string | undefined } {
  const places: string[] = [];
  let isDone = false;
  let isWhole = false;
  let on = walk.day;
  for (const detail of entry.details) {
    // A `done` that can't be read was meant: the slip is said, and the step is not taken for one that is planned.
    if (detail.fault !== undefined && (detail.kind === "done" || (detail.kind === "unread" && detail.guess === "done"))) {
      isDone = true;
      isWhole = true;
    }
    if (detail.kind !== "done" || unsaid(detail)) continue;
    isDone = true;
    if (detail.places.length === 0) isWhole = true;
    for (const place of detail.places) places.push(place.text);
    on = dated(walk, detail.date?.text) ?? on;
  }
  return { isDone, places, isWhole, on };
}

/** The day of a step that was done later than that. */
function lastDone(entry: StepEntry, before: string | undefined): string | undefined {
  if (before === undefined || entry.fault !== undefined) return before;
  const done = entry.details.findLast((it) => it.kind === "done" && it.fault === undefined);
  const on = done?.kind === "done" ? done.date?.text : undefined;
  return on !== undefined && on > before ? on : before;
}

function placesOfKindOf(job: Job, places: readonly string[]): readonly string[] {
  for (const place of places) for (const kind of job.kindsOfPlace.get(place) ?? []) return job.placeKinds.get(kind) ?? [];
  return [];
}

/** Goes through the lines of a step. `alone`: the other places were done before, and what has no place was done with them. */
export function* visit(walk: Walk, entry: StepEntry, places: readonly string[] | undefined, on: string | undefined, alone: boolean): Slices<void> {
  const { mover } = walk;
  const it: Visit = { number: walk.visits.length, phase: mover.phase, file: walk.file, entry, day: on, places };
  walk.visits.push(it);
  mover.visit = it;
  mover.day = on;
  if (entry.name !== undefined) for (const hazard of hazardsByStep(walk.job).get(entry.name.text) ?? []) hazardMoves.arises(mover, hazard, entry);
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

/** The hazards that a step brings along, by its name. */
const hazardsByStep = memo((job: Job): ReadonlyMap<string, readonly string[]> => {
  const hazards = new Map<string, string[]>();
  for (const thing of job.things.values()) if (thing.kind === "hazard" && thing.from !== undefined) putInto(hazards, thing.from.text, thing.name);
  return hazards;
});
