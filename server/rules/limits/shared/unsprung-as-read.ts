// A gap or a trial of what a spring pulls on, taken while that spring was still made safe: hooked back, it draws the part somewhere else.
// Invariant: done work only; told by a hazard that is called a spring, and by what has to come off behind it.
import { memo } from "../../../model/memo.ts";
import { isTriedTogether, wordsOf } from "../../../model/read-with.ts";
import { relationsOf } from "../../../model/relations.ts";
import type { Hazard, Part } from "../../../model/things.ts";
import { allWords } from "../../../model/titles.ts";
import type { HazardMoment, Reading, Seen, Story } from "../../../story/story.ts";

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
    const was = cell.history.findLast((at) => at.phase === "done" && at.seq < it.seq);
    const moment = cell.history.find((at) => at.phase === "done" && at.seq > it.seq);
    if (was?.verb !== "safe" || moment?.verb !== "restore") continue;
    const named = new Set(wordsOf(words));
    const isOf = (part: Part) => thing.of.some(({ text }) => text === part.name) || wordsOf(part.name).every((word) => named.has(word));
    if (pulledBy(story, cell.thing).some(isOf)) return { thing: cell.thing, moment };
  }
  return undefined;
}

const springsOf = memo((story: Story) => story.hazards.filter((it) => !it.unsure && it.history.length > 1 && spring.test(allWords(it.thing))));

/** What must not come off while the spring pulls, and what is held by it. */
function pulledBy({ job }: Story, { safeBefore }: Hazard): readonly Part[] {
  return safeBefore.flatMap(({ text }) => {
    const thing = job.things.get(text);
    return thing?.kind === "part" ? [thing] : (relationsOf(job).holds.get(text) ?? []);
  });
}

const spring = /\bsprings?\b/iu;
