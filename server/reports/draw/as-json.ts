// A report as JSON: the value itself. Lines count from 1.

/** One report, or several in a list. */
export function asJson(reports: readonly unknown[]): string {
  return json(reports.length === 1 ? reports[0] : reports);
}

/**
 * Any value as JSON for a reader's screen as much as for a program: what would act on a terminal or turn the reading direction round is written as an escape, and
 * reads back as it was.
 */
export function json(value: unknown): string {
  return `${JSON.stringify(value, undefined, 2).replace(acting, (it) => `\\u${it.charCodeAt(0).toString(16).padStart(4, "0")}`)}\n`;
}

// DEL and the C1 controls, the marks and turns of direction, line and paragraph ends, a byte order mark within.
const acting = /[\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]/g;
