// A gap or a trial of what a spring pulls on, taken while that spring was still made safe: hooked back, it draws the part somewhere else. And a trial with its drive or its load made safe.
// Invariant: done work only; told by a hazard that is called a spring and by what has to come off behind it, or by words that the hazard and the check share.
import { memo } from "../../../model/memo.ts";
import { isSeenRunning, isTriedTogether, wordsOf } from "../../../model/read-with.ts";
import { relationsOf } from "../../../model/relations.ts";
import type { Hazard, Part } from "../../../model/things.ts";
import { allWords } from "../../../model/titles.ts";
import type { HazardCell, HazardMoment, Reading, Seen, Story } from "../../../story/story.ts";
import { drives } from "../../stale.ts";

export interface Unsprung {
  readonly thing: Hazard;
  /** It was restored here, after that. */
  readonly moment: HazardMoment;
}

export function unsprungAt(story: Story, it: Reading | Seen): Unsprung | undefined {
  const thing = "limit" in it ? it.limit : it.check;
  if ("limit" in it ? it.limit.setBy.length === 0 : !isTriedTogether(it.check)) return undefined;
  const words = allWords(thing);
  if (spring.test(words)) return undefined;
  for (const cell of springsOf(story)) {
    const moment = restoredAfter(cell, it);
    if (moment === undefined) continue;
    const named = new Set(wordsOf(words));
    const isOf = (part: Part) => thing.of.some(({ text }) => text === part.name) || wordsOf(part.name).every((word) => named.has(word));
    if (pulledBy(story, cell.thing).some(isOf)) return { thing: cell.thing, moment };
  }
  return undefined;
}

/**
 * What drives it, or the load that it is tried with, was still made safe as it was seen to run or to hold: ten rounds with the motor shut off, a full tub held with the tubs pinned. By its line; by its
 * day `stale.ts` tells it.
 */
export function shutOffAt(story: Story, it: Seen): Unsprung | undefined {
  const { check } = it;
  const runs = isSeenRunning(check);
  const load = isTriedTogether(check) ? wordsOf(loaded.exec(check.title ?? "")?.groups?.what ?? "")[0] : undefined;
  if (!runs && load === undefined) return undefined;
  for (const cell of story.hazards) {
    const what = allWords(cell.thing);
    if (cell.unsure || !((runs && drives.test(what)) || (load !== undefined && wordsOf(what).includes(load)))) continue;
    const moment = restoredAfter(cell, it);
    if (moment !== undefined) return { thing: cell.thing, moment };
  }
  return undefined;
}

/** Made safe as that was read or seen, and restored as the next thing done to it. */
function restoredAfter(cell: HazardCell, { seq }: Reading | Seen): HazardMoment | undefined {
  const was = cell.history.findLast((at) => at.phase === "done" && at.seq < seq);
  const moment = cell.history.find((at) => at.phase === "done" && at.seq > seq);
  return was?.verb === "safe" && moment?.verb === "restore" ? moment : undefined;
}

const loaded = /\b(full|loaded|laden) (?<what>\p{L}{3,})/iu;

const springsOf = memo((story: Story) => story.hazards.filter((it) => !it.unsure && it.history.length > 1 && spring.test(allWords(it.thing))));

/** What must not come off while the spring pulls, and what is held by it. */
function pulledBy({ job }: Story, { safeBefore }: Hazard): readonly Part[] {
  return safeBefore.flatMap(({ text }) => {
    const thing = job.things.get(text);
    return thing?.kind === "part" ? [thing] : (relationsOf(job).holds.get(text) ?? []);
  });
}

const spring = /\bsprings?\b/iu;
