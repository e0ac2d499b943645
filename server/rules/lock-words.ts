// How a fastener is to be locked, in words: with a new locking where that is used once, with its own where it goes back.
import type { Locking } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import type { Fastener } from "../model/things.ts";
import { usedOnce } from "../story/used-once.ts";
import { lockingText } from "./wording.ts";

/** Whether the locking that it declares must be new each time. */
export function lockIsNew(job: Job, fastener: Fastener): boolean {
  const locking = fastener.locking?.locking;
  return locking !== undefined && usedOnce(job, locking, fastener);
}

/** “Fit a new split pin 4 x 40 mm”, “Stake it afresh”, “Lock it: spring washer”. */
export function lockWords(job: Job, fastener: Fastener): string {
  const locking = fastener.locking?.locking;
  if (locking === undefined || locking.kind === "nothing") return "Lock it, and say with what";
  if (locking.kind === "staking") return "Stake it afresh";
  // Wire and sealant come by the length and the drop.
  if (lockIsNew(job, fastener) && isOfStuff(locking)) return `Fit new ${lockingText(locking)}`;
  return lockIsNew(job, fastener) ? `Fit a new ${lockingText(locking)}` : `Lock it: ${lockingText(locking)}`;
}

/** What to do where the old one went back: “fit a new one and write `new`”. */
export function anewWords(locking: Locking): string {
  if (locking.kind === "staking") return "Metal is staked once: stake it afresh, and write `new`";
  return `It is used once: fit ${isOfStuff(locking) ? "new" : "a new one"} and write \`new\``;
}

function isOfStuff(locking: Locking): boolean {
  return locking.kind === "lock wire" || locking.kind === "thread lock";
}
