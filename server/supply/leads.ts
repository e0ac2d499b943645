// How long things take to come, in whole days of the calendar, and from which day that runs.
// Invariant: no lead is guessed; what is longer than anybody waits is a slip of the pen, and no day is reckoned from it.
import type { Job } from "../model/job.ts";
import { statusLines } from "../model/orders.ts";
import type { OrderEntry } from "../../grammar/tree.ts";
import { compare, zero } from "../quantities/exact.ts";
import { type Measured, quantity } from "../quantities/quantity.ts";

export const longestLead = 36_500;

/** The lead runs from the day on which it was placed; where nobody wrote that, from the day on which it was sent. */
export function sinceOf(job: Job, entry: OrderEntry): string | undefined {
  const lines = statusLines(job, entry).filter((it) => it.date !== undefined);
  return (lines.find((it) => it.status === "placed") ?? lines.find((it) => it.status === "sent"))?.date?.text;
}

/** `9 d` */
export function leadDays(written: string): number | undefined {
  const [figure, unit] = written.split(" ");
  return figure === undefined || unit === undefined ? undefined : daysIn(quantity(figure, unit));
}

/** Whole days of the calendar; a part of a day is a day. */
export function daysIn(time: Measured | undefined): number | undefined {
  if (time === undefined || time.unit.dimension !== "time" || compare(time.value, zero) < 0) return undefined;
  const days = Number(time.value.div(86_400).ceil().n);
  return days > longestLead ? undefined : days;
}
