// The sheets that are open in the editor, each kept as it was read: an edit reads again the entry that it touches and no other.
import type { TextDocumentContentChangeEvent } from "vscode-languageserver";
import { type SheetText, editSheet, readSheet } from "../../grammar/sheet-text.ts";
import type { Connection } from "./connection.ts";

export interface OpenSheet {
  readonly uri: string;
  readonly version: number;
  readonly sheet: SheetText;
}

export interface OpenSheets {
  get(uri: string): OpenSheet | undefined;
  keys(): readonly string[];
  /** Opened, or changed. */
  onChanged(listener: (sheet: OpenSheet) => void): void;
  onClosed(listener: (sheet: OpenSheet) => void): void;
}

export function openSheetsOf(connection: Connection): OpenSheets {
  const sheets = new Map<string, OpenSheet>();
  let changed: (sheet: OpenSheet) => void = () => {};
  let closed: (sheet: OpenSheet) => void = () => {};
  const put = (sheet: OpenSheet) => {
    sheets.set(sheet.uri, sheet);
    changed(sheet);
  };
  connection.onDidOpenTextDocument(({ textDocument: { uri, version, text } }) => put({ uri, version, sheet: readSheet(text) }));
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) => {
    const open = sheets.get(uri);
    if (open !== undefined && contentChanges.length > 0) put({ uri, version, sheet: contentChanges.reduce(edited, open.sheet) });
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

/** Editors may name a place behind a line's end, or the line behind the last: the sheet takes the nearest that there is. */
function edited(sheet: SheetText, change: TextDocumentContentChangeEvent): SheetText {
  if (!("range" in change)) return readSheet(change.text);
  const { start, end } = change.range;
  return editSheet(sheet, { startLine: start.line, startColumn: start.character, endLine: end.line, endColumn: end.character, text: change.text });
}
