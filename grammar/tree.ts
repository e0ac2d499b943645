// The shape of a sheet that has been read: entries, their detail lines, and what each line says.
// Every field but the kind may be absent, for a line may be broken or half typed; a consumer takes what was read and no more.
// Invariant: columns only. No node holds an absolute line, so an edit above leaves every node as it is.

import type { ActionVerb } from "./words/action-words.ts";
import type { ConditionKind } from "./words/condition-words.ts";
import type { DetailKind, DetailOf } from "./words/detail-words.ts";
import type { EntryKind, EntryOf } from "./words/entry-words.ts";
import type { LockingKind } from "./words/locking-words.ts";

export type { ActionVerb, ConditionKind, LockingKind };

/** Columns in one line, in UTF-16 units; `to` is exclusive. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** A word that names something or is a keyword; `text` in NFC. */
export interface Name {
  readonly text: string;
  readonly at: Span;
}

/** A quoted text: quotes taken off, `\"` and `\\` undone. `at` includes the quotes. */
export interface Text {
  readonly value: string;
  readonly at: Span;
}

/** A figure as written: `12`, `.005`, `5/8`, `1-1/4`, with a leading `-` or `+` where one stands. */
export interface Figure {
  readonly text: string;
  readonly at: Span;
  /** Written with a decimal comma (`0,38`): its value is not to be used; the rule `decimal-comma` speaks. */
  readonly comma?: true;
}

/** `unit` is absent where none was written at this figure. In a list or range one unit at the end may serve all. */
export interface Quantity {
  readonly figure: Figure;
  readonly unit?: Name;
  readonly at: Span;
}

export interface DateText {
  /** `2026-04-11`, as written: eight digits in the right shape, though perhaps no such day. */
  readonly text: string;
  readonly at: Span;
}

export interface Money {
  readonly figure: Figure;
  readonly currency?: Name;
  readonly at: Span;
}

export type Range =
  | { readonly kind: "between"; readonly low: Quantity; readonly high: Quantity; readonly at: Span }
  | { readonly kind: "max" | "min"; readonly end: Quantity; readonly at: Span }
  /** `25 +0.021 0 mm`: the signs stand in the figures of `first` and `second`; the unit may stand at the end only. */
  | { readonly kind: "deviations"; readonly nominal: Quantity; readonly first: Quantity; readonly second: Quantity; readonly at: Span }
  | { readonly kind: "plus-minus"; readonly nominal: Quantity; readonly tolerance: Quantity; readonly at: Span }
  /** `25 H7 mm` */
  | { readonly kind: "fit"; readonly nominal: Quantity; readonly fit: Name; readonly at: Span }
  /** One figure where a range is needed; the rule `range-bare` speaks. */
  | { readonly kind: "bare"; readonly only: Quantity; readonly at: Span };

/** `designation` has single spaces and the spelling as written: `5/8-18 UNF`, `M10x1.25`, `2 BA`, or the quoted text. */
export interface Thread {
  readonly designation: string;
  readonly free: boolean;
  readonly leftHand?: Span;
  readonly at: Span;
}

export interface Locking {
  readonly kind: LockingKind;
  /** The words as written: `jam nut`, `split pin`, `cotter`. */
  readonly words: string;
  /** `1/8 x 1-1/4 in`: one or two quantities, the unit perhaps at the last only. */
  readonly size: readonly Quantity[];
  readonly grade?: Text;
  readonly part?: Name;
  readonly why?: Text;
  readonly at: Span;
}

/** Which thread of a fastener a line of the shelf or of an order is about: `thread 7/8-14 UNF`, or the hand alone, `LH`; and how strong it is: `grade 5`, `class 8.8`. */
export interface ItemThread {
  readonly thread?: Thread;
  readonly leftHand?: Span;
  readonly grade?: Figure;
  readonly class?: Figure;
}

/** What can be bought, stocked, ordered. */
export type Item =
  | { readonly kind: "name"; readonly name: Name; readonly made?: ItemThread; readonly at: Span }
  | { readonly kind: "locking"; readonly locking: Locking; readonly at: Span }
  | { readonly kind: "text"; readonly text: Text; readonly at: Span };

