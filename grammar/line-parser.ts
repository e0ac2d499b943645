// One line in, one node out. How a line is read hangs on its text and on one flag: whether it stands under `measure`.
// Invariant: never throws, on any text; a broken line gets one fault and keeps what was read before the break.
import type { IToken } from "chevrotain";
import { takeBlanks } from "./blanks.ts";
import { type LineTokens, longestLine, tokensOf } from "./lexer.ts";
import { readHuge } from "./huge-lines.ts";
import { type Draft, spanOf, spanOver } from "./line-nodes.ts";
import { type LineRead, whiteBefore } from "./line-read.ts";
import { type LineShape, detailShapes, headShapes, listsOf } from "./line-shapes.ts";
import { deniedFault } from "./message-words.ts";
import { faultOf } from "./messages.ts";
import { parse } from "./parse.ts";
import { denies, fractions, isEstimate, isNoReading, isTurn } from "./plain-words.ts";
import { estimateFault } from "./slips-of-facts.ts";
import { turnedBack } from "./slips-of-turns.ts";
import { strangeFault } from "./strange-messages.ts";
import { strayQuote } from "./stray-quotes.ts";
import { type FaultAt, withSureFixes } from "./sure-fixes.ts";
import { EqualsSign, OpenText, figureToken, nameToken } from "./tokens.ts";
import type { Fault, Name } from "./tree.ts";

const blank: LineRead = { form: "blank" };

export function readLine(text: string, underMeasure: boolean, known?: FaultAt): LineRead {
  if (text.length > longestLine) return readHuge(text);
  const line = tokensOf(text);
  const first = line.tokens[0];
  if (first === undefined) return blank;
  if (nameToken(first)) {
    const head = headShapes.get(first.image);
    if (head !== undefined)
      return { form: "head", word: first.image, indent: whiteBefore(text, first), node: read(text, line, head, known ?? faultAtUnder(underMeasure)) };
  }
  if (underMeasure && isReading(line))
    return { form: "detail", word: "", indent: whiteBefore(text, first), node: read(text, line, readingShape, known ?? faultAtUnder(true)) };
  const detail = nameToken(first) ? detailShapes.get(first.image) : first.tokenType === EqualsSign ? detailShapes.get("=") : undefined;
  if (detail !== undefined)
    return { form: "detail", word: first.image, indent: whiteBefore(text, first), node: read(text, line, detail, known ?? faultAtUnder(underMeasure)) };
  return { form: "other", indent: whiteBefore(text, first), at: spanOver(first, line.tokens[line.tokens.length - 1] as IToken), tokens: line };
}

/** Where a line has its first fault, its fixes unasked. */
export function faultAtUnder(measure: boolean): FaultAt {
  return measure ? faultAtInMeasure : faultAt;
}
const faultAt: FaultAt = (text) => firstFault(readLine(text, false, unasked));
const faultAtInMeasure: FaultAt = (text) => firstFault(readLine(text, true, unasked));
const unasked: FaultAt = () => undefined;

function firstFault(read: LineRead): number | undefined {
  if (read.form === "blank") return undefined;
  return read.form === "other" ? read.at.from : (read.node.fault as Fault | undefined)?.at.from;
}

/** The reading of a line whose first word says nothing: a figure, or a word that might be a place. */
export function readReading(text: string): Draft {
  return read(text, tokensOf(text.slice(0, longestLine)), readingShape, faultAtUnder(true));
}

const readingShape: LineShape<string> = { kind: "reading", read: (it) => it.readingLine() };

/** Under `measure` a line is a reading where a figure stands within its first four words. */
export function isReading({ tokens }: LineTokens): boolean {
  const first = tokens[0];
  if (first === undefined || first.image === "note" || first.image === "photo" || first.image === "accept") return false;
  let words = 0;
  for (const it of tokens) {
    if (figureToken(it) || fractions[it.image] !== undefined) return true;
    // A sign belongs to its figure.
    if (it.image !== "-" && it.image !== "+" && ++words === 4) return false;
  }
  return false;
}

function read(text: string, line: LineTokens, shape: LineShape<string>, sure: FaultAt): Draft {
  const { tokens, strangeAt } = line;
  const first = tokens[0] as IToken;
  const node: Draft = { kind: shape.kind, row: 0, at: spanOver(first, tokens[tokens.length - 1] as IToken), keyword: spanOf(first) };
  const good = strangeAt === undefined ? tokens : tokens.slice(0, strangeAt);
  const parsed = parse(good, node, shape.read);
  for (const list of listsOf.get(node.kind as string) ?? []) node[list] ??= [];
  const strange = strangeAt === undefined ? undefined : tokens[strangeAt];
  if (line.blanks !== undefined) takeBlanks(node, line.blanks);
  const stray = strange?.tokenType === OpenText && sure !== unasked ? strayQuote(text, strange, sure) : undefined;
  // Where a token that no line holds cut the line short, what the grammar misses behind it is no second mistake.
  if (stray !== undefined) node.fault = stray;
  else if (parsed.failure !== undefined && (strange === undefined || parsed.stoppedAt !== undefined)) {
    node.fault = faultOf({ text, tokens, node, shape: shape.kind, comment: line.comment, faultAt: sure }, parsed);
  } else if (strange !== undefined)
    node.fault = strangeFault({ text, tokens, node, shape: shape.kind, comment: line.comment, faultAt: sure }, strangeAt as number);
  else if (parsed.complaint !== undefined) node.fault = parsed.complaint;
  else {
    const guessed = guessedIn(node);
    if (node.kind === "action" && turnTakenForPlace(node)) node.fault = turnedBack(tokens, text);
    const denied = tokens.find((it) => denies(it.image) && nameToken(it));
    if (denied !== undefined) node.fault = deniedFault(spanOf(denied), denied.image);
    if (guessed !== undefined) node.fault = estimateFault({ text, tokens, node, shape: shape.kind, comment: line.comment }, guessed.at);
  }
  if (node.fault === undefined) return node;
  if (sure !== unasked) node.fault = withSureFixes(node.fault as Fault, text, sure);
  node.written = text.slice(0, 400);
  return node;
}

/** `about 18 mm`, `drain sump-oil about 3 l`: read as a position or a place, it would be a figure that somebody had measured. */
function guessedIn(node: Draft): Name | undefined {
  const words = node.kind === "reading" ? (node.words as Name[]) : node.kind === "action" && node.amount !== undefined ? (node.places as Name[]) : none;
  if (words.length === 0) return undefined;
  return words.find((it) => isEstimate(it.text) || (node.kind === "reading" && isNoReading(it.text)));
}

const none: readonly Name[] = [];

/** `slacken hub-nut 1 flat`: read as a count and a place. */
function turnTakenForPlace(node: Draft): boolean {
  if (node.verb !== "slacken" && node.verb !== "undo") return false;
  const place = (node.places as Name[] | undefined)?.at(-1);
  return place !== undefined && isTurn(place.text);
}

/** Where the comment of a line begins; undefined where it has none. */
export function commentAt(text: string): number | undefined {
  return tokensOf(text.slice(0, longestLine)).comment?.startOffset;
}
