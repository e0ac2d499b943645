// The sheets that are open in the editor, each kept as it was read: an edit reads again the entry that it touches and no other.
import type { TextDocumentContentChangeEvent, TextDocumentsConfiguration } from "vscode-languageserver";
import { type SheetText, editSheet, lineText, readSheet } from "../../grammar/sheet-text.ts";

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

function changed(sheet: SheetText, change: TextDocumentContentChangeEvent): SheetText {
  if (!("range" in change)) return readSheet(change.text);
  const start = inside(sheet, change.range.start);
  const end = inside(sheet, change.range.end);
  const backwards = end.line < start.line || (end.line === start.line && end.column < start.column);
  const [from, to] = backwards ? [end, start] : [start, end];
  return editSheet(sheet, { startLine: from.line, startColumn: from.column, endLine: to.line, endColumn: to.column, text: change.text });
}

/** Editors may name a place behind a line's end, or the line behind the last: both mean the end. */
function inside(sheet: SheetText, position: { readonly line: number; readonly character: number }): { line: number; column: number } {
  const last = Math.max(0, sheet.lineCount - 1);
  if (position.line > last) return { line: last, column: lineText(sheet, last).length };
  const line = Math.max(0, position.line);
  return { line, column: Math.max(0, Math.min(position.character, lineText(sheet, line).length)) };
}
