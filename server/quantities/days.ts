// Days as sheets write them, ISO 8601, reckoned without a clock.
// Invariant: a text that is no day gives undefined, and so does a day beyond the four figures of its year. A year that begins with nought (`0026-05-01`) is a
// slip of the hand, and no day: behind it everything would seem to lie centuries back.

/** The day so many calendar months later; the last of the month where that day does not exist. */
export function addMonths(day: string, months: number): string | undefined {
  const date = parts(day);
  if (date === undefined) return undefined;
  const index = date.year * 12 + (date.month - 1) + months;
  const year = Math.floor(index / 12);
  if (!isYear(year)) return undefined;
  const month = index - year * 12 + 1;
  return text(year, month, Math.min(date.day, daysIn(year, month)));
}

/** The day so many days later. */
export function addDays(day: string, days: number): string | undefined {
  const date = parts(day);
  if (date === undefined) return undefined;
  const moved = new Date(Date.UTC(date.year, date.month - 1, date.day) + days * 86_400_000);
  // Beyond what a clock can count there is no year at all.
  return isYear(moved.getUTCFullYear()) ? moved.toISOString().slice(0, 10) : undefined;
}

/** How many days a day is behind another; below nothing where it comes before it. Undefined where one of them is no day. */
export function daysBetween(from: string, to: string): number | undefined {
  const [a, b] = [parts(from), parts(to)];
  if (a === undefined || b === undefined) return undefined;
  return Math.round((Date.UTC(b.year, b.month - 1, b.day) - Date.UTC(a.year, a.month - 1, a.day)) / 86_400_000);
}

/** “Sunday”, of a day of the Gregorian calendar; undefined of what is none. */
export function weekdayOf(day: string): string | undefined {
  const since = daysBetween("2000-01-01", day);
  // That day was a Saturday.
  return since === undefined ? undefined : weekdays[((since % 7) + 7) % 7];
}

const weekdays = ["Saturday", "Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday"];

export function isDay(day: string): boolean {
  return parts(day) !== undefined;
}

function parts(day: string): { year: number; month: number; day: number } | undefined {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day);
  if (match === null) return undefined;
  const [year, month, date] = [Number(match[1]), Number(match[2]), Number(match[3])];
  if (!isYear(year) || month < 1 || month > 12 || date < 1 || date > daysIn(year, month)) return undefined;
  return { year, month, day: date };
}

function isYear(year: number): boolean {
  return year >= 1000 && year <= 9999;
}

function daysIn(year: number, month: number): number {
  return new Date(Date.UTC(year, month, 0)).getUTCDate();
}

function text(year: number, month: number, day: number): string {
  return `${String(year).padStart(4, "0")}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
}
