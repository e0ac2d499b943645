// What a parts order holds: plain data, drawn elsewhere. Figures are decimal strings, null where there is none to give; lines count from 1.
// Invariant: shapes only; nothing is worked out here.
import type { OrderChoice } from "./choice.ts";
import type { OrderTogether } from "./job-by-job.ts";
import type { OrderOnHold } from "./on-hold.ts";
import type { OrderSums } from "./sums.ts";

/** One line of a sheet that asks for something. `line` counts from 1. */
export interface OrderReason {
  readonly file: string;
  readonly line: number;
  readonly text: string;
}

/** One thing to get. Figures are decimal strings, null where there is none to give. */
export interface OrderRow {
  /** The declared name, or the locking or text as written. */
  readonly item: string;
  readonly name: string;
  readonly makersNumber: string | null;
  readonly places: readonly { readonly place: string; readonly amount: string | null }[];
  /** Null where it is needed and nobody has said how much. */
  readonly need: string | null;
  readonly stock: string;
  /** Placed or sent. */
  readonly onOrder: string;
  /** On hold, as far as it is needed: not ordered, and in the sums as if it were sent. */
  readonly held: string;
  /** The unit of the four above; null for pieces. */
  readonly unit: string | null;
  /** Beyond what is on hold, rounded up to packs: in pieces, or in the unit of the pack. */
  readonly toOrder: string | null;
  readonly orderUnit: string | null;
  readonly packs: string | null;
  /** `25`, `400 ml`: what a pack holds, where the offer says so. */
  readonly pack: string | null;
  /** Each sale of which it is made up: by seller, offer and pack. What follows here tells of the only one; of several it is null where they differ. */
  readonly lots: readonly OrderLot[];
  /** Null: nobody offers it, or it is bought of several. */
  readonly supplier: string | null;
  readonly supplierName: string | null;
  /** The supplier's number for it. */
  readonly number: string | null;
  readonly unitPrice: string | null;
  /** What the price is for; null where the offer leaves it open. */
  readonly per: "each" | "pack" | null;
  /** Of the goods; surcharges, freight and duty stand in the sums by supplier. */
  readonly total: string | null;
  readonly currency: string | null;
  /** Surcharges that come back for the old ones; null where there are none. */
  readonly exchange: string | null;
  readonly exchangeCurrency: string | null;
  /** How much each job wants, by the file of its sheet. */
  readonly jobs: readonly { readonly file: string; readonly title: string | null; readonly amount: string | null }[];
  /** As written: `9 d`. */
  readonly lead: string | null;
  /** The row of the price list that the offer is from. */
  readonly priceList: { readonly file: string; readonly line: number } | null;
  /** Status, in words. */
  readonly standing: "to order" | "on hold" | "in stock" | "on order" | "in stock and on order" | "no source" | "amount not known";
  readonly notes: readonly string[];
  readonly why: readonly OrderReason[];
}

/** So many packs of one offer. Figures are decimal strings, null where there is none to give. */
export interface OrderLot {
  readonly supplier: string | null;
  readonly supplierName: string | null;
  readonly number: string | null;
  readonly quantity: string;
  readonly unit: string | null;
  readonly packs: string | null;
  readonly pack: string | null;
  /** What is paid for each or for a pack where so many are bought. */
  readonly unitPrice: string | null;
  readonly per: "each" | "pack" | null;
  readonly total: string | null;
  readonly currency: string | null;
  readonly exchange: string | null;
  readonly exchangeCurrency: string | null;
  readonly lead: string | null;
  readonly priceList: { readonly file: string; readonly line: number } | null;
  /** The reference of the order on hold that it is of, `""` for one without; null where it is to be ordered. */
  readonly onHold: string | null;
}

/** An error of a sheet that the order is of, or a finding in it of which nothing is decided. */
export interface OrderRemark {
  readonly file: string;
  readonly line: number;
  readonly text: string;
}

