// A setting whose title says that it is read with a seal out: it holds once that is in, where what sets it is pulled as it was then and nothing else came off.
// Invariant: done work only. What the title does not say, and what went in new besides, is not taken for the same.
import { headOf, wordsOf } from "../model/read-with.ts";
import { memo } from "../model/memo.ts";
import { relationsOf } from "../model/relations.ts";
import type { Limit } from "../model/things.ts";
import { tightenedText } from "../model/torque.ts";
import { momentsOf, piecesAt } from "../story/cells.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment, Reading, Story } from "../story/story.ts";
import { pulledAsThen, pullsOf, stateAt } from "./pulls.ts";

/** What was out as it was read went in since, in steps that did no more than that, and each nut that sets it is at the torque that it was read at. */
export function holdsWithItIn(story: Story, { limit, place, seq }: Reading): boolean {
  const out = outOf(limit);
  if (out === undefined) return false;
  const pieces = (names: readonly string[]) => names.flatMap((name) => piecesAt(story, name, place));
  const since = (cell: PartCell | FastenerCell) => momentsOf(cell).filter((it) => it.seq > seq && it.phase === "done");
  const sealed = story.parts.filter((it) => !it.unsure && headOf(it.thing) === out && (it.place === place || it.place === "") && stateAt(it, seq)?.on === 0);
  const steps = new Set(sealed.flatMap(since).flatMap((it) => (it.verb === "fit" && it.visit !== undefined ? [it.visit.entry] : [])));
  if (steps.size === 0) return false;
  const { holds } = relationsOf(story.job);
  const setters = limit.setBy.map(({ text }) => text);
  const held = setters.flatMap((name) => (holds.get(name) ?? []).map((it) => it.name)).filter((name) => !limit.of.some(({ text }) => text === name));
  const isOnlyForIt = (it: PartMoment | FastenerMoment) =>
    it.visit !== undefined && steps.has(it.visit.entry) && (it.verb === "remove" || (it.verb === "fit" && !it.isNew && it.from === undefined));
  return (
    pieces(limit.of.map(({ text }) => text)).every((cell) => since(cell).length === 0) &&
    pieces(held).every((cell) => sealed.includes(cell as PartCell) || since(cell).every(isOnlyForIt)) &&
    pieces(setters).every((cell) => cell.kind === "fastener" && cell.now.tight && pulledAsThen(cell, seq) && isOfOneFigure(cell, seq))
  );
}

/** Inside its range is not enough where the pull is the setting. */
function isOfOneFigure(cell: FastenerCell, seq: number): boolean {
  const pulls = [seq, Number.POSITIVE_INFINITY].flatMap((at) => pullsOf(cell, at) ?? []);
  return new Set(pulls.map((it) => tightenedText(it.action ?? {}))).size === 1;
}

/** What drags, and is left out for it. */
const outOf = memo((limit: Limit): string | undefined => {
  const said = without.exec(limit.title ?? "");
  return said === null ? undefined : wordsOf(said[1] ?? said[2] ?? "")[0];
});

const without =
  /\b(?:without|no|before) (?:the |its |any )?(?:\w+ )?(seals?|felts?|packings?)\b|\b(seals?|felts?|packings?) (?:still |left )?(?:out|off|not (?:yet )?in)\b/iu;
