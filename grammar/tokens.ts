// The tokens of a line. Words are told from one another by a look-up behind the lexer, not by a pattern each.
// Invariant: every character of any line falls into some token, so the lexer itself never fails; no token spans lines.
import { isBlankText } from "./blank-text.ts";
import { type FirstCharacters, broughtAlong } from "./first-tokens.ts";
import { type CustomPatternMatcherReturn, type IToken, Lexer, type TokenType, createToken } from "chevrotain";

/** A line longer than this is not read. */
export const longestLine = 4000;
/** Parentheses deeper than this are not read. */
export const deepestNesting = 64;

// ---------------------------------------------------------------- kinds of token

/** A word behind a figure, or a spelling that can be nothing but a unit (`lbf.ft`, `°C`, `%`). */
export const UnitLike = createToken({ name: "UnitLike", pattern: Lexer.NA });
export const Name = createToken({ name: "Name", pattern: Lexer.NA, categories: [UnitLike] });
export const Figure = createToken({ name: "Figure", pattern: Lexer.NA });

/** A letter of any script, or a byte of Latin-1 that may begin one; above that Chevrotain looks at buckets of 255 code units. */
const buckets = Array.from({ length: 257 }, (_, i) => Math.min(256 + i * 255, 0xffff));
const everyCharacter: number[] = [...Array.from({ length: 256 }, (_, i) => i), ...buckets];
const anyLetter = everyCharacter.filter((it) => it > 255 || /\p{L}/u.test(String.fromCharCode(it)));

// A RegExp with the flag `u` loses it inside Chevrotain, so those run as patterns of our own.
const wordPattern = /\p{L}[\p{L}\p{M}\p{N}]*(?:-[\p{L}\p{N}][\p{L}\p{M}\p{N}]*)*/uy;
const unitTail = /(?:[.·⋅/]\p{L}[\p{L}\p{M}\p{N}]*)+/uy;

/** The same of words without any other letters than these: most are such, and the pattern above, of every script, takes milliseconds to make ready. */
const plainWord = /[A-Za-z][A-Za-z0-9]*(?:-[A-Za-z0-9]+)*/y;

/** The word that begins here. */
function wordAt(text: string, offset: number): string | undefined {
  plainWord.lastIndex = offset;
  const found = plainWord.exec(text);
  if (found !== null) {
    const end = plainWord.lastIndex;
    const next = text.charCodeAt(end);
    // What may go on in another script is looked at by the pattern of all scripts.
    if (!(next > 127) && !(next === 45 && text.charCodeAt(end + 1) > 127)) return found[0];
  } else if (text.charCodeAt(offset) <= 127) return undefined;
  wordPattern.lastIndex = offset;
  return wordPattern.exec(text)?.[0];
}

/** Of the words that stand right behind another one that ends here, joined to it by points or strokes. */
function tailAt(text: string, end: number): string | undefined {
  const next = text.charCodeAt(end);
  if (next !== 46 && next !== 47 && next !== 0xb7 && next !== 0x22c5) return undefined;
  unitTail.lastIndex = end;
  return unitTail.exec(text)?.[0];
}

/** A word, unless a point or a stroke and another word stand right behind it. */
function matchWord(text: string, offset: number): CustomPatternMatcherReturn | null {
  const found = wordAt(text, offset);
  return found === undefined || tailAt(text, offset + found.length) !== undefined ? null : [found];
}

/** `lbf.ft`, `N·m`, `km/h`: words joined by a point or a stroke. */
function matchJoinedUnit(text: string, offset: number): CustomPatternMatcherReturn | null {
  const head = wordAt(text, offset);
  const tail = head === undefined ? undefined : tailAt(text, offset + head.length);
  return head === undefined || tail === undefined ? null : [head + tail];
}

function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}

/** `x` glued between two figures: `1/8x1-1/4`. Elsewhere it is a letter. */
function matchTimes(text: string, offset: number): CustomPatternMatcherReturn | null {
  const letter = text.charAt(offset);
  if (letter === "×") return ["×"];
  if (offset === 0 || !isDigit(text.charCodeAt(offset - 1))) return null;
  const next = text.charCodeAt(offset + 1);
  return isDigit(next) || (next === 46 && isDigit(text.charCodeAt(offset + 2))) ? [letter] : null;
}

