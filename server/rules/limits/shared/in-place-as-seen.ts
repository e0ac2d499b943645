// A look for cracks that says that it was of what stood in its place, and that came off afterwards: what is hidden there was not seen.
// Invariant: done work only; any word of how it was shown (dye, ink, a file, the lamp) says that somebody did more than look.
import { isOfCracks } from "../../../model/read-with.ts";
import { isCritical } from "../../../model/relations.ts";
import { isSamePlace } from "../../../model/same-place.ts";
import { onAt } from "../../../story/in-place.ts";
import type { PartCell, PartMoment, Seen, Story } from "../../../story/story.ts";

export interface InPlace {
  readonly cell: PartCell;
  /** It came off. */
  readonly moment: PartMoment;
}

export function inPlaceAsSeen(story: Story, { check, entry, place, seq }: Seen): InPlace | undefined {
  const text = entry.text?.value ?? "";
  if (!isOfCracks(check) || !isCritical(story.job, check) || !stood.test(text) || shownBy.test(text)) return undefined;
  for (const cell of check.of.flatMap(({ text }) => story.cells(text))) {
    if (cell.kind !== "part" || cell.unsure || !isSamePlace(cell.place, place) || onAt(cell, seq) < cell.total) continue;
    const moment = cell.history.find((it) => it.seq > seq && it.phase === "done" && it.verb === "remove" && it.after.on < it.before.on);
    if (moment !== undefined) return { cell, moment };
  }
  return undefined;
}

const stood =
  /\b(in (place|situ|position)|as (it|they) (stood|stands?|hung|sat|lay)|on the (machine|car|engine|loco|lorry|tractor|frame)|without (taking|stripping)|before (it|they) came (off|out)|assembled|mounted|fitted)\b/iu;
const shownBy =
  /\b(dye\w*|ink|magn\w*|fluor\w*|ultra-?son\w*|x-?ray\w*|eddy|etch\w*|penetrant|developer|chalk\w*|paraffin|rang|ring(s|ing)?|file[ds]?|glass|lens|magnif\w*|lamp|torch|bare|apart|cleaned|bright|blasted|bench)\b/iu;
