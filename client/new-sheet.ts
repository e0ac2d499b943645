// Asks what a new job is about and writes its sheet, with a data sheet of what comes apart beside it, as the server put them together.
// Invariant: nothing that is there already is written over; who leaves a question by Escape has written nothing.
import * as vscode from "vscode";
import type { Ask } from "./report-page.ts";

interface StartOffered {
  readonly name: string;
  readonly title: string;
}

interface WrittenSheet {
  readonly name: string;
  readonly text: string;
}

const title = "New Job Sheet";

export async function writeNewSheet(ask: Ask): Promise<void> {
  const machine = await vscode.window.showInputBox({
    title: `${title} (1 of 4)`,
    prompt: "What machine is it? Left empty, the sheet leaves a blank.",
    placeHolder: "Maker, type, year",
    ignoreFocusOut: true,
  });
  if (machine === undefined) return;
  const matter = await vscode.window.showInputBox({
    title: `${title} (2 of 4)`,
    prompt: "What is the matter?",
    placeHolder: "Left rear hub rumbles, oil on the drum",
    ignoreFocusOut: true,
  });
  if (matter === undefined) return;
  const starts = (await ask("splitpin.starts")) as readonly StartOffered[];
  const chosen = await vscode.window.showQuickPick(
    starts.map((it) => ({ label: it.title, name: it.name })),
    { title: `${title} (3 of 4)`, placeHolder: "What comes apart? Tick what you want to begin with, or none", canPickMany: true, ignoreFocusOut: true },
  );
  if (chosen === undefined) return;
  const folder = await folderFor();
  if (folder === undefined) return;
  const name = await vscode.window.showInputBox({
    title: `${title} (4 of 4)`,
    prompt: `Name of the file in ${vscode.workspace.asRelativePath(folder) || folder.path}`,
    value: nameFrom(matter) || chosen[0]?.name || nameFrom(machine) || "job",
    ignoreFocusOut: true,
    validateInput: async (it) => whyNotName(folder, it),
  });
  if (name === undefined) return;
  const files = (await ask("splitpin.makeSheet", { name, machine, matter, starts: chosen.map((it) => it.name) })) as readonly WrittenSheet[];
  const [job] = files;
  if (job === undefined) return;
  for (const it of [...files].reverse()) await vscode.workspace.fs.writeFile(vscode.Uri.joinPath(folder, it.name), new TextEncoder().encode(it.text));
  const document = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder, job.name));
  await vscode.window.showTextDocument(document, { selection: firstBlank(document), preview: false });
}

async function folderFor(): Promise<vscode.Uri | undefined> {
  const open = vscode.workspace.workspaceFolders ?? [];
  if (open.length === 1) return open[0]?.uri;
  if (open.length > 1) return (await vscode.window.showWorkspaceFolderPick({ placeHolder: "In which folder?" }))?.uri;
  const [chosen] = (await vscode.window.showOpenDialog({ canSelectFiles: false, canSelectFolders: true, openLabel: "Write the sheet here" })) ?? [];
  return chosen;
}

/** A file's name from what was said: `Left hub rumbles` gives `left-hub-rumbles`. */
function nameFrom(said: string): string {
  const words = said.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
  return words.slice(0, 4).join("-");
}

async function whyNotName(folder: vscode.Uri, name: string): Promise<string | undefined> {
  if (!/^[\p{L}\p{N}][\p{L}\p{M}\p{N} ._-]*$/u.test(name) || name.endsWith(".jobsheet")) return "Letters, digits, - and _, without the ending.";
  for (const it of [`${name}.jobsheet`, `${name}-data.jobsheet`]) if (await isThere(vscode.Uri.joinPath(folder, it))) return `${it} is there already.`;
  return undefined;
}

async function isThere(uri: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(uri);
    return true;
  } catch {
    return false;
  }
}

function firstBlank(document: vscode.TextDocument): vscode.Range {
  const at = document.getText().indexOf("___");
  return at < 0 ? new vscode.Range(0, 0, 0, 0) : new vscode.Range(document.positionAt(at), document.positionAt(at + 3));
}