/** A comment begins at a line's start or behind a space, so that `hub#2` is no name with its text cut off. */
function matchComment(text: string, offset: number): CustomPatternMatcherReturn | null {
  if (text.charCodeAt(offset) !== 35) return null;
  return offset === 0 || /\s/.test(text.charAt(offset - 1)) ? [text.slice(offset)] : null;
}

function matchInch(text: string, offset: number): CustomPatternMatcherReturn | null {
  return offset > 0 && isDigit(text.charCodeAt(offset - 1)) ? ['"'] : null;
}

function matchAnything(text: string, offset: number): CustomPatternMatcherReturn | null {
  const code = text.codePointAt(offset);
  return code === undefined ? null : [String.fromCodePoint(code)];
}

function custom(
  name: string,
  pattern: (text: string, offset: number) => CustomPatternMatcherReturn | null,
  hint: readonly (string | number)[],
  more: { categories?: TokenType[]; group?: string } = {},
): TokenType {
  return createToken({ name, pattern, start_chars_hint: [...hint], line_breaks: false, ...more });
}

const Blank = createToken({ name: "Blank", pattern: /[ \t\v\f\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]+/, group: Lexer.SKIPPED, line_breaks: false });
const ByteOrderMark = custom("ByteOrderMark", (text, offset) => (offset === 0 && text.charCodeAt(0) === 0xfeff ? ["\ufeff"] : null), [0xfeff], {
  group: Lexer.SKIPPED,
});
export const Comment = custom("Comment", matchComment, ["#"], { group: "comments" });

/** `M10x1.25`, `M2.5`: where there is no point or × in it, it is a plain word and may be a name. */
export const MetricSize = createToken({ name: "MetricSize", pattern: /M\d+(?:\.\d+(?:[xX×]\d+(?:\.\d+)?)?|[xX]\d+\.\d+|×\d+(?:\.\d+)?)/ });
export const NumberedSize = createToken({ name: "NumberedSize", pattern: /[Nn]o\.\d+(?:-\d+)?/ });
export const Times = custom("Times", matchTimes, ["x", "X", "×"]);
const JoinedUnit = custom("JoinedUnit", matchJoinedUnit, anyLetter, { categories: [UnitLike] });
const UnitSign = createToken({ name: "UnitSign", pattern: /°[A-Za-z]*|%/, categories: [UnitLike] });
export const Word = custom("Word", matchWord, anyLetter, { categories: [Name] });

export const DateToken = createToken({ name: "Date", pattern: /\d{4}-\d{2}-\d{2}(?![\d/])/ });
/** `0,38`: read as one figure whose value is not to be used. Not where either neighbour has a point or a stroke. */
export const CommaFigure = createToken({ name: "CommaFigure", pattern: /\d+(?:,\d+)+(?!,?\d|\.\d|\/\d)/, categories: [Figure] });
const PlainFigure = createToken({ name: "PlainFigure", pattern: /\d+-\d+\/\d+|\d+\/\d+|\d+(?:\.\d+)?|\.\d+/, categories: [Figure] });
export const TextToken = createToken({ name: "Text", pattern: /"(?:[^"\\\n]|\\[^\n])*"/ });

/** `___`: what is left blank, to be filled in. It stands where a name, a figure, a text or a date may. */
export const LeftBlank = createToken({ name: "LeftBlank", pattern: /_{3,}/, categories: [Name, Figure, TextToken, DateToken] });

