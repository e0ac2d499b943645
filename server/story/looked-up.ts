// The readings, verdicts and looks of a story by what they are of, so that a rule which asks about one thing does not go through those of all others.
// Invariant: made once for a story, when first asked for; each list in the order of the story.
import { countAhead } from "../model/halving.ts";
import { memo } from "../model/memo.ts";
import type { Reading, Seen, Story } from "./story.ts";
import type { Judged, Unjudged, Verdict } from "./verdict.ts";

const none: readonly never[] = [];

const verdictsByLimit = memo((judged: Judged) => by(judged.verdicts, (it) => [it.limit.name]));
const verdictsByThing = memo((judged: Judged) => by(judged.verdicts, (it) => it.limit.of.map((name) => name.text)));
const unjudgedByLimit = memo((judged: Judged) => by(judged.unjudged, (it) => [it.limit.name]));
const readingsByLimit = memo((story: Story) => by(story.readings, (it) => [it.limit.name]));
const readingsByThing = memo((story: Story) => by(story.readings, (it) => it.limit.of.map((name) => name.text)));
const seenByCheck = memo((story: Story) => by(story.seen, (it) => [it.check.name]));
const seenByThing = memo((story: Story) => by(story.seen, (it) => it.check.of.map((name) => name.text)));

/** The verdicts on one limit. */
export function verdictsOn(judged: Judged, limit: string): readonly Verdict[] {
  return verdictsByLimit(judged).get(limit) ?? none;
}

/** The verdicts on every limit that is of one thing. */
export function verdictsOf(judged: Judged, thing: string): readonly Verdict[] {
  return verdictsByThing(judged).get(thing) ?? none;
}

/** What one limit came to by the readings that it is worked out of, where nothing is given to judge it by. */
export function unjudgedOn(judged: Judged, limit: string): readonly Unjudged[] {
  return unjudgedByLimit(judged).get(limit) ?? none;
}

export function readingsOn(story: Story, limit: string): readonly Reading[] {
  return readingsByLimit(story).get(limit) ?? none;
}

/** Those of a limit at a place, and those of no place; where none is named, all. In the order of the story. */
export function readingsAt(story: Story, limit: string, place: string): readonly Reading[] {
  const all = readingsByLimit(story).get(limit) ?? none;
  if (place === "") return all;
  const byPlace = readingsByPlace(all);
  const [here, whole] = [byPlace.get(place) ?? none, byPlace.get("") ?? none];
  return whole.length === 0 ? here : [...here, ...whole].sort((a, b) => a.seq - b.seq);
}

const readingsByPlace = memo((all: readonly Reading[]) => by(all, (it) => [it.place]));

/** The readings of every limit that is of one thing. */
export function readingsOf(story: Story, thing: string): readonly Reading[] {
  return readingsByThing(story).get(thing) ?? none;
}

export function seenOn(story: Story, check: string): readonly Seen[] {
  return seenByCheck(story).get(check) ?? none;
}

/** What was seen by every check that is of one thing. */
export function seenOf(story: Story, thing: string): readonly Seen[] {
  return seenByThing(story).get(thing) ?? none;
}

/** The last of a list in the order of the story that stands before `seq` and is so: looked for from there, however long the list goes on behind it. */
export function lastBefore<T extends { readonly seq: number }>(list: readonly T[], seq: number, is: (it: T) => boolean): T | undefined {
  for (let i = firstFrom(list, seq) - 1; i >= 0; i--) if (is(list[i] as T)) return list[i];
  return undefined;
}

/** The first that stands behind `seq` and is so. */
export function firstBehind<T extends { readonly seq: number }>(list: readonly T[], seq: number, is: (it: T) => boolean): T | undefined {
  for (let i = firstFrom(list, seq + 1); i < list.length; i++) if (is(list[i] as T)) return list[i];
  return undefined;
}

/** The place of the first whose number is at least `seq`. */
function firstFrom(list: readonly { readonly seq: number }[], seq: number): number {
  return countAhead(list, (it) => it.seq < seq);
}

/** One that bears a name twice stands once in its list. */
function by<T>(list: readonly T[], names: (it: T) => readonly string[]): ReadonlyMap<string, readonly T[]> {
  const lists = new Map<string, T[]>();
  for (const it of list) {
    for (const name of names(it)) {
      const known = lists.get(name);
      if (known === undefined) lists.set(name, [it]);
      else if (known[known.length - 1] !== it) known.push(it);
    }
  }
  return lists;
}
