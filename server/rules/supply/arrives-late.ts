// On order, and here only after the day on which the step that takes it could start.
import { statusOf } from "../../model/orders.ts";
import { addDays } from "../../quantities/days.ts";
import { usualHours } from "../../plan/calendar.ts";
import { type PlannedStep, planOf } from "../../plan/plan.ts";
import { supplyOfOne } from "../../supply/supply.ts";
import type { JobRule } from "../rule.ts";

export const rule: JobRule = {
  id: "arrives-late",
  group: "Getting the parts",
  severity: "information",
  safety: false,
  title: "On order, and here only after the day its step could start",
  why: "The step waits for the parcel. Known on the day of the order, there is still time for quicker carriage, another supplier, or other work. Counted from the sheet's newest day; silent where the step waits for an answer as well.",
  wrong: `part brake-hose "Brake hose"
supplier marsh "Marsh Hoses"
  lead 6 d
day 2026-03-10
order "M-4" to marsh
  status placed
  item brake-hose 1
#      ^^^^^^^^^^^^ information arrives-late
step hose-in "New hose"
  fit brake-hose new
`,
  right: `part brake-hose "Brake hose"
supplier marsh "Marsh Hoses"
  lead 6 d
day 2026-03-10
order "M-4" to marsh
  status placed 2026-03-04
  item brake-hose 1
step hose-in "New hose"
  fit brake-hose new
`,
  scope: "job",
  check(context) {
    const { job, report, line } = context;
    // Without an open order and a planned step nothing can be late: the reckoning is spared.
    if (!job.own.sheet.entries.some((it) => it.kind === "order" && isOpen(statusOf(job, it)?.status))) return;
    const { story } = context;
    if (story.newestDay === undefined || !story.visits.some((it) => it.phase === "planned")) return;
    const from = story.newestDay;
    const plan = planOf([story], supplyOfOne(story), { from, hoursADay: usualHours });
    for (const { parcel, times } of plan.parcels) {
      if (parcel.status === "to order" || parcel.days === undefined || parcel.overdue > 0 || times === undefined || parcel.where.file !== job.path) continue;
      const steps = plan.steps.filter((it) => parcel.visits.includes(it.visit) && couldStartBefore(it, Number(times.finish.n)));
      const [first] = steps;
      const arrives = addDays(from, Number(times.finish.n));
      const could = first === undefined ? undefined : addDays(from, Number(first.couldStart?.floor().n));
      if (first === undefined || arrives === undefined || could === undefined) continue;
      const name = first.visit.entry.name?.text;
      const step = name === undefined ? "The step that takes it" : `\`${name}\``;
      const sent = parcel.status === "held" ? ` if it goes out on ${from}` : "";
      report({
        where: parcel.where,
        severity: "information",
        message: `${parcel.kind === "work" ? "Back" : "Here"} about ${arrives}${sent}, and ${step} (line ${line({ file: first.visit.file, entry: first.visit.entry, row: 0, at: first.visit.entry.keyword })}) could start on ${could}. Ask for it sooner, or do other work until then.`,
      });
    }
  },
};

/** An order without a status is as good as held. */
function isOpen(status: string | undefined): boolean {
  return status !== "received" && status !== "cancelled" && status !== "returned";
}

/** Where an answer, or what no step does, keeps it waiting as well, nobody can say that the parcel is what is late. */
function couldStartBefore(it: PlannedStep, day: number): boolean {
  return it.couldStart !== undefined && !it.open && Number(it.couldStart.floor().n) < day;
}
