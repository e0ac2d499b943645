// How a job was left: how it is worked out and drawn.
import { drawings } from "../draw/drawings.ts";
import { reportingLeft } from "./left.ts";
import { leftSections } from "./sections.ts";
import { kindOf, noWishes } from "../report.ts";

export const kind = kindOf({
  of: "each job",
  wishes: noWishes,
  make: (files, [path = ""]) => reportingLeft(files, path),
  drawings: drawings(leftSections),
});
