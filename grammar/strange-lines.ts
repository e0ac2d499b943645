// Lines that are filed and not read: whose first word starts none, a head among details, a detail astray.
// Invariant: what such a line is taken for is a guess, and its node says that it is one; it has a fault.
import type { IToken } from "chevrotain";
import type { LineRead } from "./line-read.ts";
import { belongs } from "./detail-places.ts";
import { meantHead, meantStart, type notAHead, rubbishBefore, slippedWord, strayLine, unknownWord } from "./filing-messages.ts";
import { type Draft, spanOf } from "./line-nodes.ts";
import { faultAtUnder, isReading, readLine, readReading } from "./line-parser.ts";
import { withSureFixes } from "./sure-fixes.ts";
import { nameToken } from "./tokens.ts";
import type { Detail, Fault, Span } from "./tree.ts";
import { type EntryKind, actionWords, detailWords, entryWord, entryWords, firstWordsUnder, nearestWord } from "./words.ts";
import { meantBy } from "./words/meant-words.ts";

/** The entry that a line would be filed under. */
interface Above {
  readonly node: Draft;
  readonly takes: EntryKind | undefined;
}

interface Placed {
  readonly entry: boolean;
  readonly node: Draft;
  readonly guess: EntryKind | undefined;
}

/** Indentation means nothing to a good sheet; to a broken one it is the best witness. */
export interface Stand {
  readonly shallow: boolean;
  readonly setIn: boolean;
}

