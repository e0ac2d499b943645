// The shelf and the orders of fasteners that have one thread here and another there: stock, order and invoice name them by name, and say no thread.
// Invariant: what a seller offers in one thread only is that thread. What is left serves the threads in the order in which they are needed, no more of each than it
// needs; and it is told that nobody says which it is.
import type { Job } from "../model/job.ts";
import { type Exact, compare, zero } from "../quantities/exact.ts";
import type { Story } from "../story/story.ts";
import { type Amount, type Item, itemsByThread } from "./items.ts";
import { offersFor } from "./listed-offers.ts";
import { needsOf } from "./needs.ts";
import { supplierNamed } from "./offers.ts";

/** The item of an order line by what its seller offers; the item as it is named where that is in several threads, or nobody says. */
export function threadOfSeller(stories: readonly Story[]): (job: Job, item: Item, supplier: string | undefined) => Item {
  const offers = offersFor(stories);
  return (job, item, supplier) => {
    const thing = item.kind === "fastener" ? job.things.get(item.written) : undefined;
    if (thing?.kind !== "fastener" || supplier === undefined || item.threaded !== undefined) return item;
    const items = [...new Map([...itemsByThread(job, thing).values()].map((it) => [it.key, it])).values()];
    if (items.length === 0) return item;
    const { key } = supplierNamed(job, supplier);
    const own = items.map((it) => ({ it, offers: offers(it).filter((offer) => offer.supplier?.key === key) }));
    if (own.some((one) => one.offers.some((offer) => offer.thread === undefined))) return item;
    const serve = own.filter((one) => one.offers.some((offer) => !offer.unlike));
    return serve.length === 1 ? (serve[0] as (typeof serve)[number]).it : item;
  };
}

/** The threads of an item that something is needed of, in the order in which it is asked for: how much of each. */
export function neededByThread(stories: readonly Story[]): ReadonlyMap<string, readonly { readonly item: Item; readonly amount: Amount }[]> {
  const out = new Map<string, { item: Item; amount: Amount }[]>();
  for (const { item, amount } of stories.flatMap((story) => needsOf(story).needed)) {
    if (item.threaded === undefined || amount === undefined) continue;
    const list = out.get(item.threaded.unthreaded) ?? [];
    out.set(item.threaded.unthreaded, list);
    const one = list.find((it) => it.item.key === item.key);
    if (one === undefined) list.push({ item, amount });
    else one.amount = { ...amount, value: one.amount.value.add(amount.value) };
  }
  return out;
}

/** Shares `there` out among `wants` in their order; what is left over comes last. */
export function shared(there: Exact, wants: readonly Exact[]): { readonly shares: readonly Exact[]; readonly left: Exact } {
  let left = there;
  const shares = wants.map((want) => {
    const share = compare(want, zero) <= 0 ? zero : compare(want, left) < 0 ? want : left;
    left = left.sub(share);
    return share;
  });
  return { shares, left };
}
