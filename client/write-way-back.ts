// Writes the way back into the sheet that is open, as the server worked it out, and says what came of it.
// Invariant: one edit, that one undo takes back; nothing is saved.
import * as vscode from "vscode";
import type { WorkspaceEdit } from "vscode-languageclient/node";
import type { Ask } from "./report-page.ts";

interface Written {
  readonly edit: WorkspaceEdit | null;
  readonly said: string;
}

export async function writeWayBack(ask: Ask, converted: (edit: WorkspaceEdit) => Promise<vscode.WorkspaceEdit>): Promise<void> {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== "jobsheet") {
    void vscode.window.showInformationMessage("Open a job sheet first: the way back is written into it.");
    return;
  }
  const { document } = editor;
  const version = document.version;
  const written = (await ask("splitpin.writeWayBack", document.uri.toString())) as Written | undefined;
  if (written === undefined || written === null) return;
  if (document.version !== version) {
    void vscode.window.showInformationMessage("The sheet was changed meanwhile, so nothing was written. Ask again.");
    return;
  }
  if (written.edit !== null) {
    const edit = await converted(written.edit);
    const done = await vscode.workspace.applyEdit(edit);
    const first = edit.get(document.uri)[0];
    if (done && first !== undefined) editor.revealRange(new vscode.Range(first.range.start, first.range.start), vscode.TextEditorRevealType.AtTop);
  }
  void vscode.window.showInformationMessage(written.said);
}