/** So many of an order line that nothing asks for. */
export interface OrderSurplus {
  readonly item: string;
  readonly name: string;
  /** The order's reference. */
  readonly order: string;
  readonly status: string;
  readonly quantity: string;
  readonly unit: string | null;
  readonly supplier: string | null;
  readonly supplierName: string | null;
  /** Bought by a text that nothing needs by that text: a kit, it may be, of what is needed by other names. */
  readonly isUnasked: boolean;
  /** What cancelling it saves; null where no price is known. */
  readonly saves: string | null;
  readonly currency: string | null;
  /** How it can be got rid of: struck out before the order goes, cancelled if the supplier is asked before it is sent, or sent back. */
  readonly cancel: "strike out" | "ask" | "send back";
  /** The day on which it should arrive; null where it has not gone, or nobody says how long it takes. */
  readonly due: string | null;
  /** Carriage that is saved too where the order is cancelled whole, and what becomes due where the rest no longer earns it free; in `freightCurrency`. */
  readonly freightSaved: string | null;
  readonly freightDue: string | null;
  readonly freightCurrency: string | null;
  readonly file: string;
  readonly line: number;
}

/** What an open question may yet add or change. */
export interface OrderWaiting {
  readonly item: string;
  readonly name: string;
  readonly question: string;
  readonly asks: string;
  readonly quantity: string | null;
  readonly unit: string | null;
  /** The quantity is what is on order of it. */
  readonly onOrder: boolean;
  readonly places: readonly string[];
  readonly file: string;
  readonly line: number;
}

/** What is sent back so that a surcharge is returned. */
export interface OrderBack {
  readonly item: string;
  readonly name: string;
  readonly supplier: string | null;
  readonly supplierName: string | null;
  /** How many old ones, or packs of them. */
  readonly quantity: string;
  readonly packs: boolean;
  readonly recovers: string;
  /** What does not come back, for there is nothing to send. */
  readonly lost: string;
  readonly currency: string;
  readonly missing: string;
}

/** What came with an order that did not ask for it. */
export interface OrderNotOrdered {
  readonly item: string;
  readonly name: string;
  readonly order: string;
  readonly supplier: string | null;
  readonly supplierName: string | null;
  readonly quantity: string;
  readonly unit: string | null;
  /** What the same order is still to bring. */
  readonly toCome: readonly { readonly item: string; readonly name: string; readonly quantity: string; readonly unit: string | null }[];
  readonly file: string;
  readonly line: number;
}

/** A price list of which something could not be used. */
export interface OrderList {
  readonly file: string;
  readonly supplierName: string;
  /** Nothing of it was read. */
  readonly unread: boolean;
  /** Rows left out, by their lines. */
  readonly leftOut: readonly number[];
}

/** Work that a part is, or is to be, sent out for. */
export interface OrderWork {
  readonly part: string;
  readonly name: string;
  readonly place: string | null;
  readonly what: string;
  readonly order: string;
  readonly status: "held" | "placed" | "sent";
  readonly supplier: string | null;
  readonly supplierName: string | null;
  readonly price: string | null;
  readonly currency: string | null;
  /** As written with the supplier: `9 d`. */
  readonly lead: string | null;
  readonly file: string;
  readonly line: number;
}

/** Decided to be repaired, and neither sent out by an order nor repaired by a step. */
export interface OrderRepair {
  readonly part: string;
  readonly name: string;
  readonly places: readonly string[];
  readonly quantity: string;
  readonly how: string | null;
  readonly file: string;
  readonly line: number;
}

export interface OrderReport extends OrderSums {
  /** What is at error in the sheets: what is ordered from them may be wrong. */
  readonly errors: readonly OrderRemark[];
  /** Found, and not decided: it may have to be ordered yet. */
  readonly undecided: readonly OrderRemark[];
  /** Orders on hold of which something is needed; null where there are none. */
  readonly onHold: OrderOnHold | null;
  /** What one order of all jobs comes to beside an order for each; null where there is one job, or nothing to compare. */
  readonly jobByJob: OrderTogether | null;
  /** How the offers were chosen; null where each thing is taken from the offer whose goods are cheapest. */
  readonly choice: OrderChoice | null;
  readonly back: readonly OrderBack[];
  readonly work: readonly OrderWork[];
  readonly repairs: readonly OrderRepair[];
  /** It came, and was not what was ordered. */
  readonly notOrdered: readonly OrderNotOrdered[];
  /** Price lists that are not, or not wholly, in this order. */
  readonly lists: readonly OrderList[];
  readonly jobs: readonly { readonly file: string; readonly title: string | null; readonly machine: string | null }[];
  readonly lines: readonly OrderRow[];
  readonly surplus: readonly OrderSurplus[];
  readonly waiting: readonly OrderWaiting[];
}
