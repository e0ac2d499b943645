// The protocol's manners, over the wire: what may be said when, and what a message must hold (Language Server Protocol 3.17, "Server lifecycle", and JSON-RPC 2.0).
import { spawnSync } from "node:child_process";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { type Wire, program, startServer } from "./wire.ts";

/** Error codes of JSON-RPC 2.0, section 5.1, and of LSP 3.17, `ErrorCodes`. */
const invalidRequest = -32600;
const methodNotFound = -32601;
const invalidParams = -32602;
const serverNotInitialized = -32002;

const uri = "file:///manners/a.jobsheet";
const document = { textDocument: { uri } };
const position = { line: 0, character: 0 };

let wire: Wire;
/** For the tests of a group that speak to a server: each has one of its own. */
function eachWithServer(): void {
  beforeEach(() => {
    wire = startServer();
  });
  afterEach(async () => {
    await wire.stop();
    expect(wire.errors()).toBe("");
  });
}

const codeOf = (method: string, params?: unknown) =>
  wire.request(method, params).then(
    () => "answered",
    (error: { code?: number }) => error.code,
  );
const ended = () => new Promise<number | null>((resolve) => wire.process.on("exit", resolve));

describe("before initialize", () => {
  eachWithServer();
  test("every request is refused, and notifications are left out", async () => {
    wire.open(uri, "part\n");
    for (const method of ["textDocument/hover", "workspace/executeCommand", "shutdown", "no/such"])
      expect([method, await codeOf(method, {})]).toEqual([method, serverNotInitialized]);
    await wire.initialize();
    // The sheet that was opened too early is not open.
    expect(await wire.request("textDocument/documentSymbol", document)).toEqual([]);
    expect(wire.listsOf(uri)).toBe(0);
  });
  test("exit ends it with 1", async () => {
    const code = ended();
    wire.notify("exit");
    expect(await code).toBe(1);
  });
});

describe("when it is initialized", () => {
  eachWithServer();
  test("a second initialize is refused, and the first holds", async () => {
    await wire.initialize();
    expect(await codeOf("initialize", { processId: null, rootUri: null, capabilities: {} })).toBe(invalidRequest);
    wire.open(uri, "part\n");
    expect((await wire.diagnostics(uri)).length).toBeGreaterThan(0);
  });
  test("an initialize with wrong parameters is refused, and a right one may follow", async () => {
    for (const params of [undefined, null, [], "x", {}, { capabilities: 3 }, { capabilities: {}, rootUri: 4 }, { capabilities: {}, workspaceFolders: [{}] }])
      expect([params, await codeOf("initialize", params)]).toEqual([params, invalidParams]);
    await wire.initialize();
    expect(await codeOf("textDocument/hover", { ...document, position })).toBe("answered");
  });
  test("exit without shutdown ends it with 1", async () => {
    await wire.initialize();
    const code = ended();
    wire.notify("exit");
    expect(await code).toBe(1);
  });
});

describe("wrong parameters", () => {
  // What is wrong is refused or left out, so one server takes it all.
  beforeAll(async () => {
    wire = startServer();
    await wire.initialize();
  });
  afterAll(async () => {
    expect([await wire.stop(), wire.errors()]).toEqual([0, ""]);
  });
  const broken: unknown[] = [
    undefined,
    null,
    [],
    [1],
    "x",
    7,
    {},
    { textDocument: null },
    { textDocument: {} },
    { textDocument: { uri: 3 } },
    { textDocument: "x" },
  ];
  const places: unknown[] = [undefined, null, {}, [], { line: "0", character: 0 }, { line: -1, character: 0 }, { line: 0.5, character: 0 }, { line: 0 }];
  const wrong: Readonly<Record<string, readonly unknown[]>> = {
    "textDocument/hover": places.map((it) => ({ ...document, position: it })),
    "textDocument/completion": places.map((it) => ({ ...document, position: it })),
    "textDocument/definition": places.map((it) => ({ ...document, position: it })),
    "textDocument/prepareRename": places.map((it) => ({ ...document, position: it })),
    "textDocument/references": [
      ...places.map((it) => ({ ...document, position: it, context: { includeDeclaration: true } })),
      { ...document, position },
      { ...document, position, context: 1 },
    ],
    "textDocument/rename": [
      ...places.map((it) => ({ ...document, position: it, newName: "x" })),
      { ...document, position },
      { ...document, position, newName: 4 },
    ],
    "textDocument/documentSymbol": [],
    "textDocument/inlayHint": [document, { ...document, range: { start: position } }],
    "textDocument/semanticTokens/range": [document],
    "textDocument/semanticTokens/full": [],
    "textDocument/codeLens": [],
    "textDocument/documentHighlight": places.map((it) => ({ ...document, position: it })),
    "textDocument/documentLink": [],
    "textDocument/foldingRange": [],
    "textDocument/signatureHelp": places.map((it) => ({ ...document, position: it })),
    "textDocument/selectionRange": [document, ...places.map((it) => ({ ...document, positions: [it] }))],
    "textDocument/formatting": [],
    "textDocument/codeAction": [
      document,
      { ...document, range: { start: position }, context: {} },
      { ...document, range: { start: position, end: position } },
      { ...document, range: { start: position, end: position }, context: { only: "quickfix" } },
      { ...document, range: { start: position, end: position }, context: { only: [1] } },
    ],
    "workspace/executeCommand": [
      { command: 3 },
      { command: "splitpin.order", arguments: "x" },
      { command: "no.such" },
      { command: "splitpin.order", arguments: [{}] },
    ],
  };
  test("what nobody knows is told as such", async () => {
    for (const method of ["no/such", "splitpin/refused"]) expect([method, await codeOf(method, {})]).toEqual([method, methodNotFound]);
  });
  test("of any request are InvalidParams, and the server goes on", async () => {
    wire.open(uri, "part\n");
    await wire.diagnostics(uri);
    for (const [method, own] of Object.entries(wrong))
      for (const params of [...broken, ...own]) expect([method, params, await codeOf(method, params)]).toEqual([method, params, invalidParams]);
    expect(await codeOf("textDocument/hover", { ...document, position })).toBe("answered");
  });
  test("of a notification are left out", async () => {
    const uri = "file:///manners/of-a-notification.jobsheet";
    const document = { textDocument: { uri } };
    wire.open(uri, "part\n");
    await wire.diagnostics(uri);
    const methods = ["textDocument/didOpen", "textDocument/didChange", "textDocument/didClose", "workspace/didChangeWorkspaceFolders"];
    for (const method of [...methods, "workspace/didChangeConfiguration", "workspace/didChangeWatchedFiles", "splitpin/files"])
      for (const params of broken) wire.notify(method, params);
    wire.notify("textDocument/didChange", { ...document, contentChanges: [{ text: "x" }] });
    wire.notify("textDocument/didChange", { textDocument: { uri, version: 2 }, contentChanges: [{ range: { start: position }, text: "x" }] });
    wire.notify("textDocument/didOpen", { textDocument: { uri, languageId: "jobsheet", version: 2, text: 5 } });
    const outline = await wire.request<{ name: string }[]>("textDocument/documentSymbol", document);
    expect(outline.map((it) => it.name)).toEqual(["part"]);
    // Nor is anything told of a fault of the program.
    expect(wire.logged().filter((it) => it.includes("failed with message"))).toEqual([]);
  });
});

