// Files lines under their heads: the only place where one line knows of another.
// A misspelt head must not hang its details on the entry above, so what follows it up to the next entry is the broken one's.
// Invariant: every line that says something lands in exactly one entry, and has at most one fault.
import type { IToken } from "chevrotain";
import { belongs, fitShape } from "./detail-places.ts";
import {
  checkInStep,
  goesOnAbove,
  meantHead,
  meantStart,
  noEntryAbove,
  notAHead,
  rubbishBefore,
  slippedWord,
  strayHead,
  strayLine,
  unknownWord,
} from "./filing-messages.ts";
import { type Draft, spanOf } from "./line-nodes.ts";
import { type LineRead, faultAtUnder, isReading, readLine, readReading } from "./line-parser.ts";
import { type Slices, runThrough } from "./slices.ts";
import { withSureFixes } from "./sure-fixes.ts";
import { nameToken } from "./tokens.ts";
import type { Detail, Entry, Span } from "./tree.ts";
import { type EntryKind, detailWords, actionWords, entryWord, entryWords, firstWordsUnder, meantBy, nearestWord } from "./words.ts";

export interface Filed {
  readonly entries: readonly Entry[];
  /** The line of each entry's head, counted from the first line of the segment. */
  readonly starts: readonly number[];
}

/** An entry on its way to being filed. */
interface Open {
  readonly node: Draft;
  /** The kind whose details it takes; undefined for an unread head of which nothing can be guessed, and for lines above every entry. */
  readonly takes: EntryKind | undefined;
  readonly start: number;
  readonly indent: number;
  readonly details: Draft[];
  readonly stray: Draft[];
}

/** So many lines a slice. */
export const someLines = 50;

/** The entries of one segment: lines from `from` up to `to`, of which only the first may be a head at column 0. */
export function fileLines(lines: readonly string[], from: number, to: number): Filed {
  return runThrough(filingLines(lines, from, to));
}

/** The same in slices of some lines; a segment of fewer is one. */
export function* filingLines(lines: readonly string[], from: number, to: number): Slices<Filed> {
  const filing = new Filing(lines, from, to);
  for (let i = from; i < to; i++) {
    if (i > from && (i - from) % someLines === 0) yield;
    filing.take(lines[i] as string, i - from);
  }
  return filing.filed();
}

/** The lines of a segment, taken one behind the other. */
class Filing {
  readonly #lines: readonly string[];
  readonly #from: number;
  readonly #to: number;
  readonly #opened: Open[] = [];
  #current: Open | undefined;
  /** The entry that an entry keyword set in among its details has cut short. */
  #above: Open | undefined;
  #depths: ReadonlySet<number> | undefined;

  constructor(lines: readonly string[], from: number, to: number) {
    this.#lines = lines;
    this.#from = from;
    this.#to = to;
  }

