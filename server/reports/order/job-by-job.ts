// What one order for all jobs together saves against an order for each of them.
// Invariant: both are added up by the same bills; what is on the shelf or on order serves the jobs in their order, and is bought for none of them twice.
import { type Exact, zero } from "../../quantities/exact.ts";
import { billsOf } from "../../supply/bills.ts";
import type { Purchase } from "../../supply/offers.ts";
import { currencyOfSheets, rateBetween, ratesOf } from "../../supply/rates.ts";
import type { Story } from "../../story/story.ts";
import type { Supply } from "../../supply/supply.ts";
import { moneyFigure } from "../draw/money-figure.ts";

export interface OrderTogether {
  readonly currency: string;
  /** One order to each supplier, for all jobs. */
  readonly together: string;
  readonly parcels: number;
  /** An order to each supplier for each job. */
  readonly jobByJob: string;
  readonly parcelsJobByJob: number;
  readonly saves: string;
}

/** Null where there is one job, where it comes to the same order, or a rate is wanting. */
export function togetherOf(supply: Supply, stories: readonly Story[]): OrderTogether | null {
  const byJob = supply.jobByJob?.filter((it) => it.length > 0);
  if (byJob === undefined || byJob.length < 2) return null;
  const all = supply.rows.flatMap((it) => it.purchases);
  const rates = ratesOf(stories);
  const currency = currencyOfSheets(stories) ?? all.flatMap((it) => it.total ?? [])[0]?.code;
  if (currency === undefined) return null;
  const sum = (lists: readonly (readonly Purchase[])[]): Exact | undefined => {
    let total = zero;
    for (const bill of lists.flatMap((it) => billsOf(it))) {
      const factor = rateBetween(rates, bill.currency, currency)?.factor;
      if (factor === undefined || bill.unpriced > 0) return undefined;
      total = total.add(bill.total.mul(factor));
    }
    return total;
  };
  const parcels = (list: readonly Purchase[]) => new Set(list.flatMap((it) => it.offer.supplier?.key ?? [])).size;
  const [one, each] = [sum([all]), sum(byJob)];
  if (one === undefined || each === undefined) return null;
  const figure = (amount: Exact) => moneyFigure({ amount, code: currency });
  return {
    currency,
    together: figure(one),
    parcels: parcels(all),
    jobByJob: figure(each),
    parcelsJobByJob: byJob.reduce((n, it) => n + parcels(it), 0),
    saves: figure(each.sub(one)),
  };
}
