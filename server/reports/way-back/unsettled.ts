// What no step settles: it needs a person, an answer, a parcel or a day.
// Invariant: one row for each cause: several things that wait for one order are one.
import { midSentence } from "../../model/titles.ts";
import type { Where } from "../../model/where.ts";
import { listed } from "../../rules/wording.ts";
import { comesOn } from "../../story/away.ts";
import type { FastenerCell, PartCell, Story } from "../../story/story.ts";

export interface Unsettled {
  readonly where: Where;
  readonly text: string;
  /** The order that it waits for, and what waits: new, or away to be worked on. */
  readonly waits?: { readonly order: string; readonly isNew: boolean; readonly names: readonly string[] };
}

/** It waits for that order: in the row that says so of others already, or in one of its own, which leads to `where`. */
export function waitForOrder(unsettled: Unsettled[], where: Where, order: string, isNew: boolean, name: string): void {
  const at = unsettled.findIndex((it) => it.waits?.order === order && it.waits.isNew === isNew);
  const known = at < 0 ? [] : (unsettled[at]?.waits?.names ?? []);
  const names = known.includes(name) ? known : [...known, name];
  const all = listed(names.map((it) => (isNew ? `a new ${it}` : it)));
  const text = isNew ? `${all} ${names.length > 1 ? "wait" : "waits"} for order ${order}` : `${all} ${names.length > 1 ? "are" : "is"} away (order ${order})`;
  const row = { where: unsettled[at]?.where ?? where, text, waits: { order, isNew, names } };
  if (at < 0) unsettled.push(row);
  else unsettled[at] = row;
}

/** The new one that goes on there has not come, or came after the last day of the sheet. */
export function waitForNew(story: Story, cell: PartCell | FastenerCell, unsettled: Unsettled[]): void {
  const coming = comesOn(story.job, cell.thing.name, story.newestDay);
  if (coming?.day !== undefined) lateDay(story, coming.where, unsettled);
  else if (coming !== undefined) waitForOrder(unsettled, coming.where, coming.reference, true, midSentence(cell.thing, cell.place));
}

/** What came after the last day of the sheet is here; but what is then done under that day would be done too early. Said once. */
export function lateDay(story: Story, where: Where, unsettled: Unsettled[]): void {
  const text = `the last day of the sheet is ${story.newestDay}, and parcels came after it: write the day on which you go on above these steps`;
  if (!unsettled.some((it) => it.text === text)) unsettled.push({ where, text });
}
