// A report as JSON: the value itself. Lines count from 1.

/** One report, or several in a list. */
export function asJson(reports: readonly unknown[]): string {
  return `${JSON.stringify(reports.length === 1 ? reports[0] : reports, undefined, 2)}\n`;
}
