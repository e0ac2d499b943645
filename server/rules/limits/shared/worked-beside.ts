// A face that was cut where two bear on one another, after that was seen: a key filed after its blue. Work on what a look or a size is itself of is asked after at the release.
// Invariant: done work only, by words that cut a face; a burr or an edge that was taken off bears nothing.
import { isOfSurface, wordsOf } from "../../../model/read-with.ts";
import { allWords } from "../../../model/titles.ts";
import type { Fastener, Part } from "../../../model/things.ts";
import { momentsOf, piecesAt } from "../../../story/cells.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Seen, Story } from "../../../story/story.ts";
import { mendsNothing } from "../../../story/worked-in.ts";

export interface WorkedBeside {
  readonly cell: PartCell | FastenerCell;
  readonly moment: PartMoment | FastenerMoment;
}

export function workedBeside(story: Story, it: Seen): WorkedBeside | undefined {
  if (it.stage !== "final") return undefined;
  for (const { name } of bearingOn(story, it.check)) {
    for (const cell of piecesAt(story, name, it.place)) {
      if (cell.unsure) continue;
      const moment = momentsOf(cell).find(
        (was) => was.phase === "done" && was.seq > it.seq && was.verb === "repair" && cutsFace(was.action?.text?.value ?? ""),
      );
      if (moment !== undefined) return { cell, moment };
    }
  }
  return undefined;
}

/** Of a look at how faces bear: what holds its part, or is before it, and is called by the check. */
function bearingOn({ job }: Story, check: Seen["check"]): readonly (Part | Fastener)[] {
  if (!isOfSurface(check)) return [];
  const words = new Set(wordsOf(allWords(check)));
  return check.of.flatMap(({ text }) => {
    const thing = job.things.get(text);
    if (thing?.kind !== "part") return [];
    return [...thing.heldBy, ...thing.behind].flatMap((name) => {
      const other = job.things.get(name.text);
      return (other?.kind === "part" || other?.kind === "fastener") && words.has(wordsOf(other.name).at(-1) ?? "") ? [other] : [];
    });
  });
}

function cutsFace(text: string): boolean {
  return !mendsNothing(text) && cut.test(text) && !onlyEdges.test(text);
}

const cut = /\b((draw-?)?fil(ed|ing)|scrap(ed|ing)|ground|skimm(ed|ing)|planed|machined|milled|faced|dressed|lapped|eased|turned|shortened)\b/iu;
const onlyEdges = /\b(burrs?|edges?|corners?|chamfer\w*|paint|rust|threads?|ends?|not|never|without)\b/iu;
