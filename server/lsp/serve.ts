// The language server: takes what an editor says, asks the features, answers in the protocol's shapes.
// Invariant: no custom request is needed for anything; nothing is registered after the start; no fault of a handler ends the server.
import type { InitializeParams, InitializeResult, TextDocumentPositionParams } from "vscode-languageserver";
import { readSheet, textOf } from "../../grammar/sheet-text.ts";
import { today } from "../disk/today.ts";
import { formatting } from "../service.ts";
import { answerTo, commandNames } from "./commands.ts";
import { type Connection, ErrorCodes, ResponseError } from "./connection.ts";
import { linesChanged } from "./lines-changed.ts";
import { type OpenSheets, openSheetsOf } from "./open-sheets.ts";
import { type Publisher, createPublisher } from "./publisher.ts";
import { actionKinds, toCodeActions } from "./to-actions.ts";
import { toCompletionItem, toSymbol } from "./to-items.ts";
import { type Around, rows } from "./rows.ts";
import { type Settings, settingsFrom } from "./settings.ts";
import { rangeOf, toLocation, toWorkspaceEdit } from "./to-protocol.ts";
import { shaped } from "./turns.ts";
import { type Workspaces, createWorkspaces } from "./workspaces.ts";

/** `TextDocumentSyncKind.Incremental`. */
const inRanges = 2;

/** `CompletionTriggerKind.Invoked`: by a key, or behind a letter; a list behind a blank says that the blank brought it up. */
const byHand = 1;

/** What the handlers share: what is open, what was checked of it, and what the editor said of itself. */
interface Server {
  readonly connection: Connection;
  readonly workspaces: Workspaces;
  readonly documents: OpenSheets;
  readonly publisher: Publisher;
  client: InitializeParams["capabilities"];
  settings: Settings;
}

export function serve(version: string, connection: Connection): Pick<Publisher, "settleIn"> {
  const workspaces = createWorkspaces();
  const documents = openSheetsOf(connection);
  const publisher = createPublisher(connection, workspaces, documents);
  connection.answerBy({ whenRead: (uri) => documents.whenRead(uri), edits: () => publisher.edits(), isChecking: () => publisher.isChecking() });
  const server: Server = { connection, workspaces, documents, publisher, client: {}, settings: settingsFrom(undefined) };
  takeStart(server, version);
  takeChanges(server);
  answerAtPlaces(server);
  answerNames(server);
  answerOfSheets(server);
  answerRows(server);
  showAnew(server);
  connection.listen();
  return publisher;
}

function takeStart(server: Server, version: string): void {
  const { connection, workspaces, publisher } = server;
  connection.onInitialize((params): InitializeResult => {
    server.client = params.capabilities;
    server.settings = settingsFrom(params.initializationOptions);
    const single = params.rootUri ?? undefined;
    workspaces.setFolders(params.workspaceFolders?.map((it) => it.uri) ?? (single === undefined ? [] : [single]));
    // The reader is made ready now, so that the first sheet doesn't wait for it.
    readSheet('sheet "ready"\n');
    return { serverInfo: { name: "splitpin", version }, capabilities: promisesTo(server.client) };
  });
  connection.onInitialized(() => {
    if (server.client.workspace?.workspaceFolders !== true) return;
    connection.workspace.onDidChangeWorkspaceFolders(async () => {
      const folders = (await connection.workspace.getWorkspaceFolders()) ?? [];
      workspaces.setFolders(folders.map((it) => it.uri));
      publisher.allChanged();
    });
  });
}

function promisesTo(client: Server["client"]): InitializeResult["capabilities"] {
  return {
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
  };
}

/** Texts that are opened, edited and closed, and files that change beside them. */
function takeChanges({ connection, workspaces, documents, publisher }: Server): void {
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

  connection.onFiles(({ files }) => {
    if (!Array.isArray(files)) return;
    for (const it of files as readonly { readonly uri?: unknown; readonly text?: unknown }[]) {
      if (typeof it?.uri === "string") workspaces.supply(it.uri, typeof it.text === "string" ? it.text : undefined);
    }
    publisher.allChanged();
  });
}

/** The service that knows a sheet, open or on the disk, with its path there. */
function serviceOf({ workspaces }: Server, uri: string) {
  const { workspace, path } = workspaces.locate(uri);
  return { service: workspace.service, path, uriOf: workspace.uriOf };
}

/** The same with a place in it. What is asked there may be answered of the last check. */
function atPlace(server: Server, { textDocument: { uri }, position: { line, character } }: TextDocumentPositionParams) {
  const { service, path, uriOf } = serviceOf(server, uri);
  return { service, uriOf, at: { path, line, column: character, checked: server.publisher.stands(uri) } };
}

