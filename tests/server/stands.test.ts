// What stands of a text that was typed is worked out in slices: who asks for what could be put right there gets it for the newest text, however soon he asks.
import { expect, test } from "vitest";
import { longSheet } from "./long-sheet.ts";
import { startServer } from "./wire.ts";

const uri = "file:///nowhere/long.jobsheet";

test("actions that are asked for in the same breath as an edit of a long entry are those of the edited text", async () => {
  const rows = Array.from({ length: 6000 }, (_, i) => `  0,0${10 + (i % 80)} in`);
  const text = (lines: readonly string[]) => `limit float "Float"\n  worn max 0.5 in\n  source "b"\nmeasure float found\n${lines.join("\n")}\n`;
  const wire = startServer();
  await wire.initialize(["file:///nowhere"]);
  const asked = (line: number) =>
    wire.request<readonly { readonly title: string }[]>("textDocument/codeAction", {
      textDocument: { uri },
      range: { start: { line, character: 0 }, end: { line, character: 30 } },
      context: { diagnostics: [] },
    });
  wire.open(uri, text(rows));
  // Before anything was told, and after.
  expect((await asked(4)).map((it) => it.title)).toContain("Write 0.010");
  await wire.diagnostics(uri);
  let version = 1;
  for (const line of [4, 3000, 6000]) {
    wire.change(uri, ++version, [{ range: { start: { line, character: 2 }, end: { line, character: 2 } }, text: "7" }]);
    const first = asked(line);
    wire.change(uri, ++version, [{ range: { start: { line, character: 2 }, end: { line, character: 3 } }, text: "8" }]);
    const figure = `80.0${10 + ((line - 4) % 80)}`;
    expect((await asked(line)).map((it) => it.title)).toContain(`Write ${figure}`);
    // The first may be answered of either text: both were the newest once, and none older.
    expect((await first).map((it) => it.title).some((it) => /^Write [78]0\.0\d\d$/.test(it))).toBe(true);
  }
  await wire.stop();
});

test("a short sheet is told once for each edit: no list says first what the edit has just cured", async () => {
  const short = "file:///nowhere/short.jobsheet";
  const text = longSheet(1400);
  const wire = startServer();
  await wire.initialize(["file:///nowhere"]);
  wire.open(short, text);
  await wire.diagnostics(short);
  const lines = text.split("\n");
  const locks = lines.flatMap((line, i) => (/^ {2}lock /.test(line) ? [i] : []));
  const lists: number[] = [];
  for (const [i, line] of locks.slice(0, 6).entries()) {
    for (const [version, now] of [
      [2 * i + 2, lines.toSpliced(line, 1)],
      [2 * i + 3, lines],
    ] as const) {
      const before = wire.listsOf(short);
      wire.change(short, version, [{ text: now.join("\n") }]);
      await wire.diagnosticsAt(short, version);
      await new Promise((resolve) => setTimeout(resolve, 250));
      lists.push(wire.listsOf(short) - before);
    }
  }
  await wire.stop();
  expect(lists.length).toBe(12);
  // On a machine that is busy with other things a check may take long enough for what stands to be told before it.
  expect(lists.filter((it) => it === 1).length).toBeGreaterThanOrEqual(7);
});
