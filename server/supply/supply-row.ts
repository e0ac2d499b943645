// What is needed of one item, what there is of it, and what is to be bought.
import type { Amount, Item } from "./items.ts";
import type { Reason } from "./need.ts";
import type { Offer, Purchase } from "./offers.ts";
import type { OrderLine } from "./order-lines.ts";

export interface SupplyRow {
  readonly item: Item;
  /** Undefined where it is needed and nobody has said how much. */
  readonly need: Amount | undefined;
  /** Some of what asks for it can't be added up: its amount is not known, or is in what can't be compared. */
  readonly partly: boolean;
  readonly places: readonly { readonly place: string; readonly amount: Amount | undefined }[];
  readonly reasons: readonly Reason[];
  /** How much each job wants of it, by the path of its sheet. */
  readonly jobs: readonly { readonly job: string; readonly amount: Amount | undefined }[];
  readonly stock: Amount;
  /** Placed or sent. */
  readonly onOrder: Amount;
  /** So much of what is short is on hold: written down as an order, and not gone out. */
  readonly held: Amount;
  /** What none of these covers. Undefined where the need is. */
  readonly shortfall: Amount | undefined;
  /** Stock or orders of it are in what can't be compared with the need. */
  readonly unlike: boolean;
  /** Some of what is in stock or on order may be of another thread of it: nobody says. */
  readonly threadUnsaid: boolean;
  /** Offers that are not taken, for their thread is not the fastener's own. */
  readonly refused: readonly Offer[];
  /** What to buy, where something is short and somebody offers it; what is on hold and would be sent for stands first. */
  readonly purchases: readonly Purchase[];
  /** The offer that is or would be used, of the first purchase where there are more; undefined where nobody offers it. */
  readonly offer: Offer | undefined;
}

/** So much of a line on hold is short. */
export interface HeldUse {
  readonly line: OrderLine;
  readonly amount: Amount;
  /** It as an offer of its own supplier, at its own price. */
  readonly offer: Offer;
}

/** A row before it is settled whom to buy from. */
export interface Draft {
  readonly row: SupplyRow;
  /** What is short, with what is on hold; undefined where nothing is. */
  readonly wants: Amount | undefined;
  readonly held: readonly HeldUse[];
  readonly offers: readonly Offer[];
}
