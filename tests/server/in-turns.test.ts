// An answer that takes long is worked out in turns: what comes in meanwhile goes first, what nobody wants any more is given up, and no answer is of two texts.
// No time is asked anywhere: only what comes before what.
import { PassThrough } from "node:stream";
import { StreamMessageReader, StreamMessageWriter, createMessageConnection } from "vscode-jsonrpc/node";
import { expect, test } from "vitest";
import { type SheetsAsked, createConnection } from "../../server/lsp/connection.ts";
import { inPieces } from "../../server/lsp/pieces.ts";
import type { Slices } from "../../server/service.ts";
import { longSheet } from "./long-sheet.ts";
import { startServer } from "./wire.ts";

const uri = "file:///nowhere/long.jobsheet";
const document = { textDocument: { uri } };
const requestCancelled = -32800;
const contentModified = -32801;

/** The server's end of a line, asked by its other end; what is asked for here is answered as the test says. */
function line(sheets: Partial<SheetsAsked> = {}) {
  const [there, back] = [new PassThrough(), new PassThrough()];
  const server = createConnection(new StreamMessageReader(there), new StreamMessageWriter(back), { end() {}, watch() {} });
  server.answerBy({ whenRead: () => undefined, edits: () => 0, isChecking: () => false, ...sheets });
  server.onInitialize(() => ({ capabilities: {} }));
  const editor = createMessageConnection(new StreamMessageReader(back), new StreamMessageWriter(there));
  const ask = (method: string, params: object) => editor.sendRequest<unknown>(method, params);
  return {
    server,
    async open() {
      server.listen();
      editor.listen();
      await ask("initialize", { capabilities: {} });
    },
    /** Gives what came of it, or the number of its error. */
    request: (method: string, params: object) => ask(method, params).catch(({ code }: { code: number }) => code),
    cancel: (id: number) => editor.sendNotification("$/cancelRequest", { id }),
  };
}

function* endless(): Slices<never> {
  for (;;) yield;
}

test("what would take for ever lets a later question go first, and is given up when it is cancelled", async () => {
  const { server, open, request, cancel } = line();
  server.onDocumentSymbol(endless);
  server.onRow("textDocument/foldingRange", () => "folds");
  await open();
  const first = request("textDocument/documentSymbol", document);
  expect(await request("textDocument/foldingRange", document)).toBe("folds");
  // The editor numbers its questions from 0, and this is the one behind `initialize`.
  await cancel(1);
  expect(await first).toBe(requestCancelled);
});

test("an edit, and what is of several texts, is given up when a text is changed; what is of one is answered of that", async () => {
  let edits = 0;
  const { server, open, request } = line({ edits: () => edits });
  server.onDocumentFormatting(endless);
  server.onExecuteCommand(endless);
  server.onHover(function* () {
    for (const before = edits; edits === before; ) yield;
    return { contents: "of the text before" };
  });
  await open();
  const answers = [
    request("textDocument/formatting", document),
    request("workspace/executeCommand", { command: "splitpin.release" }),
    request("textDocument/hover", { ...document, position: { line: 0, character: 0 } }),
  ];
  // All three are under way once this comes back.
  server.onRow("textDocument/foldingRange", () => "folds");
  await request("textDocument/foldingRange", document);
  edits++;
  expect(await Promise.all(answers)).toEqual([contentModified, contentModified, { contents: "of the text before" }]);
});

test("a page waits for a check that is under way, and a question at the cursor does not", async () => {
  let checking = true;
  let pages = 0;
  const { server, open, request } = line({ isChecking: () => checking });
  server.onExecuteCommand(function* () {
    yield;
    return ++pages;
  });
  server.onDefinition(function* () {
    yield;
    return [];
  });
  await open();
  const page = request("workspace/executeCommand", { command: "splitpin.release" });
  expect(await request("textDocument/definition", { ...document, position: { line: 0, character: 0 } })).toEqual([]);
  expect(pages).toBe(0);
  checking = false;
  expect(await page).toBe(1);
});

test("a fault in a later slice is the request's own", async () => {
  const { server, open, request } = line();
  server.onDocumentSymbol(function* () {
    yield;
    throw new Error("a fault of the program");
  });
  server.onRow("textDocument/foldingRange", () => "folds");
  await open();
  expect(await request("textDocument/documentSymbol", document)).toBeLessThan(0);
  expect(await request("textDocument/foldingRange", document)).toBe("folds");
});

test("a long answer goes out in pieces, and arrives as it is", async () => {
  // Letters of two halves across each border between two pieces, a half alone, quotes and control letters.
  const html = `x${"\ud83d\udd29".repeat(40_000)}\ud83d"\u0007\u2028${"–".repeat(70_000)}`;
  const answers: readonly object[] = [
    { html, files: { "a.jobsheet": "file:///a" }, text: "", json: [1, { a: null }], left: undefined },
    { html: "" },
    { html: html.slice(0, 1 << 15) },
    { html: "a".repeat(1 << 16) },
  ];
  for (const result of answers) {
    const message = { jsonrpc: "2.0", id: 7, result };
    const bytes = Buffer.from(await inPieces.encode(message));
    expect(JSON.parse(bytes.toString())).toEqual(JSON.parse(JSON.stringify(message)));
  }
});

test("what is asked and typed during a long page is answered and told before it, and the page is of the text that was there when it was asked for, or of none", async () => {
  const wire = startServer();
  await wire.initialize(["file:///nowhere"]);
  const text = longSheet(1400);
  wire.open(uri, text);
  await wire.diagnostics(uri);
  const events: string[] = [];
  const page = (title: string) =>
    wire.request<{ html: string }>("workspace/executeCommand", { command: "splitpin.handOver", arguments: [uri, { only: "page" }] }).then(
      ({ html }) => events.push(html.includes(title) ? `page with ${title}` : `page without ${title}`),
      ({ code }) => events.push(`no page: ${code}`),
    );
  wire.onList((_uri, list) => events.push(list.some((it) => it.code === "name-unknown") ? "told" : "told something else"));
  // All in one breath: the page has not got beyond its first turns.
  const asked = [
    page("Carding engine"),
    wire.request("textDocument/hover", { ...document, position: { line: 11, character: 6 } }).then(() => events.push("hover")),
  ];
  await asked[1];
  wire.change(uri, 2, [
    { range: { start: { line: 0, character: 7 }, end: { line: 0, character: 21 } }, text: "Mended" },
    { range: { start: { line: 5, character: 0 }, end: { line: 5, character: 0 } }, text: 'step other "Other"\n  remove no-such-part\n' },
  ]);
  asked.push(page("Mended"));
  await Promise.all(asked);
  // The new text may be told in two lists: what stood before it and what its lines say, then the whole.
  expect(events[0]).toBe("hover");
  expect(events.at(-1)).toBe("page with Mended");
  expect(new Set(events.slice(1, -1))).toEqual(new Set([`no page: ${contentModified}`, "told", ...events.filter((it) => it === "told something else")]));
  await wire.stop();
});