export type Expression =
  | { readonly kind: "quantity"; readonly quantity: Quantity; readonly at: Span }
  | { readonly kind: "name"; readonly name: Name; readonly at: Span }
  | { readonly kind: "negate"; readonly operand: Expression; readonly at: Span }
  | { readonly kind: "binary"; readonly operator: "+" | "-" | "*" | "/"; readonly left: Expression; readonly right: Expression; readonly at: Span }
  | { readonly kind: "call"; readonly function: Name; readonly arguments: readonly Expression[]; readonly at: Span };

/** One change to the line that the fault stands on. */
export interface LineEdit {
  readonly at: Span;
  readonly text: string;
}

export interface LineFix {
  readonly title: string;
  readonly edits: readonly LineEdit[];
}

/** Why a line can't be read, in plain words; at most one a line. */
export interface Fault {
  readonly at: Span;
  readonly message: string;
  readonly fixes: readonly LineFix[];
}

/** What every line has. */
export interface Line {
  /** Rows below the head of its entry; a head has 0. */
  readonly row: number;
  /** From the first word to the end of the last token, comments left out. */
  readonly at: Span;
  /** The keyword, or for a reading its first word or figure. */
  readonly keyword: Span;
  readonly fault?: Fault;
  /**
   * What is left blank, `___`, to be filled in later: where each stands. Absent where nothing is.
   * The line is read without a fault, and the field that a blank stands in is absent (a list is without it). So whoever reads a line must ask:
   * a line with blanks that is done, measured, seen, found or declared counts as unsaid, as one with a fault does, though what is absent there was not
   * forgotten, so that nothing is said of its absence; in a planned step it counts as far as it is written; and each blank is open until it is filled in.
   * A head with blanks takes its details all the same. `unsaid` in `blanks.ts` asks for both.
   */
  readonly blanks?: readonly Span[];
  /** A line with a fault, as written (its first 400 characters), so that a change in it is a change in the entry. */
  readonly written?: string;
}

// ---------------------------------------------------------------- details

/** How far a fastener is let back: one of the three. A flat is a sixth of a turn of a hexagon. */
export interface LetBack {
  readonly flats?: Figure;
  readonly turns?: Figure;
  readonly angle?: Quantity;
  readonly at: Span;
}

export interface Thing {
  readonly name: Name;
  /** How many: `shim 2`. */
  readonly count?: Figure;
}

/** One action of a step. Which fields may stand is decided by the verb. */
export interface ActionDetail extends Line {
  readonly kind: "action";
  readonly verb: ActionVerb;
  /** Parts, fasteners, fluids or the hazard, in the order written. For `support`, the part supported; for `lower`, the part set down, or none: the machine. */
  readonly things: readonly Thing[];
  readonly places: readonly Name[];
  /** The text of `chock`, `safe`, `restore`, `mark`, `repair`; where `lower PART on "…"` puts it. */
  readonly text?: Text;
  /** `raise on WORD`, `support on WORD`, `lower PART on WORD`: see `lifters`, `bearers` and `rests` in words.ts; hoist is ambiguous. */
  readonly on?: Name;
  /** `support on 4 stands` */
  readonly standCount?: Figure;
  /** What `support … under` bears on: a part, or a text that says where. */
  readonly underPart?: Name;
  readonly underText?: Text;
  readonly rated?: Quantity;
  /** `rated Q each`, `rated Q together` */
  readonly ratedEach?: Span;
  readonly ratedTogether?: Span;
  readonly load?: Quantity;
  /** `drain`, `fill`: how much. */
  readonly amount?: Quantity;
  /** The word `new`, in `fit`, in `lock … new` and in `lock … with new …`. */
  readonly isNew?: Span;
  /** `fit … from PLACE` */
  readonly from?: Name;
  /** `for now "why"` */
  readonly forNow?: Text;
  readonly forNowAt?: Span;
  /** `tighten … to Q`, `by GAUGE`. Of several stages the last. */
  readonly to?: Quantity;
  /** `tighten … to 20, 40 lbf.ft`: all stages, the last being `to`; the unit may stand at the last only. Absent where there is one. */
  readonly stages?: readonly Quantity[];
  /** `tighten … to 20 lbf.ft + 90 deg` */
  readonly angle?: Quantity;
  /** `let back … by` */
  readonly back?: LetBack;
  /** `heat … to` */
  readonly temperature?: Quantity;
  readonly by?: Name;
  /** `lock … with LOCKING` */
  readonly with?: Locking;
}

