// The language reference as a page of the editor, from the palette and from the hover of a keyword.
// Invariant: of a hover only the line that stands here may run a command; what the server says of a sheet may not.
import * as vscode from "vscode";

export async function openReference(extension: vscode.Uri): Promise<void> {
  const page = vscode.Uri.joinPath(extension, "grammar/REFERENCE.md");
  try {
    await vscode.commands.executeCommand("markdown.showPreview", page);
  } catch {
    // An editor without a preview of Markdown shows it as text.
    await vscode.window.showTextDocument(page);
  }
}

/** A hover over the first word of a line leads to the reference. */
export function withReference(document: vscode.TextDocument, hover: vscode.Hover | null | undefined): vscode.Hover | null | undefined {
  const start = hover?.range?.start;
  if (!hover || start === undefined || document.lineAt(start).text.slice(0, start.character).trim() !== "") return hover;
  const link = new vscode.MarkdownString("[Language reference](command:splitpin.openReference)");
  link.isTrusted = { enabledCommands: ["splitpin.openReference"] };
  return new vscode.Hover([...hover.contents, link], hover.range);
}
