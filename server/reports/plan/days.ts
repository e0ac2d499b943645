// From times of a plan, in working days, to days of the calendar and hours of work.
// Invariant: exact; a day past the year 9999 is none.
import type { Where } from "../../model/where.ts";
import { addDays } from "../../quantities/days.ts";
import { type Exact, compare, plainText } from "../../quantities/exact.ts";
import type { Calendar } from "../../plan/calendar.ts";
import type { Duration, When } from "./shapes.ts";
import type { Line } from "../draw/line.ts";

/** The file and the line, from 1, of a place in any of the jobs. */
export type LineOf = (where: Where) => Line;

/** From times in days to days of the calendar and hours of work. */
export interface Days {
  span(time: Exact): Duration;
  /** The time at which something starts: the day that it opens, where it falls on the turn of two. */
  starts(time: Exact): When;
  /** The time at which something ends that started then: the day that it closes. */
  ends(time: Exact, start: Exact): When;
  day(index: number): string | null;
}

export function daysOf({ from, hoursADay }: Calendar): Days {
  const span = (time: Exact): Duration => ({ days: plainText(time), hours: plainText(time.mul(hoursADay)) });
  const day = (index: number) => addDays(from, index) ?? null;
  const whole = (time: Exact) => Number(time.floor().n);
  return {
    span,
    day,
    starts: (time) => ({ day: day(whole(time)), ...span(time) }),
    ends(time, start) {
      const last = whole(time);
      const turn = compare(time.floor(), time) === 0 && compare(time, start) > 0;
      return { day: day(turn ? last - 1 : last), ...span(time) };
    },
  };
}