/** A line of figures under `measure`. */
export interface ReadingDetail extends Line {
  readonly kind: "reading";
  /** The words before the figures, at most two of them: `left`, `left top`, `top`. Which is the place is decided by the limit. */
  readonly words: readonly Name[];
  readonly again?: Span;
  readonly figures: readonly Quantity[];
}

export interface Condition {
  readonly kind: ConditionKind;
  /** The word and what belongs to it: `unlocked "a bent nail"`. `word` is the word alone. */
  readonly at: Span;
  readonly word: Span;
  /** `missing 2`, `extra 1` */
  readonly count?: Figure;
  readonly text?: Text;
  /** `fragments from PART`, `metallic from PART` */
  readonly from?: Name;
  /** `low 200 ml` */
  readonly amount?: Quantity;
}

export interface ReceivedItem {
  readonly item: Item;
  readonly amount?: Quantity;
}
/** `4 thou x 3`: so many of one thickness. */
export interface ShimCount {
  readonly thickness: Quantity;
  readonly count?: Figure;
}

/** A line that can't be read. `guess` is the detail's keyword that was nearest, where one was. */
export interface UnreadDetail extends Line {
  readonly kind: "unread";
  readonly guess?: string;
}

/** The line of each detail, as its row in `words/detail-words.ts` gives it. */
export type Detail = { readonly [K in DetailKind]: DetailOf<K> }[DetailKind] | ActionDetail | ReadingDetail | UnreadDetail;

export type ReceivedDetail = DetailOf<"received">;
export type DecisionDetail = DetailOf<"decision">;
export type IsDetail = DetailOf<"is">;
export type ItemDetail = DetailOf<"item">;
export type LockedDetail = DetailOf<"locked">;
export type StatusDetail = DetailOf<"status">;
export type ThreadDetail = DetailOf<"thread">;
export type TorqueDetail = DetailOf<"torque">;
export type WorkDetail = DetailOf<"work">;

// ---------------------------------------------------------------- entries

/** What every entry has: its head line and the lines below it. */
export interface EntryBase extends Line {
  readonly row: 0;
  readonly details: readonly Detail[];
  /** Details of another entry that stand here: flagged by a fault of their own, never applied. */
  readonly stray: readonly Detail[];
  /** How many lines the entry takes, up to the next head: blank and comment lines included. */
  readonly rows: number;
}

export type Stage = "found" | "trial" | "final";
/** A head that can't be read, with all that follows it up to the next entry. `guess` is the entry keyword that was nearest. */
export interface UnreadEntry extends EntryBase {
  readonly kind: "unread";
  readonly guess?: string;
}
/** Details that stand above every entry. */
export interface HeadlessEntry extends EntryBase {
  readonly kind: "headless";
}

/** Each entry, as its row in `words/entry-words.ts` gives its head. */
export type Entry = { readonly [K in EntryKind]: EntryOf<K> }[EntryKind] | UnreadEntry | HeadlessEntry;

export type SheetEntry = EntryOf<"sheet">;
export type UseEntry = EntryOf<"use">;
export type RateEntry = EntryOf<"rate">;
export type LimitEntry = EntryOf<"limit">;
export type StepEntry = EntryOf<"step">;
export type MeasureEntry = EntryOf<"measure">;
export type SeenEntry = EntryOf<"seen">;
export type FindingEntry = EntryOf<"finding">;
export type QuestionEntry = EntryOf<"question">;
export type ConcessionEntry = EntryOf<"concession">;
export type PauseEntry = EntryOf<"pause">;
export type OfferEntry = EntryOf<"offer">;
export type OrderEntry = EntryOf<"order">;
export type ReleaseEntry = EntryOf<"release">;
export type ShimsEntry = EntryOf<"shims">;