export const DotDot = createToken({ name: "DotDot", pattern: /\.\.(?!\.)/ });
export const PlusMinus = createToken({ name: "PlusMinus", pattern: /\+\/-|±/ });
export const Plus = createToken({ name: "Plus", pattern: /\+/ });
export const Minus = createToken({ name: "Minus", pattern: /[-\u2212]/ });
export const Star = createToken({ name: "Star", pattern: /\*/ });
export const Stroke = createToken({ name: "Stroke", pattern: /\// });
export const Open = createToken({ name: "Open", pattern: /\(/ });
export const Close = createToken({ name: "Close", pattern: /\)/ });
export const Comma = createToken({ name: "Comma", pattern: /,/ });
export const EqualsSign = createToken({ name: "EqualsSign", pattern: /=/ });

// What no good line holds. Each has a message of its own.
export const InchMark = custom("InchMark", matchInch, ['"']);
export const OpenText = createToken({ name: "OpenText", pattern: /"[^\n]*/ });
export const CurlyText = createToken({ name: "CurlyText", pattern: /[“”„«»][^\n]*/ });
export const OtherDate = createToken({
  name: "OtherDate",
  pattern: /\d{4}([-./])\d{1,2}\1\d{1,2}(?!\d)|\d{1,2}([./])\d{1,2}\2(?:\d{4}|\d{2})(?!\d)|\d{1,2}-\d{1,2}-\d{4}(?!\d)/,
});
export const Dots = createToken({ name: "Dots", pattern: /\.{3,}|…/ });
export const Dash = createToken({ name: "Dash", pattern: /[\u2010-\u2015]/ });
export const MoneySign = createToken({ name: "MoneySign", pattern: /[£$€¥]/ });
export const Invisible = custom(
  "Invisible",
  (text, offset) => (/[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufeff]/.test(text.charAt(offset)) ? [text.charAt(offset)] : null),
  [0xad, ...buckets],
);
export const Strange = custom("Strange", matchAnything, everyCharacter);

const strange = [InchMark, OpenText, CurlyText, OtherDate, Dots, Dash, MoneySign, Invisible, Strange];

// ---------------------------------------------------------------- words that the grammar asks for inside a line

const inner = new Map<string, TokenType>();

function word(text: string): TokenType {
  const type = createToken({ name: `"${text}"`, pattern: Lexer.NA, categories: [Name] });
  inner.set(text, type);
  return type;
}

export const A = word("a");
export const After = word("after");
export const Again = word("again");
export const At = word("at");
export const Back = word("back");
export const Before = word("before");
export const By = word("by");
export const Class = word("class");
export const Done = word("done");
export const Dry = word("dry");
export const Each = word("each");
export const Every = word("every");
export const Feel = word("feel");
export const Flat = word("flat");
export const For = word("for");
export const Free = word("free");
export const From = word("from");
export const Grade = word("grade");
export const In = word("in");
export const Its = word("its");
export const K = word("K");
export const LH = word("LH");
export const Load = word("load");
export const Max = word("max");
export const Min = word("min");
export const Months = word("months");
export const New = word("new");
export const None = word("none");
export const Nothing = word("nothing");
export const Now = word("now");
export const Of = word("of");
export const Oiled = word("oiled");
export const On = word("on");
export const OrderWord = word("order");
export const Over = word("over");
export const Pack = word("pack");
export const Pairs = word("pairs");
export const PartWord = word("part");
export const Place = word("place");
export const Price = word("price");
export const Rated = word("rated");
export const Serve = word("serve");
export const Stand = word("stand");
export const To = word("to");
export const Together = word("together");
export const Turn = word("turn");
export const Under = word("under");
export const With = word("with");
export const X = word("x");
inner.set("X", X);
inner.set("flats", Flat);
inner.set("turns", Turn);

/** Words that go on with the line, and so are never the unit of the figure before them, nor a place. `K`, `in` and `min` are units too. */
const goesOn = new Set([
  After,
  At,
  By,
  Class,
  Done,
  Dry,
  Each,
  Every,
  For,
  Free,
  From,
  Grade,
  LH,
  Load,
  Max,
  New,
  None,
  Of,
  Oiled,
  On,
  Over,
  Place,
  Price,
  Rated,
  To,
  Together,
  Under,
  With,
  X,
]);

const allTypes: TokenType[] = [
  Blank,
  ByteOrderMark,
  Comment,
  DateToken,
  OtherDate,
  CommaFigure,
  PlainFigure,
  InchMark,
  TextToken,
  OpenText,
  Comma,
  Times,
  MetricSize,
  NumberedSize,
  Word,
  JoinedUnit,
  LeftBlank,
  DotDot,
  Dots,
  PlusMinus,
  Plus,
  Minus,
  Star,
  Stroke,
  Open,
  Close,
  EqualsSign,
  UnitSign,
  CurlyText,
  Dash,
  MoneySign,
  Invisible,
  Strange,
];

/** All that the parser has to know: what the lexer makes, the kinds over it, the inner words. */
export const vocabulary: TokenType[] = [...allTypes, UnitLike, Name, Figure, ...new Set(inner.values())];

for (const type of allTypes) {
  const known = broughtAlong?.characters[type.name];
  if (known !== undefined) type.START_CHARS_HINT = [...known];
}
const lexer = new Lexer(allTypes, { positionTracking: "onlyOffset", ensureOptimizations: true, skipValidations: broughtAlong !== undefined });

/** What each token that says nothing of it by itself may begin with, as the lexer has found; above Latin-1 one code for each of its buckets. */
export function firstCharacters(): FirstCharacters {
  const { charCodeToPatternIdxToConfig } = lexer as unknown as {
    readonly charCodeToPatternIdxToConfig: { readonly defaultMode: readonly (readonly { readonly tokenType: TokenType }[] | undefined)[] };
  };
  const out: Record<string, number[]> = {};
  for (const [index, list] of charCodeToPatternIdxToConfig.defaultMode.entries()) {
    for (const { tokenType } of list ?? []) {
      if (!(tokenType.PATTERN instanceof RegExp)) continue;
      const codes = out[tokenType.name] ?? [];
      out[tokenType.name] = codes;
      codes.push(index < 256 ? index : (buckets[index - 256] as number));
    }
  }
  return out;
}

// Asked for each token, so kept by number.
const isStrange: boolean[] = [];
for (const it of strange) isStrange[it.tokenTypeIdx as number] = true;
const isGoingOn: boolean[] = [];
for (const it of goesOn) isGoingOn[it.tokenTypeIdx as number] = true;
const isFigure: boolean[] = [];
for (const it of [CommaFigure, PlainFigure, LeftBlank]) isFigure[it.tokenTypeIdx as number] = true;
const isName: boolean[] = [];
for (const it of [Word, LeftBlank, ...inner.values()]) isName[it.tokenTypeIdx as number] = true;
const isUnitOnly: boolean[] = [];
for (const it of [JoinedUnit, UnitSign]) isUnitOnly[it.tokenTypeIdx as number] = true;

export const figureToken = (it: IToken | undefined): boolean => it !== undefined && isFigure[it.tokenTypeIdx] === true;
export const nameToken = (it: IToken | undefined): boolean => it !== undefined && isName[it.tokenTypeIdx] === true;
export const unitOnlyToken = (it: IToken | undefined): boolean => it !== undefined && isUnitOnly[it.tokenTypeIdx] === true;
export const blankToken = (it: IToken | undefined): boolean => it !== undefined && it.tokenType === LeftBlank;
/** A word that goes on with the line: see `goesOn`. */
export const goingOnToken = (it: IToken | undefined): boolean => it !== undefined && isGoingOn[it.tokenTypeIdx] === true;
/** Behind its last character: with offsets only, Chevrotain gives a token where it starts and no more. */
export const endOf = (it: IToken): number => it.startOffset + it.image.length;
/** No blank stands between the two. */
export const touching = (a: IToken | undefined, b: IToken | undefined): boolean =>
  a !== undefined && b !== undefined && b.startOffset > 0 && endOf(a) === b.startOffset;

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
  const { tokens, groups } = lexer.tokenize(line);
  let strangeAt: number | undefined;
  let depth = 0;
  let blanks: IToken[] | undefined;
  for (let i = 0; i < tokens.length; i++) {
    const it = tokens[i] as IToken;
    const type = it.tokenTypeIdx;
    if (type === Word.tokenTypeIdx) {
      const known = inner.get(it.image);
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
      if ((type === LeftBlank.tokenTypeIdx && !touching(tokens[i - 1], it)) || (type === TextToken.tokenTypeIdx && isBlankText(it.image.slice(1, -1)))) {
        if (blanks === undefined) blanks = [it];
        else blanks.push(it);
      }
      if (isStrange[type] === true) strangeAt = i;
      else if (isFigure[type] === true && i > 0 && touching(tokens[i - 1], it) && !mayTouch(tokens[i - 1] as IToken)) strangeAt = i;
      else if (type === Open.tokenTypeIdx && ++depth > deepestNesting) strangeAt = i;
      else if (type === Close.tokenTypeIdx) depth--;
    }
  }
  return { tokens, comment: groups.comments?.[0] as IToken | undefined, strangeAt, blanks };
}

/** What may stand right before a figure: signs, points and commas; never a word, a text or another figure. */
function mayTouch(before: IToken): boolean {
  return (
    !isName[before.tokenTypeIdx] &&
    !isFigure[before.tokenTypeIdx] &&
    !isUnitOnly[before.tokenTypeIdx] &&
    before.tokenType !== TextToken &&
    before.tokenType !== DateToken &&
    before.tokenType !== MetricSize &&
    before.tokenType !== NumberedSize
  );
}

/** The words that the grammar asks for inside a line, and those of them that are never the unit of a figure before them. */
export const innerWords: readonly string[] = [...inner.keys()];
export const wordsThatGoOn: readonly string[] = [...inner].filter(([, type]) => goesOn.has(type)).map(([text]) => text);
