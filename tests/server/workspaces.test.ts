// Folders of an editor as one workspace, and open sheets that are too large to be read: through the real server.
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { mostLines, mostLinesLookedAt } from "../../server/model/largest.ts";
import { type Wire, type WireDiagnostic, startServer } from "./wire.ts";

const folder = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-roots-")));
let wire: Wire;
beforeEach(() => {
  for (const it of ["one", "two", "three"]) mkdirSync(join(folder, it), { recursive: true });
  wire = startServer();
});
afterEach(async () => {
  const code = await wire.stop();
  rmSync(folder, { recursive: true, force: true });
  expect([code, wire.errors()]).toEqual([0, ""]);
});

const uriOf = (name: string) => pathToFileURL(join(folder, name)).href;
const roots = () => [uriOf("one"), uriOf("two")];
const codes = (list: readonly WireDiagnostic[]) => list.map((it) => it.code);
const at = (uri: string, line: number, character: number) => ({ textDocument: { uri }, position: { line, character } });

interface Location {
  readonly uri: string;
  readonly range: { readonly start: { readonly line: number } };
}

describe("two folders that are open are one workspace", () => {
  const data = 'part hub "Hub"\n  held by hub-nut\nfastener hub-nut "Hub nut"\n  torque none\n';
  const job = 'sheet "Front"\nuse "../two/data.jobsheet"\nfinding hub\n  is worn\n  decide reuse\n  because "within the limit"\n';

  test("a sheet of one uses a sheet of the other, on the disk or open, and names lead both ways", async () => {
    writeFileSync(join(folder, "two/data.jobsheet"), data);
    writeFileSync(join(folder, "one/job.jobsheet"), job);
    await wire.initialize(roots());
    wire.open(uriOf("one/job.jobsheet"), job);
    expect(codes(await wire.diagnostics(uriOf("one/job.jobsheet")))).not.toContain("name-unknown");

    const declared = await wire.request<readonly Location[]>("textDocument/definition", at(uriOf("one/job.jobsheet"), 2, 9));
    expect(declared.map((it) => [it.uri, it.range.start.line])).toEqual([[uriOf("two/data.jobsheet"), 0]]);
    // The data sheet does not know who uses it; the workspace does.
    wire.open(uriOf("two/data.jobsheet"), data);
    await wire.diagnostics(uriOf("two/data.jobsheet"));
    const used = await wire.request<readonly Location[]>("textDocument/references", {
      ...at(uriOf("two/data.jobsheet"), 0, 6),
      context: { includeDeclaration: false },
    });
    expect(used.map((it) => [it.uri, it.range.start.line])).toEqual([[uriOf("one/job.jobsheet"), 2]]);
    const renamed = await wire.request<{ changes: Record<string, readonly unknown[]> }>("textDocument/rename", {
      ...at(uriOf("two/data.jobsheet"), 0, 6),
      newName: "front-hub",
    });
    expect(Object.keys(renamed.changes).sort()).toEqual([uriOf("one/job.jobsheet"), uriOf("two/data.jobsheet")]);

    // What is typed in one is seen in the other at once.
    const before = wire.listsOf(uriOf("one/job.jobsheet"));
    wire.change(uriOf("two/data.jobsheet"), 2, [{ text: data.replace('part hub "Hub"', 'part drum "Drum"') }]);
    expect(codes(await wire.diagnostics(uriOf("one/job.jobsheet"), before))).toContain("name-unknown");
  });

  test("a machine's sheets know of one another, whichever folder they lie in", async () => {
    writeFileSync(
      join(folder, "two/brakes.jobsheet"),
      'sheet "Brakes"\n  machine "Moor van"\npart drum "Brake drum"\n  critical "brakes"\nstep strip "Drums off"\n  remove drum\n  done\n',
    );
    await wire.initialize(roots());
    wire.open(uriOf("one/hubs.jobsheet"), 'sheet "Hubs"\n  machine "Moor van"\nfastener hub-nut "Hub nut"\nrelease by "A. Moor" 2026-05-10\n');
    const open = (await wire.diagnostics(uriOf("one/hubs.jobsheet"))).find((it) => it.code === "other-sheet-open");
    expect(open?.message).toContain("two/brakes.jobsheet");
  });

  test("what lies beside them stays outside, and a single folder is known by its own paths", async () => {
    writeFileSync(join(folder, "three/data.jobsheet"), data);
    await wire.initialize(roots());
    wire.open(uriOf("one/job.jobsheet"), job.replace("two", "three"));
    const list = await wire.diagnostics(uriOf("one/job.jobsheet"));
    expect(list.find((it) => it.range.start.line === 1)?.message).toMatch(/outside/);
  });
});

