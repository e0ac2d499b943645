// Which readings say nothing of the machine as it is now: a setting that was moved after it was read, a size that was read of the piece that came out.
// Invariant: done work only.
import { readWith } from "../model/read-with.ts";
import { relationsOf } from "../model/relations.ts";
import type { Limit } from "../model/things.ts";
import type { FastenerCell, FastenerMoment, Moment, PartCell, PartMoment, Reading, Story } from "../story/story.ts";
import { type Away, comesOn, workedOnLater } from "../story/away.ts";
import { type Move, lastMove, lastOffOrOn } from "./moved.ts";

/** What moved a setting after it was read, by its line or by its day. */
export function movedSince(story: Story, reading: Reading): Move | undefined {
  const { limit, place } = reading;
  if (limit.setBy.length === 0) return undefined;
  return latest(reading, [lastMove(story, limit.setBy, place), lastOffOrOn(story, partsOf(story, limit), place), madeTight(story, limit, reading)]);
}

/** A part that sets it is set when what holds it is tight: it was slack as this was read, and was tightened since. */
function madeTight(story: Story, limit: Limit, reading: Reading): Move | undefined {
  for (const name of limit.setBy) {
    const thing = story.job.things.get(name.text);
    if (thing?.kind !== "part") continue;
    for (const { text } of thing.heldBy) {
      for (const cell of story.cells(text)) {
        if (cell.kind !== "fastener" || cell.unsure || (cell.place !== reading.place && cell.place !== "" && reading.place !== "")) continue;
        const was = cell.history.findLast((it) => it.seq < reading.seq);
        if (was === undefined || was.after.tight) continue;
        const moment = cell.history.find((it) => it.seq > reading.seq && it.phase === "done" && it.verb === "tighten");
        if (moment !== undefined) return { cell, moment };
      }
    }
  }
  return undefined;
}

/** By their days the reading is the older, wherever the lines stand. */
export function datedBefore(reading: Moment, moved: Moment): boolean {
  return reading.day !== undefined && moved.day !== undefined && reading.day < moved.day;
}

/** The latest of these, if it came after the reading, by its line or by its day. */
function latest(reading: Moment, moves: readonly (Move | undefined)[]): Move | undefined {
  let last: Move | undefined;
  for (const it of moves)
    if (it !== undefined && (it.moment.seq > reading.seq || datedBefore(reading, it.moment)) && (last === undefined || it.moment.seq > last.moment.seq))
      last = it;
  return last;
}

/** What a setting is of, and the parts that the fasteners hold which set it: it was read with all of them on. */
function partsOf(story: Story, limit: Limit): readonly string[] {
  const { holds } = relationsOf(story.job);
  return [...limit.of.map((name) => name.text), ...limit.setBy.flatMap((name) => (holds.get(name.text) ?? []).map((part) => part.name))];
}

/** What the piece that a size was read of had still to go through on the day of the reading, though the line stands below it: it had not come, or was not worked on yet. */
export interface NotYet {
  readonly cell: PartCell | FastenerCell;
  readonly order: Away;
  /** It was the new one, and not the old one come back. */
  readonly isNew: boolean;
}

export function readBeforeItCame(story: Story, { limit, place, day, seq, where: at }: Reading): NotYet | undefined {
  if (day === undefined) return undefined;
  for (const name of limit.of) {
    for (const cell of story.cells(name.text)) {
      if ((cell.kind !== "part" && cell.kind !== "fastener") || cell.unsure || (cell.place !== place && cell.place !== "" && place !== "")) continue;
      const fits = (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done" && it.verb === "fit");
      const isOff = onAt(cell, seq) === 0;
      const fit = isOff ? fits.find((it) => it.seq > seq) : fits.findLast((it) => it.seq < seq);
      if (fit?.isNew === true && fit.count === cell.total) {
        const came = comesOn(story.job, name.text, day);
        if (came?.day !== undefined) return { cell, order: { reference: came.reference, where: came.where, back: came.day }, isNew: true };
      }
      const work = fit?.isNew === true ? undefined : workedOnLater(story.job, name.text, cell.place, day, at);
      if (work !== undefined) return { cell, order: work, isNew: false };
    }
  }
  return undefined;
}

function onAt(cell: PartCell | FastenerCell, seq: number): number {
  return (cell.history as readonly (PartMoment | FastenerMoment)[]).findLast((it) => it.seq < seq)?.after.on ?? cell.total;
}

/** The new piece, or the one from another place, that a final is dated before, though it stands below it: the old one was still in on that day. */
export function readOfTheOld(
  story: Story,
  reading: Reading,
): { readonly cell: PartCell | FastenerCell; readonly moment: PartMoment | FastenerMoment } | undefined {
  const { day } = reading;
  if (day === undefined) return undefined;
  for (const name of reading.limit.of) {
    for (const cell of story.cells(name.text)) {
      if ((cell.kind !== "part" && cell.kind !== "fastener") || (cell.place !== reading.place && cell.place !== "" && reading.place !== "")) continue;
      const history = (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done" && it.seq < reading.seq);
      const moment = history.findLast((it) => it.verb === "fit" && (it.isNew || it.from !== undefined));
      if (moment?.day === undefined || moment.day <= day) continue;
      const off = history.findLast((it) => it.seq < moment.seq && it.after.on < it.before.on);
      // Off by then: it was read of the new one, before that went in. What is read with it in was read of neither.
      if (off?.day !== undefined && off.day <= day && !readWith(story.job, reading.limit).includes(cell.thing)) continue;
      return { cell, moment };
    }
  }
  return undefined;
}
