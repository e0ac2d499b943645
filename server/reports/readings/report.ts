// The row of `all.ts` for the readings.
import { report } from "../report.ts";

export const readings = report({
  name: "readings",
  command: "splitpin.readings",
  title: "Readings",
  formats: ["text", "md", "html", "csv"],
  kind: async () => (await import("./kind.ts")).kind,
  help: `splitpin readings [PATH…] [--format text|md|html|csv|json] [--out FILE]

Each limit at each place as it was read: found and final, mean, span, ovality, taper, uncertainty, and the verdict in words. The page has a picture of each.

  --format csv    for a spreadsheet: a row for each figure that was read, of all jobs in one table

Ends with 0 where it was drawn, 2 where a sheet could not be read.
`,
});
