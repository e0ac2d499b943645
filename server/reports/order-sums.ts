// What the order comes to: goods, freight and duty by supplier in its currency, and all together in the sheet's where rates are given.
// Invariant: no rate is invented. A currency without a rate on the sheet leaves the whole without a total.
import type { RateEntry } from "../../grammar/tree.ts";
import { lineOf } from "../model/things.ts";
import { figureValue } from "../model/values.ts";
import { type Exact, compare, one, zero } from "../quantities/exact.ts";
import { type Money, roundedMoney } from "../quantities/money.ts";
import { type OfferSupplier, readMoney } from "../walk/offers.ts";
import { filesOf } from "../walk/shelf.ts";
import type { Story } from "../walk/story.ts";
import type { SupplyRow } from "../walk/supply.ts";
import { moneyFigure } from "./money-figure.ts";

export interface SupplierSum {
  readonly supplier: string;
  readonly name: string;
  readonly currency: string;
  readonly goods: string;
  readonly freight: string;
  readonly duty: string;
  readonly total: string;
  /** Rows to be ordered from it without a price that can be read: they are not in the sums. */
  readonly unpriced: number;
  /** What was found in its terms that could not be reckoned, in words. */
  readonly notes: readonly string[];
}

export interface OrderSums {
  readonly suppliers: readonly SupplierSum[];
  /** All of it in one currency; null where a rate is wanting, or there is nothing to pay. */
  readonly together: { readonly amount: string; readonly currency: string } | null;
  /** Currencies for which the sheet gives no rate into its own. */
  readonly withoutRate: readonly string[];
  /** The rates that the total together rests on, as written on the sheet: `1 USD = 0.79 GBP`. */
  readonly rates: readonly string[];
}

interface Basket {
  readonly supplier: OfferSupplier;
  readonly currency: string;
  goods: Exact;
  unpriced: number;
}

export function sumsOf(stories: readonly Story[], rows: readonly SupplyRow[]): OrderSums {
  const baskets = fill(rows);
  const sums = baskets.map((basket) => ({ basket, ...sumOf(basket, baskets) }));
  const currency = stories.map((story) => currencyOf(story)).find((it) => it !== undefined) ?? onlyOne(sums.map((it) => it.basket.currency));
  const rates = ratesOf(stories);
  const used: string[] = [];
  const withoutRate: string[] = [];
  let total = zero;
  for (const { basket, whole } of sums) {
    const rate = currency === undefined ? undefined : rateBetween(rates, basket.currency, currency);
    if (rate === undefined) {
      if (!withoutRate.includes(basket.currency)) withoutRate.push(basket.currency);
      continue;
    }
    if (rate.text !== undefined && !used.includes(rate.text)) used.push(rate.text);
    total = total.add(whole.amount.mul(rate.factor));
  }
  const complete = sums.length > 0 && withoutRate.length === 0 && currency !== undefined;
  return {
    suppliers: sums.map(({ sum }) => sum),
    together: complete ? { amount: moneyFigure({ amount: total, code: currency }), currency } : null,
    withoutRate,
    rates: complete ? used : [],
  };
}

/** A supplier has a basket for each currency that it is to be paid in. */
function fill(rows: readonly SupplyRow[]): Basket[] {
  const baskets = new Map<string, Basket>();
  for (const { purchase: bought } of rows) {
    const supplier = bought?.offer.supplier;
    if (bought === undefined || supplier === undefined) continue;
    const currency = bought.offer.price?.code ?? supplierCurrency(supplier) ?? "";
    const key = `${supplier.key} ${currency}`;
    const basket = baskets.get(key) ?? { supplier, currency, goods: zero, unpriced: 0 };
    if (bought.total === undefined) basket.unpriced += 1;
    else basket.goods = basket.goods.add(bought.total.amount);
    baskets.set(key, basket);
  }
  return [...baskets.values()];
}

