// What the price lists of suppliers offer for an item: found by what it is called, by the maker's number, or by the supplier's number that a sheet's own offer gives.
// Invariant: looked up, never gone through: a list of fifty thousand rows costs no more for each item than one of ten.
import type { Job } from "../model/job.ts";
import type { PriceList } from "./price-list.ts";
import type { PriceRow } from "./price-row.ts";
import { type SupplierPrices, pricesOf } from "./prices.ts";
import { amountOf, itemNamed, type Item } from "./items.ts";
import { unlikeThread } from "./offered-thread.ts";
import { type Offer, goesNowhereOn, meantBy, readingOffers, supplierNamed } from "./offers.ts";
import type { Story } from "../story/story.ts";
import { memoSliced } from "../model/memo.ts";
import { type Slices, runThrough } from "../../grammar/slices.ts";

/** Every offer of an item, in the order written: those of the sheets, then those of the price lists. */
export function offersFor(stories: readonly Story[]): (item: Item) => readonly Offer[] {
  const [story, other] = stories;
  return story !== undefined && other === undefined ? ofOne.whole(story) : runThrough(offered(stories));
}

/** The supply of a job and its plan both ask for them. */
const ofOne = memoSliced((story: Story) => offered([story]));

/** The same, worked out in slices for those who ask for it afterwards. */
export function* offering(story: Story): Slices<void> {
  yield* ofOne.sliced(story);
}

function* offered(stories: readonly Story[]): Slices<(item: Item) => readonly Offer[]> {
  const sheets = yield* readingOffers(stories);
  const jobs = stories.map((story) => story.job);
  const known = new Map<string, readonly Offer[]>();
  return (item) => {
    let offers = known.get(item.key);
    if (offers === undefined) {
      const { threaded } = item;
      offers = withListed(sheets.get(threaded?.unthreaded ?? item.key) ?? [], item, jobs);
      if (threaded !== undefined)
        offers = offers.map((it) => (it.unlike || it.thread === undefined ? it : { ...it, unlike: goesNowhereOn(threaded, it.thread) }));
      known.set(item.key, offers);
    }
    return offers;
  };
}

/** `own`: what the sheets themselves offer of the item. An offer of a sheet that has no price takes it from the row of its number. */
function withListed(own: readonly Offer[], item: Item, jobs: readonly Job[]): Offer[] {
  const out = [...own];
  const seen = new Set<string>();
  for (const job of jobs) {
    // A name means what it means in the job that knows the supplier.
    if (item.kind !== "locking" && item.kind !== "text" && itemNamed(job, item.written).key !== (item.threaded?.unthreaded ?? item.key)) continue;
    for (const prices of pricesOf(job)) {
      if (prices.list === undefined || prices.path === undefined) continue;
      const supplier = supplierNamed(job, prices.supplier.name);
      const known = `${supplier.key} ${prices.path}`;
      if (seen.has(known)) continue;
      seen.add(known);
      const { list } = prices;
      const ours = out.flatMap((it, i) => (it.supplier?.key === supplier.key && it.list === undefined ? [i] : []));
      const quoted = new Set(ours.flatMap((i) => out[i]?.number ?? []));
      for (const i of ours) {
        const offer = out[i] as Offer;
        const row = offer.number === undefined || offer.price !== undefined ? undefined : list.byNumber(offer.number)[0];
        if (row !== undefined) out[i] = completed(offer, offerOf(row, item, job, prices));
      }
      for (const row of rowsFor(item, list)) if (row.number === undefined || !quoted.has(row.number)) out.push(offerOf(row, item, job, prices));
    }
  }
  return out;
}

/** What the sheet's own offer says holds; the list says the rest. */
function completed(own: Offer, listed: Offer): Offer {
  const pack = own.pack ?? listed.pack;
  const per = own.pack === undefined ? listed.per : (listed.per ?? meantBy(own.pack));
  const { pack: _pack, per: _per, unlike, ...rest } = { ...listed, ...own };
  return {
    ...rest,
    unlike: unlike || listed.unlike,
    ...(pack === undefined ? {} : { pack }),
    ...(per === undefined ? {} : { per }),
    ...(listed.list === undefined ? {} : { list: listed.list }),
  };
}

function rowsFor(item: Item, list: PriceList): readonly PriceRow[] {
  const named = item.kind === "locking" ? list.byLocking(item.key) : list.byItem(item.written);
  const numbered = item.makersNumber === undefined ? [] : list.byMakersNumber(item.makersNumber);
  return [...new Set([...named, ...numbered])];
}

function offerOf(row: PriceRow, item: Item, job: Job, { supplier, where, path }: SupplierPrices): Offer {
  const thing = item.kind === "fastener" ? job.things.get(item.written) : undefined;
  const pack = amountOf(row.pack);
  const per = row.per ?? meantBy(pack);
  const seller = supplierNamed(job, supplier.name);
  const lead = row.lead ?? seller.lead;
  return {
    item,
    supplier: seller,
    price: row.price,
    unlike: row.thread !== undefined && thing?.kind === "fastener" && unlikeThread(thing, row.thread) !== undefined,
    ...(row.thread === undefined ? {} : { thread: { thread: row.thread } }),
    where,
    list: { file: path ?? "", line: row.line },
    ...(row.number === undefined ? {} : { number: row.number }),
    ...(per === undefined ? {} : { per }),
    ...(pack === undefined ? {} : { pack }),
    ...(lead === undefined ? {} : { lead }),
    ...(row.quoted === undefined ? {} : { quoted: { day: row.quoted, where } }),
    ...(row.exchange === undefined ? {} : { exchange: row.exchange }),
    ...(row.equalTo === undefined ? {} : { equalTo: row.equalTo }),
  };
}