  take(text: string, row: number): void {
    const read = readLine(text, this.#current?.takes === "measure");
    switch (read.form) {
      case "blank":
        return;
      case "head":
        return this.#takeHead(read, text, row);
      case "detail":
        return this.#takeDetail(read, text, row);
      case "other":
        return this.#takeOther(read, text, row);
    }
  }

  filed(): Filed {
    const opened = this.#opened;
    const rows = this.#to - this.#from;
    return {
      entries: opened.map((it, i) => close(it, (opened[i + 1]?.start ?? rows) - it.start, this.#lines, this.#from + it.start)),
      starts: opened.map((it) => it.start),
    };
  }

  #takeHead(read: Extract<LineRead, { form: "head" }>, text: string, row: number): void {
    const { node, word, indent } = read;
    const current = this.#current;
    const setIn = current !== undefined && indent > current.indent && current.node.kind !== "headless";
    if (setIn) {
      const inStep = current.takes === "step" && word === "check";
      // `check hub` among the lines of a step is work, and no declaration: that would say what good looks like.
      const isWork = inStep && (node.fault === undefined ? node.title === undefined : /^\s*check\s+\p{L}/u.test(text));
      if (isWork) return file(current, asUnread(node, text, checkInStep(node)), row);
      if (node.fault !== undefined) return file(current, asUnread(node, text, notAHead(word, node, current.takes)), row);
    }
    this.#above = setIn ? current : undefined;
    this.#open(node, word as EntryKind, row, indent);
  }

  #takeDetail(read: Extract<LineRead, { form: "detail" }>, text: string, row: number): void {
    const { node, word, indent } = read;
    const current = this.#current ?? this.#open(headless(node), undefined, row, -1);
    // `see cone-seat final good` was `seen`: a detail of another entry that can't be read as one, and stands as a head does.
    const isAstray =
      node.fault !== undefined &&
      current.takes !== undefined &&
      current.node.kind !== "unread" &&
      !belongs(node.kind as string, current.takes) &&
      this.#above === undefined;
    const stand = isAstray ? this.#standOf(indent) : undefined;
    if (stand?.shallow === true && stand.setIn) {
      const near = nearestWord(word, entryKeywords)?.word as EntryKind | undefined;
      this.#open(asUnread(node, text, { fault: strayHead(node, near), guess: near }), near, row, indent);
    } else fileDetail(current, this.#above, node, text, row);
  }

  #takeOther(read: Extract<LineRead, { form: "other" }>, text: string, row: number): void {
    const { entry, node, guess } = place(read, text, this.#current, this.#standOf(read.indent));
    if (entry) {
      this.#above = undefined;
      this.#open(node, guess, row, read.indent);
      return;
    }
    const current = this.#current ?? this.#open(headless(node), undefined, row, -1);
    file(this.#above?.takes === "measure" && node.kind === "reading" ? this.#above : current, node, row);
  }

  #open(node: Draft, takes: EntryKind | undefined, start: number, indent: number): Open {
    const entry = { node, takes, start, indent, details: [], stray: [] };
    this.#opened.push(entry);
    this.#current = entry;
    return entry;
  }

  /** How a line stands: no deeper than the head above, or less deep than the details hereabouts; and whether those are set in at all. */
  #standOf(indent: number): Stand {
    this.#depths ??= depthsOf(this.#lines, this.#from, this.#to);
    const head = this.#current?.indent ?? -1;
    let least = Number.POSITIVE_INFINITY;
    for (const it of this.#depths) if (it > head && it < least) least = it;
    return {
      shallow: this.#current === undefined || indent <= head || (least !== Number.POSITIVE_INFINITY && indent < least),
      setIn: least !== Number.POSITIVE_INFINITY,
    };
  }
}

function close(it: Open, rows: number, lines: readonly string[], head: number): Entry {
  const { node } = it;
  node.details = it.details;
  node.stray = it.stray;
  node.rows = rows;
  if (node.kind === "headless" && it.details[0]?.fault === undefined) node.fault = noEntryAbove(node.keyword as Span);
  // Where a head can't be read, any word may be a name that was meant, whichever line it stands on.
  if (node.fault !== undefined) node.written ??= (lines[head] as string).slice(0, 400);
  if (node.kind === "unread") for (const detail of it.details) detail.written ??= (lines[head + (detail.row as number)] as string).slice(0, 400);
  return node as unknown as Entry;
}

function file(entry: Open, node: Draft, row: number): void {
  node.row = row - entry.start;
  entry.details.push(node);
}

/** A line with a detail's keyword: under its entry, with the entry above that an intruder cut short, or astray. */
function fileDetail(current: Open, above: Open | undefined, node: Draft, text: string, row: number): void {
  if (current.takes === undefined) {
    // Nothing is known of the head: any detail is taken, and a line that reads only as figures is figures.
    const reading = node.fault !== undefined && current.node.kind === "unread" ? readReading(text) : undefined;
    file(current, reading !== undefined && reading.fault === undefined ? reading : node, row);
    return;
  }
  fitShape(node, current.takes);
  // Details behind an unread head are filed with it, of whatever kind they are: only the head is to be put right.
  if (belongs(node.kind as string, current.takes) || current.node.kind === "unread") {
    file(current, node, row);
    return;
  }
  if (above?.takes !== undefined && belongs(node.kind as string, above.takes)) {
    fitShape(node, above.takes);
    current.node.fault ??= goesOnAbove(current.node.keyword as Span, current.takes, above.takes);
    file(above, node, row);
    return;
  }
  node.fault = withSureFixes(strayLine(node, current.takes, text, mending(current.takes)), text, faultAtUnder(current.takes === "measure"));
  node.written = text.slice(0, 400);
  node.row = row - current.start;
  current.stray.push(node);
}

interface Placed {
  readonly entry: boolean;
  readonly node: Draft;
  readonly guess: EntryKind | undefined;
}

/** Indentation means nothing to a good sheet; to a broken one it is the best witness. */
interface Stand {
  readonly shallow: boolean;
  readonly setIn: boolean;
}

/** Whose is a line whose first word starts none? Decided by its second word, by what is near, and at last by how it is set in. */
function place(read: Extract<LineRead, { form: "other" }>, text: string, current: Open | undefined, { shallow, setIn }: Stand): Placed {
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
function asUnread(node: Draft, text: string, said: ReturnType<typeof notAHead>): Draft {
  const made: Draft = { kind: "unread", row: 0, at: node.at, keyword: node.keyword, fault: said.fault, written: text.slice(0, 400) };
  if (said.guess !== undefined) made.guess = said.guess;
  return made;
}

function headless(first: Draft): Draft {
  return { kind: "headless", row: 0, at: first.at, keyword: first.keyword };
}

/** How deep the lines hereabouts stand that are sure to be details. */
function depthsOf(lines: readonly string[], from: number, to: number): ReadonlySet<number> {
  const depths = new Set<number>();
  for (let i = from; i < to; i++) {
    const found = /^\ufeff?(\s*)([a-z]+|=)(?![\p{L}\p{M}\p{N}-])/u.exec((lines[i] as string).slice(0, 200));
    if (found !== null && allDetails.has(found[2] as string)) depths.add((found[1] as string).length);
  }
  return depths;
}
