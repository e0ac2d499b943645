// What was read or seen of a build that is not the one that the machine goes out with: on trial, or with something in that is to be out.
// Invariant: done work only; told by the words of the limit or the check.
import { isBetweenPieces, isOfCracks, isOfSurface, outAsRead } from "../../../model/read-with.ts";
import { isCritical, settersWithHosts } from "../../../model/relations.ts";
import { isSamePlace } from "../../../model/same-place.ts";
import { allWords } from "../../../model/titles.ts";
import type { FastenerCell, FastenerMoment, Moment, PartCell, PartMoment, Reading, Seen, Story } from "../../../story/story.ts";

/** What was on as it was read, and the line that put it on or did it up. */
export interface BuiltUp {
  readonly cell: PartCell | FastenerCell;
  readonly moment: Moment;
}

/** What its title says is out was on as it was read or seen: it had come off, and was back by then. Where the words may mean several, all of them were. */
export function wasIn(story: Story, it: Reading | Seen): BuiltUp | undefined {
  const thing = "limit" in it ? it.limit : it.check;
  const parts = outAsRead(story.job, thing);
  if (parts.length === 0 || !isCritical(story.job, thing)) return undefined;
  let last: BuiltUp | undefined;
  for (const part of parts) {
    // Of thousands of places those that may be meant are looked up.
    const cells = it.place === "" ? story.cells(part.name) : [story.cell(part.name, it.place), story.cell(part.name, "")];
    for (const cell of cells) {
      if (cell?.kind !== "part") continue;
      const before = cell.history.filter((was) => was.seq < it.seq && was.phase === "done" && was.after.on !== was.before.on);
      const moment = before.at(-1);
      if (cell.unsure || moment?.verb !== "fit" || moment.after.on < cell.total || (it.day !== undefined && moment.day !== undefined && moment.day > it.day))
        return undefined;
      if (last === undefined || moment.seq > last.moment.seq) last = { cell, moment };
    }
  }
  return last;
}

/**
 * How they mesh, or the play that shims set, read on a trial build: what it goes through was on for now, and was taken down and done up since. What says itself that
 * something is out as it is read is read so.
 */
export function builtForNow(story: Story, it: Reading | Seen): BuiltUp | undefined {
  const thing = "limit" in it ? it.limit : it.check;
  if (thing.setBy.length === 0 || !isCritical(story.job, thing) || readOpen.test(allWords(thing))) return undefined;
  if ("limit" in it ? !isBetweenPieces(it.limit) : !isOfSurface(it.check) || isOfCracks(it.check)) return undefined;
  const names = new Set([...thing.setBy, ...thing.of].flatMap(({ text }) => [text, ...settersWithHosts(story.job, [{ text }]).map((host) => host.text)]));
  // `cover-shims` lie under the `unit-cover`, where nothing is called by that word alone.
  const ends = thing.setBy.filter(({ text }) => story.job.things.get(text)?.kind === "shims").map(({ text }) => `-${text.replace(/-[^-]+$/, "")}`);
  for (const cell of [...story.parts, ...story.fasteners]) {
    if (cell.kind === "part" && ends.some((end) => cell.thing.name.endsWith(end))) names.add(cell.thing.name);
    if (cell.unsure || !isSamePlace(cell.place, it.place)) continue;
    const history = cell.history as readonly (PartMoment | FastenerMoment)[];
    if (history.findLast((was) => was.seq < it.seq)?.after.forNow !== true) continue;
    const isOfIt = names.has(cell.thing.name) || (cell.kind === "part" && [...cell.thing.behind, ...cell.thing.heldBy].some(({ text }) => names.has(text)));
    const moment = history.find((was) => was.seq > it.seq && was.phase === "done" && (was.verb === "fit" || was.verb === "tighten"));
    if (isOfIt && moment !== undefined) return { cell, moment };
  }
  return undefined;
}

const readOpen = /\b(out|off|without|open|dry build|trial)\b/i;
