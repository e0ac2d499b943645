// The row of `all.ts` for the shims.
import { report } from "../report.ts";

export const shims = report({
  name: "shims",
  command: "splitpin.shims",
  title: "Shims",
  kind: async () => (await import("./kind.ts")).kind,
  help: `splitpin shims [PATH…] [--format text|md|html|json] [--out FILE]

From the latest reading, what it must be left at, and the shims that are in and in the drawer: the stack that comes nearest the middle with the fewest shims.
Where a limit is set by two stacks, what leaves one goes to the other. Where none fits, the thickness to get.

Ends with 0 where it was drawn, 2 where a sheet could not be read.
`,
});
