// How a line falls into tokens: at each place the kinds that may begin with its character are tried, in the order of the table below.
// Words are told from one another by a look-up behind that, not by a pattern each.
// Invariant: every character of any line falls into some token, so this never fails; no token spans lines.
import type { IToken, TokenType } from "chevrotain";
import { isBlankText } from "./blank-text.ts";
import {
  Close,
  Comma,
  CommaFigure,
  Comment,
  CurlyText,
  Dash,
  DateToken,
  DotDot,
  Dots,
  EqualsSign,
  InchMark,
  Invisible,
  JoinedUnit,
  LeftBlank,
  MetricSize,
  Minus,
  MoneySign,
  NumberedSize,
  Open,
  OpenText,
  OtherDate,
  PlainFigure,
  Plus,
  PlusMinus,
  Star,
  Strange,
  Stroke,
  TextToken,
  Times,
  UnitSign,
  Word,
  blankToken,
  figureToken,
  innerWord,
  nameToken,
  strangeToken,
  touching,
  unitOnlyToken,
} from "./tokens.ts";

/** A line longer than this is not read. */
export const longestLine = 4000;
/** Parentheses deeper than this are not read. */
export const deepestNesting = 64;

export interface LineTokens {
  readonly tokens: IToken[];
  readonly comment: IToken | undefined;
  /** The first token that no good line holds, by its index. */
  readonly strangeAt: number | undefined;
  /** What is left blank: `___`, and texts that say nothing. */
  readonly blanks: readonly IToken[] | undefined;
}

/** The tokens of one line, its words given their types. */
export function tokensOf(line: string): LineTokens {
  const { tokens, comment } = fallsInto(line);
  let strangeAt: number | undefined;
  let depth = 0;
  let blanks: IToken[] | undefined;
  for (let i = 0; i < tokens.length; i++) {
    const it = tokens[i] as IToken;
    const type = it.tokenType;
    if (type === Word) {
      const known = innerWord(it.image);
      if (known !== undefined) {
        it.tokenType = known;
        it.tokenTypeIdx = known.tokenTypeIdx as number;
      }
      if (strangeAt === undefined && blankToken(tokens[i - 1]) && touching(tokens[i - 1], it)) {
        strangeAt = i - 1;
        blanks?.pop();
        if (blanks?.length === 0) blanks = undefined;
      }
    } else if (strangeAt === undefined) {
      if ((type === LeftBlank && !touching(tokens[i - 1], it)) || (type === TextToken && isBlankText(it.image.slice(1, -1)))) {
        if (blanks === undefined) blanks = [it];
        else blanks.push(it);
      }
      if (strangeToken(it)) strangeAt = i;
      else if (figureToken(it) && i > 0 && touching(tokens[i - 1], it) && !mayTouch(tokens[i - 1] as IToken)) strangeAt = i;
      else if (type === Open && ++depth > deepestNesting) strangeAt = i;
      else if (type === Close) depth--;
    }
  }
  return { tokens, comment, strangeAt, blanks };
}

/** What may stand right before a figure: signs, points and commas; never a word, a text or another figure. */
function mayTouch(before: IToken): boolean {
  return (
    !nameToken(before) &&
    !figureToken(before) &&
    !unitOnlyToken(before) &&
    before.tokenType !== TextToken &&
    before.tokenType !== DateToken &&
    before.tokenType !== MetricSize &&
    before.tokenType !== NumberedSize
  );
}

// ---------------------------------------------------------------- kind by kind

/** Where what begins at `at` ends; `at` itself where it is none of this kind. */
type EndOf = (line: string, at: number) => number;

/** Skipped, where no type is given. */
interface Kind {
  readonly type: TokenType | undefined;
  readonly endOf: EndOf;
  /** The characters of ASCII that one may begin with, and whether one may begin with any other. */
  readonly begins: string;
  readonly beyond: boolean;
}

const digits = "0123456789";
const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";
const ascii = String.fromCharCode(...Array.from({ length: 128 }, (_, i) => i));

