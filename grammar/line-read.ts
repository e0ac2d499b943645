// What comes of a line by itself, before it is filed.
import type { IToken } from "chevrotain";
import type { LineTokens } from "./lexer.ts";
import type { Draft } from "./line-nodes.ts";
import type { Span } from "./tree.ts";

export type LineRead =
  /** Nothing, or a comment. */
  | { readonly form: "blank" }
  | { readonly form: "head"; readonly word: string; readonly indent: number; readonly node: Draft }
  | { readonly form: "detail"; readonly word: string; readonly indent: number; readonly node: Draft }
  /** The first word is none that starts a line. `words` are its first words, for guessing. */
  | { readonly form: "other"; readonly indent: number; readonly at: Span; readonly tokens: LineTokens };

/** Columns of white before the first word. */
export function whiteBefore(text: string, first: IToken | undefined): number {
  return first === undefined ? 0 : text.charCodeAt(0) === 0xfeff ? first.startOffset - 1 : first.startOffset;
}
