// What no step settles: it needs a person, an answer, a parcel or a day.
import type { Story } from "../../story/story.ts";
import type { Where } from "../../model/where.ts";

export interface Unsettled {
  readonly where: Where;
  readonly text: string;
}

/** What came after the last day of the sheet is here; but what is then done under that day would be done too early. Said once. */
export function lateDay(story: Story, where: Where, unsettled: Unsettled[]): void {
  const text = `the last day of the sheet is ${story.newestDay}, and parcels came after it: write the day on which you go on above these steps`;
  if (!unsettled.some((it) => it.text === text)) unsettled.push({ where, text });
}
