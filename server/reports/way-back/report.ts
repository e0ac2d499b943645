// The row of `all.ts` for the way back.
import { drawings, noWishes, report } from "../report.ts";
import { wayBackSections } from "./sections.ts";
import { wayBackText } from "./text.ts";
import { wayBack } from "./way-back.ts";

export const wayBackReport = report({
  name: "way-back",
  command: "splitpin.wayBack",
  title: "Way back",
  of: "each job",
  wishes: noWishes,
  make: (files, [path = ""]) => wayBack(files, path),
  // As text it is what a sheet would hold, to be pasted.
  drawings: { ...drawings(wayBackSections), text: wayBackText },
  help: `splitpin way-back [PATH…] [--format text|md|html|json] [--out FILE]

Writes the steps that would return what came off, in an order that the facts allow: new where it must be, torque and locking named, fluids filled, hazards restored,
and the readings that must follow. As text it is ready to paste into the sheet. Asked again it writes only what is still missing.

Ends with 0 where it was written, 2 where a sheet could not be read.
`,
});
