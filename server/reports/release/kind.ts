// What stands in the way of release, and for the record of what was released: how it is worked out and drawn.
import { drawings } from "../draw/drawings.ts";
import { releaseJson } from "./json.ts";
import { photosShown } from "./record.ts";
import { releasing } from "./release.ts";
import type { ReleaseReport } from "./shapes.ts";
import { releaseSections } from "./sections.ts";
import { kindOf, noWishes } from "../report.ts";

export const kind = kindOf({
  of: "each job",
  wishes: noWishes,
  make: (files, [path = ""]) => releasing(files, path),
  passes: (it) => it.released,
  drawings: drawings((it: ReleaseReport, { photos }) => releaseSections(it, photos)),
  json: releaseJson,
  photos: photosShown,
});
