// The VS Code extension: starts the language server, and opens the pages of its reports beside the sheet.
// Invariant: knows nothing of the language; whatever it shows was worked out by the server. Runs nothing from the workspace.
import * as vscode from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import { type Report, createReportPage } from "./report-page.ts";

/** The reports by the command that opens each. */
const reports: Readonly<Record<string, Report>> = {
  "splitpin.showOrder": { command: "splitpin.order", title: "Parts Order" },
  "splitpin.showRelease": { command: "splitpin.release", title: "What Stands in the Way" },
  "splitpin.showPlan": { command: "splitpin.plan", title: "Work for Today" },
};

let client: LanguageClient | undefined;

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const watcher = vscode.workspace.createFileSystemWatcher("**/*.jobsheet");
  // The price lists that sheets name: a new one changes the order.
  const priceLists = vscode.workspace.createFileSystemWatcher("**/*.csv");
  const module = context.asAbsolutePath("dist/splitpin.js");
  client = new LanguageClient(
    "splitpin",
    "Splitpin",
    { module, args: ["server"], transport: TransportKind.ipc },
    { documentSelector: [{ language: "jobsheet" }], synchronize: { fileEvents: [watcher, priceLists] } },
  );
  const started = client.start();
  const ask = async (command: string, uri: vscode.Uri) => {
    await started;
    return client?.sendRequest("workspace/executeCommand", { command, arguments: [uri.toString()] });
  };
  context.subscriptions.push(watcher, priceLists);
  for (const [command, report] of Object.entries(reports)) {
    const page = createReportPage(context, report, ask, [watcher, priceLists]);
    context.subscriptions.push(
      page,
      vscode.commands.registerCommand(command, () => page.show()),
    );
  }
  await started;
}

export async function deactivate(): Promise<void> {
  await client?.stop();
}
