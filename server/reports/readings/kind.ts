// The readings: how it is worked out and drawn.
import { drawings } from "../draw/drawings.ts";
import { readingsCsv } from "./csv.ts";
import { reportingReadings } from "./readings.ts";
import { readingsSections } from "./sections.ts";
import { kindOf, noWishes } from "../report.ts";

export const kind = kindOf({
  of: "each job",
  wishes: noWishes,
  make: (files, [path = ""]) => reportingReadings(files, path),
  drawings: drawings(readingsSections),
  csv: readingsCsv,
});