describe("an open sheet that is too large", () => {
  const line = 'note "Looked at again"\n';

  test("says so, names the limit, and is read again once it is small enough", async () => {
    await wire.initialize([uriOf("one")]);
    const uri = uriOf("one/long.jobsheet");
    wire.open(uri, `part hub "Hub\n${line.repeat(mostLines)}`);
    const list = await wire.diagnostics(uri);
    expect(list[0]).toMatchObject({ code: "sheet-not-read", severity: 1 });
    expect(list[0]?.message).toContain(`has ${mostLines + 2} lines; more than ${mostLines} are not read`);
    // How its lines are written is told all the same, and nothing of the job: `hub` has no place in anything.
    expect([...new Set(codes(list))]).toEqual(["sheet-not-read", "syntax"]);
    // Nothing can be asked of it, and nothing falls over.
    expect(await wire.request("textDocument/hover", at(uri, 0, 6))).toBeNull();
    expect(await wire.request("textDocument/documentSymbol", { textDocument: { uri } })).toEqual([]);
    expect(await wire.request("textDocument/formatting", { textDocument: { uri }, options: { tabSize: 2, insertSpaces: true } })).toEqual([]);

    wire.change(uri, 2, [{ range: { start: { line: 2, character: 0 }, end: { line: mostLines + 1, character: 0 } }, text: "" }]);
    const small = await wire.diagnostics(uri, 1);
    expect(codes(small)).not.toContain("sheet-not-read");
    expect(small.some((it) => it.code === "syntax" && it.range.start.line === 0)).toBe(true);
    expect(await wire.request("textDocument/documentSymbol", { textDocument: { uri } })).not.toEqual([]);
  });

  test("has its lines looked at as they are typed, to a hundred thousand and more of them", async () => {
    await wire.initialize([uriOf("one")]);
    const uri = uriOf("one/longer.jobsheet");
    const text = `part hub "Hub"\n${line.repeat(100_000)}`;
    wire.open(uri, text);
    expect(codes(await wire.diagnostics(uri))).toEqual(["sheet-not-read"]);
    const quote = { line: 90_000, character: 5 };
    wire.change(uri, 2, [{ range: { start: quote, end: { ...quote, character: 6 } }, text: "" }]);
    const broken = await wire.diagnostics(uri, 1);
    expect(broken.map((it) => [it.code, it.range.start.line])).toEqual([
      ["sheet-not-read", 0],
      ["syntax", 90_000],
    ]);
    wire.change(uri, 3, [{ range: { start: quote, end: quote }, text: '"' }]);
    expect(codes(await wire.diagnostics(uri, 2))).toEqual(["sheet-not-read"]);
    // More than can be looked at.
    wire.change(uri, 4, [{ range: { start: quote, end: { ...quote, character: 6 } }, text: `\n${line.repeat(mostLinesLookedAt - 100_000)}` }]);
    const [only, ...others] = await wire.diagnostics(uri, 3);
    expect(only?.message).toContain(`has ${mostLinesLookedAt + 3} lines;`);
    expect(only?.message).toContain("Nothing on it is checked.");
    expect(others).toEqual([]);
    // And down to what can be worked with: the job is told of again.
    wire.change(uri, 5, [
      { range: { start: { line: 2, character: 0 }, end: { line: mostLinesLookedAt + 3, character: 0 } }, text: "finding nub\n  is worn\n" },
    ]);
    expect(codes(await wire.diagnostics(uri, 4))).toContain("name-unknown");
  });

  test("so does one that grows beyond the limit while it is typed in, in lines and in bytes", async () => {
    await wire.initialize([uriOf("one")]);
    const uri = uriOf("one/grows.jobsheet");
    wire.open(uri, 'part hub "Hub"\n');
    await wire.diagnostics(uri);
    const end = { line: 1, character: 0 };
    wire.change(uri, 2, [{ range: { start: end, end }, text: line.repeat(mostLines) }]);
    expect(codes(await wire.diagnostics(uri, 1))).toEqual(["sheet-not-read"]);
    wire.change(uri, 3, [{ text: 'part hub "Hub"\n' }]);
    expect(codes(await wire.diagnostics(uri, 2))).not.toContain("sheet-not-read");
    wire.change(uri, 4, [{ range: { start: end, end }, text: `note "${"x".repeat(5 * 1024 * 1024)}"\n` }]);
    const [fault] = await wire.diagnostics(uri, 3);
    expect(fault?.message).toMatch(/has 6 MB; more than 5 MB is not read/);
  });
});
