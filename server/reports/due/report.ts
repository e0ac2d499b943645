// The row of `all.ts` for what is due.
import { report } from "../report.ts";

export const due = report({
  name: "due",
  command: "splitpin.due",
  title: "What is due",
  spans: "folder",
  options: ["on"],
  formats: ["text", "md", "html", "ics"],
  kind: async () => (await import("./kind.ts")).kind,
  help: `splitpin due [PATH…] [--on DATE] [--format text|md|html|ics|json] [--out FILE]

What is due over all the jobs in PATH, the gravest first: releases that don't hold and work done after one; what hangs or is unsafe; rechecks past, by the greatest counter on any
sheet of the machine; machines apart, and why; gauges to be checked; parcels late or to be sent for today; questions without an answer; and what is coming up. Last, the
next thing to do for each machine.

  --on DATE       the day that it is worked out for; today, where unsaid
  --format ics    a calendar (RFC 5545) for a program to take in: an event for each thing, on its day, or on DATE where it is due already

Ends with 0 where it was drawn, 2 where a sheet could not be read.
`,
});
