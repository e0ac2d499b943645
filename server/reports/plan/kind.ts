// The plan: how it is worked out and drawn.
import { drawings } from "../draw/drawings.ts";
import { usualHours } from "../../plan/calendar.ts";
import { isDay } from "../../quantities/days.ts";
import { planning } from "./plan.ts";
import { planSections } from "./sections.ts";
import { kindOf, Refused } from "../report.ts";

export const kind = kindOf({
  of: "all jobs",
  wishes({ from, hours }, { today }) {
    const first = from ?? today;
    if (!isDay(first)) return new Refused(`--from takes a day, year, month, day, as in 2026-06-01; it was given “${first}”.`);
    const hoursADay = hours === undefined ? usualHours : Number(hours);
    if (!Number.isInteger(hoursADay) || hoursADay < 1 || hoursADay > 24)
      return new Refused(`--hours takes the hours of work a day has, 1 to 24; it was given “${hours}”.`);
    return { from: first, hoursADay };
  },
  make: (files, paths, wishes) => planning(files, paths, wishes),
  drawings: drawings(planSections),
});
