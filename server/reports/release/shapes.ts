// The shapes of a release: what is open, and the record of what was found, done, read and fitted.
// Invariant: plain data, each with the line that it comes from.
import type { Stage } from "../../../grammar/tree.ts";
import type { Caution } from "../../trade/cautions.ts";
import type { OpenGroup } from "../../rules/open-groups.ts";
import type { Heading } from "../draw/heading.ts";
import type { Line } from "../draw/line.ts";

export interface OpenItem extends Line {
  readonly group: OpenGroup;
  readonly rule: string;
  readonly severity: "error" | "warning" | "information" | "hint";
  readonly message: string;
  /** The step that is done and that it came of. */
  readonly step?: Line & { readonly title: string };
}

/** A warning that stands and holds nothing back. */
export interface WarnedItem extends Line {
  readonly rule: string;
  readonly message: string;
}

export interface Recheck extends Line {
  readonly of: string;
  readonly after: string;
  /** The counter at which it falls due, where the release says what it counts from. */
  readonly due?: string;
  /** The day, where it goes by days. */
  readonly dueOn?: string;
  readonly done?: string;
}

export interface ConcessionItem extends Line {
  /** With its place: “Left half shaft”. */
  readonly of: string;
  readonly why: string;
  readonly by: string;
  readonly day?: string;
}

export interface PardonRecord extends Line {
  readonly rule: string;
  readonly message: string;
  readonly why: string;
  readonly by?: string;
}

export interface Record extends Line {
  readonly text: string;
  /** Of a step: its title and what was done in it, of which the text is made. */
  readonly step?: { readonly title: string; readonly done: string };
  readonly day?: string;
  readonly by?: string;
}

/** A reading as it was judged. */
export interface ReadRecord extends Record {
  readonly of: string;
  readonly stage: Stage;
  readonly value: string;
  readonly against: string;
  /** `usable`: past new, and inside what it may wear to. */
  readonly outcome: "in" | "usable" | "out" | "doubt" | "unjudged";
  /** Undefined: the plain comparison was made. */
  readonly gauge?: string;
}

/** How a fastener was last made fast. */
export interface FastRecord extends Record {
  readonly of: string;
  /** As written; a word where no figure was read. */
  readonly to: string;
  readonly range?: string;
  readonly gauge?: string;
  readonly lockedBy: string;
  readonly critical: boolean;
}

/** A photo that the sheet names. */
export interface Photo extends Line {
  /** As it is written. */
  readonly path: string;
  /** From the workspace; undefined where it leads out of it. */
  readonly inside?: string;
  /** What its entry is about. */
  readonly of: string;
  readonly day?: string;
  /** Why it can't be shown. */
  readonly whyNot?: string;
}

export interface ReleaseReport extends Heading {
  readonly released: boolean;
  /** No step of it is done, and nothing was found, measured or seen. */
  readonly nothingDone: boolean;
  /** None of the things that its work names is declared. */
  readonly nothingDeclared: boolean;
  /** Things that its work names and nothing declares. */
  readonly undeclared: readonly string[];
  readonly releasedBy?: string;
  readonly releasedOn?: string;
  /** The counter at release. */
  readonly counter?: string;
  readonly open: readonly OpenItem[];
  readonly warned: readonly WarnedItem[];
  readonly rechecks: readonly Recheck[];
  readonly concessions: readonly ConcessionItem[];
  /** What was said of the work and accepted, with its why: `accept RULE "why"`. */
  readonly accepted: readonly PardonRecord[];
  /** What went wrong for a moment, left nothing behind and was owned up to by somebody with a name. */
  readonly admitted: readonly PardonRecord[];
  readonly tests: readonly Record[];
  /** What stood in place of the right thing when it was found. */
  readonly makeshifts: readonly Record[];
  readonly found: readonly Record[];
  /** Each step with what was done in it. */
  readonly done: readonly Record[];
  /** Work that was sent out and came back, with its price. */
  readonly outside: readonly Record[];
  readonly readings: readonly ReadRecord[];
  /** What was looked at, and by whom. */
  readonly seen: readonly Record[];
  /** Notes and answers, in the words of the sheet: no program judges all that words can say. */
  readonly notes: readonly Record[];
  readonly fitted: readonly Record[];
  /** The fasteners that were made fast, as they are now. */
  readonly fast: readonly FastRecord[];
  readonly photos: readonly Photo[];
  /** Who is to pass it, by what kind of machine it is. */
  readonly deference: string;
  /** What work of this kind calls for, each with its source. */
  readonly cautions: readonly Caution[];
}