/** Of two that fit, the first is meant. */
export const kinds: readonly Kind[] = [
  kind(undefined, /[ \t\v\f\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]+/y, " \t\v\f", true),
  // A byte order mark.
  kind(undefined, (line, at) => (at === 0 && line.charCodeAt(0) === 0xfeff ? 1 : at), "", true),
  kind(Comment, commentEnd, "#"),
  kind(DateToken, /\d{4}-\d{2}-\d{2}(?![\d/])/y, digits),
  kind(OtherDate, /\d{4}([-./])\d{1,2}\1\d{1,2}(?!\d)|\d{1,2}([./])\d{1,2}\2(?:\d{4}|\d{2})(?!\d)|\d{1,2}-\d{1,2}-\d{4}(?!\d)/y, digits),
  // Not where either neighbour has a point or a stroke.
  kind(CommaFigure, /\d+(?:,\d+)+(?!,?\d|\.\d|\/\d)/y, digits),
  kind(PlainFigure, /\d+-\d+\/\d+|\d+\/\d+|\d+(?:\.\d+)?|\.\d+/y, `${digits}.`),
  kind(InchMark, (line, at) => (line.charCodeAt(at) === 34 && at > 0 && isDigit(line.charCodeAt(at - 1)) ? at + 1 : at), '"'),
  kind(TextToken, /"(?:[^"\\\n]|\\[^\n])*"/y, '"'),
  kind(OpenText, /"[^\n]*/y, '"'),
  kind(Comma, /,/y, ","),
  kind(Times, timesEnd, "xX", true),
  kind(MetricSize, /M\d+(?:\.\d+(?:[xX×]\d+(?:\.\d+)?)?|[xX]\d+\.\d+|×\d+(?:\.\d+)?)/y, "M"),
  kind(NumberedSize, /[Nn]o\.\d+(?:-\d+)?/y, "Nn"),
  kind(Word, wordEnd, letters, true),
  kind(JoinedUnit, joinedUnitEnd, letters, true),
  kind(LeftBlank, /_{3,}/y, "_"),
  kind(DotDot, /\.\.(?!\.)/y, "."),
  kind(Dots, /\.{3,}|…/y, ".", true),
  kind(PlusMinus, /\+\/-|±/y, "+", true),
  kind(Plus, /\+/y, "+"),
  kind(Minus, /[-\u2212]/y, "-", true),
  kind(Star, /\*/y, "*"),
  kind(Stroke, /\//y, "/"),
  kind(Open, /\(/y, "("),
  kind(Close, /\)/y, ")"),
  kind(EqualsSign, /=/y, "="),
  kind(UnitSign, /°[A-Za-z]*|%/y, "%", true),
  kind(CurlyText, /[“”„«»][^\n]*/y, "", true),
  kind(Dash, /[\u2010-\u2015]/y, "", true),
  kind(MoneySign, /[£$€¥]/y, "$", true),
  kind(Invisible, /[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufeff]/y, "", true),
  kind(Strange, (line, at) => at + ((line.codePointAt(at) as number) > 0xffff ? 2 : 1), ascii, true),
];

function kind(type: TokenType | undefined, pattern: RegExp | EndOf, begins: string, beyond = false): Kind {
  if (typeof pattern === "function") return { type, endOf: pattern, begins, beyond };
  const endOf: EndOf = (line, at) => {
    pattern.lastIndex = at;
    return pattern.test(line) ? pattern.lastIndex : at;
  };
  return { type, endOf, begins, beyond };
}

/** By code of character, what may begin with it. */
const beginning: readonly (readonly Kind[])[] = Array.from(ascii, (letter) => kinds.filter((it) => it.begins.includes(letter)));
const beginningBeyond: readonly Kind[] = kinds.filter((it) => it.beyond);

function fallsInto(line: string): { tokens: IToken[]; comment: IToken | undefined } {
  const tokens: IToken[] = [];
  let comment: IToken | undefined;
  let at = 0;
  while (at < line.length) {
    const code = line.charCodeAt(at);
    // Between most tokens there is one space.
    if (code === 32) {
      at++;
      continue;
    }
    let end = at;
    for (const it of code < 128 ? (beginning[code] as readonly Kind[]) : beginningBeyond) {
      end = it.endOf(line, at);
      if (end === at) continue;
      const { type } = it;
      if (type === undefined) break;
      const token: IToken = { image: line.slice(at, end), startOffset: at, tokenTypeIdx: type.tokenTypeIdx as number, tokenType: type };
      if (type === Comment) comment = token;
      else tokens.push(token);
      break;
    }
    at = end;
  }
  return { tokens, comment };
}

function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}

/** It begins at a line's start or behind a space, so that `hub#2` is no name with its text cut off. */
function commentEnd(line: string, at: number): number {
  return line.charCodeAt(at) === 35 && (at === 0 || /\s/.test(line.charAt(at - 1))) ? line.length : at;
}

/** `x` glued between two figures: `1/8x1-1/4`. Elsewhere it is a letter. */
function timesEnd(line: string, at: number): number {
  const letter = line.charCodeAt(at);
  if (letter === 0xd7) return at + 1;
  if ((letter !== 120 && letter !== 88) || at === 0 || !isDigit(line.charCodeAt(at - 1))) return at;
  const next = line.charCodeAt(at + 1);
  return isDigit(next) || (next === 46 && isDigit(line.charCodeAt(at + 2))) ? at + 1 : at;
}

const anyWord = /\p{L}[\p{L}\p{M}\p{N}]*(?:-[\p{L}\p{N}][\p{L}\p{M}\p{N}]*)*/uy;
const unitTail = /(?:[.·⋅/]\p{L}[\p{L}\p{M}\p{N}]*)+/uy;
/** The same of words without any other letters than these: most are such, and the pattern above, of every script, takes milliseconds to make ready. */
const plainWord = /[A-Za-z][A-Za-z0-9]*(?:-[A-Za-z0-9]+)*/y;

/** Of the word that begins here, whatever stands behind it. */
function lettersEnd(line: string, at: number): number {
  plainWord.lastIndex = at;
  if (plainWord.test(line)) {
    const end = plainWord.lastIndex;
    const next = line.charCodeAt(end);
    // What may go on in another script is looked at by the pattern of all scripts.
    if (!(next > 127) && !(next === 45 && line.charCodeAt(end + 1) > 127)) return end;
  } else if (line.charCodeAt(at) <= 127) return at;
  anyWord.lastIndex = at;
  return anyWord.test(line) ? anyWord.lastIndex : at;
}

/** Of the words that stand right behind another one that ends here, joined to it by points or strokes. */
function tailEnd(line: string, at: number): number {
  const next = line.charCodeAt(at);
  if (next !== 46 && next !== 47 && next !== 0xb7 && next !== 0x22c5) return at;
  unitTail.lastIndex = at;
  return unitTail.test(line) ? unitTail.lastIndex : at;
}

/** Of a word, unless a point or a stroke and another word stand right behind it. */
function wordEnd(line: string, at: number): number {
  const end = lettersEnd(line, at);
  return end === at || tailEnd(line, end) > end ? at : end;
}

function joinedUnitEnd(line: string, at: number): number {
  const head = lettersEnd(line, at);
  const end = head === at ? at : tailEnd(line, head);
  return end > head ? end : at;
}
