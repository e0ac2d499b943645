// The line to the editor: what this server speaks of the Language Server Protocol, over JSON-RPC. The handlers have the shapes of vscode-languageserver,
// whose own connection brings every service that there is, loaded at each start.
// Invariant: the server ends with its editor, with 0 after a shutdown and with 1 without, as the protocol has it; no fault of a handler ends it.
import {
  type CancellationToken,
  ErrorCodes,
  type Logger,
  type MessageConnection,
  type MessageReader,
  type MessageWriter,
  ResponseError,
  createMessageConnection,
} from "vscode-jsonrpc/node";
import type { InitializeParams, Connection as WholeConnection } from "vscode-languageserver";
import { type Slices, isSlices } from "../service.ts";
import { answerRefused, manners } from "./manners.ts";
import { type Between, inTurns } from "./turns.ts";

export { ErrorCodes, ResponseError };

const requests = {
  onInitialize: "initialize",
  onCodeAction: "textDocument/codeAction",
  onCompletion: "textDocument/completion",
  onDefinition: "textDocument/definition",
  onDocumentFormatting: "textDocument/formatting",
  onDocumentSymbol: "textDocument/documentSymbol",
  onExecuteCommand: "workspace/executeCommand",
  onHover: "textDocument/hover",
  onPrepareRename: "textDocument/prepareRename",
  onReferences: "textDocument/references",
  onRenameRequest: "textDocument/rename",
} as const;

const notifications = {
  onInitialized: "initialized",
  onDidChangeTextDocument: "textDocument/didChange",
  onDidChangeWatchedFiles: "workspace/didChangeWatchedFiles",
  onDidCloseTextDocument: "textDocument/didClose",
  onDidOpenTextDocument: "textDocument/didOpen",
} as const;

type Handler<K extends keyof typeof requests> = Parameters<WholeConnection[K]>[0];
/** What a handler gives, at once or in slices. */
type InSlices<A> = A | Slices<A> | Promise<A | Slices<A>>;

type Requests = {
  readonly [K in keyof typeof requests]: (
    handler: (params: Parameters<Handler<K>>[0]) => InSlices<NonNullable<Awaited<ReturnType<Handler<K>>>> | ResponseError | undefined>,
  ) => void;
};

export type Connection = Requests &
  Pick<WholeConnection, keyof typeof notifications | "sendDiagnostics" | "listen"> & {
    /** What the answers to requests hang on. */
    answerBy(sheets: SheetsAsked): void;
    /** A request that has a row of its own. */
    onRow(method: string, handler: (params: never) => unknown): void;
    /** The files of a workspace that is on no disk, as an editor in a browser gives them. */
    onFiles(handler: (params: { readonly files?: unknown }) => void): void;
    /** What an editor's settings say, as it tells them. */
    onDidChangeConfiguration(handler: (params: { readonly settings?: unknown }) => void): void;
    /** Asks the editor to ask for hints, colours and lenses again, where it can. */
    refresh(method: "workspace/inlayHint/refresh" | "workspace/semanticTokens/refresh" | "workspace/codeLens/refresh"): void;
    readonly console: Pick<WholeConnection["console"], "error">;
    readonly workspace: Pick<WholeConnection["workspace"], "getWorkspaceFolders" | "onDidChangeWorkspaceFolders">;
  };

/** What a request must know of the sheets. A handler may give its answer in slices. */
export interface SheetsAsked {
  /** A request about a sheet waits for what this gives, where it gives something: the sheet may not be read yet. */
  whenRead(uri: string): Promise<void> | undefined;
  /** Another number once any text is another. */
  edits(): number;
  /** A check is under way: no command goes on before it. */
  isChecking(): boolean;
}

/**
 * What they give is an edit, or of more than one text: it is given up where any is changed meanwhile. All else is answered of the text of which it was asked: an editor that has no use
 * for it any more cancels it.
 */
const ofManyTexts: ReadonlySet<string> = new Set([requests.onDocumentFormatting, requests.onExecuteCommand, requests.onReferences, requests.onRenameRequest]);

