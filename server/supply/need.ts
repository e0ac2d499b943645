// The shapes that the needs of a job are told in.
import type { Where } from "../model/where.ts";
import type { Amount, Item } from "./items.ts";
import type { Moment } from "../story/story.ts";

/** Why something is needed: one line of the sheet, in plain words. */
export interface Reason {
  readonly where: Where;
  readonly text: string;
  /** `""` where it has none. */
  readonly place: string;
}

/** What one place needs of an item. An undefined amount: nobody has said how much there is of it. */
export interface PlacedNeed {
  readonly item: Item;
  readonly place: string;
  readonly amount: Amount | undefined;
  readonly reasons: readonly Reason[];
}

/** What done work has used up. */
export interface Use {
  readonly item: Item;
  readonly amount: Amount;
  readonly moment: Moment;
}

/** What an open question may yet add or change: neither needed nor surplus until it is answered. */
export interface Waiting {
  readonly item: Item;
  readonly question: string;
  /** Undefined: what is on order of it, if anything is. */
  readonly amount?: Amount;
  readonly places: readonly string[];
  /** The line that asks, or that the question names it in. */
  readonly where: Where;
}

/** All that a job asks for, and all that its done work has used. */
export interface Needs {
  readonly needed: readonly PlacedNeed[];
  readonly used: readonly Use[];
  readonly waiting: readonly Waiting[];
}

/** “left: comes off with the hub” */
export function placed(place: string, text: string): string {
  return place === "" ? text : `${place}: ${text}`;
}
