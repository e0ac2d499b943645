// The sheets that are open in the editor, each kept as it was read: an edit reads again the entry that it touches and no other.
// Invariant: what is too large for a sheet on the disk is too large here: its text is kept up with the editor's, and not read.
import type { TextDocumentContentChangeEvent } from "vscode-languageserver";
import { type SheetText, editSheet, readSheet, textOf } from "../../grammar/sheet-text.ts";
import { linesIn, whyTooLarge, whyTooLong } from "../disk/limits.ts";
import type { Connection } from "./connection.ts";

export interface OpenSheet {
  readonly uri: string;
  readonly version: number;
  /** Undefined where it is too large. */
  readonly sheet: SheetText | undefined;
  /** Why it is not read, in words that follow its name. */
  readonly why?: string;
}

export interface OpenSheets {
  get(uri: string): OpenSheet | undefined;
  keys(): readonly string[];
  /** Opened, or changed. */
  onChanged(listener: (sheet: OpenSheet) => void): void;
  onClosed(listener: (sheet: OpenSheet) => void): void;
}

/** What is held of a text: read, or too large to be. */
type Held = { readonly sheet: SheetText; readonly bytesAtMost: number } | { readonly sheet: undefined; readonly text: string; readonly why: string };

export function openSheetsOf(connection: Connection): OpenSheets {
  const sheets = new Map<string, OpenSheet & { readonly held: Held }>();
  let changed: (sheet: OpenSheet) => void = () => {};
  let closed: (sheet: OpenSheet) => void = () => {};
  const put = (uri: string, version: number, held: Held) => {
    const open = { uri, version, sheet: held.sheet, ...(held.sheet === undefined ? { why: held.why } : {}), held };
    sheets.set(uri, open);
    changed(open);
  };
  connection.onDidOpenTextDocument(({ textDocument: { uri, version, text } }) => put(uri, version, holding(text)));
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) => {
    const open = sheets.get(uri);
    if (open !== undefined && contentChanges.length > 0) put(uri, version, contentChanges.reduce(edited, open.held));
  });
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
    const open = sheets.get(uri);
    if (open === undefined) return;
    sheets.delete(uri);
    closed(open);
  });
  return {
    get: (uri) => sheets.get(uri),
    keys: () => [...sheets.keys()],
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
  const why = whyTooLarge(bytes) ?? whyTooLong(linesIn(text));
  return why === undefined ? { sheet: readSheet(text), bytesAtMost: bytes } : { sheet: undefined, text, why };
}

/** Editors may name a place behind a line's end, or the line behind the last: the sheet takes the nearest that there is. */
function edited(held: Held, change: TextDocumentContentChangeEvent): Held {
  if (!("range" in change)) return holding(change.text);
  if (held.sheet === undefined) return holding(spliced(held.text, change));
  const { start, end } = change.range;
  // What an edit takes away is not counted: where the sum is too large all of it is counted anew.
  const bytesAtMost = held.bytesAtMost + Buffer.byteLength(change.text);
  if ((whyTooLarge(bytesAtMost) ?? whyTooLong(held.sheet.lineCount + linesIn(change.text) - 1)) !== undefined)
    return holding(spliced(textOf(held.sheet), change));
  const sheet = editSheet(held.sheet, { startLine: start.line, startColumn: start.character, endLine: end.line, endColumn: end.character, text: change.text });
  return { sheet, bytesAtMost };
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
