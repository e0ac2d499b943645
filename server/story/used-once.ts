// Which lockings serve once only, and so are needed new each time that their fastener is opened.
// Invariant: decided by the kind of locking and by what hangs on the fastener, never by what was done.
import { lockingInfo } from "../../grammar/words.ts";
import type { Locking, LockingKind } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import { type Fastener, type ThingBase, linesOf } from "../model/things.ts";

/**
 * A self-locking nut and thread lock may serve again where nothing critical hangs on them. A part that locks has been bent, unless something else holds
 * it; and the sheet may say of either that it serves again, and why.
 */
export function usedOnce(job: Job, locking: Locking, fastener: Fastener): boolean {
  if (locking.kind === "part") {
    const part = locking.part === undefined ? undefined : job.things.get(locking.part.text);
    if (part?.kind !== "part") return false;
    return part.renew || part.renewWith.length > 0 || (!part.implied && part.heldBy.length === 0 && !servesAgain(part) && !servesAgain(fastener));
  }
  if (servesAgain(fastener)) return false;
  const life = lockingInfo(locking.kind as LockingKind)?.life;
  return life === "once" || (life === "once-if-critical" && fastener.critical);
}

function servesAgain(thing: ThingBase): boolean {
  return linesOf(thing, "may-serve").some(({ detail }) => detail.why !== undefined);
}