/** Freight is paid once, in the currency that it is given in; the goods of that currency earn it free. Duty is on the goods. */
function sumOf(basket: Basket, baskets: readonly Basket[]): { sum: SupplierSum; whole: Money } {
  const { supplier, currency, goods, unpriced } = basket;
  const thing = supplier.declared;
  const terms = thing === undefined ? undefined : lineOf(thing, "freight")?.detail;
  const freight = readMoney(terms?.money);
  const over = readMoney(terms?.freeOver);
  const notes: string[] = [];
  let due = zero;
  if (freight !== undefined) {
    const payer = baskets.find((it) => it.supplier.key === supplier.key && it.currency === freight.code);
    if (payer === basket) {
      const free = over !== undefined && over.code === currency && compare(goods, over.amount) > 0;
      if (!free) due = freight.amount;
    } else if (payer === undefined && baskets.find((it) => it.supplier.key === supplier.key) === basket) {
      notes.push(`Freight of ${moneyFigure(freight)} ${freight.code} is not in this sum: the goods are in ${currency}.`);
    }
  }
  const percent = thing === undefined ? undefined : lineOf(thing, "duty")?.detail.percent;
  const share = figureValue(percent?.figure);
  const duty = share === undefined ? zero : roundedMoney({ amount: goods.mul(share).div(100), code: currency }).amount;
  const whole: Money = { amount: goods.add(due).add(duty), code: currency };
  const text = (amount: Exact) => moneyFigure({ amount, code: currency });
  return {
    whole,
    sum: {
      supplier: supplier.name,
      name: supplier.title,
      currency,
      goods: text(goods),
      freight: text(due),
      duty: text(duty),
      total: text(whole.amount),
      unpriced,
      notes,
    },
  };
}

function supplierCurrency(supplier: OfferSupplier): string | undefined {
  return supplier.declared === undefined ? undefined : lineOf(supplier.declared, "currency")?.detail.code?.text;
}

function currencyOf(story: Story): string | undefined {
  const line = story.job.sheet?.details.filter((it) => it.kind === "currency" && it.fault === undefined).at(-1);
  return line?.kind === "currency" ? line.code?.text : undefined;
}

function onlyOne(codes: readonly string[]): string | undefined {
  return new Set(codes).size === 1 && codes[0] !== "" ? codes[0] : undefined;
}

// ---------------------------------------------------------------- rates

interface Rate {
  readonly one: Money;
  readonly is: Money;
  readonly day: string;
  readonly text: string;
}

/** The newest first; of one day the one written last. */
function ratesOf(stories: readonly Story[]): Rate[] {
  const rates: Rate[] = [];
  for (const { file } of filesOf(stories.map((story) => story.job))) {
    for (const entry of file.sheet.entries) if (entry.kind === "rate" && entry.fault === undefined) rates.push(...rateOf(entry));
  }
  return rates.reverse().sort((a, b) => (a.day < b.day ? 1 : a.day > b.day ? -1 : 0));
}

/** A rate is finer than the coins of its currencies, so its figures are read as plain ones. */
function rateOf(entry: RateEntry): Rate[] {
  const side = (it: RateEntry["one"]): Money | undefined => {
    const amount = figureValue(it?.figure);
    return amount === undefined || it?.currency === undefined || compare(amount, zero) <= 0 ? undefined : { amount, code: it.currency.text };
  };
  const from = side(entry.one);
  const is = side(entry.is);
  if (from === undefined || is === undefined) return [];
  return [{ one: from, is, day: entry.date?.text ?? "", text: `${entry.one?.figure.text} ${from.code} = ${entry.is?.figure.text} ${is.code}` }];
}

/** What one of `from` is worth in `to`: by a rate on the sheet, read either way round. */
function rateBetween(rates: readonly Rate[], from: string, to: string): { factor: Exact; text?: string } | undefined {
  if (from === to && from !== "") return { factor: one };
  for (const rate of rates) {
    if (rate.one.code === from && rate.is.code === to) return { factor: rate.is.amount.div(rate.one.amount), text: rate.text };
    if (rate.is.code === from && rate.one.code === to) return { factor: rate.one.amount.div(rate.is.amount), text: rate.text };
  }
  return undefined;
}
