// The files that a job is made of, and what in them speaks of things that nothing declares.
import type { SheetText } from "../../grammar/sheet-text.ts";
import type { Entry } from "../../grammar/tree.ts";
import type { ThingReference } from "./references.ts";

export interface JobFile {
  readonly path: string;
  readonly sheet: SheetText;
}

/** A mention of what nothing declares; its reference has the name as it is written. */
export interface Undeclared {
  /** The position of its entry, the files laid one behind the other. */
  readonly at: number;
  readonly file: string;
  readonly entry: Entry;
  readonly reference: ThingReference;
}
