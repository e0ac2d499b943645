// The kinds of token that a line may hold, the words that the grammar asks for inside one, and what is asked of a token. How a line falls into them is in lexer.ts.
// Invariant: a kind has its number by where it stands in the vocabulary, for the sources and for the table that the built program brings along (first-tokens.ts).
import { type IToken, type TokenType, createToken } from "chevrotain";

// ---------------------------------------------------------------- kinds of token

/** A word behind a figure, or a spelling that can be nothing but a unit (`lbf.ft`, `°C`, `%`). */
export const UnitLike = kind("UnitLike");
export const Name = kind("Name", UnitLike);
export const Figure = kind("Figure");

export const Comment = kind("Comment");
/** `M10x1.25`, `M2.5`: where there is no point or × in it, it is a plain word and may be a name. */
export const MetricSize = kind("MetricSize");
export const NumberedSize = kind("NumberedSize");
/** `x` glued between two figures: `1/8x1-1/4`. Elsewhere it is a letter. */
export const Times = kind("Times");
/** `lbf.ft`, `N·m`, `km/h`: words joined by a point or a stroke. */
export const JoinedUnit = kind("JoinedUnit", UnitLike);
export const UnitSign = kind("UnitSign", UnitLike);
/** A word, unless a point or a stroke and another word stand right behind it. */
export const Word = kind("Word", Name);

export const DateToken = kind("Date");
/** `0,38`: read as one figure whose value is not to be used. */
export const CommaFigure = kind("CommaFigure", Figure);
export const PlainFigure = kind("PlainFigure", Figure);
export const TextToken = kind("Text");

/** `___`: what is left blank, to be filled in. It stands where a name, a figure, a text or a date may. */
export const LeftBlank = kind("LeftBlank", Name, Figure, TextToken, DateToken);

export const DotDot = kind("DotDot");
export const PlusMinus = kind("PlusMinus");
export const Plus = kind("Plus");
export const Minus = kind("Minus");
export const Star = kind("Star");
export const Stroke = kind("Stroke");
export const Open = kind("Open");
export const Close = kind("Close");
export const Comma = kind("Comma");
export const EqualsSign = kind("EqualsSign");

// What no good line holds. Each has a message of its own.
export const InchMark = kind("InchMark");
export const OpenText = kind("OpenText");
export const CurlyText = kind("CurlyText");
export const OtherDate = kind("OtherDate");
export const Dots = kind("Dots");
export const Dash = kind("Dash");
export const MoneySign = kind("MoneySign");
export const Invisible = kind("Invisible");
export const Strange = kind("Strange");

const strange = [InchMark, OpenText, CurlyText, OtherDate, Dots, Dash, MoneySign, Invisible, Strange];

function kind(name: string, ...categories: TokenType[]): TokenType {
  return createToken({ name, categories });
}

// ---------------------------------------------------------------- words that the grammar asks for inside a line

const inner = new Map<string, TokenType>();

function word(text: string): TokenType {
  const type = kind(`"${text}"`, Name);
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

/** All that the parser has to know: what the lexer makes, the kinds over it, the inner words. */
export const vocabulary: TokenType[] = [
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
  UnitLike,
  Name,
  Figure,
  ...new Set(inner.values()),
];

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
/** What no good line holds. */
export const strangeToken = (it: IToken): boolean => isStrange[it.tokenTypeIdx] === true;
/** A word that goes on with the line: see `goesOn`. */
export const goingOnToken = (it: IToken | undefined): boolean => it !== undefined && isGoingOn[it.tokenTypeIdx] === true;
/** Whether such a word goes on with a line: a place that is called so could not be told from it. */
export const goesOnBy = (text: string): boolean => isGoingOn[innerWord(text)?.tokenTypeIdx ?? -1] === true;
/** Behind its last character. */
export const endOf = (it: IToken): number => it.startOffset + it.image.length;
/** No blank stands between the two. */
export const touching = (a: IToken | undefined, b: IToken | undefined): boolean =>
  a !== undefined && b !== undefined && b.startOffset > 0 && endOf(a) === b.startOffset;

/** The kind of a word that the grammar asks for inside a line. */
export const innerWord = (text: string): TokenType | undefined => inner.get(text);

/** Those of them that are never the unit of a figure before them. */
export const wordsThatGoOn: readonly string[] = [...inner].filter(([, type]) => goesOn.has(type)).map(([text]) => text);
