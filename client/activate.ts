// What the extension does in any editor, on a desk or in a browser: starts the language server that it is given, and offers its commands: a new sheet, the page of the reports, the way back.
// Invariant: knows nothing of the language; whatever it shows or writes was worked out by the server. Runs nothing from the workspace.
import * as vscode from "vscode";
import type { BaseLanguageClient, LanguageClientOptions } from "vscode-languageclient";
import { watchClosingQuote } from "./closing-quote.ts";
import { createJobsTree } from "./jobs-tree.ts";
import { writeNewSheet } from "./new-sheet.ts";
import { takePictures } from "./pictures.ts";
import { openReference, withReference } from "./reference.ts";
import { createReportPage } from "./report-page.ts";
import { createStatusItem } from "./status.ts";
import { addReading, markDone } from "./write-lines.ts";
import { writeWayBack } from "./write-way-back.ts";
import { supplyFiles } from "./supply-files.ts";

/** Makes the client of a server; it is started here. */
export type Start = (options: LanguageClientOptions) => BaseLanguageClient;

export async function activateWith(context: vscode.ExtensionContext, start: Start): Promise<BaseLanguageClient> {
  const watcher = vscode.workspace.createFileSystemWatcher("**/*.jobsheet");
  // The price lists that sheets name: a new one changes the order.
  const priceLists = vscode.workspace.createFileSystemWatcher("**/*.csv");
  const server = start({
    documentSelector: [{ language: "jobsheet" }],
    synchronize: { fileEvents: [watcher, priceLists], configurationSection: "splitpin" },
    // Plain values: what an editor gives here can't be posted to a worker.
    initializationOptions: {
      pictures: true,
      commands: true,
      hints: JSON.parse(JSON.stringify(vscode.workspace.getConfiguration("splitpin").get("hints") ?? {})),
    },
    middleware: {
      provideHover: async (document, position, token, next) => withReference(document, await next(document, position, token)),
      provideCodeLenses: (document, token, next) => (vscode.workspace.getConfiguration("splitpin").get("lenses") === false ? [] : next(document, token)),
      handleDiagnostics(uri, diagnostics, next) {
        next(uri, diagnostics);
        status.changed();
        jobs.changed();
      },
    },
  });
  const started = server.start();
  const ask = async (command: string, ...words: unknown[]): Promise<unknown> => {
    await started;
    return server.sendRequest("workspace/executeCommand", { command, arguments: words });
  };
  const page = createReportPage(context, ask, [watcher, priceLists]);
  const status = createStatusItem(ask);
  const jobs = createJobsTree(ask);
  const commands: Readonly<Record<string, (...words: unknown[]) => Promise<void>>> = {
    "splitpin.markDone": (uri, line, name) => markDone(ask, uri, line, name),
    "splitpin.addReading": () => addReading(ask),
    "splitpin.newSheet": () => writeNewSheet(ask),
    "splitpin.openReference": () => openReference(context.extensionUri),
    "splitpin.showReport": () => page.show(),
    "splitpin.showOrder": () => page.show("order"),
    "splitpin.showRelease": () => page.show("release"),
    "splitpin.showPlan": () => page.show("plan"),
    "splitpin.saveReport": () => page.save(),
    "splitpin.writeTheWayBack": () => writeWayBack(ask, (edit) => server.protocol2CodeConverter.asWorkspaceEdit(edit)),
  };
  context.subscriptions.push(
    watcher,
    priceLists,
    page,
    status,
    jobs,
    takePictures(),
    watchClosingQuote(),
    ...Object.entries(commands).map(([name, run]) => vscode.commands.registerCommand(name, run)),
  );
  await started;
  await supplyFiles(context, server);
  return server;
}
