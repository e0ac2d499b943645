// The language server: takes what an editor says, asks the features, answers in the protocol's shapes.
// Invariant: no custom request is needed for anything; nothing is registered after the start; no fault of a handler ends the server.
import type { InitializeParams, InitializeResult, TextDocumentPositionParams } from "vscode-languageserver";
import { readSheet, textOf } from "../../grammar/sheet-text.ts";
import { today } from "../disk/today.ts";
import { formatting } from "../service.ts";
import { answerTo, commandNames } from "./commands.ts";
import { type Connection, ErrorCodes, ResponseError } from "./connection.ts";
import { linesChanged } from "./lines-changed.ts";
import { openSheetsOf } from "./open-sheets.ts";
import { createPublisher } from "./publisher.ts";
import { actionKinds, toCodeActions } from "./to-actions.ts";
import { toCompletionItem, toSymbol } from "./to-items.ts";
import { type Around, rows } from "./rows.ts";
import { type Settings, settingsFrom } from "./settings.ts";
import { rangeOf, toLocation, toWorkspaceEdit } from "./to-protocol.ts";
import { shaped } from "./turns.ts";
import { createWorkspaces } from "./workspaces.ts";

/** `TextDocumentSyncKind.Incremental`. */
const inRanges = 2;

export function serve(version: string, connection: Connection): void {
  const workspaces = createWorkspaces();
  const documents = openSheetsOf(connection);
  const publisher = createPublisher(connection, workspaces, documents);
  connection.answerBy({ whenRead: (uri) => documents.whenRead(uri), edits: () => publisher.edits(), isChecking: () => publisher.isChecking() });
  let client: InitializeParams["capabilities"] = {};
  let settings: Settings = settingsFrom(undefined);

  connection.onInitialize((params): InitializeResult => {
    client = params.capabilities;
    settings = settingsFrom(params.initializationOptions);
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
        // A slash goes on in a path; behind a figure it brings nothing.
        completionProvider: { triggerCharacters: [" ", '"', "/"] },
        documentSymbolProvider: true,
        definitionProvider: true,
        referencesProvider: true,
        renameProvider: client.textDocument?.rename?.prepareSupport === true ? { prepareProvider: true } : true,
        executeCommandProvider: { commands: [...commandNames] },
        workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
        ...Object.assign({}, ...rows.map((it) => it.promises)),
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

  /** The service that knows a sheet, open or on the disk, with its path there. */
  function of(uri: string) {
    const { workspace, path } = workspaces.locate(uri);
    return { service: workspace.service, path, uriOf: workspace.uriOf };
  }

  /** The same with a place in it. What is asked there may be answered of the last check. */
  function atPlace({ textDocument: { uri }, position: { line, character } }: TextDocumentPositionParams) {
    const { service, path, uriOf } = of(uri);
    return { service, uriOf, at: { path, line, column: character, checked: publisher.stands(uri) } };
  }

  connection.onCodeAction(async ({ textDocument: { uri }, range, context }) => {
    const list = await publisher.current(uri);
    const version = documents.get(uri)?.version ?? null;
    return toCodeActions(list, { range, context, client, version, sheet: documents.get(uri)?.sheet }, of(uri).uriOf);
  });
  connection.onDocumentFormatting(({ textDocument: { uri } }) => {
    const sheet = documents.get(uri)?.sheet;
    if (sheet === undefined) return [];
    const text = textOf(sheet);
    return shaped(formatting(text), (laidOut) => linesChanged(text, laidOut));
  });
  connection.onHover(async (params) => {
    const { service, at, uriOf } = atPlace(params);
    return shaped(await service.hover(at), (hover) => {
      if (hover === undefined) return undefined;
      const kind = client.textDocument?.hover?.contentFormat?.includes("markdown") === true ? "markdown" : "plaintext";
      const picture = hover.picture === undefined || !settings.pictures ? "" : `\n\n![](${addressOf(uriOf(hover.picture))}|height=165)`;
      return { contents: { kind, value: kind === "markdown" ? `${hover.markdown}${picture}` : hover.plain }, range: rangeOf(at.line, hover.from, hover.to) };
    });
  });
  connection.onCompletion(async (params) => {
    const { service, at } = atPlace(params);
    const snippets = client.textDocument?.completion?.completionItem?.snippetSupport === true;
    // What may be offered hangs on each letter: a list that was made for fewer of them would offer what no longer fits.
    return shaped(await service.complete(at, today()), (found) => ({ isIncomplete: true, items: found.map((it) => toCompletionItem(it, at.line, snippets)) }));
  });
  connection.onDocumentSymbol(async ({ textDocument: { uri } }) => {
    const { service, path } = of(uri);
    const sheet = documents.get(uri)?.sheet;
    return sheet === undefined ? [] : shaped(await service.symbols(path), (nodes) => nodes.map(toSymbol(sheet)));
  });
  connection.onDefinition(async (params) => {
    const { service, at, uriOf } = atPlace(params);
    return shaped(await service.definitions(at), (places) => places.map((it) => toLocation(it, uriOf)));
  });
  connection.onReferences(async (params) => {
    const { service, at, uriOf } = atPlace(params);
    return shaped(await service.references(at, params.context.includeDeclaration), (places) => places.map((it) => toLocation(it, uriOf)));
  });
  connection.onPrepareRename(async (params) => {
    const { service, at } = atPlace(params);
    return shaped(await service.renamable(at), (found) =>
      found === undefined ? undefined : { range: rangeOf(at.line, found.name.at.from, found.name.at.to), placeholder: found.name.text },
    );
  });
  connection.onRenameRequest(async (params) => {
    const { service, at, uriOf } = atPlace(params);
    return shaped(await service.rename(at, params.newName), (renamed) => {
      if (renamed === undefined) return new ResponseError(ErrorCodes.InvalidRequest, "No sheet here declares that name, so it can't be renamed.");
      if ("why" in renamed) return new ResponseError(ErrorCodes.InvalidParams, renamed.why);
      return toWorkspaceEdit(
        renamed.places.map((it) => ({ ...it, text: renamed.name })),
        uriOf,
      );
    });
  });
  connection.onExecuteCommand(async ({ command, arguments: words }) => {
    const asked = await answerTo(command, words ?? [], workspaces, (uri) => publisher.checked(uri));
    return "wrong" in asked ? new ResponseError(ErrorCodes.InvalidParams, asked.wrong) : asked.answer;
  });

  connection.onFiles(({ files }) => {
    if (!Array.isArray(files)) return;
    for (const it of files as readonly { readonly uri?: unknown; readonly text?: unknown }[]) {
      if (typeof it?.uri === "string") workspaces.supply(it.uri, typeof it.text === "string" ? it.text : undefined);
    }
    publisher.allChanged();
  });

  const around: Around = {
    workspaces,
    checked: (uri) => publisher.checked(uri),
    today: () => today(),
    hints: () => settings.hints,
  };
  for (const row of rows) connection.onRow(row.method, (params) => row.answer(params, around));
  connection.onDidChangeConfiguration((params) => {
    // What an editor can show does not change while it runs.
    settings = { ...settingsFrom(params.settings), pictures: settings.pictures };
    if (client.workspace?.inlayHint?.refreshSupport === true) connection.refresh("workspace/inlayHint/refresh");
  });
  // What is shown beside the lines follows each whole check: an editor asks for it with each edit, and again when it is told to.
  publisher.onChecked(() => {
    if (client.workspace?.inlayHint?.refreshSupport === true) connection.refresh("workspace/inlayHint/refresh");
    if (client.workspace?.semanticTokens?.refreshSupport === true) connection.refresh("workspace/semanticTokens/refresh");
    if (client.workspace?.codeLens?.refreshSupport === true) connection.refresh("workspace/codeLens/refresh");
  });

  connection.listen();
}

/** A URI as it stands within the brackets of a link of Markdown. */
function addressOf(uri: string): string {
  return uri.replace(/[()<>\\|\s]/g, (it) => `%${it.charCodeAt(0).toString(16).toUpperCase().padStart(2, "0")}`);
}
