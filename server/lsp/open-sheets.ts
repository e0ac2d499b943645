// The sheets that are open in the editor, each kept as it was read: an edit reads again the entry that it touches and no other.
// A long text is read in slices: whoever asks for its sheet before they are through has the rest of it read at once.
// Invariant: what is too large for a sheet on the disk is too large here: nobody gets its sheet, though how its lines are written may be looked at.
import type { TextDocumentContentChangeEvent } from "vscode-languageserver";
import { type SheetChange, type SheetText, editingSheet, readingSheet, textOf } from "../../grammar/sheet-text.ts";
import type { Slices } from "../../grammar/slices.ts";
import { canBeLookedAt, linesIn, whyTooLarge, whyTooLong } from "../disk/limits.ts";
import type { Connection } from "./connection.ts";
import { type Reading, readingOf } from "./reading.ts";
import { now } from "./turns.ts";

export interface OpenSheet {
  readonly uri: string;
  readonly version: number;
  /** Undefined where it is too large. */
  readonly sheet: SheetText | undefined;
  /** Why it is too large, in words that follow its name. */
  readonly why: string | undefined;
  /** What is too large to be worked with, and not to have its lines looked at. */
  readonly lines: SheetText | undefined;
  /** Reads for as long as it is told to go on, a slice at least; whether all is read, or nothing ever will be. */
  readOn(goesOn: () => boolean): boolean;
}

export interface OpenSheets {
  get(uri: string): OpenSheet | undefined;
  keys(): readonly string[];
  /** Settled once the newest text of a sheet is read, or the sheet is closed; undefined where there is nothing to wait for. */
  whenRead(uri: string): Promise<void> | undefined;
  /** Opened, or changed. */
  onChanged(listener: (sheet: OpenSheet) => void): void;
  onClosed(listener: (sheet: OpenSheet) => void): void;
}

/** What is held of a text: on its way to be read, or too large to be. */
type Held =
  | { readonly reading: Reading; readonly bytesAtMost: number; readonly linesAtMost: number }
  | { readonly reading: undefined; readonly text: string; readonly why: string };

export function openSheetsOf(connection: Connection): OpenSheets {
  const sheets = new Map<string, OpenSheet & { readonly held: Held }>();
  const waiting = new Map<string, (() => void)[]>();
  let changed: (sheet: OpenSheet) => void = () => {};
  let closed: (sheet: OpenSheet) => void = () => {};

  function put(uri: string, version: number, held: Held): void {
    const open: OpenSheet & { readonly held: Held } = {
      uri,
      version,
      held,
      get sheet() {
        return open.why === undefined ? held.reading?.sheet() : undefined;
      },
      get why() {
        return held.reading === undefined ? held.why : whyTooLong(held.reading.sheet().lineCount);
      },
      get lines() {
        return open.why === undefined ? undefined : held.reading?.sheet();
      },
      readOn(goesOn: () => boolean) {
        let wait = false;
        try {
          wait = held.reading?.readOn(goesOn) === false;
        } finally {
          // Whoever waits for a text that can't be read is told so by what he asks.
          if (!wait && sheets.get(uri) === open) settle(uri);
        }
        return !wait;
      },
    };
    sheets.set(uri, open);
    changed(open);
  }

  function settle(uri: string): void {
    for (const it of waiting.get(uri) ?? []) it();
    waiting.delete(uri);
  }

  connection.onDidOpenTextDocument(({ textDocument: { uri, version, text } }) => put(uri, version, holding(text)));
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) => {
    const open = sheets.get(uri);
    if (open !== undefined && contentChanges.length > 0) put(uri, version, contentChanges.reduce(edited, open.held));
  });
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
    const open = sheets.get(uri);
    if (open === undefined) return;
    sheets.delete(uri);
    settle(uri);
    closed(open);
  });
  return {
    get: (uri) => sheets.get(uri),
    keys: () => [...sheets.keys()],
    whenRead(uri) {
      const reading = sheets.get(uri)?.held.reading;
      if (reading === undefined || reading.isRead()) return undefined;
      return new Promise((resolve) => waiting.set(uri, [...(waiting.get(uri) ?? []), resolve]));
    },
    onChanged(listener) {
      changed = listener;
    },
    onClosed(listener) {
      closed = listener;
    },
  };
}

function holding(text: string): Held {
  const bytes = Buffer.byteLength(text);
  const lines = linesIn(text);
  const why = whyTooLarge(bytes) ?? (canBeLookedAt(lines) ? undefined : whyTooLong(lines));
  return why === undefined ? { reading: begun(readingSheet(text)), bytesAtMost: bytes, linesAtMost: lines } : { reading: undefined, text, why };
}

/** Editors may name a place behind a line's end, or the line behind the last: the sheet takes the nearest that there is. */
function edited(held: Held, change: TextDocumentContentChangeEvent): Held {
  if (!("range" in change)) return holding(change.text);
  if (held.reading === undefined) return holding(spliced(held.text, change));
  const { start, end } = change.range;
  // What an edit takes away is not counted: where the sum is too large all of it is counted anew.
  const bytesAtMost = held.bytesAtMost + Buffer.byteLength(change.text);
  const linesAtMost = (held.reading.isRead() ? held.reading.sheet().lineCount : held.linesAtMost) + linesIn(change.text) - 1;
  if (whyTooLarge(bytesAtMost) !== undefined || !canBeLookedAt(linesAtMost)) return holding(spliced(textOf(held.reading.sheet()), change));
  const by = { startLine: start.line, startColumn: start.character, endLine: end.line, endColumn: end.character, text: change.text };
  return { reading: begun(editing(held.reading, by)), bytesAtMost, linesAtMost };
}

function* editing(before: Reading, change: SheetChange): Slices<SheetText> {
  return yield* editingSheet(yield* before.rest(), change);
}

/** So many milliseconds are read at once: nearly every sheet is read by then, and nearly every edit. */
const atOnce = 10;

function begun(slices: Slices<SheetText>): Reading {
  const reading = readingOf(slices);
  const until = now() + atOnce;
  reading.readOn(() => now() < until);
  return reading;
}

/** The text with a change made in it, without the text being read as a sheet. */
function spliced(text: string, change: Extract<TextDocumentContentChangeEvent, { readonly range: unknown }>): string {
  const from = offsetOf(text, change.range.start);
  const to = Math.max(from, offsetOf(text, change.range.end));
  return text.slice(0, from) + change.text + text.slice(to);
}

/** Of a place in a long text: line ends are found as the platform finds letters, and not by a look at each. */
function offsetOf(text: string, { line, character }: { readonly line: number; readonly character: number }): number {
  const nextOf = (letter: string, from: number) => {
    const at = text.indexOf(letter, from);
    return at === -1 ? text.length : at;
  };
  let start = 0;
  let feed = nextOf("\n", 0);
  let back = nextOf("\r", 0);
  for (let i = 0; i < line; i++) {
    const end = Math.min(feed, back);
    if (end === text.length) return end;
    start = end + (back < feed && feed === back + 1 ? 2 : 1);
    if (feed < start) feed = nextOf("\n", start);
    if (back < start) back = nextOf("\r", start);
  }
  return Math.min(start + character, feed, back);
}
