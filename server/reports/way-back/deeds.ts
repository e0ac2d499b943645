// The deeds that a way back is put in order of: what hands do to one thing in one go, a reading, letting it down.
// Invariant: those of one thing come in the order in which hands do them.
import type { Where } from "../../model/where.ts";
import type { FastenerCell, FastenerMoment, PartCell, PartMoment } from "../../story/story.ts";
import type { Act } from "./acts.ts";
import type { ToLook } from "./looks.ts";
import type { ToRead } from "./readings.ts";
import type { Work } from "./work.ts";

export type Deed = ActsDeed | ReadDeed | LookDeed | { readonly kind: "lower"; readonly since: number };

export interface ActsDeed {
  readonly kind: "acts";
  readonly thing: Work["thing"];
  readonly acts: readonly Act[];
  readonly since: number;
  readonly where: Where;
}

export interface ReadDeed {
  readonly kind: "read";
  readonly read: ToRead;
  readonly stage: "trial" | "final";
  readonly since: number;
}

export interface LookDeed {
  readonly kind: "look";
  readonly look: ToLook;
  readonly since: number;
}

/** Deeds of one thing in the order in which hands do them. */
const stages: readonly (readonly Act["verb"][])[] = [
  ["repair", "clean"],
  ["support", "fit", "lower", "grease", "oil"],
  ["tighten"],
  ["let back"],
  ["lock"],
  ["drain", "fill", "bleed", "restore"],
];

/** When the last of it came off at that place. */
export function offAt(cell: PartCell | FastenerCell): number | undefined {
  return (cell.history as readonly (PartMoment | FastenerMoment)[]).findLast(
    (it) => (it.verb === "remove" || it.verb === "undo" || it.verb === "slacken") && (it.verb === "slacken" || it.after.on < it.before.on),
  )?.seq;
}

/** Taken as soon as it can be. */
export const soon = Number.MAX_SAFE_INTEGER;

export function deedsOf({ thing, acts, since, where }: Work): Deed[] {
  return stages.flatMap((verbs) => {
    const own = acts.filter((act) => verbs.includes(act.verb));
    if (own.length === 0) return [];
    // What is mended on the bench waits for nothing; bled is when all that it moves is on, for a piston with nothing before it comes out (common practice).
    const bled = thing.kind === "fluid" && thing.needsBleed;
    return [{ kind: "acts" as const, thing, acts: own, since: verbs[0] === "repair" ? soon : bled ? -0.5 : since, where }];
  });
}
