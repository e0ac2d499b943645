// Fluids that were not in yet, or had air in them, when something was read or seen.
// Invariant: done work only; which fluids a limit or a check asks for is told by its words (`fluidsAsRead`).
import type { Job } from "../../../model/job.ts";
import { fluidsAsRead, headOf, isOfLeaks, wordsOf } from "../../../model/read-with.ts";
import { relationsOf } from "../../../model/relations.ts";
import { isSamePlace } from "../../../model/same-place.ts";
import type { Check, Fluid } from "../../../model/things.ts";
import { allWords } from "../../../model/titles.ts";
import { onAt } from "../../../story/in-place.ts";
import type { Moment, PartCell, Reading, Seen, Story } from "../../../story/story.ts";
import { datedBefore } from "../../stale.ts";
import type { Lacking } from "../../tried-early.ts";

/** What is in as it is read or seen, and was out, or had air in it still: it was filled or bled later, by its line or by its day. */
export function dryAt(story: Story, it: Seen | Reading): Lacking | undefined {
  const asks = fluidsAsRead(story.job, "limit" in it ? it.limit : it.check);
  if (asks.length === 0) return undefined;
  for (const cell of story.fluids) {
    const ask = asks.find((one) => one.fluid === cell.thing);
    if (ask === undefined || cell.unsure || !isSamePlace(cell.place, it.place)) continue;
    const { thing, place } = cell;
    const later = cell.history.filter((was) => was.phase === "done" && (was.seq > it.seq || datedBefore(it, was)));
    // What was let out after it was read, and filled again, was in.
    const filled = later.find((was) => was.verb === "fill" || was.verb === "drain" || was.verb === "lost");
    if (ask.filled && filled?.verb === "fill" && !filled.before.full) return { thing, place, what: "was not filled", moment: filled };
    const bled = ask.bled ? later.find((was) => was.verb === "bleed" && was.before.airIn) : undefined;
    if (bled !== undefined) return { thing, place, what: "was not bled", moment: bled };
  }
  return undefined;
}

/** What a fluid is in is seen to be tight when that is full, bled, and done up: what was filled, bled, fitted or tightened after it. */
export function filledSince(story: Story, seen: Seen): Lacking | undefined {
  const { fluidsIn } = relationsOf(story.job);
  const here = (place: string) => isSamePlace(place, seen.place);
  const later = (it: Moment) => it.phase === "done" && (it.seq > seen.seq || datedBefore(seen, it));
  for (const name of seen.check.of) {
    // Brakes are tried full and bled, whatever is looked for but where a hose lies; elsewhere only a look for leaks waits for the fluid: gears are blued dry.
    const fluids = [...(fluidsIn.get(name.text) ?? []), ...keptIn(story.job, seen.check, name.text)].filter(
      (fluid) => (fluid.needsBleed && !lies.test(allWords(seen.check))) || isForLeaks(seen),
    );
    const parts = story.cells(name.text).filter((it): it is PartCell => it.kind === "part" && here(it.place));
    // Seen on the bench, it says something of the piece.
    if (fluids.length === 0 || parts.some((cell) => onAt(cell, seen.seq) === 0)) continue;
    for (const fluid of fluids)
      for (const cell of story.cells(fluid.name)) {
        if (cell.kind !== "fluid" || !here(cell.place)) continue;
        const moment = cell.history.findLast((it) => (it.verb === "fill" || it.verb === "bleed") && later(it));
        if (moment !== undefined) return { thing: cell.thing, place: cell.place, what: moment.verb === "fill" ? "filled" : "bled", moment };
      }
    for (const part of parts) {
      const moment = part.history.findLast((it) => it.verb === "fit" && later(it));
      if (moment !== undefined) return { thing: part.thing, place: part.place, what: "fitted", moment };
      for (const by of part.thing.heldBy)
        for (const cell of story.cells(by.text)) {
          if (cell.kind !== "fastener" || !here(cell.place)) continue;
          const tightened = cell.history.findLast((it) => it.verb === "tighten" && later(it));
          if (tightened !== undefined) return { thing: cell.thing, place: cell.place, what: "tightened", moment: tightened };
        }
    }
  }
  return undefined;
}

/** “No oil at the seal nor the cover joint”: the seal lies by the cover, which the oil is in. What the words name and lies behind the same thing, or holds it in. */
function keptIn(job: Job, check: Check, name: string): readonly Fluid[] {
  const { fluidsIn } = relationsOf(job);
  const of = job.things.get(name);
  if (of?.kind !== "part" || fluidsIn.has(name)) return none;
  const words = wordsOf(allWords(check));
  const before = new Set(of.behind.map(({ text }) => text));
  return [...fluidsIn].flatMap(([host, fluids]) => {
    const part = job.things.get(host);
    if (part?.kind !== "part" || !words.includes(headOf(part) ?? "")) return none;
    return before.has(host) || part.behind.some(({ text }) => before.has(text) || text === name) ? fluids : none;
  });
}

const none: readonly Fluid[] = [];

const lies = /\b(clear (of|from)|lies|lie|lay|routed|routing|chaf\w*|rubs?|kink\w*|untwisted|no twist|fouls?|touch(es)? (nothing|no))\b/iu;

/** It says so: dry, no weep at the seal. */
function isForLeaks({ check, entry }: Seen): boolean {
  return isOfLeaks(`${allWords(check)} ${entry.text?.value ?? ""}`);
}
