// The other half of a fit, as its limit names it: “axlebox in its horns”. What was done to a piece that is neither half makes it no tighter.
// Invariant: asked of titles; where none names a mate, whatever is mounted there may have made the difference.
import { headOf, wordsOf } from "./read-with.ts";
import type { Limit, Thing } from "./things.ts";
import { allWords } from "./titles.ts";

/** The words in which a limit names what its piece runs in or on: `horn`. */
function mateOf(limit: Limit): readonly string[] {
  return (limit.title ?? "").split(/[,;()]/).flatMap((clause) => wordsOf(named.exec(clause)?.[1] ?? ""));
}

const named = /\b(?:in|on|over|between) (?:(?:its|the|their|both|two) )*((?:\p{L}+[ -])?\p{L}+) *$/iu;

/** It runs in what is of the frame, and not in a bearing that lies inside it under some other name. */
export function isInFixedGuides(limit: Limit): boolean {
  return mateOf(limit).some((word) => fixed.has(word));
}

const fixed: ReadonlySet<string> = new Set("horn hornway hornblock guide slide slideway slidebar pedestal ways".split(" "));

/** Whether a piece that is new, or was worked on, may have made such a fit tighter, by what the limit calls its mate. */
export function mayTakeUp(limit: Limit, thing: Thing): boolean {
  const mate = mateOf(limit);
  if (mate.length === 0) return true;
  const words = wordsOf(allWords(thing));
  if (words.some((word) => mate.includes(word))) return true;
  return isInFixedGuides(limit) ? words.some((word) => takesUp.has(word)) : !soft.has(headOf(thing) ?? "");
}

/** What is put between a box and its guides. */
const takesUp: ReadonlySet<string> = new Set(
  "liner shim packing wedge gib shoe slipper strip facing insert rubber plate cheek block bush washer spacer ring".split(" "),
);

/** What keeps oil in and dirt out, and bears nothing. */
const soft: ReadonlySet<string> = new Set("seal gasket felt gaiter boot".split(" "));
