// Days without a clock, held to the calendar itself; every expectation is read off a calendar.
import { expect, test } from "vitest";
import { addDays, addMonths, daysBetween, isDay, weekdayOf } from "../../server/quantities/days.ts";

test("a day of the calendar, leap years as the Gregorian rule has them (ISO 8601)", () => {
  expect(["2024-02-29", "2000-02-29", "1999-12-31", "9999-12-31"].filter((it) => !isDay(it))).toEqual([]);
  expect(
    [
      "2026-02-29",
      "1900-02-29",
      "2026-13-01",
      "2026-00-10",
      "2026-04-31",
      "2026-4-1",
      "26-04-11",
      "275760-09-13",
      "2026-05-011",
      "12026-05-01",
      "2026-05-01 ",
    ].filter(isDay),
  ).toEqual([]);
});

test("a year that begins with nought is a slip, and no day: nothing is reckoned from it", () => {
  expect(["0026-05-01", "0206-05-01", "0000-01-01"].filter(isDay)).toEqual([]);
  expect(addDays("0026-05-01", 1)).toBeUndefined();
  expect(addMonths("0026-05-01", 1)).toBeUndefined();
  expect(daysBetween("0026-05-01", "2026-05-01")).toBeUndefined();
});

test("months end where they end, and years are carried", () => {
  expect(addMonths("2026-01-31", 1)).toBe("2026-02-28");
  expect(addMonths("2023-12-31", 2)).toBe("2024-02-29");
  expect(addMonths("2026-03-15", -3)).toBe("2025-12-15");
  expect(addMonths("2026-11-30", 12)).toBe("2027-11-30");
});

test("what lies beyond the year 9999 is no day, which would come before all others as a text", () => {
  expect(addMonths("9999-12-01", 1)).toBeUndefined();
  expect(addMonths("2026-01-01", 1e15)).toBeUndefined();
  expect(addMonths("2026-01-01", 1e300)).toBeUndefined();
  expect(addDays("9999-12-31", 1)).toBeUndefined();
  expect(addDays("2026-01-01", 1e15)).toBeUndefined();
  expect(addDays("2026-01-01", -1e7)).toBeUndefined();
});

test("days between, over the end of a year and a leap day", () => {
  expect(daysBetween("2026-12-31", "2027-01-01")).toBe(1);
  expect(daysBetween("2024-02-28", "2024-03-01")).toBe(2);
  expect(daysBetween("2026-05-02", "2026-05-01")).toBe(-1);
  expect(addDays("2026-12-31", 1)).toBe("2027-01-01");
});

test("days of the week, as GNU date 9 has them", () => {
  const days = {
    "2026-03-02": "Monday",
    "2024-02-29": "Thursday",
    "1969-07-20": "Sunday",
    "1900-01-01": "Monday",
    "1000-01-01": "Wednesday",
    "9999-12-31": "Friday",
  };
  for (const [day, name] of Object.entries(days)) expect(weekdayOf(day)).toBe(name);
  expect(weekdayOf("2026-02-29")).toBeUndefined();
});
