// How a fastener is to be locked, in words: with a new locking where that is used once, with its own where it goes back.
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
  return lockIsNew(job, fastener) ? `Fit a new ${lockingText(locking)}` : `Lock it: ${lockingText(locking)}`;
}
