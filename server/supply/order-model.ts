// All that is short and all that is offered as one program in whole numbers: how many packs of each offer to buy, so that goods, surcharges, carriage, duty and tax
// come to the least. A thing may be split among sellers and packs, and more may be bought of it than is short where that earns a lower price or free carriage.
// Invariant: what `bills.ts` would add up for a choice is what the program makes of it, in the smallest coins of the currency that all is reckoned in.
// Sums in other currencies stand at their rate, in binary floats: whoever asks adds up again exactly.
import { type Exact, compare } from "../quantities/exact.ts";
import type { Amount } from "./items.ts";
import type { Offer, OfferSupplier, Purchase } from "./offers.ts";
import { type Offering, type Pick, picksOf, purchasesOf } from "./order-picks.ts";
import { newProgram, numberOf } from "./order-program.ts";
import { type Seller, closeSeller, sellerOf } from "./order-sellers.ts";
import type { Program } from "./solver.ts";

/** One thing that is short, and the offers that may serve. */
export interface Wanted {
  readonly short: Amount;
  readonly offers: readonly Offer[];
}

export interface OrderModel {
  readonly program: Program;
  /** For each seller, 1 where anything is bought of it. */
  readonly used: readonly { readonly column: number; readonly supplier: OfferSupplier | undefined }[];
  /** Money in the smallest coins: the cost of each column. */
  readonly money: readonly number[];
  /** Columns that are 1 where a thing is bought from an offer without a price that counts. */
  readonly unpriced: readonly number[];
  /** The place, among the leads that there are, of the longest that is waited for; and how many there are. */
  readonly latest: { readonly column: number; readonly leads: number };
  /** All sums of money are whole numbers of coins. */
  readonly whole: boolean;
  /** What is bought for each thing, by the values of the columns. */
  purchases(values: readonly number[]): (readonly Purchase[])[];
}

/** How prices are reckoned. */
export interface Reckoning {
  /** All is reckoned in it. */
  readonly currency: string | undefined;
  /** What one of a currency counts for. */
  worth(code: string): Exact;
  /** Its price can be set against the others. */
  compared(offer: Offer): boolean;
  leadOf(offer: Offer): Exact | undefined;
}

export function orderModel(asked: readonly Wanted[], { currency, worth, compared, leadOf }: Reckoning): OrderModel {
  const wants = asked.map((it): Wanted => ({ ...it, offers: unlikeOffers(it.offers) }));
  const program = newProgram(currency, worth);
  const all = wants.flatMap((it) => it.offers);
  const leads = distinct(all.flatMap((it) => leadOf(it) ?? []));
  const latest = program.column(0, leads.length, { whole: false });
  const suppliers = [...new Map(all.map((it) => [it.supplier?.key ?? "", it.supplier])).values()];
  const sellers = suppliers.map((it) => sellerOf(program, it));
  const sellerAt = new Map(sellers.map((it) => [it.supplier?.key ?? "", it]));
  const unpriced: number[] = [];
  const offering: Offering = { program, all, leads, latest, unpriced, compared, leadOf, sellerOf: (it) => sellerAt.get(it.supplier?.key ?? "") as Seller };
  const picks = wants.map(({ short, offers }) => offers.flatMap((offer) => picksOf(offering, short, offer)));
  for (const [i, want] of wants.entries()) {
    // In shares of what is short, for that may be a length in millimetres or a count.
    const terms = (picks[i] as Pick[]).map((it) => [it.column, it.size === undefined ? 1 : numberOf(it.size.value.div(want.short.value))] as const);
    program.atLeast(1 - roundedAway, ...terms);
  }
  for (const seller of sellers) closeSeller(program, seller);
  const { columns, rows } = program;
  return {
    program: { columns, rows },
    used: sellers.map((it) => ({ column: it.used, supplier: it.supplier })),
    money: columns.map((it) => it.cost),
    unpriced,
    latest: { column: latest, leads: leads.length },
    whole: program.isWhole(),
    purchases: (values) => picks.map((list) => purchasesOf(list, values)),
  };
}

/** Without those that sell the same at the same price as one before them: a list of prices may have a hundred rows of one pin, and the search would weigh each. */
function unlikeOffers(offers: readonly Offer[]): readonly Offer[] {
  const seen = new Set<string>();
  return offers.filter((it) => {
    if (it.breaks !== undefined || it.onHold !== undefined) return true;
    const { supplier, pack, pieces, price, exchange, per, lead } = it;
    const sums = [price, exchange].map((sum) => `${sum?.amount.toFraction()} ${sum?.code}`);
    const key = [supplier?.key, pack?.value.toFraction(), pack?.unit?.name, pieces?.toFraction(), ...sums, per, lead].join("\n");
    return !seen.has(key) && seen.add(key);
  });
}

/** A quantity and its packs are compared in binary floats: this much is no want. It is counted again exactly. */
const roundedAway = 1e-9;

function distinct(values: readonly Exact[]): Exact[] {
  const sorted = [...values].sort(compare);
  return sorted.filter((it, i) => i === 0 || compare(it, sorted[i - 1] as Exact) !== 0);
}
