// The way back: how it is worked out and drawn.
import { drawings } from "../draw/drawings.ts";
import { writingBack } from "./edit.ts";
import { wayBackSections } from "./sections.ts";
import { wayBackText } from "./text.ts";
import { goingBack } from "./way-back.ts";
import { kindOf, noWishes } from "../report.ts";

export const kind = kindOf({
  of: "each job",
  wishes: noWishes,
  make: (files, [path = ""]) => goingBack(files, path),
  // As text it is what a sheet would hold, to be pasted.
  drawings: { ...drawings(wayBackSections), text: wayBackText },
  edit: writingBack,
});
