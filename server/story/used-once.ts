// Which lockings serve once only, and so are needed new each time that their fastener is opened.
// Invariant: decided by the kind of locking and by what hangs on the fastener, never by what was done.
import { lockingInfo } from "../../grammar/words.ts";
import type { Locking, LockingKind } from "../../grammar/tree.ts";
import type { Job } from "../model/job.ts";
import type { Fastener } from "../model/things.ts";

/** A self-locking nut and thread lock may serve again where nothing critical hangs on them. */
export function usedOnce(job: Job, locking: Locking, fastener: Fastener): boolean {
  if (locking.kind === "part") {
    const part = locking.part === undefined ? undefined : job.things.get(locking.part.text);
    return part?.kind === "part" && part.renew;
  }
  const life = lockingInfo(locking.kind as LockingKind)?.life;
  return life === "once" || (life === "once-if-critical" && fastener.critical);
}
