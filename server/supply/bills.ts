// What is paid for purchases: by supplier and currency the goods, the surcharges on exchange, the freight, the duty and the seller's tax.
// Invariant: exact. Only duty and tax are rounded, half to even to the currency's decimals, once for each supplier and currency; the freight of a supplier is paid once.
import { lineOf } from "../model/things.ts";
import { type Exact, compare, zero } from "../quantities/exact.ts";
import { roundedMoney } from "../quantities/money.ts";
import { termsOf } from "./terms.ts";
import type { OfferSupplier, Purchase } from "./offers.ts";

export interface Bill {
  readonly supplier: OfferSupplier;
  readonly currency: string;
  readonly goods: Exact;
  /** What is paid for old ones that are not sent back. */
  readonly exchange: Exact;
  readonly freight: Exact;
  readonly duty: Exact;
  /** Added by the seller, where it adds one. */
  readonly tax: Exact;
  readonly total: Exact;
  /** Purchases without a price that can be read: they are not in the sums. */
  readonly unpriced: number;
}

/** A supplier has one bill for each currency that it is to be paid in, in the order in which they are first bought in. */
export function billsOf(purchases: readonly Purchase[]): Bill[] {
  const bills = new Map<string, Filling>();
  const suppliers = new Map<string, OfferSupplier>();
  const at = (supplier: OfferSupplier, currency: string): Filling => {
    const key = `${supplier.key} ${currency}`;
    const bill = bills.get(key) ?? { supplier, currency, goods: zero, exchange: zero, freight: zero, unpriced: 0 };
    bills.set(key, bill);
    return bill;
  };
  for (const { offer, total, exchange } of purchases) {
    const { supplier } = offer;
    if (supplier === undefined) continue;
    suppliers.set(supplier.key, supplier);
    const bill = at(supplier, offer.price?.code ?? supplierCurrency(supplier) ?? "");
    if (total === undefined) bill.unpriced += 1;
    else bill.goods = bill.goods.add(total.amount);
    if (exchange === undefined) continue;
    const other = at(supplier, exchange.code);
    other.exchange = other.exchange.add(exchange.amount);
  }
  for (const supplier of suppliers.values()) {
    const { freight, freeOver } = termsOf(supplier);
    if (freight === undefined) continue;
    // The goods in the currency of the threshold earn it; duty and surcharges don't.
    const earned = freeOver === undefined ? zero : (bills.get(`${supplier.key} ${freeOver.code}`)?.goods ?? zero);
    if (freeOver === undefined || compare(earned, freeOver.amount) <= 0) at(supplier, freight.code).freight = freight.amount;
  }
  return [...bills.values()].map((it) => {
    const terms = termsOf(it.supplier);
    const duty = shareOf(it.goods, terms.duty, it.currency);
    const tax = shareOf(it.goods.add(it.exchange).add(it.freight), terms.tax, it.currency);
    return { ...it, duty, tax, total: it.goods.add(it.exchange).add(it.freight).add(duty).add(tax) };
  });
}

interface Filling {
  readonly supplier: OfferSupplier;
  readonly currency: string;
  goods: Exact;
  exchange: Exact;
  freight: Exact;
  unpriced: number;
}

function shareOf(sum: Exact, share: Exact, currency: string): Exact {
  return share.n === 0n ? zero : roundedMoney({ amount: sum.mul(share), code: currency }).amount;
}

function supplierCurrency(supplier: OfferSupplier): string | undefined {
  return supplier.declared === undefined ? undefined : lineOf(supplier.declared, "currency")?.detail.code?.text;
}
