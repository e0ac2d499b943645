// What was read of a thing in its place as it was found, and is read there at the end as well: a trial or a play is not taken of what lies on the bench.
import { isBetweenPieces, isOnBench, isReadTogether, isTriedTogether, isWorking } from "../model/read-with.ts";
import { isCritical } from "../model/relations.ts";
import type { Check, Limit } from "../model/things.ts";
import { allWords } from "../model/titles.ts";
import { cellsAt } from "./cells.ts";
import { readingsOn, seenOn } from "./looked-up.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Reading, Seen, Story } from "./story.ts";

/** How many were on as this line was reached. */
export function onAt(cell: PartCell | FastenerCell, seq: number): number {
  return (cell.history as readonly (PartMoment | FastenerMoment)[]).findLast((it) => it.seq < seq)?.after.on ?? cell.total;
}

/** Critical, and tried or read with all that it is of on. */
export function isOfAllOn({ job }: Story, thing: Limit | Check): boolean {
  return isCritical(job, thing) && thing.with.length === 0 && !isOnBench(allWords(thing)) && isOfTheWhole(thing);
}

/** It was read at that place as it was found, with all of it on: then it is so at the end as well, and not on the bench. */
export function isReadInPlace(story: Story, thing: Limit | Check, place: string): boolean {
  return (
    isOfAllOn(story, thing) &&
    thing.of.some(({ text }) =>
      cellsAt(story, text, place).some((cell) => cell.kind === "part" && wasReadInPlace(story, thing, place, cell, Number.POSITIVE_INFINITY)),
    )
  );
}

/** As it was found, before a line of the sheet. */
export function wasReadInPlace(story: Story, thing: Limit | Check, place: string, cell: PartCell, before: number): boolean {
  const all: readonly (Reading | Seen)[] = thing.kind === "limit" ? readingsOn(story, thing.name) : seenOn(story, thing.name);
  const found = all.find((was) => was.stage === "found" && was.place === place && was.seq < before);
  return found !== undefined && onAt(cell, found.seq) === cell.total;
}

function isOfTheWhole(thing: Limit | Check): boolean {
  if (thing.kind === "check") return isTriedTogether(thing);
  return thing.expression === undefined && (thing.setBy.length > 0 || isReadTogether(thing) || isBetweenPieces(thing) || isWorking(thing));
}
