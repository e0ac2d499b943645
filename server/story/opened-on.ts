// The day on which work on a sheet began.
import { isDay } from "../quantities/days.ts";
import type { Story } from "./story.ts";

/** The day on which the job of a sheet was begun, where it says so. */
export function openedOn(story: Story): string | undefined {
  const opened = story.job.sheet?.details.find((it) => it.kind === "opened");
  const day = opened?.kind === "opened" ? opened.date?.text : undefined;
  return day !== undefined && isDay(day) ? day : undefined;
}
