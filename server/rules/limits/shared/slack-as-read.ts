// What is to be in or tight as something is read, and was off, slack, or short of its torque then.
// Invariant: done work only; what it is read with is told by its words and its lines (`readWith`).
import { isOfAllMounted, isReadTogether, pulledOver, readWith } from "../../../model/read-with.ts";
import { isCritical } from "../../../model/relations.ts";
import { isSamePlace } from "../../../model/same-place.ts";
import { tightenedText, wantedOf } from "../../../model/torque.ts";
import { onAt } from "../../../story/in-place.ts";
import { tightnessAt } from "../../../story/put-right.ts";
import { isReadSquashed } from "../../squashed.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Reading, Seen, Story } from "../../../story/story.ts";

/** What should have been in or tight as it was read or seen, and was off or slack then. */
export function readWithout(story: Story, it: Reading | Seen): readonly (PartCell | FastenerCell)[] | undefined {
  const { place, seq } = it;
  const thing = "limit" in it ? it.limit : it.check;
  // That a part was renewed since, and is to be measured again, is said at the release.
  const saidAnyway = (cell: PartCell | FastenerCell) =>
    thing.kind === "limit" &&
    story.release !== undefined &&
    (cell.history as readonly (PartMoment | FastenerMoment)[]).some((it) => it.seq > seq && it.phase === "done" && it.verb === "fit" && it.isNew);
  const cells = readWith(story.job, thing).flatMap(({ name }) =>
    story
      .cells(name)
      .filter((cell): cell is PartCell | FastenerCell => cell.kind === "part" || cell.kind === "fastener")
      .filter((cell) => !cell.unsure && isSamePlace(cell.place, place) && !saidAnyway(cell))
      .filter((cell) => onAt(cell, seq) < cell.total || isSlackBefore(cell, seq)),
  );
  return cells.length === 0 ? undefined : cells;
}

/**
 * A float, a backlash, a wire in a bearing, read while what holds it was on and not yet done up: caps that lie loosely on their studs leave another gap than caps that are pulled.
 * What is off altogether may be meant so, and a line `with …` says for itself what is in.
 */
export function slackAt(story: Story, reading: Reading): { readonly cell: FastenerCell; readonly moment: FastenerMoment } | undefined {
  const { limit, place, seq, day } = reading;
  if (limit.with.length > 0 || !isCritical(story.job, limit) || !(isReadTogether(limit) || isOfAllMounted(limit))) return undefined;
  for (const { text } of limit.of) {
    const parts = story.cells(text).filter((it): it is PartCell => it.kind === "part" && isSamePlace(it.place, place));
    if (parts.length === 0 || parts.some((it) => it.unsure || onAt(it, seq) === 0)) continue;
    for (const cell of parts.flatMap(({ thing }) => thing.heldBy.flatMap((by) => story.cells(by.text)))) {
      if (cell.kind !== "fastener" || cell.unsure || !cell.thing.critical || !isSamePlace(cell.place, place)) continue;
      const was = cell.history.findLast((it) => it.seq < seq);
      if (was === undefined || was.after.on < cell.total || was.after.tight) continue;
      const moment = cell.history.find((it) => it.seq > seq && it.phase === "done" && it.verb === "tighten");
      if (moment !== undefined && !(day !== undefined && moment.day !== undefined && moment.day < day)) return { cell, moment };
    }
  }
  return undefined;
}

/** Slack, or left short of its torque: bolts at their first stage pull no bore to its shape. */
function isSlackBefore(cell: PartCell | FastenerCell, seq: number): boolean {
  if (cell.kind !== "fastener") return false;
  if (cell.history.findLast((it) => it.seq < seq)?.after.tight === false) return true;
  const pulled = cell.history.findLast((it) => it.seq < seq && it.verb === "tighten");
  const wanted = wantedOf(cell.thing);
  return pulled?.to !== undefined && wanted !== undefined && tightnessAt(cell, pulled, wanted) === "low";
}

/** Wire or strip under a cap that was short of its torque when it was last pulled down over it. */
export function squashedShort(
  story: Story,
  reading: Reading,
): { readonly cell: FastenerCell; readonly moment: FastenerMoment; readonly at: string; readonly wanted: string } | undefined {
  const { limit, place, seq } = reading;
  if (!isReadSquashed(reading)) return undefined;
  for (const cell of pulledOver(story.job, limit).flatMap((it) => story.cells(it.name))) {
    if (cell.kind !== "fastener" || cell.unsure || !isSamePlace(cell.place, place)) continue;
    const before = cell.history.filter((it) => it.seq < seq && it.phase === "done");
    const wanted = wantedOf(cell.thing);
    const isOpen = before.at(-1)?.after.tight === false;
    const moment = before.findLast((it) => it.verb === "tighten");
    if (wanted === undefined || moment?.action === undefined) continue;
    if (isOpen && moment.action.to === undefined) return { cell, moment, at: "up without a figure", wanted: wanted.text };
    if (tightnessAt(cell, moment, wanted) === "low") return { cell, moment, at: `to ${tightenedText(moment.action)}`, wanted: wanted.text };
  }
  return undefined;
}
