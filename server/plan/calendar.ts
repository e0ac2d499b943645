// How time is counted in a plan.

/** How time is counted: the first day, and how many hours of work a day has. Every day is a working day. */
export interface Calendar {
  /** ISO 8601. */
  readonly from: string;
  readonly hoursADay: number;
}

/** Hours of work a day, where nobody says otherwise. */
export const usualHours = 8;
