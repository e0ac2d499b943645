// A long text is read in slices and told in two lists: what is asked or typed meanwhile gets the answers that it would have got later.
import { expect, test } from "vitest";
import { editingSheet, editSheet, readSheet, readingSheet, textOf } from "../../grammar/sheet-text.ts";
import { type Slices, runThrough } from "../../grammar/slices.ts";
import { readingOf } from "../../server/lsp/reading.ts";
import { longSheet } from "./long-sheet.ts";
import { type WireDiagnostic, startServer } from "./wire.ts";

const uri = "file:///nowhere/long.jobsheet";
/** With a fault that its line tells by itself at the end, and a name that only the job can miss. */
const text = `${longSheet(2500)}limit last-float "Last float"\n  worn max 0.5 0.6 mm\nstep last "Last"\n  remove no-such-part\n`;

test("a long text falls into slices, in one entry as in many, and comes out as it does in one go", () => {
  const rows = Array.from({ length: 5000 }, (_, i) => `  left 0.0${10 + (i % 80)} in`).join("\n");
  for (const long of [text, `measure x found by dial\n${rows}\n`]) {
    let slices = 0;
    const reading = readingSheet(long);
    for (let it = reading.next(); ; it = reading.next()) {
      if (it.done === true) {
        expect(it.value).toEqual(readSheet(long));
        break;
      }
      slices++;
    }
    // A slice has 50 lines, and one entry more at most, which has 50 itself where it is longer.
    expect(slices).toBeGreaterThan(long.split("\n").length / 120);
  }
});

test("an edit in a long entry falls into slices too", () => {
  const long = `measure x found by dial\n${"  left 0.010 in\n".repeat(3000)}`;
  const change = { startLine: 1500, startColumn: 8, endLine: 1500, endColumn: 9, text: "5" };
  const slices = editingSheet(readSheet(long), change);
  expect(slices.next().done).toBe(false);
  expect(slices.next().done).toBe(false);
  expect(textOf(runThrough(slices))).toBe(textOf(editSheet(readSheet(long), change)));
});

test("a reading is done once, whoever asks for it, and a fault in it is told to each", () => {
  let run = 0;
  function* some(): Slices<ReturnType<typeof readSheet>> {
    run++;
    yield;
    yield;
    return readSheet('sheet "A"\n');
  }
  const first = readingOf(some());
  const behind = readingOf(first.rest());
  expect(first.readOn(() => false)).toBe(false);
  expect(behind.sheet().lineCount).toBe(2);
  expect(first.isRead()).toBe(true);
  expect(first.sheet()).toBe(behind.sheet());
  expect(run).toBe(1);

  function* failing(): Slices<never> {
    yield;
    throw new Error("a fault of the program");
  }
  const broken = readingOf(failing());
  for (let i = 0; i < 2; i++) expect(() => broken.sheet()).toThrow("a fault of the program");
  expect(() => broken.readOn(() => true)).toThrow("a fault of the program");
});

test("the first list of a long sheet says that it is a beginning, and tells what lines say by themselves; the next is the whole", async () => {
  const wire = startServer();
  await wire.initialize(["file:///nowhere"]);
  const lists: (readonly WireDiagnostic[])[] = [];
  wire.onList((_uri, list) => lists.push(list));
  wire.open(uri, text);
  const whole = await wire.diagnostics(uri);
  expect(lists).toHaveLength(2);
  const [first] = lists as [readonly WireDiagnostic[]];
  const told = (list: readonly WireDiagnostic[]) => list.map((it) => it.code);
  expect(told(first)[0]).toBe("check-under-way");
  expect(told(first)).toContain("syntax");
  expect(told(first)).not.toContain("name-unknown");
  expect(told(whole)).not.toContain("check-under-way");
  expect(told(whole)).toContain("syntax");
  expect(told(whole)).toContain("name-unknown");
  await wire.stop();
});

test("a short sheet is told once, and whole", async () => {
  const wire = startServer();
  await wire.initialize(["file:///nowhere"]);
  const lists: (readonly WireDiagnostic[])[] = [];
  wire.onList((_uri, list) => lists.push(list));
  wire.open(uri, 'sheet "Short"\nstep last "Last"\n  remove no-such-part\n');
  await wire.diagnostics(uri);
  await wire.request("textDocument/documentSymbol", { textDocument: { uri } });
  expect(lists.map((list) => list.some((it) => it.code === "check-under-way"))).toEqual([false]);
  await wire.stop();
});

test("what is asked and typed while a long text is read is answered as for one that was read before", async () => {
  const wire = startServer();
  await wire.initialize(["file:///nowhere"]);
  const lines = text.split("\n");
  const at = { line: lines.length - 4, character: 8 };
  const document = { textDocument: { uri } };
  // All of it in one breath: the reading has not got beyond the first lines.
  wire.open(uri, text);
  const early = wire.request<unknown[]>("textDocument/documentSymbol", document);
  for (let i = 0; i < 40; i++) wire.change(uri, i + 2, [{ range: { start: { line: 20, character: 0 }, end: { line: 20, character: 0 } }, text: `# ${i}\n` }]);
  const hover = wire.request("textDocument/hover", { ...document, position: { line: at.line + 40, character: at.character } });
  const symbols = await wire.request<unknown[]>("textDocument/documentSymbol", document);
  const list = await wire.diagnosticsAt(uri, 41);

  const fresh = startServer();
  await fresh.initialize(["file:///nowhere"]);
  const typed = [...lines.slice(0, 20), ...Array.from({ length: 40 }, (_, i) => `# ${39 - i}`), ...lines.slice(20)].join("\n");
  fresh.open(uri, typed);
  const expected = await fresh.diagnostics(uri);
  expect(list).toEqual(expected);
  expect(symbols).toEqual(await fresh.request("textDocument/documentSymbol", document));
  expect((await early).length).toBe(symbols.length);
  expect(await hover).toEqual(await fresh.request("textDocument/hover", { ...document, position: { line: at.line + 40, character: at.character } }));
  await wire.stop();
  await fresh.stop();
});

test("a long sheet that is closed while it is read leaves nobody waiting", async () => {
  const wire = startServer();
  await wire.initialize(["file:///nowhere"]);
  wire.open(uri, text);
  const symbols = wire.request("textDocument/documentSymbol", { textDocument: { uri } });
  wire.notify("textDocument/didClose", { textDocument: { uri } });
  expect(await symbols).toEqual([]);
  await wire.stop();
});
