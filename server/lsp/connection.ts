// The line to the editor: what this server speaks of the Language Server Protocol, over JSON-RPC. The handlers have the shapes of vscode-languageserver,
// whose own connection brings every service that there is, loaded at each start.
// Invariant: the server ends with its editor, with 0 after a shutdown and with 1 without, as the protocol has it; no fault of a handler ends it.
import {
  ErrorCodes,
  IPCMessageReader,
  IPCMessageWriter,
  type Logger,
  type MessageConnection,
  type MessageReader,
  type MessageWriter,
  ResponseError,
  StreamMessageReader,
  StreamMessageWriter,
  createMessageConnection,
  createServerPipeTransport,
  createServerSocketTransport,
} from "vscode-jsonrpc/node";
import type { InitializeParams, Connection as WholeConnection } from "vscode-languageserver";
import { answerRefused, manners } from "./manners.ts";

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

export type Connection = Pick<WholeConnection, keyof typeof requests | keyof typeof notifications | "sendDiagnostics" | "listen"> & {
  /** A request that has a row of its own. */
  onRow(method: string, handler: (params: never) => unknown): void;
  /** What an editor's settings say, as it tells them. */
  onDidChangeConfiguration(handler: (params: { readonly settings?: unknown }) => void): void;
  /** Asks the editor to ask for hints, colours and lenses again, where it can. */
  refresh(method: "workspace/inlayHint/refresh" | "workspace/semanticTokens/refresh" | "workspace/codeLens/refresh"): void;
  readonly console: Pick<WholeConnection["console"], "error">;
  readonly workspace: Pick<WholeConnection["workspace"], "getWorkspaceFolders" | "onDidChangeWorkspaceFolders">;
};

/** The way is that which the editor names among the program's words; where it names none, standard input and output. */
export function createConnection(words: readonly string[]): Connection {
  const [reader, writer] = wayOf(words);
  // A fault of a handler is told to the editor, which keeps a log.
  const say = (type: number) => (message: string) => void line.sendNotification("window/logMessage", { type, message });
  const logger: Logger = { error: say(1), warn: say(2), info: say(3), log: say(4) };
  const line: MessageConnection = createMessageConnection(reader, writer, logger, { messageStrategy: manners() });
  answerRefused(line);

  let stopped = false;
  const end = () => process.exit(stopped ? 0 : 1);
  line.onRequest("shutdown", () => {
    stopped = true;
    return null;
  });
  line.onNotification("exit", end);
  line.onClose(end);
  process.once("disconnect", end);

  const handlers: Record<string, unknown> = {};
  for (const [name, method] of Object.entries(requests)) {
    handlers[name] = (handler: (params: unknown, cancelled: unknown) => unknown) =>
      line.onRequest(method, async (params, cancelled) => {
        if (method === "initialize") endWith((params as InitializeParams).processId, end);
        // The protocol knows no undefined.
        return (await handler(params, cancelled)) ?? null;
      });
  }
  for (const [name, method] of Object.entries(notifications)) handlers[name] = (handler: (params: unknown) => void) => line.onNotification(method, handler);
  return {
    ...(handlers as unknown as Pick<Connection, keyof typeof requests | keyof typeof notifications>),
    onRow: (method, handler) => void line.onRequest(method, async (params: unknown) => (await handler(params as never)) ?? null),
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

function wayOf(words: readonly string[]): [MessageReader, MessageWriter] {
  const given = (name: string): string | undefined => {
    const at = words.findIndex((it) => it === name || it.startsWith(`${name}=`));
    return at === -1 ? undefined : words[at] === name ? words[at + 1] : words[at]?.slice(name.length + 1);
  };
  const pipe = given("--pipe");
  const port = given("--socket");
  if (words.includes("--node-ipc")) return [new IPCMessageReader(process), new IPCMessageWriter(process)];
  if (pipe !== undefined) return createServerPipeTransport(pipe);
  if (port !== undefined) return createServerSocketTransport(Number(port));
  return [new StreamMessageReader(process.stdin), new StreamMessageWriter(process.stdout)];
}

/** An editor that fell over closes nothing: it is looked for now and then. */
function endWith(editor: number | null, end: () => void): void {
  if (editor === null) return;
  setInterval(() => {
    try {
      process.kill(editor, 0);
    } catch {
      end();
    }
  }, 3000).unref();
}
