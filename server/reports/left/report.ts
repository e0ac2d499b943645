// The row of `all.ts` for how a job was left.
import { report } from "../report.ts";

export const left = report({
  name: "left",
  command: "splitpin.left",
  title: "How it was left",
  kind: async () => (await import("./kind.ts")).kind,
  help: `splitpin left [PATH…] [--format text|md|html|json] [--out FILE]

How a job was left after each pause, and as it stands now: what is off, slack, unlocked, for now, drained, away, live or hanging, what must not be trusted,
and what was next. The page to read first when a job is taken up again.

Ends with 0 where it was drawn, 2 where a sheet could not be read.
`,
});
