// Whether what is offered goes on a fastener's own thread, and is as strong as it should be.
// Invariant: a thread that is not in the tables can't be compared, unless it is written alike; of that nothing is said.
import type { Figure, Thread, ThreadDetail } from "../../grammar/tree.ts";
import type { Fastener } from "../model/things.ts";
import { compare, exact } from "../quantities/exact.ts";
import { sameThread, threadOf } from "../trade/threads.ts";
import type { Thread as KnownThread } from "../trade/thread.ts";

/** The fastener's own thread and the one that is offered, where both are known and they are not the same; else undefined. */
export function unlikeThread(
  fastener: Pick<Fastener, "threads">,
  offered: Thread,
): { own: { thread: Thread; known: KnownThread }; theirs: KnownThread } | undefined {
  const theirs = known(offered);
  const own = fastener.threads.map(({ thread }) => ({ thread, known: known(thread) }));
  const [first] = own;
  if (theirs === undefined || first?.known === undefined || own.some((it) => it.known === undefined)) return undefined;
  if (own.some((it) => threadText(it.thread) === threadText(offered) || (it.known !== undefined && sameThread(it.known, theirs)))) return undefined;
  return { own: { thread: first.thread, known: first.known }, theirs };
}

/**
 * The fastener's own strength and that of what is offered, where both are written by the same standard and what is offered is the weaker: grades of SAE J429 and
 * property classes of ISO 898-1 rise with their figure. A grade and a class are not set against each other.
 */
export function weakerThan(
  fastener: Pick<Fastener, "threads">,
  offered: Pick<ThreadDetail, "grade" | "class">,
): { own: string; theirs: Figure; by: "grade" | "class" } | undefined {
  for (const by of ["grade", "class"] as const) {
    const theirs = offered[by];
    if (theirs === undefined || theirs.comma) continue;
    const figure = exact(theirs.text);
    const own = fastener.threads.flatMap((it) => {
      const text = it[by];
      const value = text === undefined ? undefined : exact(text);
      return text === undefined || value === undefined ? [] : [{ text, value }];
    });
    const [first] = own;
    if (figure === undefined || first === undefined || !own.every(({ value }) => compare(figure, value) < 0)) continue;
    return { own: first.text, theirs, by };
  }
  return undefined;
}

/** `1/2 BSF`, `3/4-16 UNF LH` */
export function threadText(thread: Thread): string {
  return `${thread.designation}${thread.leftHand === undefined ? "" : " LH"}`;
}

/** By its own mark; of a thread that is told in words, by these: no mark and no word is right hand. */
export function isLeftHand(thread: Thread): boolean {
  if (thread.leftHand !== undefined) return true;
  return thread.free && /\bleft[- ]?hand(ed)?\b|\bLH\b/i.test(thread.designation) && !/\bright[- ]?hand(ed)?\b|\bRH\b/i.test(thread.designation);
}

function known(thread: Thread): KnownThread | undefined {
  return thread.free ? undefined : threadOf(thread.designation, thread.leftHand !== undefined);
}
