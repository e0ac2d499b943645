// The row of `all.ts` for what is due.
import { isDay } from "../../quantities/days.ts";
import { Refused, report } from "../report.ts";
import { dueCalendar } from "./calendar.ts";
import { dueReport } from "./due.ts";
import { dueHtml } from "./html.ts";
import { dueMarkdown } from "./markdown.ts";
import { dueText } from "./text.ts";

export const due = report({
  name: "due",
  command: "splitpin.due",
  title: "What is due",
  of: "whole folder",
  options: ["on"],
  wishes({ on }, { today }) {
    const day = on ?? today;
    return isDay(day) ? { day } : new Refused(`--on takes a day, year, month, day, as in 2026-06-01; it was given “${day}”.`);
  },
  make: (files, paths, { day }) => dueReport(files, paths, day),
  drawings: { text: dueText, md: dueMarkdown, html: dueHtml, ics: dueCalendar },
  help: `splitpin due [PATH…] [--on DATE] [--format text|md|html|ics|json] [--out FILE]

What is due over all the jobs in PATH, the gravest first: releases that don't hold and work done after one; what hangs or is unsafe; rechecks past, by the greatest counter on any
sheet of the machine; machines apart, and why; gauges to be checked; parcels late or to be sent for today; questions without an answer; and what is coming up. Last, the
next thing to do for each machine.

  --on DATE       the day that it is worked out for; today, where unsaid
  --format ics    a calendar (RFC 5545) for a program to take in: an event for each thing, on its day, or on DATE where it is due already

Ends with 0 where it was drawn, 2 where a sheet could not be read.
`,
});
