// Whether what is offered goes on a fastener's own thread.
// Invariant: a thread that is not in the tables can't be compared, unless it is written alike; of that nothing is said.
import type { Thread } from "../../grammar/tree.ts";
import type { Fastener } from "../model/things.ts";
import { type Thread as KnownThread, sameThread, threadOf } from "../trade/threads.ts";

/** The fastener's own thread and the one that is offered, where both are known and they are not the same; else undefined. */
export function unlikeThread(fastener: Fastener, offered: Thread): { own: { thread: Thread; known: KnownThread }; theirs: KnownThread } | undefined {
  const theirs = known(offered);
  const own = fastener.threads.map(({ thread }) => ({ thread, known: known(thread) }));
  const [first] = own;
  if (theirs === undefined || first?.known === undefined || own.some((it) => it.known === undefined)) return undefined;
  if (own.some((it) => threadText(it.thread) === threadText(offered) || (it.known !== undefined && sameThread(it.known, theirs)))) return undefined;
  return { own: { thread: first.thread, known: first.known }, theirs };
}

/** `1/2 BSF`, `3/4-16 UNF LH` */
export function threadText(thread: Thread): string {
  return `${thread.designation}${thread.leftHand === undefined ? "" : " LH"}`;
}

function known(thread: Thread): KnownThread | undefined {
  return thread.free ? undefined : threadOf(thread.designation, thread.leftHand !== undefined);
}
