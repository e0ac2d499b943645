// Bad input of every kind through both doors: a message, never a crash or a hang, and the next sheet is served as ever.
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { splitpin } from "../cli/desk.ts";
import { type Wire, startServer } from "../server/wire.ts";
import { badInputs } from "./bad-input.ts";

// A busy machine may take long over many lines; what is looked for is that it ends.
vi.setConfig({ testTimeout: 300_000 });

const folder = mkdtempSync(join(tmpdir(), "splitpin-bad-"));
const homes = new Map<string, string>();

beforeAll(() => {
  badInputs.forEach((input, i) => {
    const home = join(folder, `bad-${i}`);
    mkdirSync(home);
    homes.set(input.name, home);
    writeFileSync(join(home, "this.jobsheet"), input.content);
    for (const [name, text] of Object.entries(input.beside ?? {})) writeFileSync(join(home, name), text);
  });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test("there are more than fifty kinds", () => {
  expect(badInputs.length).toBeGreaterThan(50);
  expect(new Set(badInputs.map((it) => it.name)).size).toBe(badInputs.length);
});

describe("the command line", () => {
  test.each(badInputs)("$name", async ({ name, speaks }) => {
    const cwd = homes.get(name) as string;
    const { code, out, err } = await splitpin(["check", "this.jobsheet", "--format", "json"], cwd);
    expect(err).not.toContain("itself failed");
    const { diagnostics } = JSON.parse(out) as { diagnostics: { message: string; line: number; column: number }[] };
    if (speaks) expect(diagnostics.length + err.length, "nothing was said").toBeGreaterThan(0);
    for (const it of diagnostics) {
      expect(it.message).toMatch(/\S/);
      expect(it.line).toBeGreaterThan(0);
      expect(it.column).toBeGreaterThan(0);
    }
    expect([0, 1, 2]).toContain(code);

    const text = await splitpin(["check", "this.jobsheet"], cwd);
    expect(text.code).toBe(code);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that none of them comes out is what is tested.
    expect(text.out.replace(/\n/g, "")).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/);

    const order = await splitpin(["order", "this.jobsheet", "--format", "json"], cwd);
    expect(order.err).not.toContain("itself failed");
    const format = await splitpin(["format", "--check", "this.jobsheet"], cwd);
    expect(format.err).not.toContain("itself failed");
  });

  test("what can't be a sheet at all is refused, with 2", async () => {
    const cwd = join(folder, "odd");
    mkdirSync(join(cwd, "folder.jobsheet"), { recursive: true });
    writeFileSync(join(cwd, "notes.txt"), "part a\n");
    writeFileSync(join(folder, "outside.jobsheet"), 'part a "A"\n');
    symlinkSync(join(folder, "outside.jobsheet"), join(cwd, "link.jobsheet"));
    symlinkSync("circle.jobsheet", join(cwd, "circle.jobsheet"));
    symlinkSync("/dev/zero", join(cwd, "zero.jobsheet"));
    for (const [path, why] of [
      ["notes.txt", /not a job sheet/],
      ["nowhere.jobsheet", /is not there/],
      ["folder.jobsheet", /no job sheets in it/],
      ["link.jobsheet", /out of the workspace/],
      ["circle.jobsheet", /is not there|leads back to itself/],
      ["zero.jobsheet", /out of the workspace|not a file/],
    ] as const) {
      const { code, err } = await splitpin(["check", path], cwd);
      expect([path, code]).toEqual([path, 2]);
      expect(err).toMatch(why);
    }
  });
});

describe("the language server", () => {
  let wire: Wire;
  beforeAll(async () => {
    wire = startServer({ deadline: 150_000 });
    await wire.initialize([pathToFileURL(folder).href]);
  });
  afterAll(async () => {
    expect(await wire.stop()).toBe(0);
  });

  test.each(badInputs)("$name", async ({ name, content, speaks }) => {
    const uri = pathToFileURL(join(homes.get(name) as string, "this.jobsheet")).href;
    const text = typeof content === "string" ? content : new TextDecoder("latin1").decode(content);
    wire.open(uri, text);
    const textDocument = { uri };
    const list = await wire.diagnostics(uri);
    if (speaks && typeof content === "string") expect(list.length, "nothing was said").toBeGreaterThan(0);
    expect(list.length).toBeLessThanOrEqual(301);
    const position = { line: 0, character: 3 };
    for (const method of ["hover", "completion", "definition"]) await wire.request(`textDocument/${method}`, { textDocument, position });
    await wire.request("textDocument/documentSymbol", { textDocument });
    await wire.request("textDocument/formatting", { textDocument, options: { tabSize: 2, insertSpaces: true } });
    await wire.request("textDocument/codeAction", {
      textDocument,
      range: { start: { line: 0, character: 0 }, end: { line: 100_000, character: 0 } },
      context: { diagnostics: [] },
    });
    await wire.request("workspace/executeCommand", { command: "splitpin.order", arguments: [uri] });
    // Ranges as odd as an editor's worst: behind the end, back to front.
    wire.change(uri, 2, [{ range: { start: { line: 1e6, character: 1e6 }, end: { line: 1e7, character: 0 } }, text: '\npart zz "Z"\n' }]);
    wire.change(uri, 3, [{ range: { start: { line: 0, character: 5 }, end: { line: 0, character: 0 } }, text: "x" }]);
    await wire.request("textDocument/documentSymbol", { textDocument });
    wire.notify("textDocument/didClose", { textDocument });
    expect(wire.errors()).toBe("");
  });

  test("serves the next sheet as ever", async () => {
    const uri = pathToFileURL(join(folder, "after.jobsheet")).href;
    wire.open(uri, 'part a "A"\nfinding a\n  is crackd\n');
    expect((await wire.diagnostics(uri)).map((it) => it.range.start.line)).toContain(2);
  });
});
