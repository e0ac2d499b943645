// The real server as a process, spoken to over its standard input and output by the protocol alone.
import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { program } from "../built.ts";

export { program };

export interface Position {
  readonly line: number;
  readonly character: number;
}
export interface Range {
  readonly start: Position;
  readonly end: Position;
}
export interface WireDiagnostic {
  readonly range: Range;
  readonly severity: 1 | 2 | 3 | 4;
  readonly code: string;
  readonly codeDescription?: { readonly href: string };
  readonly message: string;
  readonly tags?: readonly number[];
  readonly relatedInformation?: readonly { readonly location: { readonly uri: string; readonly range: Range }; readonly message: string }[];
}

export interface Wire {
  readonly process: ChildProcessWithoutNullStreams;
  /** Everything that the server wrote to its error stream. */
  errors(): string;
  /** What it wrote to the editor's log. */
  logged(): readonly string[];
  /** Throws what the server answered as an error, with its code. */
  request<T = unknown>(method: string, params?: unknown): Promise<T>;
  notify(method: string, params?: unknown): void;
  /** Starts the conversation as a plain client would: nothing registered dynamically. */
  initialize(folders?: readonly string[], capabilities?: unknown): Promise<{ capabilities: Record<string, unknown> }>;
  open(uri: string, text: string, version?: number): void;
  change(uri: string, version: number, changes: readonly { readonly range?: Range; readonly text: string }[]): void;
  /** The newest list for a sheet, once one arrives after `since` lists were seen. */
  diagnostics(uri: string, since?: number): Promise<readonly WireDiagnostic[]>;
  /** The list for a version of a sheet, or a newer one. One that says what the list before it said is never sent. */
  diagnosticsAt(uri: string, version: number): Promise<readonly WireDiagnostic[]>;
  /** How many lists have come for a sheet. */
  listsOf(uri: string): number;
  /** Called with the time of arrival of each list, the beginnings of lists too, which a long sheet is told at its opening. */
  onList(listener: (uri: string, list: readonly WireDiagnostic[], at: number) => void): void;
  stop(): Promise<number | null>;
}

