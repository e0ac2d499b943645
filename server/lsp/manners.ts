// The protocol's manners: what may be said when, and whether a message holds what its method takes. What may not be said is answered with an error that says why.
// Invariant: no handler sees a message out of its time or with parameters of another shape; a notification that can't be taken is left out, as the protocol asks.
import { ErrorCodes, type Message, type MessageConnection, type MessageStrategy, ResponseError } from "vscode-jsonrpc/node";

interface Refusal {
  readonly code: number;
  readonly why: string;
}

/** What is refused is handed on under this name, so that the connection itself answers. */
const refused = "splitpin/refused";

/** To be given to the connection when it is made; `answerRefused` then lets it answer. */
export function manners(): MessageStrategy {
  let stage: "not initialized" | "open" | "shut down" = "not initialized";

  function refusalOf(method: string, params: unknown): Refusal | undefined {
    if (method === refused) return { code: ErrorCodes.MethodNotFound, why: `There is no method ${refused}.` };
    if (stage === "shut down") return { code: ErrorCodes.InvalidRequest, why: `The server has been told to shut down, and takes no ${method} any more.` };
    if (stage === "not initialized" && method !== "initialize") return { code: ErrorCodes.ServerNotInitialized, why: `${method} came before initialize.` };
    if (stage === "open" && method === "initialize") return { code: ErrorCodes.InvalidRequest, why: "The server has been initialized already." };
    const wrong = shapes[method]?.(params);
    return wrong === undefined ? undefined : { code: ErrorCodes.InvalidParams, why: `${method} takes ${wrong}.` };
  }

  return {
    handleMessage(message, next) {
      const { id, method, params } = message as Message & { readonly id?: unknown; readonly method?: unknown; readonly params?: unknown };
      // An answer to a request of the server's, or the end, which may come at any time.
      if (typeof method !== "string" || (method === "exit" && id === undefined)) return next(message);
      const refusal = refusalOf(method, params);
      if (refusal !== undefined) {
        if (id !== undefined) next({ ...message, method: refused, params: refusal } as Message);
        return;
      }
      if (id !== undefined && method === "initialize") stage = "open";
      if (id !== undefined && method === "shutdown") stage = "shut down";
      next(message);
    },
  };
}

export function answerRefused(connection: MessageConnection): void {
  connection.onRequest(refused, ({ code, why }: Refusal) => new ResponseError(code, why));
}

// ---------------------------------------------------------------- shapes of parameters

type Fields = Readonly<Record<string, unknown>>;

/** What is wrong with the parameters of a method, as what it takes; undefined where nothing is. */
type Shape = (params: unknown) => string | undefined;

const takes =
  (is: (params: Fields) => boolean, what: string): Shape =>
  (params) =>
    isFields(params) && is(params) ? undefined : what;

const ofDocument = takes(hasDocument, "a textDocument with its uri");
const atPosition = takes((it) => hasDocument(it) && isPosition(it.position), "a textDocument with its uri, and a position of whole numbers from 0");

const inRange = takes((it) => hasDocument(it) && isRange(it.range), "a textDocument with its uri, and a range");

const shapes: Readonly<Record<string, Shape>> = {
  initialize: takes(
    ({ capabilities, rootUri, workspaceFolders }) =>
      isFields(capabilities) &&
      (rootUri === undefined || rootUri === null || typeof rootUri === "string") &&
      (!workspaceFolders || isListOf(workspaceFolders, hasUri)),
    "capabilities, and workspaceFolders that have a uri each",
  ),
  "textDocument/didOpen": takes(
    ({ textDocument: it }) => hasUri(it) && typeof it.text === "string" && typeof it.version === "number",
    "a textDocument with its uri, version and text",
  ),
  "textDocument/didChange": takes(
    ({ textDocument: it, contentChanges }) => hasUri(it) && typeof it.version === "number" && isListOf(contentChanges, isChange),
    "a textDocument with its uri and version, and contentChanges with a text each",
  ),
  "textDocument/didClose": ofDocument,
  "workspace/didChangeWorkspaceFolders": takes(
    ({ event }) => isFields(event) && isListOf(event.added, hasUri) && isListOf(event.removed, hasUri),
    "an event with the folders added and removed",
  ),
  "workspace/didChangeConfiguration": takes(() => true, "the settings"),
  "workspace/didChangeWatchedFiles": takes(({ changes }) => isListOf(changes, hasUri), "the files that changed, with a uri each"),
  "splitpin/files": takes(({ files }) => isListOf(files, hasUri), "files with a uri each"),
  "textDocument/codeAction": takes(
    ({ textDocument, range, context: it }) =>
      hasDocument({ textDocument }) &&
      isRange(range) &&
      isFields(it) &&
      (it.only === undefined || isListOf(it.only, isText)) &&
      (it.diagnostics === undefined || isListOf(it.diagnostics, (about) => isFields(about) && isRange(about.range))),
    "a textDocument with its uri, a range, and a context",
  ),
  "textDocument/inlayHint": inRange,
  "textDocument/semanticTokens/range": inRange,
  "textDocument/semanticTokens/full": ofDocument,
  "textDocument/codeLens": ofDocument,
  "codeLens/resolve": takes((it) => isRange(it.range), "a lens with its range"),
  "textDocument/documentHighlight": atPosition,
  "textDocument/documentLink": ofDocument,
  "textDocument/foldingRange": ofDocument,
  "textDocument/signatureHelp": atPosition,
  "textDocument/selectionRange": takes((it) => hasDocument(it) && isListOf(it.positions, isPosition), "a textDocument with its uri, and a list of positions"),
  "workspace/symbol": takes((it) => typeof it.query === "string", "a query"),
  "textDocument/formatting": ofDocument,
  "textDocument/documentSymbol": ofDocument,
  "textDocument/hover": atPosition,
  "textDocument/completion": atPosition,
  "textDocument/definition": atPosition,
  "textDocument/prepareRename": atPosition,
  "textDocument/references": takes(
    (it) => atPosition(it) === undefined && isFields(it.context) && typeof it.context.includeDeclaration === "boolean",
    "a textDocument with its uri, a position of whole numbers from 0, and a context that says includeDeclaration",
  ),
  "textDocument/rename": takes(
    (it) => atPosition(it) === undefined && typeof it.newName === "string",
    "a textDocument with its uri, a position of whole numbers from 0, and a newName",
  ),
  "workspace/executeCommand": takes(
    (it) => typeof it.command === "string" && (it.arguments === undefined || Array.isArray(it.arguments)),
    "the name of a command, and a list of arguments",
  ),
};

function isFields(it: unknown): it is Fields {
  return typeof it === "object" && it !== null && !Array.isArray(it);
}

function isText(it: unknown): it is string {
  return typeof it === "string";
}

function isListOf(list: unknown, is: (it: unknown) => boolean): boolean {
  return Array.isArray(list) && list.every(is);
}

function hasUri(it: unknown): it is Fields {
  return isFields(it) && typeof it.uri === "string";
}

function hasDocument({ textDocument }: Fields): boolean {
  return hasUri(textDocument);
}

function isPosition(it: unknown): boolean {
  return isFields(it) && isCount(it.line) && isCount(it.character);
}

function isCount(it: unknown): boolean {
  return typeof it === "number" && Number.isInteger(it) && it >= 0;
}

function isRange(it: unknown): boolean {
  return isFields(it) && isPosition(it.start) && isPosition(it.end);
}

function isChange(it: unknown): boolean {
  return isFields(it) && typeof it.text === "string" && (it.range === undefined || isRange(it.range));
}
