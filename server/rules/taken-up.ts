// A nut that was taken up further after the look at what it nips: a gland that dripped as it should and ran cool.
// Invariant: done work only, of nuts that were tight before; what was slack or off is for the rules that know what was apart.
import type { StepEntry } from "../../grammar/tree.ts";
import { memo } from "../model/memo.ts";
import { isSamePlace } from "../model/same-place.ts";
import { isCritical } from "../model/relations.ts";
import { isOfSurface } from "../model/read-with.ts";
import type { Check, Limit } from "../model/things.ts";
import { allWords } from "../model/titles.ts";
import { cellsAt } from "../story/cells.ts";
import { readingsOn, seenOn } from "../story/looked-up.ts";
import type { FastenerCell, FastenerMoment, Reading, Seen, Story } from "../story/story.ts";
import type { Move } from "./moved.ts";

/** The last turn of such a nut behind the last final that found it good; undefined where the step only tried whether it was tight. */
export function takenUpSince(story: Story, thing: Limit | Check, place: string): Move | undefined {
  if (thing.setBy.length > 0 || !isCritical(story.job, thing) || (thing.kind === "check" && isOfSurface(thing))) return undefined;
  const words = allWords(thing);
  if (!nipped.test(words)) return undefined;
  const all: readonly (Seen | Reading)[] = thing.kind === "check" ? seenOn(story, thing.name) : readingsOn(story, thing.name);
  const final = all.findLast((it) => it.stage === "final" && isSamePlace(it.place, place));
  if (final === undefined || ("good" in final && !final.good)) return undefined;
  let last: Move | undefined;
  for (const cell of holders(story, thing, place)) {
    if (cell.unsure || !cell.thing.critical) continue;
    const moment = cell.history.findLast((it) => it.phase === "done" && it.verb === "tighten" && it.seq > final.seq && isTakenUp(cell, it));
    if (moment === undefined || (final.day !== undefined && moment.day !== undefined && final.day > moment.day)) continue;
    if (last === undefined || moment.seq > last.moment.seq) last = { cell, moment };
  }
  return last;
}

/** Said of a joint that a nut nips, and that leaks more or less by how far it is turned. */
const nipped = /\b(glands?|packing|packed|stuffing|leak\w*|weep\w*|drip\w*|seep\w*)\b/iu;

/** What holds it, and what holds that which lies over it: a gland nut over its packing. */
function holders(story: Story, { of }: Limit | Check, place: string): FastenerCell[] {
  const names = new Set<string>();
  for (const { text } of of) {
    const thing = story.job.things.get(text);
    if (thing?.kind === "fastener") names.add(text);
    if (thing?.kind !== "part") continue;
    for (const by of thing.heldBy) names.add(by.text);
    for (const over of thing.behind) {
      const it = story.job.things.get(over.text);
      if (it?.kind === "part") for (const by of it.heldBy) names.add(by.text);
    }
  }
  return [...names].flatMap((name) => cellsAt(story, name, place)).filter((cell): cell is FastenerCell => cell.kind === "fastener");
}

/** By feel it went on as far as somebody felt; what is pulled to a figure stays where that leaves it. */
function isTakenUp({ thing }: FastenerCell, it: FastenerMoment): boolean {
  return it.before.tight && it.to === undefined && thing.torque?.byFeel !== undefined && !(it.visit !== undefined && onlyTries(it.visit.entry));
}

/** “All tried with the spanner, none moved.” */
const onlyTries = memo(({ title, details }: StepEntry): boolean =>
  [title?.value, ...details.map((it) => (it.kind === "note" || it.kind === "action" ? it.text?.value : undefined))].some(
    (it) => it !== undefined && tries.test(it),
  ),
);
const tries =
  /\b(tr(y|ied|ies) (\w+ ){0,3}(tight\w*|spanner|key|again|over|all)|tried|check(ed|ing)?|gone (over|round)|go (over|round)|found tight|still tight|(none|nothing|not|no nut|neither) (\w+ )?(moved|turned|gave|took|gained)|did(n't| not) move|proved)\b/iu;
