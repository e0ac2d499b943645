// When the engine collects what was made lately and is not used any more: where it decides that itself, it is in the middle of an answer, every fourth or fifth key, and a turn that is
// over otherwise takes twice or three times as long. So it is asked to between two turns, and where nobody types.
// Invariant: it only saves time. An engine that can't be asked collects when it likes.
import { getHeapSpaceStatistics, setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import type { Collecting } from "./lsp/publisher.ts";

/** Less room than that is used up in a turn. */
const leastRoom = 1 / 4;

/** Less than that is not worth it. */
const leastUsed = 1 / 8;

type Collect = (how: { readonly type: "minor" }) => void;

/** Undefined where this engine has no such thing. */
export function collectingWhenAsked(): Collecting | undefined {
  // Left small by the start; at a key nothing should stand in the way of a turn.
  setFlagsFromString("--semi-space-growth-factor=2");
  // The flag is of contexts that are made from here on: this one has its function, and nothing that runs here sees it.
  setFlagsFromString("--expose-gc");
  const collect = runInNewContext("typeof gc === 'function' ? gc : undefined") as Collect | undefined;
  if (collect === undefined) return undefined;
  return {
    isNearlyFull: () => used() > 1 - leastRoom,
    isWorthIt: () => used() > leastUsed,
    collect: () => collect({ type: "minor" }),
  };
}

/** Of the room for what was made lately, the share that is used. */
function used(): number {
  const space = getHeapSpaceStatistics().find((it) => it.space_name === "new_space");
  if (space === undefined) return 0;
  return space.space_used_size / (space.space_used_size + space.space_available_size);
}
