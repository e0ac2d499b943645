// Critical parts that were mended after a crack or a bend, and that nobody has looked at since.
// Invariant: one answer for the rule that says it and for the one that keeps quiet about the same line.
import type { Found, Moment, PartCell, FastenerCell, Story } from "../story/story.ts";
import { lookedAtSince, renewedAsFound, repairedAsFound } from "../story/put-right.ts";
import { cellsFound } from "./cells-found.ts";

export interface Mended {
  readonly found: Found;
  readonly cell: PartCell | FastenerCell;
  readonly repair: Moment;
}

export function mendedUnseen(story: Story): Mended[] {
  const mended: Mended[] = [];
  for (const found of story.findings) {
    if (!found.conditions.some(({ condition }) => condition.kind === "cracked" || condition.kind === "bent")) continue;
    for (const cell of cellsFound(story, found)) {
      if (cell.kind === "fluid" || !cell.thing.critical) continue;
      const renewed = renewedAsFound(cell, found);
      const repaired = repairedAsFound(cell, found);
      if (repaired === undefined || repaired.planned || (renewed !== undefined && !renewed.planned)) continue;
      if (!lookedAtSince(story, cell, repaired.moment.seq)) mended.push({ found, cell, repair: repaired.moment });
    }
  }
  return mended;
}
