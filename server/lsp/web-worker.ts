// The language server in a worker of a browser: the same server over the worker's messages. What is not open comes from the editor, for there is no disk here.
import "./web-platform.ts";
import { BrowserMessageReader, BrowserMessageWriter } from "vscode-jsonrpc/browser";
import { createConnection } from "./connection.ts";
import { serve } from "./serve.ts";

/** Put in by the build. */
declare const SPLITPIN_VERSION: string;

const worker = globalThis as unknown as { close(): void };
const connection = createConnection(new BrowserMessageReader(globalThis), new BrowserMessageWriter(globalThis), { end: () => worker.close(), watch() {} });
const server = serve(SPLITPIN_VERSION, connection);
// Not with the start: it would wait for that.
setTimeout(() => server.settleIn(), 1000);
