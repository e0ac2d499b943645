// The sheets that are open in the editor, each kept as it was read: an edit reads again the entry that it touches and no other.
import type { TextDocumentContentChangeEvent, TextDocumentsConfiguration } from "vscode-languageserver";
import { type SheetText, editSheet, readSheet } from "../../grammar/sheet-text.ts";

export interface OpenSheet {
  readonly uri: string;
  readonly version: number;
  readonly sheet: SheetText;
}

export const openSheets: TextDocumentsConfiguration<OpenSheet> = {
  create: (uri, _language, version, content) => ({ uri, version, sheet: readSheet(content) }),
  update(document, changes, version) {
    let sheet = document.sheet;
    for (const change of changes) sheet = changed(sheet, change);
    return { uri: document.uri, version, sheet };
  },
};

/** Editors may name a place behind a line's end, or the line behind the last: the sheet takes the nearest that there is. */
function changed(sheet: SheetText, change: TextDocumentContentChangeEvent): SheetText {
  if (!("range" in change)) return readSheet(change.text);
  const { start, end } = change.range;
  return editSheet(sheet, { startLine: start.line, startColumn: start.character, endLine: end.line, endColumn: end.character, text: change.text });
}
