// Work on what a step that is planned already closes in: these steps are written below that, and are done before it.
// Invariant: reads only; speaks of planned steps of the sheet alone, by what they are called.
import { memo } from "../../model/memo.ts";
import { relationsOf } from "../../model/relations.ts";
import type { PartMoment, Story } from "../../story/story.ts";
import { stepCalled } from "./names.ts";
import type { Work } from "./work.ts";

/** What the first planned step is called that fits something in front of it that is off today. `places`: of the work; none for all. */
export function closedInBy(story: Story, thing: Work["thing"], places: readonly string[]): string | undefined {
  const own = thing.kind === "fastener" ? (relationsOf(story.job).holds.get(thing.name) ?? []) : thing.kind === "part" ? [thing] : [];
  const closing = closingOf(story);
  let first: PartMoment | undefined;
  for (const { name } of own) {
    for (const [place, fit] of closing.get(name) ?? []) {
      if (places.length > 0 && place !== "" && !places.includes(place)) continue;
      if (first === undefined || fit.seq < first.seq) first = fit;
    }
  }
  return first?.visit === undefined ? undefined : stepCalled(first.visit);
}

/** What is behind something: the first planned line at each place that fits what is in front of it, however far in front. */
type Closing = ReadonlyMap<string, ReadonlyMap<string, PartMoment>>;

const closingOf: (story: Story) => Closing = memo((story) => {
  const { behind } = relationsOf(story.job);
  const closing = new Map<string, Map<string, PartMoment>>();
  const fits = story.parts.flatMap((cell) => {
    if (cell.now.on >= cell.total || cell.then.on <= cell.now.on) return [];
    const fit = cell.history.find((it) => it.phase === "planned" && it.verb === "fit" && it.visit !== undefined);
    return fit === undefined ? [] : [{ name: cell.thing.name, place: cell.place, fit }];
  });
  // The first comes first, so that nothing is gone through again for a later one of the same place: a chain of thousands is gone through once.
  for (const { name, place, fit } of fits.sort((a, b) => a.fit.seq - b.fit.seq)) {
    const names = [name];
    for (const front of names) {
      for (const part of behind.get(front) ?? []) {
        const at = closing.get(part.name) ?? new Map<string, PartMoment>();
        if (at.has(place)) continue;
        closing.set(part.name, at.set(place, fit));
        names.push(part.name);
      }
    }
  }
  return closing;
});
