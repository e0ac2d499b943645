// What is due: how it is worked out and drawn.
import { isDay } from "../../quantities/days.ts";
import { drawings } from "../draw/drawings.ts";
import { Refused, kindOf } from "../report.ts";
import { dueCalendar } from "./calendar.ts";
import { reportingDue } from "./due.ts";
import { dueSections } from "./sections.ts";

export const kind = kindOf({
  of: "all jobs",
  wishes({ on }, { today }) {
    const day = on ?? today;
    return isDay(day) ? { day } : new Refused(`--on takes a day, year, month, day, as in 2026-06-01; it was given “${day}”.`);
  },
  make: (files, paths, { day }: { readonly day: string }) => reportingDue(files, paths, day),
  drawings: { ...drawings(dueSections), ics: dueCalendar },
});
