// The row of `all.ts` for what stands in the way of release, and for the record of what was released.
import { report } from "../report.ts";

export const release = report({
  name: "release",
  command: "splitpin.release",
  title: "In the way",
  kind: async () => (await import("./kind.ts")).kind,
  help: `splitpin release [PATH…] [--format text|md|html|json] [--out FILE]

Says what stands between a machine and the road: everything open on its sheet, worst first. Released, it is the record: what was found, done, fitted, read and tried,
what was accepted by whom, and what to look at again.

Ends with 0 where it is released and nothing is open, 1 where it is not, 2 where a sheet could not be read.
`,
});
