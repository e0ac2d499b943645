// How the offers of an order were chosen: what that comes to, what it saves, and whether it is proved.
import type { ChoiceMade, Way } from "../../supply/choose.ts";
import type { Outcome } from "../../supply/outcome.ts";
import { moneyFigure } from "../draw/money-figure.ts";

export interface OrderOutcome {
  /** Goods, surcharges, freight and duty; null where nothing of it has a price that can be reckoned. */
  readonly total: string | null;
  readonly parcels: number;
  /** As written with the offer that takes longest: `9 d`. */
  readonly lead: string | null;
}

export interface OrderChoice extends OrderOutcome {
  readonly by: Way;
  readonly currency: string | null;
  /** No other way comes to less, to the coin; false where there were too many to look at. */
  readonly proved: boolean;
  /** Where it is not proved, the most that could be saved yet; null where it is proved, or where a parcel fewer might do. */
  readonly atMostOver: string | null;
  /** Each thing has one offer: there is nothing to choose. */
  readonly onlyWay: boolean;
  /** All of it can be had from other suppliers, or with another besides. */
  readonly others: boolean;
  /** The best of all ways that buy from other suppliers; null where there is none, or where that was not worked out. */
  readonly next: (OrderOutcome & { readonly saves: string | null }) | null;
  /** Each thing from its own cheapest offer, freight not counted. */
  readonly oneByOne: OrderOutcome & { readonly saves: string | null };
  /** Currencies without a rate: what is priced in them was compared with nothing else. */
  readonly apart: readonly string[];
}

export function choiceOf(it: ChoiceMade): OrderChoice {
  const { currency } = it;
  const figure = (amount: Outcome["total"]) => (currency === undefined ? null : moneyFigure({ amount, code: currency }));
  const outcome = ({ total, parcels, lead }: Outcome): OrderOutcome => ({ total: figure(total), parcels, lead: lead ?? null });
  const beside = (other: Outcome) => ({ ...outcome(other), saves: figure(other.total.sub(it.outcome.total)) });
  return {
    ...outcome(it.outcome),
    by: it.way,
    currency: currency ?? null,
    proved: it.proved,
    atMostOver: it.proved || it.atMostOver === undefined ? null : figure(it.atMostOver),
    onlyWay: it.onlyWay,
    others: it.others,
    next: it.next === undefined ? null : beside(it.next),
    oneByOne: beside(it.oneByOne),
    apart: it.apart,
  };
}
