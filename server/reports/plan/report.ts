// The row of `all.ts` for the plan.
import { report } from "../report.ts";

export const plan = report({
  name: "plan",
  command: "splitpin.plan",
  title: "Work for today",
  options: ["from", "hours"],
  kind: async () => (await import("./kind.ts")).kind,
  help: `splitpin plan [PATH…] [--from DATE] [--hours N] [--format text|md|html|json] [--out FILE]

When: each step done, ready, or waiting and for what (a step, a parcel that comes on a day, an answer); the earliest finish, what each step may be late, the order that the
finish hangs on and that must go out today, and what can be done meanwhile. The jobs in PATH make one plan; each counts what it may be late against its own finish.

  --from DATE     the day that the plan begins; today, where unsaid
  --hours N       how many hours of work a day has; 8, where unsaid. Every day is counted as a working day, and a lead in days of the calendar.

Ends with 0 where it was drawn, 2 where it could not be.
`,
});
