// Files lines under their heads: the only place where one line knows of another.
// A misspelt head must not hang its details on the entry above, so what follows it up to the next entry is the broken one's.
// Invariant: every line that says something lands in exactly one entry, and has at most one fault.
import type { LineRead } from "./line-read.ts";
import { belongs, fitShape } from "./detail-places.ts";
import { checkInStep, goesOnAbove, noEntryAbove, notAHead, strayHead } from "./filing-messages.ts";
import type { Draft } from "./line-nodes.ts";
import { readLine, readReading } from "./line-parser.ts";
import { type Slices, runThrough } from "./slices.ts";
import { type Stand, asUnread, depthsOf, headNear, place, strayFault } from "./strange-lines.ts";
import type { Entry, Span } from "./tree.ts";
import type { EntryKind } from "./words.ts";

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
      const near = headNear(word);
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
  node.fault = strayFault(node, current.takes, text);
  node.written = text.slice(0, 400);
  node.row = row - current.start;
  current.stray.push(node);
}

function headless(first: Draft): Draft {
  return { kind: "headless", row: 0, at: first.at, keyword: first.keyword };
}
