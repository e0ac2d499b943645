// What the order comes to: goods, surcharges, freight, duty and tax by supplier in its currency, and all together in the sheet's where rates are given.
// Invariant: no rate is invented. A currency without a rate on the sheet leaves the whole without a total.
import { type Exact, compare, zero } from "../../quantities/exact.ts";
import { type Bill, billsOf } from "../../supply/bills.ts";
import { termsOf } from "../../supply/terms.ts";
import { currencyOfSheets, rateBetween, ratesOf } from "../../supply/rates.ts";
import type { Story } from "../../story/story.ts";
import type { SupplyRow } from "../../supply/supply-row.ts";
import type { WorkOut } from "../../supply/work-out.ts";
import { moneyFigure } from "../draw/money-figure.ts";

export interface SupplierSum {
  readonly supplier: string;
  readonly name: string;
  readonly currency: string;
  readonly goods: string;
  /** Surcharges that come back for the old ones. */
  readonly exchange: string;
  readonly freight: string;
  readonly duty: string;
  /** Added by the supplier. */
  readonly tax: string;
  readonly total: string;
  /** What the supplier is paid: the total without the duty. */
  readonly payable: string;
  /** Its least order, where the goods come to less than that; null else. */
  readonly leastOrder: string | null;
  /** Rows to be ordered from it without a price that can be read: they are not in the sums. */
  readonly unpriced: number;
}

export interface OrderSums {
  readonly suppliers: readonly SupplierSum[];
  /** All that is to be paid in each currency: goods, surcharges, freight, duty, and work that is out. */
  readonly totals: readonly { readonly amount: string; readonly currency: string }[];
  /** All of it in one currency; null where a rate is wanting, or there is nothing to pay. */
  readonly together: { readonly amount: string; readonly currency: string } | null;
  /** Currencies for which the sheet gives no rate into its own. */
  readonly withoutRate: readonly string[];
  /** The rates that the total together rests on, as written on the sheet: `1 USD = 0.79 GBP`. */
  readonly rates: readonly string[];
}

export function sumsOf(stories: readonly Story[], rows: readonly SupplyRow[], work: readonly WorkOut[]): OrderSums {
  const bills = billsOf(rows.flatMap((row) => row.purchases));
  const byCurrency = new Map<string, Exact>();
  const pay = (code: string, amount: Exact) => byCurrency.set(code, (byCurrency.get(code) ?? zero).add(amount));
  for (const it of bills) pay(it.currency, it.total);
  for (const { price } of work) if (price !== undefined) pay(price.code, price.amount);
  const currency = currencyOfSheets(stories) ?? onlyOne([...byCurrency.keys()]);
  const rates = ratesOf(stories);
  const used: string[] = [];
  const withoutRate: string[] = [];
  let total = zero;
  for (const [code, amount] of byCurrency) {
    const rate = currency === undefined ? undefined : rateBetween(rates, code, currency);
    if (rate === undefined) {
      withoutRate.push(code);
      continue;
    }
    if (rate.text !== undefined) used.push(rate.text);
    total = total.add(amount.mul(rate.factor));
  }
  const complete = byCurrency.size > 0 && withoutRate.length === 0 && currency !== undefined;
  return {
    suppliers: bills.map(sumOf),
    totals: [...byCurrency].filter(([code]) => code !== "").map(([code, amount]) => ({ amount: moneyFigure({ amount, code }), currency: code })),
    together: complete ? { amount: moneyFigure({ amount: total, code: currency }), currency } : null,
    withoutRate,
    rates: complete ? used : [],
  };
}

function sumOf({ supplier, currency, goods, exchange, freight, duty, tax, total, unpriced }: Bill): SupplierSum {
  const { least } = termsOf(supplier);
  const text = (amount: Exact) => moneyFigure({ amount, code: currency });
  return {
    supplier: supplier.name,
    name: supplier.title,
    currency,
    goods: text(goods),
    exchange: text(exchange),
    freight: text(freight),
    duty: text(duty),
    tax: text(tax),
    leastOrder: least?.code === currency && compare(goods, least.amount) < 0 ? text(least.amount) : null,
    total: text(total),
    payable: text(total.sub(duty)),
    unpriced,
  };
}

function onlyOne(codes: readonly string[]): string | undefined {
  return codes.length === 1 && codes[0] !== "" ? codes[0] : undefined;
}