/** The deadline bounds a server that hangs; nothing waits for it otherwise. */
export function startServer({ args = ["server", "--stdio"], deadline = 60_000, entry = program, node = process.execPath } = {}): Wire {
  const child = spawn(node, [entry, ...args], { stdio: ["pipe", "pipe", "pipe"] });
  let errorText = "";
  const logged: string[] = [];
  child.stderr.on("data", (bytes: Buffer) => {
    errorText += bytes.toString();
  });
  let next = 1;
  const waiting = new Map<number, { resolve(value: never): void; reject(error: Error): void }>();
  const lists = new Map<string, { count: number; last: readonly WireDiagnostic[]; version: number | undefined }>();
  const listeners: ((uri: string, list: readonly WireDiagnostic[], at: number) => void)[] = [];
  const wakers = new Set<() => void>();
  const ended = new Promise<number | null>((resolve) => child.on("exit", resolve));

  let pending: Buffer = Buffer.alloc(0);
  child.stdout.on("data", (bytes: Buffer) => {
    pending = pending.length === 0 ? bytes : Buffer.concat([pending, bytes]);
    for (;;) {
      const head = pending.indexOf("\r\n\r\n");
      if (head === -1) return;
      const length = Number(/Content-Length: (\d+)/i.exec(pending.toString("latin1", 0, head))?.[1]);
      if (pending.length < head + 4 + length) return;
      const message = JSON.parse(pending.toString("utf8", head + 4, head + 4 + length));
      pending = pending.subarray(head + 4 + length);
      received(message);
    }
  });

  function received(message: { id?: number; method?: string; params?: never; result?: never; error?: { code: number; message: string } }): void {
    if (message.method === "textDocument/publishDiagnostics") {
      const { uri, diagnostics, version } = message.params as unknown as { uri: string; diagnostics: WireDiagnostic[]; version?: number };
      // A list that says itself that it is a beginning is nobody's answer yet.
      const isWhole = !diagnostics.some((it) => it.code === "check-under-way");
      if (isWhole) lists.set(uri, { count: (lists.get(uri)?.count ?? 0) + 1, last: diagnostics, version });
      const at = performance.now();
      for (const listener of listeners) listener(uri, diagnostics, at);
      for (const wake of [...wakers]) wake();
    } else if (message.method === "window/logMessage") {
      logged.push((message.params as unknown as { message: string }).message);
    } else if (message.method !== undefined && message.id !== undefined) {
      // A request of the server's: a client that knows none answers so.
      send({ id: message.id, error: { code: -32601, message: `not known: ${message.method}` } });
    } else if (message.id !== undefined) {
      const promise = waiting.get(message.id);
      waiting.delete(message.id);
      if (message.error !== undefined) promise?.reject(Object.assign(new Error(message.error.message), { code: message.error.code }));
      else promise?.resolve(message.result as never);
    }
  }

  function send(message: object): void {
    const body = Buffer.from(JSON.stringify({ jsonrpc: "2.0", ...message }));
    child.stdin.write(Buffer.concat([Buffer.from(`Content-Length: ${body.length}\r\n\r\n`), body]));
  }

  /** Rejects when the server ends or is silent for too long. */
  function bounded<T>(what: string, promise: Promise<T>): Promise<T> {
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => reject(new Error(`The server did not answer in ${deadline} ms: ${what}\n${errorText}`)), deadline);
      void ended.then((code) => reject(new Error(`The server ended (${code}) before: ${what}\n${errorText}`)));
      promise.then(resolve, reject).finally(() => clearTimeout(timer));
    });
  }

  function list(
    uri: string,
    what: string,
    is: (it: { readonly count: number; readonly version: number | undefined }) => boolean,
  ): Promise<readonly WireDiagnostic[]> {
    return bounded(
      what,
      new Promise((resolve) => {
        const look = () => {
          const it = lists.get(uri);
          if (it === undefined || !is(it)) return;
          wakers.delete(look);
          resolve(it.last);
        };
        wakers.add(look);
        look();
      }),
    );
  }

  const wire: Wire = {
    process: child,
    errors: () => errorText,
    logged: () => logged,
    request<T>(method: string, params?: unknown) {
      const id = next++;
      const answer = new Promise<T>((resolve, reject) => waiting.set(id, { resolve: resolve as never, reject }));
      send({ id, method, params });
      return bounded(method, answer);
    },
    notify: (method, params) => send({ method, params }),
    async initialize(folders = [], capabilities = {}) {
      const result = await wire.request<{ capabilities: Record<string, unknown> }>("initialize", {
        processId: process.pid,
        rootUri: folders[0] ?? null,
        capabilities,
        workspaceFolders: folders.length === 0 ? null : folders.map((uri) => ({ uri, name: uri })),
      });
      wire.notify("initialized", {});
      return result;
    },
    open: (uri, text, version = 1) => wire.notify("textDocument/didOpen", { textDocument: { uri, languageId: "jobsheet", version, text } }),
    change: (uri, version, contentChanges) => wire.notify("textDocument/didChange", { textDocument: { uri, version }, contentChanges }),
    diagnostics: (uri, since = 0) => list(uri, `diagnostics of ${uri}`, ({ count }) => count > since),
    diagnosticsAt: (uri, version) => list(uri, `diagnostics of ${uri}, version ${version}`, (it) => (it.version ?? 0) >= version),
    listsOf: (uri) => lists.get(uri)?.count ?? 0,
    onList: (listener) => listeners.push(listener),
    async stop() {
      if (child.exitCode !== null) return child.exitCode;
      try {
        await wire.request("shutdown");
        wire.notify("exit");
      } catch {
        child.kill("SIGKILL");
      }
      return ended;
    },
  };
  return wire;
}
