// What a supplier asks besides the price of its goods: carriage, duty, tax, the least that it sends.
// Invariant: exact; who says nothing of it asks nothing.
import { lineOf } from "../model/things.ts";
import { figureValue } from "../model/values.ts";
import { type Exact, zero } from "../quantities/exact.ts";
import type { Money } from "../quantities/money.ts";
import { type OfferSupplier, readMoney } from "./offers.ts";

/** What a supplier asks besides the price of its goods. */
export interface Terms {
  readonly freight?: Money;
  readonly freeOver?: Money;
  /** As a ratio: 4 % is 1/25. */
  readonly duty: Exact;
  /** Added by the seller to goods, surcharges and carriage, as is common practice: sending is taxed as what is sent. A ratio too. */
  readonly tax: Exact;
  /** Of the goods: less than that is not sent. */
  readonly least?: Money;
}

export function termsOf(supplier: OfferSupplier): Terms {
  const thing = supplier.declared;
  if (thing === undefined) return { duty: zero, tax: zero };
  const line = lineOf(thing, "freight")?.detail;
  const freight = readMoney(line?.money);
  const freeOver = readMoney(line?.freeOver);
  const duty = figureValue(lineOf(thing, "duty")?.detail.percent?.figure);
  const tax = figureValue(lineOf(thing, "tax")?.detail.percent?.figure);
  const least = readMoney(lineOf(thing, "least-order")?.detail.money);
  return {
    ...(freight === undefined ? {} : { freight }),
    ...(freeOver === undefined ? {} : { freeOver }),
    duty: duty === undefined ? zero : duty.div(100),
    tax: tax === undefined ? zero : tax.div(100),
    ...(least === undefined ? {} : { least }),
  };
}