/** What stands at a place, and what may be written there. */
function answerAtPlaces(server: Server): void {
  const { connection } = server;
  connection.onHover(async (params) => {
    const { service, at, uriOf } = atPlace(server, params);
    return shaped(await service.hover(at), (hover) => {
      if (hover === undefined) return undefined;
      const kind = server.client.textDocument?.hover?.contentFormat?.includes("markdown") === true ? "markdown" : "plaintext";
      const picture = hover.picture === undefined || !server.settings.pictures ? "" : `\n\n![](${addressOf(uriOf(hover.picture))}|height=165)`;
      return { contents: { kind, value: kind === "markdown" ? `${hover.markdown}${picture}` : hover.plain }, range: rangeOf(at.line, hover.from, hover.to) };
    });
  });
  connection.onCompletion(async (params) => {
    const { service, at } = atPlace(server, params);
    const snippets = server.client.textDocument?.completion?.completionItem?.snippetSupport === true;
    // What may be offered hangs on each letter: a list that was made for fewer of them would offer what no longer fits.
    const asked = params.context?.triggerKind === byHand;
    return shaped(await service.complete(at, today(), asked), (found) => ({
      isIncomplete: true,
      items: found.map((it) => toCompletionItem(it, at.line, snippets)),
    }));
  });
}

/** Where a name is declared and mentioned, and what it is called instead. */
function answerNames(server: Server): void {
  const { connection } = server;
  connection.onDefinition(async (params) => {
    const { service, at, uriOf } = atPlace(server, params);
    return shaped(await service.definitions(at), (places) => places.map((it) => toLocation(it, uriOf)));
  });
  connection.onReferences(async (params) => {
    const { service, at, uriOf } = atPlace(server, params);
    return shaped(await service.references(at, params.context.includeDeclaration), (places) => places.map((it) => toLocation(it, uriOf)));
  });
  connection.onPrepareRename(async (params) => {
    const { service, at } = atPlace(server, params);
    return shaped(await service.renamable(at), (found) =>
      found === undefined ? undefined : { range: rangeOf(at.line, found.name.at.from, found.name.at.to), placeholder: found.name.text },
    );
  });
  connection.onRenameRequest(async (params) => {
    const { service, at, uriOf } = atPlace(server, params);
    return shaped(await service.rename(at, params.newName), (renamed) => {
      if (renamed === undefined) return new ResponseError(ErrorCodes.InvalidRequest, "No sheet here declares that name, so it can't be renamed.");
      if ("why" in renamed) return new ResponseError(ErrorCodes.InvalidParams, renamed.why);
      return toWorkspaceEdit(
        renamed.places.map((it) => ({ ...it, text: renamed.name })),
        uriOf,
      );
    });
  });
}

/** What is asked of a sheet as a whole, and the commands. */
function answerOfSheets(server: Server): void {
  const { connection, workspaces, documents, publisher } = server;
  connection.onCodeAction(async ({ textDocument: { uri }, range, context }) => {
    const list = await publisher.current(uri);
    const version = documents.get(uri)?.version ?? null;
    const { service, uriOf } = serviceOf(server, uri);
    const newlineOf = (file: string) => {
      const sheet = service.files.read(file);
      return typeof sheet === "string" ? "\n" : sheet.newline;
    };
    return toCodeActions(list, { range, context, client: server.client, version, sheet: documents.get(uri)?.sheet, newlineOf }, uriOf);
  });
  connection.onDocumentFormatting(({ textDocument: { uri } }) => {
    const sheet = documents.get(uri)?.sheet;
    if (sheet === undefined) return [];
    const text = textOf(sheet);
    return shaped(formatting(text), (laidOut) => linesChanged(text, laidOut));
  });
  connection.onDocumentSymbol(async ({ textDocument: { uri } }) => {
    const { service, path } = serviceOf(server, uri);
    const sheet = documents.get(uri)?.sheet;
    return sheet === undefined ? [] : shaped(await service.symbols(path), (nodes) => nodes.map(toSymbol(sheet)));
  });
  connection.onExecuteCommand(async ({ command, arguments: words }) => {
    const asked = await answerTo(command, words ?? [], workspaces, (uri) => publisher.checked(uri));
    return "wrong" in asked ? new ResponseError(ErrorCodes.InvalidParams, asked.wrong) : asked.answer;
  });
}

function answerRows(server: Server): void {
  const { connection, workspaces, publisher } = server;
  const around: Around = {
    workspaces,
    checked: (uri) => publisher.checked(uri),
    today: () => today(),
    hints: () => server.settings.hints,
    hasCommands: () => server.settings.commands,
  };
  for (const row of rows) connection.onRow(row.method, (params) => row.answer(params, around));
}

/** Lets the editor ask again for what it shows beside the lines. */
function showAnew(server: Server): void {
  const { connection, publisher } = server;
  connection.onDidChangeConfiguration((params) => {
    // What an editor can show and run does not change while it runs.
    server.settings = { ...settingsFrom(params.settings), pictures: server.settings.pictures, commands: server.settings.commands };
    if (server.client.workspace?.inlayHint?.refreshSupport === true) connection.refresh("workspace/inlayHint/refresh");
  });
  // What is shown beside the lines follows each whole check: an editor asks for it with each edit, and again when it is told to.
  publisher.onChecked(() => {
    if (server.client.workspace?.inlayHint?.refreshSupport === true) connection.refresh("workspace/inlayHint/refresh");
    if (server.client.workspace?.semanticTokens?.refreshSupport === true) connection.refresh("workspace/semanticTokens/refresh");
    if (server.client.workspace?.codeLens?.refreshSupport === true) connection.refresh("workspace/codeLens/refresh");
  });
}

/** A URI as it stands within the brackets of a link of Markdown. */
function addressOf(uri: string): string {
  return uri.replace(/[()<>\\|\s]/g, (it) => `%${it.charCodeAt(0).toString(16).toUpperCase().padStart(2, "0")}`);
}
