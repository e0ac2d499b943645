// The row of `all.ts` for a machine's history.
import { report } from "../report.ts";

export const history = report({
  name: "history",
  command: "splitpin.history",
  title: "History",
  spans: "machine",
  kind: async () => (await import("./kind.ts")).kind,
  help: `splitpin history [MACHINE | PATH…] [--format text|md|html|json] [--out FILE]

A machine's life over all its sheets: when each part was renewed or repaired, by what, and what was found of it; each limit's readings over days and over the counter, with
the line through them and, where three readings or more carry it, when the limit would be reached: an estimate with its doubt, never a limit. What was accepted outside its
limit, what was owned up to, and what keeps coming back.

MACHINE is its name or words of it, or its serial number: sheets in the folder that you are in are looked through. A PATH that is a sheet stands for its machine; a folder for every machine in it.

Ends with 0 where it was drawn, 2 where it could not be.
`,
});
