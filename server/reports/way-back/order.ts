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

  const out: Work[] = [];
  const left = new Set(work);
  while (left.size > 0) {
    const ready = [...left].filter((it) => [...(before.get(it.thing.name) ?? [])].every((name) => !left.has(byName.get(name) as Work)));
    const next = latest(ready.length > 0 ? ready : [...left]);
    out.push(next);
    left.delete(next);
  }
  return out;
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

function latest(list: readonly Work[]): Work {
  return list.reduce((a, b) => (b.since > a.since ? b : a));
}
