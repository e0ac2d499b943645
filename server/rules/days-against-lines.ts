// Lines that run against their days, where one thing orders the other: the story goes by the lines, and one of the two is wrong.
// Invariant: only what is done and dated, in two steps; by whose days it speaks is for the rule.
import type { FastenerCell, FastenerMoment, HazardMoment, Moment, PartCell, PartMoment, Story, SupportMoment } from "../story/story.ts";
import { rollsOrCarries } from "../model/carries.ts";
import { midSentence } from "./wording.ts";

export interface AgainstDays {
  /** By the lines. */
  readonly first: Moment;
  readonly second: Moment;
  /** What is first, in words. */
  readonly of: string;
}

/** By what is before a part and what holds it; by what a hazard must be safe before and stay off until; by what the machine rolls on. */
export function* againstDays(story: Story): Generator<AgainstDays> {
  yield* partsAgainstDays(story);
  yield* hazardsAgainstDays(story);
  yield* supportAgainstDays(story);
  yield* wheelsAgainstDays(story);
}

/** A part that was off before what is before it was opened, or on after that was closed. */
function* partsAgainstDays(story: Story): Generator<AgainstDays> {
  for (const cell of story.parts) {
    const own = datedMoves(cell);
    if (own.length === 0) continue;
    for (const name of [...cell.thing.behind, ...cell.thing.heldBy]) {
      for (const front of story.cells(name.text)) {
        if ((front.kind !== "part" && front.kind !== "fastener") || (front.place !== cell.place && front.place !== "" && cell.place !== "")) continue;
        for (const it of datedMoves(front)) {
          // What opens comes before what it bares; what closes comes after what it covers.
          const other = opens(it) ? own.find((was) => was.seq > it.seq) : own.findLast((was) => was.seq < it.seq);
          if (other === undefined) continue;
          const [first, second, of] = opens(it) ? [it, other, front] : [other, it, cell];
          if (isLater(first, second)) yield { first, second, of: midSentence(of.thing, of.place) };
        }
      }
    }
  }
}

/** A hazard made safe after what it bars was opened, or live before what it waits for was closed. */
function* hazardsAgainstDays(story: Story): Generator<AgainstDays> {
  for (const cell of story.hazards) {
    let before: HazardMoment | undefined;
    for (const it of cell.history) {
      if (it.phase !== "done" || it.day === undefined || it.verb === "arises") continue;
      if (before !== undefined && isLater(before, it)) yield { first: before, second: it, of: `\`${before.verb} ${cell.thing.name}\`` };
      before = it;
      const named = it.verb === "safe" ? cell.thing.safeBefore : [...cell.thing.safeBefore, ...cell.thing.restoreAfter];
      for (const other of named.flatMap((name) => story.cells(name.text))) {
        if (other.kind !== "part" && other.kind !== "fastener") continue;
        const moves = datedMoves(other);
        if (it.verb === "restore") {
          const closed = moves.findLast((was) => was.seq < it.seq);
          if (closed !== undefined && isLater(closed, it)) yield { first: closed, second: it, of: midSentence(other.thing, other.place) };
        } else {
          const opened = moves.find((next) => next.seq > it.seq && opens(next));
          if (opened !== undefined && isLater(it, opened)) yield { first: it, second: opened, of: `\`safe ${cell.thing.name}\`` };
        }
      }
    }
  }
}

/** Let down before it was raised, or the other way about. */
function* supportAgainstDays(story: Story): Generator<AgainstDays> {
  let before: SupportMoment | undefined;
  for (const it of story.support) {
    if (it.phase !== "done" || it.day === undefined || (it.verb !== "raise" && it.verb !== "lower")) continue;
    if (before !== undefined && isLater(before, it)) yield { first: before, second: it, of: `\`${before.verb}\`` };
    before = it;
  }
}

/** What it rolls on: off before the machine was raised, or back after it was let down. */
function* wheelsAgainstDays(story: Story): Generator<AgainstDays> {
  const held = story.support.filter((it) => it.phase === "done" && it.day !== undefined && (it.verb === "raise" || it.verb === "lower"));
  if (held.length === 0) return;
  for (const part of story.parts) {
    if (!rollsOrCarries(part.thing)) continue;
    for (const cell of [part.thing.name, ...part.thing.heldBy.map(({ text }) => text)].flatMap((name) => story.cells(name))) {
      if ((cell.kind !== "part" && cell.kind !== "fastener") || (cell.place !== part.place && cell.place !== "" && part.place !== "")) continue;
      for (const moment of datedMoves(cell)) {
        const up = held.findLast((it) => it.seq < moment.seq);
        const down = held.find((it) => it.seq > moment.seq);
        if (opens(moment) && up?.verb === "raise" && isLater(up, moment)) yield { first: up, second: moment, of: "`raise`" };
        if (!opens(moment) && down?.verb === "lower" && isLater(moment, down)) yield { first: moment, second: down, of: midSentence(cell.thing, cell.place) };
      }
    }
  }
}

/** Of a later day, in another step. */
function isLater(first: Moment, second: Moment): boolean {
  return first.visit !== second.visit && first.day !== undefined && second.day !== undefined && first.day > second.day;
}

function opens({ verb }: PartMoment | FastenerMoment): boolean {
  return verb === "undo" || verb === "remove";
}

const moved: ReadonlySet<string> = new Set(["remove", "fit", "undo", "tighten"]);

function datedMoves(cell: PartCell | FastenerCell): (PartMoment | FastenerMoment)[] {
  return cell.unsure
    ? []
    : (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done" && it.day !== undefined && moved.has(it.verb));
}
