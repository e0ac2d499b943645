// What a way of buying comes to, however it was chosen.
import { type Exact, compare, zero } from "../quantities/exact.ts";
import { quantity } from "../quantities/quantity.ts";
import type { Story } from "../story/story.ts";
import { billsOf } from "./bills.ts";
import type { Offer, OfferSupplier, Purchase } from "./offers.ts";
import { currencyOfSheets, rateBetween, ratesOf } from "./rates.ts";

/** All of it in one currency, unrounded. */
export interface Outcome {
  readonly total: Exact;
  readonly parcels: number;
  /** Of what takes longest, as written; undefined where nothing that is bought has a lead. */
  readonly lead: string | undefined;
}

/** What purchases come to, in the currency that an order of these sheets is reckoned in. */
export function outcomeIn(
  stories: readonly Story[],
  all: readonly Purchase[],
): { readonly currency: string | undefined; outcome(purchases: readonly Purchase[]): Outcome } {
  const rates = ratesOf(stories);
  const currency = currencyOfSheets(stories) ?? all.flatMap((it) => it.total ?? [])[0]?.code;
  const worth = (code: string) => (currency === undefined ? undefined : rateBetween(rates, code, currency)?.factor);
  return { currency, outcome: (purchases) => outcomeOf(purchases, worth) };
}

/** What it comes to: in the currency that all is reckoned in, what has no rate into it left out. */
export function outcomeOf(purchases: readonly Purchase[], worth: Worth): Outcome {
  let total = zero;
  for (const it of billsOf(purchases)) total = total.add(it.total.mul(worth(it.currency) ?? zero));
  let last: Offer | undefined;
  for (const { offer } of purchases) {
    const [lead, longest] = [leadOf(offer), last === undefined ? undefined : leadOf(last)];
    if (lead !== undefined && (longest === undefined || compare(lead, longest) > 0)) last = offer;
  }
  return { total, parcels: suppliersOf(purchases).length, lead: last?.lead };
}

export type Worth = (code: string) => Exact | undefined;

/** The lead of an offer, in seconds: its own, else its supplier's. */
export function leadOf(offer: Offer): Exact | undefined {
  const [, figure, unit] = /^(\S+) (.+)$/.exec(offer.lead ?? "") ?? [];
  const time = figure === undefined || unit === undefined ? undefined : quantity(figure, unit);
  return time?.unit.dimension === "time" ? time.value : undefined;
}

/** In the order in which they are first named; an offer that names nobody is of one nobody. */
export function suppliersOf(purchases: readonly Purchase[]): (OfferSupplier | undefined)[] {
  return [...new Map(purchases.map((it) => [it.offer.supplier?.key ?? "", it.offer.supplier])).values()];
}
