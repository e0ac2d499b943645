// Every way of buying a small order: every number of packs of every offer, splitting among sellers and buying more than is short included, as long as the goods alone
// are not dearer than what is to be judged. Goes from thing to thing over the sums that each seller can come to, for what is paid hangs on these sums alone.
import { type RandomOrder, type Reckoned, type Way, better, grid, paid, priceOf } from "./orders.ts";

/** The best there is that costs no more than `most` pence; undefined where there is none. */
export function bestOf(order: RandomOrder, way: Way, most: number): Reckoned | undefined {
  const { sellers, needs, offers } = order;
  const cap = Math.floor(most / grid);
  if (cap >= 2 ** 10 || sellers.length > 3) throw new Error("That is no small order.");
  // The sum of each seller's goods, in grids, ten bits each of one number.
  let sums = new Set<number>([0]);
  for (const [thing, need] of needs.entries()) {
    const ways = waysToBuy(
      offers.flatMap((it, n) => (it.thing === thing ? [n] : [])),
      need,
    );
    const next = new Set<number>();
    for (const sum of sums) {
      const spent = total(sum);
      for (const it of ways) if (spent + total(it) <= cap) next.add(sum + it);
    }
    sums = next;
  }
  let best: Reckoned | undefined;
  const last = Math.max(
    ...needs.map((_, thing) => Math.min(...offers.filter((it) => it.thing === thing).map((it) => (sellers[it.seller] as { lead: number }).lead))),
  );
  for (const sum of sums) {
    const it = paid(
      sellers,
      figures(sum).map((n) => n * grid),
    );
    if (it === undefined || it.pence > most || (way === "soonest" && it.lead > last)) continue;
    // What is all there on the last day that can't be helped is all there soonest, from whomever.
    if (best === undefined || better(way, way === "soonest" ? { ...it, lead: 0 } : it, way === "soonest" ? { ...best, lead: 0 } : best)) best = it;
  }
  return best;

  function figures(sum: number): number[] {
    return sellers.map((_, s) => (sum >> (10 * s)) & 1023);
  }
  function total(sum: number): number {
    return (sum & 1023) + ((sum >> 10) & 1023) + (sum >> 20);
  }
  function waysToBuy(list: readonly number[], need: number): ReadonlySet<number> {
    const out = new Set<number>();
    const go = (at: number, left: number, sum: number): void => {
      const it = offers[list[at] as number];
      if (it === undefined) {
        if (left <= 0) out.add(sum);
        return;
      }
      const spent = total(sum);
      // A lower price from so many on may make more of it come to less, so the end is not where the first is too dear.
      const top = Math.max(...it.tiers.map(([from]) => from));
      for (let packs = 0; ; packs++) {
        const grids = priceOf(it, packs) / grid;
        if (spent + grids <= cap) go(at + 1, left - packs * it.pack, sum + grids * 2 ** (10 * it.seller));
        else if (packs >= top) return;
      }
    };
    go(0, need, 0);
    return out;
  }
}

/** The fewest sellers that have everything among them. */
export function fewestSellers({ sellers, needs, offers }: RandomOrder): number {
  let least = sellers.length;
  for (let set = 1; set < 2 ** sellers.length; set++) {
    const has = (seller: number) => Math.floor(set / 2 ** seller) % 2 === 1;
    if (needs.every((_, thing) => offers.some((it) => it.thing === thing && has(it.seller)))) least = Math.min(least, sellers.filter((_, s) => has(s)).length);
  }
  return least;
}
