// The row of `all.ts` for the plan.
import { usualHours } from "../../plan/plan.ts";
import { isDay } from "../../quantities/days.ts";
import { Refused, drawings, report } from "../report.ts";
import { planReport } from "./plan.ts";
import { planSections } from "./sections.ts";

export const plan = report({
  name: "plan",
  command: "splitpin.plan",
  title: "Work for today",
  of: "all jobs",
  options: ["from", "hours"],
  wishes({ from, hours }, { today }) {
    const first = from ?? today;
    if (!isDay(first)) return new Refused(`--from takes a day, year, month, day, as in 2026-06-01; it was given “${first}”.`);
    const hoursADay = hours === undefined ? usualHours : Number(hours);
    if (!Number.isInteger(hoursADay) || hoursADay < 1 || hoursADay > 24)
      return new Refused(`--hours takes the hours of work a day has, 1 to 24; it was given “${hours}”.`);
    return { from: first, hoursADay };
  },
  make: (files, paths, wishes) => planReport(files, paths, wishes),
  drawings: drawings(planSections),
  help: `splitpin plan [PATH…] [--from DATE] [--hours N] [--format text|md|html|json] [--out FILE]

When: each step done, ready, or waiting and for what (a step, a parcel that comes on a day, an answer); the earliest finish, what each step may be late, the order that the
finish hangs on and that must go out today, and what can be done meanwhile. The jobs in PATH make one plan; each counts what it may be late against its own finish.

  --from DATE     the day that the plan begins; today, where unsaid
  --hours N       how many hours of work a day has; 8, where unsaid. Every day is counted as a working day, and a lead in days of the calendar.

Ends with 0 where it was drawn, 2 where it could not be.
`,
});
