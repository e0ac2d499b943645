// What is to go on at a place, by what it is: new, still to be made, waiting for a word, or sound and as it was; and what is mended before.
// Invariant: reads only. A critical place is never left empty by a word.
import { against, decidedAway, workOrdered } from "../../rules/failures.ts";
import { countAt, decidedAt, discardedAt } from "../../story/decisions.ts";
import { repairedSince } from "../../story/put-right.ts";
import type { FastenerCell, PartCell, Story } from "../../story/story.ts";
import { judge } from "../../story/verdicts.ts";
import type { Waiting } from "./unsettled.ts";
import { type Wanted, findingsAt, undecidedAt } from "./wanted.ts";

export interface Share {
  readonly fresh: number;
  /** Decided to be made, and not made yet. */
  readonly made: number;
  /** It waits for an answer or a decision. */
  readonly open: number;
  /** Sound, and goes back as it is. */
  readonly old: number;
}

/** What is to go on, by what it is. What was set aside for another and that nothing else takes the place of goes back new: a critical place is never left empty by a word. */
export function shareOf(story: Story, cell: PartCell | FastenerCell, wanted: Wanted, waits: boolean): Share {
  const discarded = discardedAt(story, cell);
  const short = Math.max(0, cell.total - cell.then.on - discarded);
  const needed = Math.min(wanted.count(cell), short);
  const made = Math.min(wanted.toMake(cell), short - needed);
  const open = waits ? Math.min(undecided(story, cell, wanted), short - needed - made) : 0;
  const gone = Math.max(0, short + discarded - cell.then.off);
  const aside = Math.max(0, setAside(story, cell).reduce((sum, it) => sum + it.count, 0) - discarded);
  const more = Math.min(Math.max(0, aside - Math.max(0, needed + made + open - gone)), short - needed - made - open);
  return { fresh: needed + more, made, open, old: short - needed - made - open - more };
}

/** Those on the bench that were decided away, and what was decided. None, where they are mended before they go back. */
function setAside(story: Story, cell: PartCell | FastenerCell): { count: number; text: string }[] {
  if (cell.then.bench.every((lot) => lot.notes.length === 0) || mendFor(story, cell) !== undefined || workOrdered(story, cell)) return [];
  const context = { story, judged: judge(story) };
  return cell.then.bench.flatMap((lot) => {
    const away = against(context, cell, lot, Number.POSITIVE_INFINITY).findings.find(({ found }) => decidedAway(found) !== undefined);
    return away === undefined ? [] : [{ count: lot.count, text: away.text }];
  });
}

export function whyNew(story: Story, cell: PartCell | FastenerCell, wanted: Wanted): readonly string[] {
  const why = wanted.why(cell);
  return why.length > 0
    ? why
    : setAside(story, cell)
        .map((it) => it.text)
        .slice(0, 1);
}

/** What it waits for: an answer, by the name of its question, or a decision that nobody took on what was found. */
export function waitsFor(story: Story, cell: PartCell | FastenerCell, wanted: Wanted): Waiting | undefined {
  const asked = decidedAt(story, cell.thing.name, cell.place, cell.total).find((it) => it.says === "waiting")?.question ?? wanted.asked.get(cell.thing.name);
  if (asked !== undefined) return { text: `waits for the answer to ${asked}`, asks: asked };
  const open = undecidedAt(story, cell);
  if (open === undefined) return undefined;
  return { text: `found ${open.words}, and nothing is decided`, ...(open.found === undefined ? {} : { found: open.found.where }) };
}

/** How many of them wait. */
function undecided(story: Story, cell: PartCell | FastenerCell, wanted: Wanted): number {
  const asked = decidedAt(story, cell.thing.name, cell.place, cell.total).reduce((sum, it) => (it.says === "waiting" ? sum + it.count : sum), 0);
  if (asked > 0) return asked;
  // What a question is about, and no finding: all of it.
  return wanted.asked.has(cell.thing.name) ? cell.total : (undecidedAt(story, cell)?.count ?? 0);
}

/** The repair that was decided and neither done nor planned; of how many, where it is not of all that are there. */
export function mendFor(story: Story, cell: PartCell | FastenerCell): { readonly how: string; readonly count?: number } | undefined {
  const found = findingsAt(story, cell).findLast((it) => it.decision !== undefined);
  const decision = found?.decision?.detail;
  if (found === undefined || decision?.decision !== "repair" || decision.how === undefined || repairedSince(cell, found.seq) !== undefined) return undefined;
  // Sent out to be mended, it is mended when it is back.
  if (workOrdered(story, cell)) return undefined;
  const { count } = countAt(found, cell.place, cell.total);
  return { how: decision.how.value, ...(count > 0 && count < cell.total ? { count } : {}) };
}
