// Whether what is offered goes on a fastener's own thread, and is as strong as it should be.
// Invariant: a thread that is not in the tables can't be compared, unless it is written alike; of that nothing is said.
import type { Thread, ThreadDetail } from "../../grammar/tree.ts";
import type { Fastener } from "../model/things.ts";
import { type Strength, strengthOf } from "../trade/bolts.ts";
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

/** The strength that the fastener declares and that of what is offered, where both are in the tables and the offered one is less; else undefined. */
export function weakerThan(fastener: Fastener, offered: ThreadDetail): { own: Strength; theirs: Strength } | undefined {
  if (offered.thread === undefined) return undefined;
  const theirs = strength(offered.thread, offered.grade?.text, offered.class?.text);
  if (theirs === undefined) return undefined;
  let least: Strength | undefined;
  for (const it of fastener.threads) {
    const own = strength(it.thread, it.grade, it.class);
    if (own !== undefined && (least === undefined || own.tensileMPa.compare(least.tensileMPa) < 0)) least = own;
  }
  return least !== undefined && theirs.tensileMPa.compare(least.tensileMPa) < 0 ? { own: least, theirs } : undefined;
}

function strength(thread: Thread, grade: string | undefined, boltClass: string | undefined): Strength | undefined {
  const on = known(thread);
  return on === undefined ? undefined : strengthOf(on, { ...(grade === undefined ? {} : { grade }), ...(boltClass === undefined ? {} : { class: boltClass }) });
}

/** `1/2 BSF`, `3/4-16 UNF LH` */
export function threadText(thread: Thread): string {
  return `${thread.designation}${thread.leftHand === undefined ? "" : " LH"}`;
}

function known(thread: Thread): KnownThread | undefined {
  return thread.free ? undefined : threadOf(thread.designation, thread.leftHand !== undefined);
}