/** As the protocol numbers them. */
const requestCancelled = -32800;
const contentModified = -32801;

/** What is done where the line ends, and how it is known that the editor has fallen over. */
export interface Ends {
  /** Called once the line is closed or the editor says that it is over; `stopped`: it was told to shut down before. */
  end(stopped: boolean): void;
  /** An editor that fell over closes nothing: `end` is called when its process is gone. */
  watch(editor: number | null, end: () => void): void;
}

export function createConnection(reader: MessageReader, writer: MessageWriter, ends: Ends): Connection {
  // A fault of a handler is told to the editor, which keeps a log.
  const say = (type: number) => (message: string) => void line.sendNotification("window/logMessage", { type, message });
  const logger: Logger = { error: say(1), warn: say(2), info: say(3), log: say(4) };
  const line: MessageConnection = createMessageConnection(reader, writer, logger, { messageStrategy: manners() });
  answerRefused(line);

  let stopped = false;
  const end = () => ends.end(stopped);
  line.onRequest("shutdown", () => {
    stopped = true;
    return null;
  });
  line.onNotification("exit", end);
  line.onClose(end);

  let sheets: SheetsAsked = { whenRead: () => undefined, edits: () => 0, isChecking: () => false };
  /** What a handler answers once what it is asked about is read. The protocol knows no undefined. */
  async function answerOf(method: string, params: unknown, cancelled: CancellationToken, handler: () => unknown): Promise<unknown> {
    const { textDocument, arguments: words } = (params ?? {}) as {
      readonly textDocument?: { readonly uri?: unknown };
      readonly arguments?: readonly unknown[];
    };
    const uri = textDocument?.uri ?? words?.[0];
    const wait = typeof uri === "string" ? sheets.whenRead(uri) : undefined;
    if (wait !== undefined) await wait;
    const answer = await handler();
    return (isSlices(answer) ? await inTurns(answer, between(method, cancelled)) : answer) ?? null;
  }

  function between(method: string, cancelled: CancellationToken): Between {
    const { edits, isChecking } = sheets;
    const before = edits();
    return {
      goOn() {
        if (cancelled.isCancellationRequested) throw new ResponseError(requestCancelled, `${method} was cancelled.`);
        if (ofManyTexts.has(method) && edits() !== before) throw new ResponseError(contentModified, `A text was changed before ${method} was answered.`);
      },
      // What is asked at the cursor is waited for; a page can wait.
      waits: () => method === requests.onExecuteCommand && isChecking(),
    };
  }

  const handlers: Record<string, unknown> = {};
  for (const [name, method] of Object.entries(requests)) {
    handlers[name] = (handler: (params: unknown, cancelled: CancellationToken) => unknown) =>
      line.onRequest(method, (params, cancelled) => {
        if (method === "initialize") ends.watch((params as InitializeParams).processId, end);
        return answerOf(method, params, cancelled, () => handler(params, cancelled));
      });
  }
  for (const [name, method] of Object.entries(notifications)) handlers[name] = (handler: (params: unknown) => void) => line.onNotification(method, handler);
  return {
    ...(handlers as unknown as Pick<Connection, keyof typeof requests | keyof typeof notifications>),
    answerBy(asked) {
      sheets = asked;
    },
    onRow: (method, handler) =>
      void line.onRequest(method, (params: unknown, cancelled) => answerOf(method, params, cancelled, () => handler(params as never))),
    onFiles: (handler) => void line.onNotification("splitpin/files", handler),
    onDidChangeConfiguration: (handler) => void line.onNotification("workspace/didChangeConfiguration", handler),
    refresh: (method) => void line.sendRequest(method).catch(() => undefined),
    console: { error: logger.error },
    sendDiagnostics: (params) => line.sendNotification("textDocument/publishDiagnostics", params),
    workspace: {
      getWorkspaceFolders: () => line.sendRequest("workspace/workspaceFolders"),
      onDidChangeWorkspaceFolders: (handler) => line.onNotification("workspace/didChangeWorkspaceFolders", ({ event }) => handler(event)),
    },
    listen: () => line.listen(),
  };
}
