// What one currency is worth in another, by the rates that stand on the sheets.
// Invariant: no rate is invented, and none is made of two others.
import type { RateEntry } from "../../grammar/tree.ts";
import { figureValue } from "../model/values.ts";
import { type Exact, compare, one, zero } from "../quantities/exact.ts";
import type { Money } from "../quantities/money.ts";
import { filesOf } from "./files.ts";
import type { Story } from "../story/story.ts";

export interface Rate {
  readonly one: Money;
  readonly is: Money;
  readonly day: string;
  readonly text: string;
}

/** The newest first; of one day the one written last. */
export function ratesOf(stories: readonly Story[]): Rate[] {
  const rates: Rate[] = [];
  for (const { file } of filesOf(stories.map((story) => story.job))) {
    for (const entry of file.sheet.entries) if (entry.kind === "rate" && entry.fault === undefined) rates.push(...rateOf(entry));
  }
  return rates.reverse().sort((a, b) => (a.day < b.day ? 1 : a.day > b.day ? -1 : 0));
}

/** What one of `from` is worth in `to`: by a rate on the sheet, read either way round. */
export function rateBetween(rates: readonly Rate[], from: string, to: string): { factor: Exact; text?: string } | undefined {
  if (from === to && from !== "") return { factor: one };
  for (const rate of rates) {
    if (rate.one.code === from && rate.is.code === to) return { factor: rate.is.amount.div(rate.one.amount), text: rate.text };
    if (rate.is.code === from && rate.one.code === to) return { factor: rate.one.amount.div(rate.is.amount), text: rate.text };
  }
  return undefined;
}

/** The currency that the first of the sheets that says one makes its sums in. */
export function currencyOfSheets(stories: readonly Story[]): string | undefined {
  for (const { job } of stories) {
    const line = job.sheet?.details.filter((it) => it.kind === "currency" && it.fault === undefined).at(-1);
    if (line?.kind === "currency" && line.code !== undefined) return line.code.text;
  }
  return undefined;
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
