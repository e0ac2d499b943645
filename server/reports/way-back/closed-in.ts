// Work on what a step that is planned already closes in: these steps are written below that, and are done before it.
// Invariant: reads only; speaks of planned steps of the sheet alone, by what they are called.
import { relationsOf } from "../../model/relations.ts";
import type { Part } from "../../model/things.ts";
import type { PartMoment, Story } from "../../story/story.ts";
import { stepCalled } from "./names.ts";
import type { Work } from "./work.ts";

/** What the first planned step is called that fits something in front of it that is off today. `places`: of the work; none for all. */
export function closedInBy(story: Story, thing: Work["thing"], places: readonly string[]): string | undefined {
  const { job } = story;
  const own = thing.kind === "fastener" ? (relationsOf(job).holds.get(thing.name) ?? []) : thing.kind === "part" ? [thing] : [];
  let first: PartMoment | undefined;
  for (const name of frontsOf(own)) {
    for (const cell of story.cells(name)) {
      if (cell.kind !== "part" || cell.now.on >= cell.total || cell.then.on <= cell.now.on) continue;
      if (places.length > 0 && cell.place !== "" && !places.includes(cell.place)) continue;
      const fit = cell.history.find((it) => it.phase === "planned" && it.verb === "fit" && it.visit !== undefined);
      if (fit !== undefined && (first === undefined || fit.seq < first.seq)) first = fit;
    }
  }
  return first?.visit === undefined ? undefined : stepCalled(first.visit);

  function frontsOf(parts: readonly Part[]): ReadonlySet<string> {
    const seen = new Set(parts.flatMap((it) => it.behind.map(({ text }) => text)));
    for (const name of seen) {
      const part = job.things.get(name);
      if (part?.kind === "part") for (const { text } of part.behind) seen.add(text);
    }
    return seen;
  }
}
