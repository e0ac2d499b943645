// Gives the server the sheets and price lists of a workspace that is on no disk, and what becomes of them.
// Invariant: only files of the folders that are open, and none that is larger than a sheet may be.
import * as vscode from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";

const wanted = "**/*.{jobsheet,csv}";
const mostFiles = 500;
const largest = 5 * 1024 * 1024;

export async function supplyFiles(context: vscode.ExtensionContext, server: BaseLanguageClient): Promise<void> {
  if ((vscode.workspace.workspaceFolders ?? []).every((it) => it.uri.scheme === "file")) return;
  const send = async (uris: readonly vscode.Uri[]) => {
    const files = await Promise.all(uris.filter((it) => it.scheme !== "file").map(async (it) => ({ uri: it.toString(), text: await textOf(it) })));
    if (files.length > 0) await server.sendNotification("splitpin/files", { files });
  };
  const watcher = vscode.workspace.createFileSystemWatcher(wanted);
  const again = (uri: vscode.Uri) => void send([uri]);
  context.subscriptions.push(watcher, watcher.onDidCreate(again), watcher.onDidChange(again), watcher.onDidDelete(again));
  await send(await vscode.workspace.findFiles(wanted, undefined, mostFiles));
}

/** Null where it is gone, or too large to be a sheet. */
async function textOf(uri: vscode.Uri): Promise<string | null> {
  try {
    const { size } = await vscode.workspace.fs.stat(uri);
    return size > largest ? null : new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
  } catch {
    return null;
  }
}
