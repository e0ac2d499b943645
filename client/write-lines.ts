// What the palette writes into the sheet that is open: that a step is done today, and a reading with blanks for its figures.
// Invariant: each is one edit that one undo takes back; no figure is written.
import * as vscode from "vscode";
import type { Ask } from "./report-page.ts";

interface Insertion {
  readonly line: number;
  readonly column: number;
  readonly text: string;
}

/** `uri`, `line` and the name of the step come from a lens; from the palette it is the line of the cursor. */
export async function markDone(ask: Ask, uri?: unknown, line?: unknown, name?: unknown): Promise<void> {
  const active = vscode.window.activeTextEditor;
  const editor = typeof uri === "string" ? (vscode.window.visibleTextEditors.find((it) => it.document.uri.toString() === uri) ?? active) : active;
  if (editor?.document.languageId !== "jobsheet") return;
  const { version } = editor.document;
  const at = typeof line === "number" ? line : editor.selection.active.line;
  const told = (await ask("splitpin.doneText", editor.document.uri.toString(), at, name)) as Insertion | string | null | undefined;
  if (typeof told === "string") void vscode.window.showInformationMessage(told);
  if (typeof told !== "object" || told === null || editor.document.version !== version) return;
  await editor.edit((edit) => edit.insert(new vscode.Position(told.line, told.column), told.text));
}

interface ReadingOffered {
  readonly name: string;
  readonly title: string;
  readonly snippet: string;
}

export async function addReading(ask: Ask): Promise<void> {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== "jobsheet") return;
  const offered = ((await ask("splitpin.readingTexts", editor.document.uri.toString())) ?? []) as readonly ReadingOffered[];
  if (offered.length === 0) {
    void vscode.window.showInformationMessage("No limit is declared yet: a reading needs one to be judged by.");
    return;
  }
  const chosen = await vscode.window.showQuickPick(
    offered.map((it) => ({ label: it.title, description: it.name, it })),
    { placeHolder: "What was measured?", matchOnDescription: true },
  );
  if (chosen === undefined) return;
  await vscode.window.showTextDocument(editor.document, editor.viewColumn);
  // At the end of the sheet, in the order in which things happen. A snippet would be set in as the line above is, so that it gets a line of its own first.
  const { document } = editor;
  const last = document.lineAt(document.lineCount - 1);
  const above = document.lineCount > 1 ? document.lineAt(document.lineCount - 2).text.trim() : "";
  const before = last.text.trim() !== "" ? "\n\n" : above !== "" ? "\n" : "";
  if (before !== "") await editor.edit((edit) => edit.insert(last.range.end, before), { undoStopBefore: true, undoStopAfter: false });
  const end = document.lineAt(document.lineCount - 1).range.end;
  await editor.insertSnippet(new vscode.SnippetString(chosen.it.snippet), end, { undoStopBefore: false, undoStopAfter: true });
}
