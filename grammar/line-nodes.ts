// From tokens to the small nodes of the tree: names, texts, figures.
// Invariant: a node says what its tokens say; nothing is put right here.
import type { IToken } from "chevrotain";
import { CommaFigure, LeftBlank, endOf } from "./tokens.ts";
import type { DateText, Fault, Figure, Name, Span, Text } from "./tree.ts";

/** A line on its way to being read: filled field by field, so that a broken line keeps what was read and no more. */
export type Draft = Record<string, unknown>;

export function spanOf(token: IToken): Span {
  return { from: token.startOffset, to: endOf(token) };
}

export function spanOver(first: IToken, last: IToken): Span {
  return { from: first.startOffset, to: endOf(last) };
}

export function nameOf(token: IToken): Name {
  return { text: composed(token.image), at: spanOf(token) };
}

/** A name is the same however its accents were typed. */
function composed(text: string): string {
  for (let i = 0; i < text.length; i++) if (text.charCodeAt(i) > 127) return text.normalize("NFC");
  return text;
}

export function textOf(token: IToken): Text {
  // A blank may stand without quotes.
  if (token.tokenType === LeftBlank) return { value: token.image, at: spanOf(token) };
  const inside = token.image.slice(1, -1);
  return { value: inside.includes("\\") ? inside.replace(/\\(["\\])/g, "$1") : inside, at: spanOf(token) };
}

export function dateOf(token: IToken): DateText {
  return { text: token.image, at: spanOf(token) };
}

/** With a sign before it the figure begins at the sign, and its text has no blank between the two. */
export function figureOf(token: IToken, sign?: IToken): Figure {
  const text = sign === undefined ? token.image : (sign.image === "+" ? "+" : "-") + token.image;
  const at = sign === undefined ? spanOf(token) : spanOver(sign, token);
  return token.tokenType === CommaFigure ? { text, at, comma: true } : { text, at };
}

export function fault(at: Span, message: string, fixes: Fault["fixes"] = []): Fault {
  return { at, message, fixes };
}

/** A fix of one change. */
export function fixOf(title: string, at: Span, text: string): Fault["fixes"][number] {
  return { title, edits: [{ at, text }] };
}
