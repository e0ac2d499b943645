// The row of `all.ts` for the hand-over of a machine.
import { report } from "../report.ts";

export const handOverReport = report({
  name: "hand-over",
  command: "splitpin.handOver",
  title: "Hand-over",
  spans: "machine",
  formats: ["html", "md", "text"],
  kind: async () => (await import("./kind.ts")).kind,
  help: `splitpin hand-over [MACHINE | PATH…] [--format html|md|text|json] [--out FILE]

A machine's record in one file, for whoever buys or inspects it: what is due and open, each sheet's record with its readings and photos, its history, and a digest (SHA-256)
of every file that it was made from, so that a later change shows. It is one page with all inside, and nothing in it is fetched: give it a name with --out.

MACHINE is its name or words of it, or its serial number; a PATH that is a sheet stands for its machine. A hand-over is of one machine.

Ends with 0 where it was drawn, 2 where it could not be.
`,
});
