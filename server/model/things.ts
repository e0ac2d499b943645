// What a job is made of, as its entries declare it: parts, fasteners, fluids, limits and the rest, with the lines that said so.
// Invariant: made from entries alone. Names of other things stay names; the job looks them up.
import type { Detail, Entry, Expression, Locking, Name, Quantity, Range, Span, Thread } from "../../grammar/tree.ts";

export type ThingKind = "part" | "fastener" | "fluid" | "limit" | "check" | "gauge" | "hazard" | "step" | "question" | "supplier" | "shims";

/** A detail line with the entry and file that hold it: a job sheet may add to what a used file declares. */
export interface ThingLine<D extends Detail = Detail> {
  readonly file: string;
  readonly entry: Entry;
  readonly detail: D;
}

export interface ThingBase {
  readonly name: string;
  readonly title?: string;
  /** What it is called in a sentence, where another title begins with the same words. */
  readonly short?: string;
  readonly file: string;
  readonly entry: Entry;
  readonly at: Span;
  /** Nothing declares it: it is known from being mentioned only. */
  readonly implied: boolean;
  /** The lines that could be read, in the order of the files. */
  readonly lines: readonly ThingLine[];
  /** Keywords of detail lines that are there but can't be read: a rule about absence holds its tongue for these. */
  readonly unread: ReadonlySet<string>;
  /** Every entry that speaks of it: the declaration and what adds to it. */
  readonly entries: readonly { readonly file: string; readonly entry: Entry }[];
}

/** Things of which a machine has a number, in all or at each place of a kind. */
export interface Counted {
  readonly placeKind?: Name;
  /** At each place; or in all, where it has no places. Undefined where it was never said: then one is assumed. */
  readonly perPlace?: number;
}

export interface Critical {
  readonly critical: boolean;
  /** What is lost: “a wheel”, “steering”. */
  readonly criticalWhat?: string;
}

export interface Part extends ThingBase, Counted, Critical {
  readonly kind: "part";
  readonly number?: string;
  readonly renew: boolean;
  readonly renewWith: readonly Name[];
  readonly inPairs: boolean;
  readonly heldBy: readonly Name[];
  readonly behind: readonly Name[];
  readonly matchedWith: readonly Name[];
  readonly keepsPlace: boolean;
  /** Fluids that stand in it. */
  readonly holds: readonly Name[];
  readonly fits?: string;
  readonly material?: string;
  readonly mass?: Quantity;
  /** The most that it may lift or carry. */
  readonly rated?: Quantity;
}

export interface Fastener extends ThingBase, Counted, Critical {
  readonly kind: "fastener";
  readonly number?: string;
  readonly threads: readonly { readonly thread: Thread; readonly grade?: string; readonly class?: string; readonly place?: string }[];
  readonly torque?: {
    readonly range?: Range;
    /** In place of `range`: pulled to in turn, the last the final one; its unit may stand at the last only. */
    readonly stages?: readonly Range[];
    /** So much further behind the last stage. */
    readonly angle?: Range;
    readonly condition?: string;
    readonly k?: string;
    readonly byFeel?: string;
    readonly none: boolean;
  };
  readonly locking?: { readonly locking: Locking; readonly serves: number };
  /** Used once. */
  readonly renew: boolean;
  /** The most that it may lift or carry: a shackle, a hook's pin. */
  readonly rated?: Quantity;
  readonly source?: string;
  readonly recheckAfter?: Quantity;
}

export interface Fluid extends ThingBase, Counted {
  readonly kind: "fluid";
  readonly in: readonly Name[];
  readonly capacity?: Quantity;
  readonly grade?: string;
  readonly needsBleed: boolean;
  readonly source?: string;
}

export interface Limit extends ThingBase, Counted, Critical {
  readonly kind: "limit";
  readonly new?: Range;
  readonly worn?: Range;
  readonly set?: Range;
  readonly setBy: readonly Name[];
  readonly of: readonly Name[];
  /** What is in, and what is tight, as it is read, as far as the sheet says so in a line of its own: see `readWith`. */
  readonly with: readonly Name[];
  readonly spread?: Quantity;
  readonly ovality?: Quantity;
  readonly taper?: Quantity;
  readonly positions: readonly string[];
  readonly expression?: Expression;
  readonly source?: string;
}

export interface Check extends ThingBase, Counted, Critical {
  readonly kind: "check";
  readonly of: readonly Name[];
  /** What is in, and what is tight, as it is seen. */
  readonly with: readonly Name[];
  readonly setBy: readonly Name[];
}

export interface Gauge extends ThingBase {
  readonly kind: "gauge";
  readonly resolution?: Quantity;
  readonly uncertainty?: Quantity;
  /** So many per cent of the reading, beside `uncertainty` or instead of it. */
  readonly uncertaintyShare?: Quantity;
  readonly range?: Range;
  readonly checked?: string;
  readonly everyMonths?: number;
}

export interface Hazard extends ThingBase {
  readonly kind: "hazard";
  readonly safeBefore: readonly Name[];
  readonly restoreAfter: readonly Name[];
  readonly caution?: string;
  readonly from?: Name;
}

export interface Step extends ThingBase {
  readonly kind: "step";
}

export interface Question extends ThingBase {
  readonly kind: "question";
  readonly about: readonly Name[];
  readonly answer?: string;
}

export interface Supplier extends ThingBase {
  readonly kind: "supplier";
}

export interface Shims extends ThingBase, Counted {
  readonly kind: "shims";
}

export type Thing = Part | Fastener | Fluid | Limit | Check | Gauge | Hazard | Step | Question | Supplier | Shims;

/** It is renewed whenever it is disturbed, or what it is renewed with comes off; a bolt that is used once. */
export function neverGoesBack(thing: Part | Fastener): boolean {
  return thing.renew || (thing.kind === "part" && thing.renewWith.length > 0);
}

/** The last line of a kind, for it is the one that holds. */
export function lineOf<K extends Detail["kind"]>(thing: ThingBase, kind: K): ThingLine<Extract<Detail, { kind: K }>> | undefined {
  for (let i = thing.lines.length - 1; i >= 0; i--) {
    const line = thing.lines[i] as ThingLine;
    if (line.detail.kind === kind) return line as ThingLine<Extract<Detail, { kind: K }>>;
  }
  return undefined;
}

export function linesOf<K extends Detail["kind"]>(thing: ThingBase, kind: K): ThingLine<Extract<Detail, { kind: K }>>[] {
  return thing.lines.filter((line) => line.detail.kind === kind) as ThingLine<Extract<Detail, { kind: K }>>[];
}
