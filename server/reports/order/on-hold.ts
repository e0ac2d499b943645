// The orders on hold that the parts order would send: what of them is needed, and what keeping them or striking them out comes to.
// Invariant: says what was worked out; nothing here decides.
import type { ChoiceMade } from "../../supply/choose.ts";
import type { Outcome } from "../../supply/outcome.ts";

import type { OnHold } from "../../supply/held.ts";
import { billsOf } from "../../supply/bills.ts";
import { termsOf } from "../../supply/terms.ts";
import { figureOf } from "../../supply/items.ts";
import { purchase, supplierNamed } from "../../supply/offers.ts";
import { compare, plainText, zero } from "../../quantities/exact.ts";
import type { Story } from "../../story/story.ts";
import { moneyFigure } from "../draw/money-figure.ts";
import type { OrderOutcome } from "./choice.ts";
import type { LineOf } from "./lines-of.ts";

export interface OrderHeld {
  readonly order: string;
  readonly supplier: string | null;
  readonly supplierName: string | null;
  /** What of it is needed. */
  readonly items: readonly {
    readonly item: string;
    readonly name: string;
    readonly quantity: string;
    readonly unit: string | null;
    readonly total: string | null;
    readonly currency: string | null;
  }[];
  /** What its goods come to, as far as they are needed; null where a price is not known. */
  readonly goods: string | null;
  readonly currency: string | null;
  /** The sum over which carriage is free with this supplier, which these goods count towards; null where there is none in their currency. */
  readonly freeOver: string | null;
  /** What to do with it: send it as it stands, add to it, strike it out, or strike out a part. Null where nothing was chosen by its sum. */
  readonly advice: "send" | "add" | "strike out" | "strike out a part" | null;
  readonly file: string;
  readonly line: number;
}

export interface OrderOnHold {
  readonly orders: readonly OrderHeld[];
  readonly currency: string | null;
  /** All together with these orders sent, and with each of them struck out and its things bought otherwise. */
  readonly kept: OrderOutcome;
  readonly struckOut: OrderOutcome;
  /** What striking out saves; below nothing, what it costs. Null where it can't be reckoned. */
  readonly saves: string | null;
}

export function onHoldOf(onHold: OnHold, stories: readonly Story[], choice: ChoiceMade | undefined, lineOf: LineOf): OrderOnHold {
  const { currency } = onHold;
  const figure = (amount: Outcome["total"]) => (currency === undefined ? null : moneyFigure({ amount, code: currency }));
  const outcome = ({ total, parcels, lead }: Outcome): OrderOutcome => ({ total: figure(total), parcels, lead: lead ?? null });
  return {
    orders: onHold.orders.map(({ entry, uses, kept }): OrderHeld => {
      const [first] = uses;
      const line = first?.line;
      const job = stories.find((story) => story.job.files.some((file) => file.path === line?.where.file))?.job;
      const supplier = line?.supplier === undefined || job === undefined ? undefined : supplierNamed(job, line.supplier);
      const purchases = uses.map((use) => ({ use, bought: purchase(use.offer, use.amount) }));
      const bills = billsOf(purchases.map((it) => it.bought));
      const [bill, ...more] = bills;
      const sum = bill === undefined || more.length > 0 || bill.unpriced > 0 ? undefined : bill;
      const over = supplier === undefined ? undefined : termsOf(supplier).freeOver;
      const all = uses.every((use) => kept.some((it) => it.offer.onHold?.line === use.line && compare(it.amount.value, use.amount.value) >= 0));
      return {
        order: entry.reference?.value ?? "",
        supplier: line?.supplier ?? null,
        supplierName: supplier?.title ?? null,
        items: purchases.map(({ use, bought }) => ({
          item: use.line.item.written,
          name: use.line.item.title,
          quantity: plainText(figureOf(use.amount)),
          unit: use.amount.unit?.spelling ?? null,
          total: bought.total === undefined ? null : moneyFigure(bought.total),
          currency: bought.total?.code ?? null,
        })),
        goods: sum === undefined ? null : moneyFigure({ amount: sum.goods, code: sum.currency }),
        currency: sum?.currency ?? null,
        freeOver: over !== undefined && over.code === sum?.currency && compare(over.amount, zero) > 0 ? moneyFigure(over) : null,
        advice:
          choice === undefined
            ? null
            : kept.length === 0
              ? "strike out"
              : !all
                ? "strike out a part"
                : supplier !== undefined && onHold.besides.has(supplier.key)
                  ? "add"
                  : "send",
        ...lineOf((first as (typeof uses)[number]).line.where),
      };
    }),
    currency: currency ?? null,
    kept: outcome(onHold.kept),
    struckOut: outcome(onHold.struckOut),
    saves: figure(onHold.kept.total.sub(onHold.struckOut.total)),
  };
}
