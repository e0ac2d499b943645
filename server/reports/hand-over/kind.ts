// The hand-over of a machine: how it is worked out and drawn.
import { drawings } from "../draw/drawings.ts";
import { kindOf } from "../report.ts";
import { photosShown } from "../release/record.ts";
import { type HandOver, handingOver } from "./hand-over.ts";
import { handOverSections } from "./sections.ts";

export const kind = kindOf({
  of: "all jobs",
  wishes: ({ machine }, { today }) => ({ machine, day: today }),
  make: (files, paths, { machine, day }: { readonly machine: string | undefined; readonly day: string }) => handingOver(files, paths, machine, day),
  drawings: drawings((it: HandOver, { photos }) => handOverSections(it, photos)),
  photos: photosShown,
});