/** Whose is a line whose first word starts none? Decided by its second word, by what is near, and at last by how it is set in. */
export function place(read: Extract<LineRead, { form: "other" }>, text: string, current: Above | undefined, { shallow, setIn }: Stand): Placed {
  const { tokens } = read.tokens;
  const [first, second, third] = tokens;
  const word = first !== undefined && nameToken(first) ? first.image : undefined;
  const takes = current?.takes;
  const mine = takes === undefined ? allDetails : firstWordsUnder(takes);
  const entry = word === undefined ? undefined : nearKeyword(word, entryKeywords);
  const detail = word === undefined ? undefined : nearKeyword(word, mine);
  const titled = second !== undefined && nameToken(second) && third?.image.startsWith('"') === true;

  const meant =
    takes !== undefined && !(shallow && setIn && entry !== undefined && (takes !== "step" || entry.distance === 1))
      ? meantStart(read.tokens, takes, text, mending(takes))
      : undefined;
  if (meant !== undefined) {
    const verbs = new Set(meant.fixes.map((it) => it.title.split("`")[1]?.split(" ")[0]));
    return unreadDetail(read, text, meant, verbs.size === 1 ? [...verbs][0] : undefined);
  }

  // `found hub-nut left`, `date 2026-05-01` where heads stand: what follows is filed under the entry that is meant.
  const head = shallow && word !== undefined ? meantBy(word, "entry")?.write[0] : undefined;
  if (head !== undefined) return unreadHead(read, text, meantHead(read.tokens, head, text, readsAs), head as EntryKind);

  const open = current?.node.kind === "unread" && takes === undefined;
  if (isReading(read.tokens) && open && !(shallow && setIn)) return { entry: false, node: readReading(text), guess: undefined };
  // A quote or a space that slipped into a keyword: what it makes is as sure as the keyword itself.
  const slipped =
    /^["“”„«]\s*([\p{L}-]+)/u.exec(first?.image ?? "")?.[1] ?? (word !== undefined && second !== undefined && nameToken(second) ? word + second.image : "");
  if (mine.has(slipped)) return unreadDetail(read, text, slippedWord(read.tokens, slipped), slipped);
  if (shallow && entryWord(slipped) !== undefined) return unreadHead(read, text, slippedWord(read.tokens, slipped), slipped as EntryKind);

  if (second !== undefined && nameToken(second)) {
    if (shallow && entryWord(second.image) !== undefined)
      return unreadHead(
        read,
        text,
        rubbishBefore(read.tokens, second, text, undefined, (line) => isReadUnder(line, false)),
        second.image as EntryKind,
      );
    // `statsu received 2026-05-01`: both words start a line here, and with the first put right the line is read.
    if (current !== undefined && detail !== undefined && mine.has(second.image) && !shallow && readsAs(detail.word, text, spanOf(first as IToken)))
      return unreadDetail(read, text, unknownWord(read.tokens, takes, detail.word), detail.word);
    if (current !== undefined && mine.has(second.image) && !(shallow && titled && entry !== undefined))
      return unreadDetail(
        read,
        text,
        rubbishBefore(read.tokens, second, text, takes, (line) => isReadUnder(line, takes === "measure")),
        second.image,
      );
  }
  // Under `measure` a word or two without a figure are a reading not yet finished.
  if (takes === "measure" && tokens.length <= 2 && tokens.every(nameToken) && !(shallow && (setIn || entry !== undefined)) && detail === undefined)
    return { entry: false, node: readReading(text), guess: undefined };

  // Where details hereabouts are set in, a line as deep as they are is one of them, whatever its first word is near to.
  if (setIn && !shallow) return unreadDetail(read, text, unknownWord(read.tokens, takes, detail?.word), detail?.word);
  if (entry !== undefined && (detail === undefined || entry.distance < detail.distance)) {
    const said = unknownWord(read.tokens, takes, entry.word);
    // `off "Wheel off"` is no half of an offer: what stands below would become lines of one.
    const isHalf = word !== undefined && entry.word.startsWith(word) && second !== undefined && !readsAs(entry.word, text, spanOf(first as IToken));
    return unreadHead(read, text, isHalf ? { ...said, fixes: [] } : said, entry.word as EntryKind);
  }
  if (detail !== undefined && (entry === undefined || detail.distance < entry.distance))
    return unreadDetail(read, text, unknownWord(read.tokens, takes, detail.word), detail.word);
  const joined = word === undefined || second?.image.startsWith('"') !== true ? undefined : entryKeywords.find((it) => it.length >= 4 && word.startsWith(it));
  if (current === undefined || (shallow && (setIn || titled || joined !== undefined))) {
    const guess = (entry?.word as EntryKind | undefined) ?? joined;
    return unreadHead(read, text, unknownWord(read.tokens, undefined, guess), guess);
  }
  return unreadDetail(read, text, unknownWord(read.tokens, takes, detail?.word), detail?.word);
}

/** A line that is read under such an entry, or is once the one fix of its fault is carried out. */
function mending(under: EntryKind): (text: string) => string | undefined {
  const isRead = (read: LineRead) => read.form === "detail" && belongs(read.node.kind as string, under) && read.node.fault === undefined;
  return (text) => {
    const read = readLine(text, under === "measure");
    if (isRead(read)) return text;
    const fault = read.form === "detail" && belongs(read.node.kind as string, under) ? (read.node.fault as Detail["fault"]) : undefined;
    const [edit] = fault?.fixes.length === 1 && fault.fixes[0]?.edits.length === 1 ? fault.fixes[0].edits : [];
    if (edit === undefined || edit.text.includes("\n")) return undefined;
    const put = text.slice(0, edit.at.from) + edit.text + text.slice(edit.at.to);
    return isRead(readLine(put, under === "measure")) ? put : undefined;
  };
}

function isReadUnder(text: string, measure: boolean): boolean {
  return faultAtUnder(measure)(text) === undefined;
}

/** Whether a line is read without a fault with this word for its first. */
function readsAs(word: string, text: string, first: Span): boolean {
  const read = readLine(text.slice(0, first.from) + word + text.slice(first.to), false);
  return (read.form === "detail" || read.form === "head") && read.node.fault === undefined;
}

/** In a short word two letters off are too many: `date` is no `rate`, and `found` no `fluid`. */
function nearKeyword(word: string, words: ReadonlySet<string> | readonly string[]): ReturnType<typeof nearestWord> {
  const near = nearestWord(word, words);
  return near !== undefined && near.distance > 1 && word.length < 6 ? undefined : near;
}

/** The entry that such a word is near to. */
export function headNear(word: string): EntryKind | undefined {
  return nearestWord(word, entryKeywords)?.word as EntryKind | undefined;
}

/** What is said of a detail under an entry that takes none such. */
export function strayFault(node: Draft, under: EntryKind, text: string): Fault {
  return withSureFixes(strayLine(node, under, text, mending(under)), text, faultAtUnder(under === "measure"));
}

const entryKeywords = entryWords.map((it) => it.word);
const allDetails: ReadonlySet<string> = new Set([...detailWords.map((it) => it.word), ...actionWords.map((it) => it.word)]);

function unreadHead(read: Extract<LineRead, { form: "other" }>, text: string, fault: Detail["fault"], guess: EntryKind | undefined): Placed {
  return { entry: true, node: unread(read, text, fault, guess), guess };
}

function unreadDetail(read: Extract<LineRead, { form: "other" }>, text: string, fault: Detail["fault"], guess: string | undefined): Placed {
  return { entry: false, node: unread(read, text, fault, guess), guess: undefined };
}

function unread(read: Extract<LineRead, { form: "other" }>, text: string, fault: Detail["fault"], guess: string | undefined): Draft {
  const first = read.tokens.tokens[0];
  const node: Draft = {
    kind: "unread",
    row: 0,
    at: read.at,
    keyword: first === undefined ? read.at : spanOf(first),
    fault: fault === undefined ? undefined : withSureFixes(fault, text, faultAtUnder(false)),
    written: text.slice(0, 400),
  };
  if (guess !== undefined) node.guess = guess;
  return node;
}

/** A line that begins with an entry's keyword where a detail should stand. */
export function asUnread(node: Draft, text: string, said: ReturnType<typeof notAHead>): Draft {
  const made: Draft = { kind: "unread", row: 0, at: node.at, keyword: node.keyword, fault: said.fault, written: text.slice(0, 400) };
  if (said.guess !== undefined) made.guess = said.guess;
  return made;
}

/** How deep the lines hereabouts stand that are sure to be details. */
export function depthsOf(lines: readonly string[], from: number, to: number): ReadonlySet<number> {
  const depths = new Set<number>();
  for (let i = from; i < to; i++) {
    const found = /^\ufeff?(\s*)([a-z]+|=)(?![\p{L}\p{M}\p{N}-])/u.exec((lines[i] as string).slice(0, 200));
    if (found !== null && allDetails.has(found[2] as string)) depths.add((found[1] as string).length);
  }
  return depths;
}
