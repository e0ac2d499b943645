// The shims: how it is worked out and drawn.
import { drawings } from "../draw/drawings.ts";
import { shimsSections } from "./sections.ts";
import { reportingShims } from "./shims.ts";
import { kindOf, noWishes } from "../report.ts";

export const kind = kindOf({
  of: "each job",
  wishes: noWishes,
  make: (files, [path = ""]) => reportingShims(files, path),
  drawings: drawings(shimsSections),
});
