// The row of `all.ts` for the readings.
import { report } from "../report.ts";

export const readings = report({
  name: "readings",
  command: "splitpin.readings",
  title: "Readings",
  kind: async () => (await import("./kind.ts")).kind,
  help: `splitpin readings [PATH…] [--format text|md|html|json] [--out FILE]

Each limit at each place as it was read: found and final, mean, span, ovality, taper, uncertainty, and the verdict in words. The page has a picture of each.

Ends with 0 where it was drawn, 2 where a sheet could not be read.
`,
});
