// The VS Code extension: starts the language server, and opens the page of the parts order beside the sheet.
// Invariant: knows nothing of the language; whatever it shows was worked out by the server. Runs nothing from the workspace.
import * as vscode from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import { createOrderPage } from "./order-page.ts";

let client: LanguageClient | undefined;

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const watcher = vscode.workspace.createFileSystemWatcher("**/*.jobsheet");
  const module = context.asAbsolutePath("dist/splitpin.js");
  client = new LanguageClient(
    "splitpin",
    "Splitpin",
    { module, args: ["server"], transport: TransportKind.ipc },
    { documentSelector: [{ language: "jobsheet" }], synchronize: { fileEvents: watcher } },
  );
  const started = client.start();
  const page = createOrderPage(context, async (uri) => {
    await started;
    return client?.sendRequest("workspace/executeCommand", { command: "splitpin.order", arguments: [uri.toString()] });
  });
  context.subscriptions.push(
    watcher,
    page,
    vscode.commands.registerCommand("splitpin.showOrder", () => page.show()),
  );
  await started;
}

export async function deactivate(): Promise<void> {
  await client?.stop();
}
