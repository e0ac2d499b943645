// What was done last to a thread whose torque is given oiled or dry: cleaned, oiled, renewed; and whether oil is wanted on it.
// Invariant: done work only, by its lines.
import { memo } from "../model/memo.ts";
import { isSamePlace } from "../model/same-place.ts";
import { allWords } from "../model/titles.ts";
import { isLubricated } from "./put-right.ts";
import type { FastenerCell, FastenerMoment, PartMoment, Story } from "./story.ts";

/** Oiled before it was run up the last time, and neither cleaned nor renewed between. */
export function oiledBefore(cell: FastenerCell, at: number): FastenerMoment | undefined {
  const last = lastOnThread(cell, at);
  return last !== undefined && isLubricated(last) ? last : undefined;
}

/** Cleaned before it was run up the last time, and neither oiled nor renewed between: a new one may come oiled. */
export function cleanedBefore(cell: FastenerCell, at: number): FastenerMoment | undefined {
  const last = lastOnThread(cell, at);
  return last !== undefined && isCleaned(last) ? last : undefined;
}

/** What was done last to its thread. Oil on what is tight, against rust, or a wipe of it, reaches its thread only once it is undone; oil also where it is pulled further. */
function lastOnThread(cell: FastenerCell, at: number): FastenerMoment | undefined {
  const before = cell.history.slice(0, at).filter((it) => it.phase === "done");
  const last = before.findLastIndex((it) => isLubricated(it) || isCleaned(it) || (it.verb === "fit" && it.isNew));
  const it = before[last];
  if (it === undefined) return undefined;
  const isOpened = before.slice(last).some((other) => other.verb === "undo" || other.verb === "slacken");
  return it.before.tight && !isOpened && !(isLubricated(it) && isPulledFurther(before.slice(0, last), cell.history[at])) ? undefined : it;
}

/** Nipped up or at its first stage as it was oiled, and turned on to its figure then. */
function isPulledFurther(before: readonly FastenerMoment[], then: FastenerMoment | undefined): boolean {
  const pulled = before.findLast((it) => it.verb === "tighten");
  if (pulled === undefined || then?.to === undefined) return false;
  return pulled.to === undefined || (pulled.to.unit.dimension === then.to.unit.dimension && pulled.to.value.compare(then.to.value) < 0);
}

/** What a nut goes on. A hub that is greased is no thread of its nut. */
export const threaded = /\b(stud|bolt|(set|cap)?screw)s?\b/i;

/** A nut and its stud: `head-stud` and `head-stud-nut`. */
export function isKin(name: string, other: string): boolean {
  return name.startsWith(other) || other.startsWith(name);
}

export function isCleaned({ verb, action }: FastenerMoment | PartMoment): boolean {
  return action?.verb === "clean" || (verb === "repair" && /\b(degreas|clean|wash|dried|spirit)/i.test(action?.text?.value ?? ""));
}

/** Lines that oil a nut, a bolt or a stud, by their numbers. A cap that is oiled is no thread of the cap's bolt. */
const oilLines = memo((story: Story) =>
  [...story.parts, ...story.fasteners].flatMap(({ thing, place, history }) =>
    thing.kind === "part" && !threaded.test(allWords(thing))
      ? []
      : history.filter((it) => it.phase === "done" && isLubricated(it)).map(({ seq }) => ({ thing, place, seq })),
  ),
);

/** Its own, or of its bolt or stud, between two lines. */
export function isOiledBetween(story: Story, { thing, place }: FastenerCell, from: number, to: number): boolean {
  return oilLines(story).some((it) => it.seq > from && it.seq < to && isSamePlace(it.place, place) && isKin(thing.name, it.thing.name));
}

/**
 * Run up by the line at this index on a thread that was open and had no oil in this job, though its torque is given oiled and the sheet writes the oil of others that are given so. A new one may
 * come oiled, and the words of its step may say that it was.
 */
export function leftUnoiled(story: Story, cell: FastenerCell, at: number): boolean {
  const moment = cell.history[at];
  if (moment === undefined || !cell.thing.critical || lastOnThread(cell, at) !== undefined) return false;
  const before = cell.history.slice(0, at).filter((it) => it.phase === "done");
  const opened = before.findLast((it) => it.after.on < it.before.on || it.verb === "slacken");
  if (opened === undefined || opened.isNew || isOiledBetween(story, cell, -1, moment.seq)) return false;
  return isWrittenOfOthers(story, cell) && !before.concat(moment).some((it) => it.visit !== undefined && saysOil(it));
}

/** Oil is wanted on what is to be done up: it was cleaned, or others that are given so had theirs, and this one has none. */
export function wantsOil(story: Story, cell: FastenerCell): boolean {
  if (cell.thing.torque?.condition !== "oiled") return false;
  const at = cell.history.filter((it) => it.phase === "done").length;
  const cleaned = cleanedBefore(cell, at);
  if (cleaned !== undefined) return !isOiledBetween(story, cell, cleaned.seq, Number.POSITIVE_INFINITY);
  return (
    cell.thing.critical && lastOnThread(cell, at) === undefined && isWrittenOfOthers(story, cell) && !isOiledBetween(story, cell, -1, Number.POSITIVE_INFINITY)
  );
}

function isWrittenOfOthers(story: Story, cell: FastenerCell): boolean {
  return story.fasteners.some((it) => it !== cell && it.thing.torque?.condition === "oiled" && isOiledBetween(story, it, -1, Number.POSITIVE_INFINITY));
}

function saysOil({ visit }: FastenerMoment): boolean {
  return visit?.entry.details.some((it) => it.kind === "note" && oily.test(it.text?.value ?? "")) === true || oily.test(visit?.entry.title?.value ?? "");
}

const oily = /\b(oil\w*|lubric\w*|greas\w*|wet)\b/iu;
