// In which order things go back: what the facts allow, and of what they leave open, what came off last first.
// Invariant: never hangs; where things wait for each other in a circle the one that came off last goes first.
import type { Name } from "../../../grammar/tree.ts";
import { relationsOf } from "../../model/relations.ts";
import type { Story } from "../../story/story.ts";
import type { Work } from "./work.ts";

export function inOrderOfFitting(story: Story, work: readonly Work[]): Work[] {
  const byName = new Map(work.map((it) => [it.thing.name, it]));
  const before = new Map<string, Set<string>>(work.map((it) => [it.thing.name, new Set<string>()]));
  const { job } = story;
  const relations = relationsOf(job);

  /** `later` waits for `first`, where both are to be done. */
  const wait = (later: string, first: string): void => {
    if (later !== first && byName.has(later) && byName.has(first)) before.get(later)?.add(first);
  };
  /** The same, unless it would close a circle. */
  const rather = (later: string, first: string): void => {
    if (!reaches(first, later)) wait(later, first);
  };
  const reaches = (from: string, to: string): boolean => {
    const seen = new Set([from]);
    for (const name of seen) {
      if (name === to) return true;
      for (const next of before.get(name) ?? []) seen.add(next);
    }
    return false;
  };
  const names = (list: readonly Name[]) => list.map((it) => it.text);

  for (const { thing } of work) {
    if (thing.kind === "part") for (const front of nearest(names(thing.behind), byName, job)) wait(front, thing.name);
    if (thing.kind === "part") for (const fastener of names(thing.heldBy)) wait(fastener, thing.name);
    if (thing.kind === "fastener") {
      const locking = thing.locking?.locking;
      if (locking?.kind === "part" && locking.part !== undefined) wait(thing.name, locking.part.text);
    }
    if (thing.kind === "fluid") {
      for (const part of names(thing.in)) {
        wait(thing.name, part);
        const known = job.things.get(part);
        if (known?.kind === "part") for (const fastener of names(known.heldBy)) wait(thing.name, fastener);
      }
    }
    if (thing.kind === "hazard") for (const name of names([...thing.restoreAfter, ...thing.safeBefore])) wait(thing.name, name);
  }
  // What is behind a part is out of reach once that is on: its fasteners are made fast first, where they can be.
  for (const { thing } of work) {
    if (thing.kind !== "fastener") continue;
    for (const part of relations.holds.get(thing.name) ?? []) for (const front of names(part.behind)) rather(front, thing.name);
  }
  // A hazard comes back when all else is done.
  for (const { thing } of work) if (thing.kind === "hazard") for (const other of work) if (other.thing.kind !== "hazard") rather(thing.name, other.thing.name);

  return latestFirst(work, before);
}

/** Each behind all that it waits for, and of those that may come what came off last. */
function latestFirst(work: readonly Work[], before: ReadonlyMap<string, ReadonlySet<string>>): Work[] {
  const places = new Map(work.map((it, i) => [it, i]));
  const behind = new Map<string, Work[]>(work.map((it) => [it.thing.name, []]));
  const waits = new Map<Work, number>();
  for (const it of work) {
    const names = before.get(it.thing.name) ?? noNames;
    waits.set(it, names.size);
    for (const name of names) behind.get(name)?.push(it);
  }
  /** Of two that came off together the first of the list goes first. */
  const later = (a: Work, b: Work) => a.since - b.since || (places.get(b) as number) - (places.get(a) as number);
  // What may come, the next at its end.
  const ready = work.filter((it) => waits.get(it) === 0).sort(later);
  const left = new Set(work);
  const out: Work[] = [];
  while (left.size > 0) {
    const next = ready.pop() ?? [...left].reduce((a, b) => (later(b, a) > 0 ? b : a));
    out.push(next);
    left.delete(next);
    for (const it of behind.get(next.thing.name) ?? []) {
      const still = (waits.get(it) as number) - 1;
      waits.set(it, still);
      if (still === 0 && left.has(it)) ready.splice(placeIn(ready, it, later), 0, it);
    }
  }
  return out;
}

const noNames: ReadonlySet<string> = new Set();

/** Where it belongs in a sorted list. */
function placeIn<T>(list: readonly T[], it: T, compare: (a: T, b: T) => number): number {
  let low = 0;
  let high = list.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (compare(list[middle] as T, it) < 0) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** What is in front and has work to be done on it: a part in between that stays as it is hides nothing of what is beyond. */
function nearest(fronts: readonly string[], byName: ReadonlyMap<string, Work>, job: Story["job"]): string[] {
  const found: string[] = [];
  const seen = new Set(fronts);
  for (const name of seen) {
    if (byName.has(name)) {
      found.push(name);
      continue;
    }
    const part = job.things.get(name);
    if (part?.kind === "part") for (const it of part.behind) seen.add(it.text);
  }
  return found;
}
