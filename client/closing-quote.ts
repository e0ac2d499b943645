// Tells the editor whether the cursor stands right before the quote that ends a line, where Enter goes on below the line and leaves the text whole.
// Invariant: only a key of the editor is set; what Enter does there is the editor's own command, which at the end of a line does what Enter does.
import * as vscode from "vscode";
import { endsText } from "./ends-text.ts";

const key = "splitpin.beforeClosingQuote";

export function watchClosingQuote(): vscode.Disposable {
  let told = false;
  const look = () => {
    const is = stands(vscode.window.activeTextEditor);
    if (is === told) return;
    told = is;
    void vscode.commands.executeCommand("setContext", key, is);
  };
  look();
  return vscode.Disposable.from(vscode.window.onDidChangeTextEditorSelection(look), vscode.window.onDidChangeActiveTextEditor(look));
}

/** Of several cursors each must stand so, with nothing selected. */
function stands(editor: vscode.TextEditor | undefined): boolean {
  return (
    editor?.document.languageId === "jobsheet" &&
    editor.selections.every((it) => it.isEmpty && endsText(editor.document.lineAt(it.active.line).text, it.active.character))
  );
}
