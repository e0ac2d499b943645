// Where reading a line stopped, as those see it who say what is wrong with it, and what several of them ask of that.
// Invariant: it is looked at only; nothing is put right here.
import type { IToken } from "chevrotain";
import type { Parsed } from "./parse.ts";
import type { Draft } from "./line-nodes.ts";
import type { Fault, Name, Span, Thing } from "./tree.ts";

export interface Broken {
  readonly text: string;
  readonly tokens: readonly IToken[];
  readonly node: Draft;
  /** The kind that the line's first word asked for. */
  readonly shape: string;
  readonly comment: IToken | undefined;
  /** Where another text in the place of this line has its first fault; where it is filed that is not asked. */
  readonly faultAt?: (text: string) => number | undefined;
}

export interface Stop extends Broken, Parsed {
  /** The index of the token that reading stopped at; the number of tokens at the line's end. */
  readonly index: number;
  readonly here: IToken | undefined;
  readonly before: IToken;
  readonly behind: IToken | undefined;
}

/** Knows one slip of hand when it sees it, and says what to write; undefined where it sees another, or none. */
export type Slip = (stop: Stop) => Fault | undefined;

export const rangeShapes: ReadonlySet<string> = new Set(["torque", "new", "worn", "set", "range"]);
export const itemShapes: ReadonlySet<string> = new Set(["offer", "stock", "item", "need"]);

const listShapes: ReadonlySet<string> = new Set([
  "held",
  "behind",
  "matched",
  "renew",
  "in",
  "of",
  "set",
  "read-at",
  "safe-before",
  "restore-after",
  "at",
  "after",
  "about",
  "places",
]);

/** Lines that end in a list of places, or have one before what follows. */
const withPlaces: ReadonlySet<string> = new Set(["action", "done", "finding", "seen", "concession", "work", "thread"]);

/** A line that lists names: by the word that it starts with, or by what that became under its entry. */
export function listsNames({ shape, node }: Broken): boolean {
  return listShapes.has(shape) || listShapes.has(node.kind as string);
}

/** What a comma joins where reading stopped; undefined where no list goes on there. */
export function joinedHere(stop: Broken): "Names" | "Conditions" | "Places" | undefined {
  if (listsNames(stop)) return "Names";
  if (stop.node.kind === "is") return "Conditions";
  return withPlaces.has(stop.node.kind as string) && placesRead(stop.node).length > 0 ? "Places" : undefined;
}

/** The places that were read before the line broke off. */
export function placesRead(node: Draft): readonly Name[] {
  return (node.places as Name[] | undefined) ?? [];
}

/** The things that were read before the line broke off. */
export function thingsRead(node: Draft): readonly Thing[] {
  return (node.things as Thing[] | undefined) ?? [];
}

/** From where reading stopped to the line's end, where that may be put into quotes as it is. */
export function plainRest({ here, node, text }: Stop): { readonly at: Span; readonly words: string } | undefined {
  if (here === undefined) return undefined;
  const at = { from: here.startOffset, to: (node.at as Span).to };
  const words = text.slice(at.from, at.to);
  return /["\\]/.test(words) ? undefined : { at, words };
}

/** White before the first word of a line. */
export function indentOf(text: string): string {
  return (/^[^\S\n]*/.exec(text)?.[0] ?? "").replace("\ufeff", "");
}
