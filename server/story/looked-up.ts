// The readings, verdicts and looks of a story by what they are of, so that a rule which asks about one thing does not go through those of all others.
// Invariant: made once for a story, when first asked for; each list in the order of the story.
import type { Reading, Seen, Story } from "./story.ts";
import type { Judged, Verdict } from "./verdicts.ts";

const none: readonly never[] = [];

const verdictsByLimit = new WeakMap<Judged, ReadonlyMap<string, readonly Verdict[]>>();

/** The verdicts on one limit. */
export function verdictsOn(judged: Judged, limit: string): readonly Verdict[] {
  return from(verdictsByLimit, judged, () => by(judged.verdicts, (it) => [it.limit.name])).get(limit) ?? none;
}

const verdictsByThing = new WeakMap<Judged, ReadonlyMap<string, readonly Verdict[]>>();

/** The verdicts on every limit that is of one thing. */
export function verdictsOf(judged: Judged, thing: string): readonly Verdict[] {
  return from(verdictsByThing, judged, () => by(judged.verdicts, (it) => it.limit.of.map((name) => name.text))).get(thing) ?? none;
}

const readingsByLimit = new WeakMap<Story, ReadonlyMap<string, readonly Reading[]>>();

export function readingsOn(story: Story, limit: string): readonly Reading[] {
  return from(readingsByLimit, story, () => by(story.readings, (it) => [it.limit.name])).get(limit) ?? none;
}

const readingsByThing = new WeakMap<Story, ReadonlyMap<string, readonly Reading[]>>();

/** The readings of every limit that is of one thing. */
export function readingsOf(story: Story, thing: string): readonly Reading[] {
  return from(readingsByThing, story, () => by(story.readings, (it) => it.limit.of.map((name) => name.text))).get(thing) ?? none;
}

const seenByCheck = new WeakMap<Story, ReadonlyMap<string, readonly Seen[]>>();

export function seenOn(story: Story, check: string): readonly Seen[] {
  return from(seenByCheck, story, () => by(story.seen, (it) => [it.check.name])).get(check) ?? none;
}

const seenByThing = new WeakMap<Story, ReadonlyMap<string, readonly Seen[]>>();

/** What was seen by every check that is of one thing. */
export function seenOf(story: Story, thing: string): readonly Seen[] {
  return from(seenByThing, story, () => by(story.seen, (it) => it.check.of.map((name) => name.text))).get(thing) ?? none;
}

function from<K extends object, T>(remembered: WeakMap<K, T>, key: K, make: () => T): T {
  let it = remembered.get(key);
  if (it === undefined) {
    it = make();
    remembered.set(key, it);
  }
  return it;
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