describe("the words behind server", () => {
  test.each([["--x"], ["--stdio=1"], ["here"], ["--socket"], ["--socket=abc"], ["--pipe"], ["--node-ipc"], ["--stdio", "--clientProcessId"]])(
    "%s: a line says so, and it ends with 2",
    (...words) => {
      const { status, stdout, stderr } = spawnSync(process.execPath, [program, "server", ...words], { encoding: "utf8", timeout: 20_000, input: "" });
      expect([status, stdout]).toEqual([2, ""]);
      expect(stderr).toMatch(/^splitpin: .+ splitpin server --help says what it takes\.\n$/);
    },
  );
  test("those that editors put there are taken", async () => {
    const other = startServer({ args: ["server", "--stdio", `--clientProcessId=${process.pid}`] });
    await other.initialize();
    expect(await other.stop()).toBe(0);
  });
});

describe("after shutdown", () => {
  eachWithServer();
  test("every request is refused, and exit ends it with 0", async () => {
    await wire.initialize();
    expect(await wire.request("shutdown")).toBeNull();
    for (const method of ["textDocument/hover", "initialize", "shutdown", "no/such"])
      expect([method, await codeOf(method, { ...document, position })]).toEqual([method, invalidRequest]);
    wire.open(uri, "part\n");
    const code = ended();
    wire.notify("exit");
    expect(await code).toBe(0);
    expect(wire.listsOf(uri)).toBe(0);
  });
});

// LSP 3.17, "Header Part": Content-Length, in bytes, is required. One that is wrong leaves nobody able to tell where the next message begins.
describe("a header that can't be read", () => {
  const sent = async (bytes: string) => {
    const other = startServer();
    await other.initialize();
    const code = new Promise<number | null>((resolve) => other.process.on("close", resolve));
    other.process.stdin.write(bytes);
    return { code, other };
  };
  // Ten seconds are waited for it, in which the other tests run.
  const endless = sent("Content-Length: 99999999999\r\n\r\n{}");
  test.each([
    ["that is no number", "Content-Length: abc\r\n\r\n{}"],
    ["that is not there", "Content-Type: x\r\n\r\n{}"],
    ["without a colon, with a sign that a terminal would obey", "\u001b[2JContent-Length\r\n\r\n{}"],
  ])("a length %s: one line says so, and it ends with 1", async (_name, bytes) => {
    const { code, other } = await sent(bytes);
    expect(await code).toBe(1);
    expect(other.errors()).toMatch(/^splitpin: the server ends, for nothing that follows can be read: [ -~·]+\n$/);
  });
  test("a length below nothing: the same, at a message behind it", async () => {
    const { code, other } = await sent('Content-Length: -5\r\n\r\n{"jsonrpc":"2.0","method":"x"}');
    other.process.stdin.on("error", () => {});
    const later = setInterval(() => other.process.stdin.write("Content-Length: 2\r\n\r\n{}"), 100);
    expect(await code).toBe(1);
    clearInterval(later);
    expect(other.errors()).toMatch(/^splitpin: the server ends, for nothing that follows can be read: [ -~·]+\n$/);
  });
  test("a length that never comes: the same, when nothing came for ten seconds", async () => {
    const { code, other } = await endless;
    expect(await code).toBe(1);
    expect(other.errors()).toMatch(/^splitpin: the server ends, .+ shorter than its header says, .+\n$/);
  }, 30_000);
  describe("what is wrong within a message", () => {
    eachWithServer();
    test("ends nothing", async () => {
      await wire.initialize();
      for (const body of [
        "{",
        "",
        "null",
        "7",
        "[]",
        '"x"',
        "{}",
        '{"jsonrpc":"2.0","id":null,"method":"x"}',
        '{"jsonrpc":"2.0","id":{},"method":"x"}',
        "\u0000",
      ])
        wire.process.stdin.write(`Content-Length: ${body.length}\r\n\r\n${body}`);
      wire.open(uri, "part\n");
      expect((await wire.diagnostics(uri)).length).toBeGreaterThan(0);
    });
  });
});
