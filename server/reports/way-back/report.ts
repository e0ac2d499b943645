// The row of `all.ts` for the way back.
import { report } from "../report.ts";

export const wayBackReport = report({
  name: "way-back",
  command: "splitpin.wayBack",
  title: "Way back",
  kind: async () => (await import("./kind.ts")).kind,
  help: `splitpin way-back [PATH…] [--format text|md|html|json] [--out FILE]

Writes the steps that would return what came off, in an order that the facts allow: new where it must be, torque and locking named, fluids filled, hazards restored,
and the readings that must follow. As text it is ready to paste into the sheet. Asked again it writes only what is still missing.

Ends with 0 where it was written, 2 where a sheet could not be read.
`,
});
