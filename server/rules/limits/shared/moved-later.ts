// A look whose day is older than that of a move which is written above it.
// Invariant: done work only; a piece that was seen in the hand before it went on is left.
import { momentsOf, piecesAt } from "../../../story/cells.ts";
import type { Check } from "../../../model/things.ts";
import { isOfSurface, isSeenOfTwoWheels, isTriedTogether, readWith } from "../../../model/read-with.ts";
import { allWords } from "../../../model/titles.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Seen, Story } from "../../../story/story.ts";
import { type Move, isNear } from "../../moved.ts";
import { hadCome } from "../../stale.ts";

/** Written above the look, and dated after it: what it is of, or what sets it, was taken off, put on or done up on a later day. */
export function movedLater(story: Story, seen: Seen): Move | undefined {
  if (seen.day === undefined) return undefined;
  for (const name of [...seen.check.of, ...seen.check.setBy]) {
    for (const cell of story.cells(name.text)) {
      if ((cell.kind !== "part" && cell.kind !== "fastener") || !isNear(story, cell, seen.place)) continue;
      if (seenOffIt(story, seen, cell) && !isMateNewer(story, seen, cell)) continue;
      const moment = (cell.history as readonly (PartMoment | FastenerMoment)[]).findLast(
        (it) => it.phase === "done" && it.seq < seen.seq && it.day !== undefined && it.day > (seen.day ?? "") && moves.has(it.verb),
      );
      if (moment !== undefined) return { cell, moment };
    }
  }
  return undefined;
}

/**
 * A crack or a pattern of a piece that was off on that day, and only went on again since: it was seen in the hand, and is written below the step that fits it. So may
 * whatever shows on a new one be, where it is written that this had come by then; what is seen with it in may not.
 */
function seenOffIt({ job }: Story, seen: Seen, cell: PartCell | FastenerCell): boolean {
  const { check, day = "" } = seen;
  if (check.with.length > 0 || check.setBy.some(({ text }) => text === cell.thing.name)) return false;
  const before = (cell.history as readonly (PartMoment | FastenerMoment)[]).filter((it) => it.phase === "done" && it.seq < seen.seq);
  const later = before.filter((it) => it.day !== undefined && it.day > day);
  const isNew = later.some((it) => it.verb === "fit" && it.isNew);
  // What turns or moves with several of them in is tried with all of them.
  if (isSeenOfTwoWheels(check)) return false;
  const isTogether = check.of.length > 1 && isTriedTogether(check);
  if (isNew ? isTogether || readWith(job, check).length > 0 || !hadCome(job, cell.thing.name, day) : !isOfSurface(check)) return false;
  return (
    before.findLast((it) => !later.includes(it))?.after.on === 0 &&
    later.every(
      (it) =>
        (it.verb === "fit" && it.isNew === isNew && it.from === undefined) || leavesTheFace.has(it.verb) || (!isPatternOfTwo(check) && isCleanedOrOiled(it)),
    )
  );
}

/** Done to a piece that was seen in the hand, and says nothing against what was seen. */
const leavesTheFace: ReadonlySet<string> = new Set(["tighten", "lock", "mark"]);
/** A lining in its drum, blued: it lies otherwise once either of them was wiped or greased. */
const isPatternOfTwo = (check: Check): boolean =>
  check.of.length > 1 && /\b(blued?|blueing|bed(s|ded|ding)?|contact|patterns?)\b/iu.test(allWords(check).replace(/\bno \w+/giu, " "));
const isCleanedOrOiled = ({ verb, action }: PartMoment | FastenerMoment): boolean =>
  verb === "other" && /^(clean|oil|grease|inspect)$/.test(action?.verb ?? "");

/** A pattern is of two, and the check names the other: a key that went in new on a later day was not there to be blued. */
function isMateNewer(story: Story, { check, day = "", seq, place }: Seen, { thing }: PartCell | FastenerCell): boolean {
  const words: readonly string[] =
    allWords(check)
      .toLowerCase()
      .match(/\p{L}+/gu) ?? [];
  return (thing.kind === "part" ? [...thing.heldBy, ...thing.behind] : []).some(
    ({ text }) =>
      words.includes(text.toLowerCase().split("-").at(-1) as string) &&
      piecesAt(story, text, place).some((cell) =>
        momentsOf(cell).some((it) => it.phase === "done" && it.verb === "fit" && it.isNew && it.seq < seq && it.day !== undefined && it.day > day),
      ),
  );
}

const moves: ReadonlySet<string> = new Set(["remove", "fit", "undo", "slacken", "tighten", "repair"]);
