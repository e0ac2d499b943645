// The language server: takes what an editor says, asks the features, answers in the protocol's shapes.
// Invariant: no custom request is needed for anything; nothing is registered after the start; no fault of a handler ends the server.
import type { InitializeParams, InitializeResult } from "vscode-languageserver";
import { formatSheet } from "../../grammar/format.ts";
import { readSheet, textOf } from "../../grammar/sheet-text.ts";
import { today } from "../disk/today.ts";
import { completionsAt } from "../features/completion.ts";
import { hoverAt } from "../features/hover.ts";
import { referencesAt } from "../features/everywhere.ts";
import { definitionsAt, renamableAt, whyNotName } from "../features/names.ts";
import { type Job, buildJob } from "../model/job.ts";
import { linesChanged } from "./lines-changed.ts";
import { openSheetsOf } from "./open-sheets.ts";
import { toCompletionItem, toSymbol } from "./to-items.ts";
import { outlineOf } from "../features/outline.ts";
import { answerTo, commandNames } from "./commands.ts";
import { type Connection, ErrorCodes, ResponseError, createConnection } from "./connection.ts";
import { createPublisher } from "./publisher.ts";
import { renameEdit } from "./rename.ts";
import { actionKinds, toCodeActions } from "./to-actions.ts";
import { rangeOf, toLocation } from "./to-protocol.ts";
import { createWorkspaces } from "./workspaces.ts";

/** `TextDocumentSyncKind.Incremental`. */
const inRanges = 2;

export function serve(version: string, connection: Connection = createConnection(process.argv.slice(2))): void {
  const workspaces = createWorkspaces();
  const documents = openSheetsOf(connection);
  const publisher = createPublisher(connection, workspaces, documents);
  let client: InitializeParams["capabilities"] = {};

  connection.onInitialize((params): InitializeResult => {
    client = params.capabilities;
    const single = params.rootUri ?? undefined;
    workspaces.setFolders(params.workspaceFolders?.map((it) => it.uri) ?? (single === undefined ? [] : [single]));
    // The reader is made ready now, so that the first sheet doesn't wait for it.
    readSheet('sheet "ready"\n');
    return {
      serverInfo: { name: "splitpin", version },
      capabilities: {
        textDocumentSync: { openClose: true, change: inRanges },
        codeActionProvider: { codeActionKinds: actionKinds },
        documentFormattingProvider: true,
        hoverProvider: true,
        completionProvider: { triggerCharacters: [" ", '"'] },
        documentSymbolProvider: true,
        definitionProvider: true,
        referencesProvider: true,
        renameProvider: client.textDocument?.rename?.prepareSupport === true ? { prepareProvider: true } : true,
        executeCommandProvider: { commands: [...commandNames] },
        workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
      },
    };
  });
  connection.onInitialized(() => {
    if (client.workspace?.workspaceFolders !== true) return;
    connection.workspace.onDidChangeWorkspaceFolders(async () => {
      const folders = (await connection.workspace.getWorkspaceFolders()) ?? [];
      workspaces.setFolders(folders.map((it) => it.uri));
      publisher.allChanged();
    });
  });

  documents.onChanged((document) => {
    workspaces.put(document);
    publisher.changed(document.uri);
  });
  documents.onClosed((document) => {
    workspaces.forget(document.uri);
    publisher.closed(document.uri);
    publisher.allChanged();
  });
  connection.onDidChangeWatchedFiles(() => publisher.allChanged());

  /** The job of an open sheet, or of one on the disk that an editor asks about. */
  function jobOf(uri: string): Job | undefined {
    const { root, path } = workspaces.locate(uri);
    return buildJob(root.files, path);
  }
  const rootOf = (uri: string) => workspaces.locate(uri).root;

  connection.onCodeAction(({ textDocument: { uri }, range, context }) => {
    const version = documents.get(uri)?.version ?? null;
    return toCodeActions(publisher.current(uri), { range, context, client, version }, rootOf(uri), workspaces);
  });
  connection.onDocumentFormatting(({ textDocument: { uri } }) => {
    const document = documents.get(uri);
    if (document === undefined) return [];
    const text = textOf(document.sheet);
    return linesChanged(text, formatSheet(text));
  });
  connection.onHover(({ textDocument: { uri }, position }) => {
    const job = jobOf(uri);
    const hover = job === undefined ? undefined : hoverAt(job, position.line, position.character);
    if (hover === undefined) return undefined;
    const kind = client.textDocument?.hover?.contentFormat?.includes("markdown") === true ? "markdown" : "plaintext";
    return { contents: { kind, value: kind === "markdown" ? hover.markdown : hover.plain }, range: rangeOf(position.line, hover.from, hover.to) };
  });
  connection.onCompletion(({ textDocument: { uri }, position }) => {
    const job = jobOf(uri);
    const snippets = client.textDocument?.completion?.completionItem?.snippetSupport === true;
    const found = job === undefined ? [] : completionsAt(job, position.line, position.character, { today: today(), story: publisher.checked(uri)?.story });
    const items = found.map((it) => toCompletionItem(it, position.line, snippets));
    // What may be offered hangs on each letter: a list that was made for fewer of them would offer what no longer fits.
    return { isIncomplete: true, items };
  });
  connection.onDocumentSymbol(({ textDocument: { uri } }) => {
    const document = documents.get(uri);
    return document === undefined ? [] : outlineOf(document.sheet).map(toSymbol(document.sheet));
  });
  connection.onDefinition(({ textDocument: { uri }, position }) => {
    const job = jobOf(uri);
    return job === undefined ? [] : definitionsAt(job, position.line, position.character).map((it) => toLocation(it, rootOf(uri), workspaces));
  });
  connection.onReferences(({ textDocument: { uri }, position, context }) => {
    const job = jobOf(uri);
    return job === undefined
      ? []
      : referencesAt(rootOf(uri).files, job, position.line, position.character, context.includeDeclaration).map((it) =>
          toLocation(it, rootOf(uri), workspaces),
        );
  });
  connection.onPrepareRename(({ textDocument: { uri }, position }) => {
    const job = jobOf(uri);
    const found = job === undefined ? undefined : renamableAt(job, position.line, position.character);
    return found === undefined ? undefined : { range: rangeOf(position.line, found.name.at.from, found.name.at.to), placeholder: found.name.text };
  });
  connection.onRenameRequest(({ textDocument: { uri }, position, newName }) => {
    const job = jobOf(uri);
    const found = job === undefined ? undefined : renamableAt(job, position.line, position.character);
    if (job === undefined || found === undefined)
      return new ResponseError(ErrorCodes.InvalidRequest, "No sheet here declares that name, so it can't be renamed.");
    const why = whyNotName(job, newName, found.sort);
    if (why !== undefined) return new ResponseError(ErrorCodes.InvalidParams, why);
    return renameEdit(rootOf(uri), workspaces, job, found, newName);
  });
  connection.onExecuteCommand(async ({ command, arguments: words }) => {
    const asked = await answerTo(command, words ?? [], workspaces);
    return "wrong" in asked ? new ResponseError(ErrorCodes.InvalidParams, asked.wrong) : asked.answer;
  });

  connection.listen();
}
