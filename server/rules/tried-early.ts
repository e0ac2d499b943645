// A trial of the whole made before the whole was there: a brake by its hand lever before the nut on its cable was set, a steering turned from lock to lock before its drag link was on.
// Invariant: done work only, of critical looks that found it good; told by the words of the check.
import { allWords } from "../model/titles.ts";
import { isSamePlace } from "../model/same-place.ts";
import { headOf, isOnBench, isTriedTogether } from "../model/read-with.ts";
import type { Thing } from "../model/things.ts";
import type { Moment, PartCell, Seen, Story } from "../story/story.ts";
import { onAt } from "../story/in-place.ts";

/** What was off, slack or not filled as something was tried or read, and the line that made it good. */
export interface Lacking {
  readonly thing: Thing;
  readonly place: string;
  readonly what: string;
  readonly moment: Moment;
}

export function triedEarly(story: Story, seen: Seen): Lacking | undefined {
  const { check } = seen;
  const what = check.criticalWhat;
  const words = allWords(check);
  if (what === undefined || !seen.good || check.with.length > 0 || isOnBench(words) || !isTriedTogether(check) || isAllOff(story, seen)) return undefined;
  // That its unions are dry shows before its shoes are set.
  if (/\bbrak/iu.test(what) && byControl.test(words) && !wet.test(words)) return slackThen(story, seen, what);
  return lockToLock.test(words) && ofRoadWheels.test(words) ? offThen(story, seen, what) : undefined;
}

const byControl = /\b(hand ?-?brake|parking brake|hand ?-?lever|pedal|foot ?-?brake)\b/iu;
const wet = /\b(leak\w*|weep\w*|drip\w*|seep\w*|dry|damp|wet|unions?)\b/iu;
const lockToLock = /\block to lock\b|\b(full|each|either|both) locks?\b/iu;
/** Of the box by itself no tyre rubs and no hose is pulled. */
const ofRoadWheels = /\b(rubs?|tyres?|tires?|wheels?|hoses?|foul\w*|wings?|mudguards?|touch\w*|clears?|stops?)\b/iu;

/** What it is of lies on the bench, all of it. */
function isAllOff(story: Story, { check, place, seq }: Seen): boolean {
  const own = check.of.flatMap(({ text }) => story.cells(text)).filter((it): it is PartCell => it.kind === "part" && isSamePlace(it.place, place));
  return own.length > 0 && own.every((cell) => onAt(cell, seq) === 0);
}

/** An adjuster of that brake, or a nut that holds what is tried, that was let go or put on, and not done up as it was tried. What was let back behind its run-up is as it is to be, and nobody turns it after. */
function slackThen(story: Story, { check, place, seq }: Seen, what: string): Lacking | undefined {
  const holders = new Set(
    check.of.flatMap(({ text }) => {
      const thing = story.job.things.get(text);
      return thing?.kind === "part" ? thing.heldBy.map((by) => by.text) : [];
    }),
  );
  for (const cell of story.fasteners) {
    if (!holders.has(cell.thing.name) && !/\badjust/iu.test(allWords(cell.thing))) continue;
    if (cell.thing.criticalWhat !== what || cell.unsure || !isSamePlace(cell.place, place)) continue;
    const last = cell.history.findLast((it) => it.seq < seq && it.phase === "done" && it.verb !== "found");
    if (last === undefined || last.after.on === 0 || last.after.tight) continue;
    const moment = cell.history.find((it) => it.seq > seq && it.phase === "done" && it.verb === "tighten");
    if (moment !== undefined) return { thing: cell.thing, place: cell.place, what: "was slack", moment };
  }
  return undefined;
}

/** A part of that steering that was off, and went on later. */
function offThen(story: Story, { place, seq }: Seen, what: string): Lacking | undefined {
  for (const cell of story.parts) {
    if (cell.thing.criticalWhat !== what || cell.unsure || !isSamePlace(cell.place, place) || covers.has(headOf(cell.thing) ?? "")) continue;
    if (onAt(cell, seq) >= cell.total) continue;
    const moment = cell.history.find((it) => it.seq > seq && it.phase === "done" && it.verb === "fit" && it.after.on > it.before.on);
    if (moment !== undefined) return { thing: cell.thing, place: cell.place, what: "was off", moment };
  }
  return undefined;
}

const covers: ReadonlySet<string> = new Set("cover cap plug gaiter boot bell horn trim shroud seal gasket felt damper guard shield".split(" "));
