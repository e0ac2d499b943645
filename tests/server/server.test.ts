// The real server as a process: what arrives, when it arrives and when nothing does; each request by the protocol alone.
import { mkdirSync, mkdtempSync, readFileSync, realpathSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { splitpin } from "../cli/desk.ts";
import { longSheet } from "./long-sheet.ts";
import { type Range, type Wire, type WireDiagnostic, startServer } from "./wire.ts";

const home = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-server-")));
let wire: Wire;
beforeAll(async () => {
  wire = startServer();
  await wire.initialize();
});
afterAll(async () => {
  const code = await wire.stop();
  rmSync(home, { recursive: true, force: true });
  expect([code, wire.errors()]).toEqual([0, ""]);
});

// One server, for a start costs more than what most of these ask; each test has a folder of its own, the only one of the workspace, and leaves no sheet open.
let folder = "";
let tests = 0;
let opened: string[] = [];
const folders = (added: readonly string[], removed: readonly string[]) => {
  const of = (paths: readonly string[]) => paths.map((it) => ({ uri: pathToFileURL(it).href, name: it }));
  wire.notify("workspace/didChangeWorkspaceFolders", { event: { added: of(added), removed: of(removed) } });
};
beforeEach(() => {
  folder = join(home, `${tests++}`);
  mkdirSync(folder);
  folders([folder], []);
});
afterEach(() => {
  for (const uri of opened) wire.notify("textDocument/didClose", { textDocument: { uri } });
  opened = [];
  folders([], [folder]);
  expect(wire.errors()).toBe("");
});

const uriOf = (name: string) => pathToFileURL(join(folder, name)).href;
const range = (line: number, from: number, to: number, endLine = line): Range => ({ start: { line, character: from }, end: { line: endLine, character: to } });

function open(name: string, text: string): string {
  wire.open(uriOf(name), text);
  opened.push(uriOf(name));
  return uriOf(name);
}

const hub = 'part hub "Hub"\n  held by hub-nut\nfastener hub-nut "Hub nut"\n  torque none\n';

describe("diagnostics", () => {
  test("stand under the words, with the rule and the way to its page", async () => {
    const uri = open("a.jobsheet", `${hub}finding hub\n  is crackd\n`);
    const [fault] = (await wire.diagnostics(uri)).filter((it) => it.code === "syntax");
    expect(fault).toMatchObject({ range: range(5, 5, 11), severity: 1, code: "syntax" });
    expect(fault?.codeDescription?.href).toMatch(/^file:.*RULES\.md#L\d+$/);
    const [file, line] = (fault?.codeDescription?.href ?? "").split("#L") as [string, string];
    expect(readFileSync(new URL(file), "utf8").split("\n")[Number(line) - 1]).toMatch(/syntax/);
  });
  test("count UTF-16 units behind letters that take two", async () => {
    const uri = open("a.jobsheet", `${hub}finding hub\n  because "🔧🔧" oops\n`);
    const [fault] = (await wire.diagnostics(uri)).filter((it) => it.code === "syntax");
    expect(fault?.range).toEqual(range(5, 17, 21));
  });
  test("follow edits in ranges as they follow the whole text", async () => {
    const uri = open("a.jobsheet", `${hub}finding hub\n  is crackd\n`);
    await wire.diagnostics(uri);
    wire.change(uri, 2, [{ range: range(5, 10, 11), text: "ed" }]);
    expect((await wire.diagnostics(uri, 1)).filter((it) => it.code === "syntax")).toEqual([]);
    wire.change(uri, 3, [{ text: "part\n" }]);
    expect((await wire.diagnostics(uri, 2)).length).toBeGreaterThan(0);
  });
  test("an unchanged list is not sent again, and many edits at once are answered with the newest", async () => {
    const uri = open("a.jobsheet", `${hub}finding hub\n  is crackd\n`);
    const before = await wire.diagnostics(uri);
    for (let i = 0; i < 50; i++)
      wire.change(uri, 2 + i, [{ range: range(0, 0, 0), text: i % 2 === 0 ? "#" : "" }, ...(i % 2 === 0 ? [{ range: range(0, 0, 1), text: "" }] : [])]);
    await wire.request("textDocument/documentSymbol", { textDocument: { uri } });
    wire.change(uri, 60, [{ range: range(5, 0, 0), text: " " }]);
    const after = await wire.diagnosticsAt(uri, 60);
    // On a busy machine some of the texts on the way may be told as well.
    expect(wire.listsOf(uri)).toBeLessThan(10);
    expect(after.map((it) => it.code)).toEqual(before.map((it) => it.code));
  });
  test("at most 300 are sent, and a line says how many more there are", async () => {
    const uri = open("a.jobsheet", Array.from({ length: 400 }, () => "undoo nut\n").join(""));
    const list = await wire.diagnostics(uri);
    expect(list).toHaveLength(301);
    expect(list.at(-1)?.message).toMatch(/^100 more/);
  });
  test("of a long sheet are whole when nobody types: what the rules of the whole job say follows", async () => {
    const text = longSheet(2000);
    const uri = open("a.jobsheet", text);
    const before = await wire.diagnostics(uri);
    expect(before.some((it) => it.code === "chocks-missing")).toBe(false);
    const line = text.split("\n").findIndex((it) => it.startsWith("  undo "));
    const whole = new Promise<readonly WireDiagnostic[]>((resolve) =>
      wire.onList((_, list) => {
        if (list.some((it) => it.code === "chocks-missing")) resolve(list);
      }),
    );
    wire.change(uri, 2, [{ range: range(line, 0, 0), text: "  raise on jack\n" }]);
    const list = await whole;
    const fresh = startServer();
    await fresh.initialize([pathToFileURL(folder).href]);
    const lines = text.split("\n");
    fresh.open(uri, [...lines.slice(0, line), "  raise on jack", ...lines.slice(line)].join("\n"));
    expect(list).toEqual(await fresh.diagnostics(uri));
    await fresh.stop();
  });
  test("go when the sheet is closed", async () => {
    const uri = open("a.jobsheet", "part\n");
    expect((await wire.diagnostics(uri)).length).toBeGreaterThan(0);
    wire.notify("textDocument/didClose", { textDocument: { uri } });
    expect(await wire.diagnostics(uri, 1)).toEqual([]);
  });
  test("are those that the command line prints", async () => {
    for (const path of ["samples/bevel-drive/bevel-drive.jobsheet", "samples/steering-box/steering-box.jobsheet"]) {
      const root = new URL("../../", import.meta.url);
      const uri = new URL(path, root).href;
      wire.open(uri, readFileSync(new URL(path, root), "utf8"));
      opened.push(uri);
      const arrived = await wire.diagnostics(uri);
      const samples = fileURLToPath(new URL("samples", root));
      const { out } = await splitpin(["check", fileURLToPath(new URL(path, root)), "--format", "json"], samples);
      const printed = (JSON.parse(out) as { diagnostics: { line: number; column: number; endColumn: number; rule: string; message: string }[] }).diagnostics;
      expect(arrived.map((it) => [it.range.start.line + 1, it.range.start.character + 1, it.range.end.character + 1, it.code, it.message])).toEqual(
        printed.map((it) => [it.line, it.column, it.endColumn, it.rule, it.message]),
      );
    }
  });
});

describe("used files", () => {
  const job = 'use "data.jobsheet"\nfinding hub\n  is serviceable\n';
  const unknown = (list: readonly { readonly code: string }[]) => list.filter((it) => it.code === "use-missing" || it.code === "name-unknown").length;

  test("are read from the disk, and what is open in the editor comes before it", async () => {
    writeFileSync(join(folder, "data.jobsheet"), hub);
    const uri = open("job.jobsheet", job);
    expect(unknown(await wire.diagnostics(uri))).toBe(0);
    open("data.jobsheet", hub.replaceAll("hub", "wheel"));
    expect(unknown(await wire.diagnostics(uri, 1))).toBeGreaterThan(0);
    wire.notify("textDocument/didClose", { textDocument: { uri: uriOf("data.jobsheet") } });
    expect(unknown(await wire.diagnostics(uri, 2))).toBe(0);
  });
  test("are read again when the editor says that they changed", async () => {
    const uri = open("job.jobsheet", job);
    expect(unknown(await wire.diagnostics(uri))).toBeGreaterThan(0);
    writeFileSync(join(folder, "data.jobsheet"), hub);
    wire.notify("workspace/didChangeWatchedFiles", { changes: [{ uri: uriOf("data.jobsheet"), type: 1 }] });
    expect(unknown(await wire.diagnostics(uri, 1))).toBe(0);
  });
  test("are read again by their time when the sheet is typed in, where an editor watches nothing", async () => {
    writeFileSync(join(folder, "data.jobsheet"), hub);
    const uri = open("job.jobsheet", job);
    await wire.diagnostics(uri);
    writeFileSync(join(folder, "data.jobsheet"), hub.replaceAll("hub", "wheel"));
    utimesSync(join(folder, "data.jobsheet"), new Date(), new Date(Date.now() + 5000));
    wire.change(uri, 2, [{ range: range(2, 0, 0), text: " " }]);
    expect(unknown(await wire.diagnostics(uri, 1))).toBeGreaterThan(0);
  });
  test("outside of the workspace are refused", async () => {
    const uri = open("job.jobsheet", 'use "../../../../../../../etc/hostname.jobsheet"\n');
    expect((await wire.diagnostics(uri)).map((it) => it.code)).toContain("use-missing");
  });
});

describe("requests", () => {
  const sheet = `${hub}places side left, right\nfinding hub\n  is crackd\nstep strip "Strip"\n  undo hub-nut\n  remove hub\n`;
  const at = (uri: string, line: number, character: number) => ({ textDocument: { uri }, position: { line, character } });

  test("a fix carries edits, and applied its diagnostic goes", async () => {
    const uri = open("a.jobsheet", sheet);
    await wire.diagnostics(uri);
    const [action] = await wire.request<{ title: string; kind: string; edit: { changes: Record<string, { range: Range; newText: string }[]> } }[]>(
      "textDocument/codeAction",
      {
        textDocument: { uri },
        range: range(6, 6, 6),
        context: { diagnostics: [] },
      },
    );
    expect(action).toMatchObject({ kind: "quickfix", edit: { changes: { [uri]: [{ range: range(6, 5, 11), newText: "cracked" }] } } });
    const [edit] = action?.edit.changes[uri] ?? [];
    wire.change(uri, 2, [{ range: edit?.range as Range, text: edit?.newText as string }]);
    expect((await wire.diagnostics(uri, 1)).filter((it) => it.code === "syntax")).toEqual([]);
  });
  test("formatting gives small edits", async () => {
    const uri = open("a.jobsheet", sheet.replace("  undo hub-nut", "     undo   hub-nut"));
    const edits = await wire.request("textDocument/formatting", { textDocument: { uri }, options: { tabSize: 2, insertSpaces: true } });
    expect(edits).toEqual([{ range: range(8, 0, 19), newText: "  undo hub-nut" }]);
  });
  test("hover tells what a name is, and what a keyword is for", async () => {
    const uri = open("a.jobsheet", sheet);
    const hover = await wire.request<{ contents: { kind: string; value: string }; range: Range }>("textDocument/hover", at(uri, 8, 9));
    expect(hover.contents.kind).toBe("plaintext");
    expect(hover.contents.value).toContain("Hub nut");
    expect(hover.contents.value).toContain("torque none");
    expect(hover.range).toEqual(range(8, 7, 14));
    expect((await wire.request<typeof hover>("textDocument/hover", at(uri, 8, 3))).contents.value).toMatch(/undo/);
    expect(await wire.request("textDocument/hover", at(uri, 40, 3))).toBeNull();
  });
  test("completion offers names of the right kind, places, and keywords", async () => {
    const uri = open("a.jobsheet", `${sheet}  undo \n  \nmeas`);
    const labels = async (line: number, character: number) =>
      (await wire.request<{ items: { label: string }[] }>("textDocument/completion", at(uri, line, character))).items.map((it) => it.label);
    const names = await labels(10, 7);
    expect(names).toContain("hub-nut");
    expect(names).not.toContain("hub");
    expect(await labels(11, 2)).toEqual(expect.arrayContaining(["remove", "tighten", "done"]));
    expect(await labels(12, 4)).toContain("measure");
  });
  test("the outline has the entries", async () => {
    const uri = open("a.jobsheet", sheet);
    const outline = await wire.request<{ name: string; range: Range }[]>("textDocument/documentSymbol", { textDocument: { uri } });
    expect(outline.map((it) => it.name)).toEqual(["part hub", "fastener hub-nut", "places side left, right", "finding hub", "step strip"]);
    expect(outline[4]?.range).toEqual(range(7, 0, 12, 9));
  });
  test("definition and references lead across files", async () => {
    writeFileSync(join(folder, "data.jobsheet"), hub);
    const uri = open("job.jobsheet", 'use "data.jobsheet"\nfinding hub\n  is serviceable\n');
    expect(await wire.request("textDocument/definition", at(uri, 1, 9))).toEqual([{ uri: uriOf("data.jobsheet"), range: range(0, 5, 8) }]);
    expect(await wire.request("textDocument/references", { ...at(uri, 1, 9), context: { includeDeclaration: true } })).toEqual([
      { uri: uriOf("data.jobsheet"), range: range(0, 5, 8) },
      { uri, range: range(1, 8, 11) },
    ]);
    expect(await wire.request("textDocument/definition", at(uri, 0, 7))).toEqual([{ uri: uriOf("data.jobsheet"), range: range(0, 0, 0) }]);
  });
  test("renaming writes in every sheet that knows the name, and refuses what can't be a name", async () => {
    writeFileSync(join(folder, "data.jobsheet"), hub);
    writeFileSync(join(folder, "other.jobsheet"), 'use "data.jobsheet"\nfinding hub\n  is worn\n');
    writeFileSync(join(folder, "stranger.jobsheet"), 'part hub "Another"\n');
    const uri = open("job.jobsheet", 'use "data.jobsheet"\nfinding hub\n  is serviceable\n');
    const edit = await wire.request<{ changes: Record<string, unknown[]> }>("textDocument/rename", { ...at(uri, 1, 9), newName: "front-hub" });
    expect(Object.keys(edit.changes).sort()).toEqual([uriOf("data.jobsheet"), uri, uriOf("other.jobsheet")].sort());
    await expect(wire.request("textDocument/rename", { ...at(uri, 1, 9), newName: "front hub" })).rejects.toThrow("can't be a name");
    await expect(wire.request("textDocument/rename", { ...at(uri, 1, 9), newName: "hub-nut" })).rejects.toThrow("already");
  });
  test("a place is given no name that a line would read as a word of its own: `fit hub new` is another hub; the same name again writes nothing", async () => {
    const uri = open("job.jobsheet", 'places side left, right\npart hub "Hub"\n  each side\nstep s "S"\n  fit hub left\n  done 2026-05-01\n');
    const place = at(uri, 4, 11);
    for (const newName of ["new", "to", "by", "from", "for", "with"])
      await expect(wire.request("textDocument/rename", { ...place, newName }), newName).rejects.toThrow(`“${newName}” can't be a place`);
    const edit = await wire.request<{ changes: Record<string, unknown[]> }>("textDocument/rename", { ...place, newName: "near" });
    expect(edit.changes[uri]).toHaveLength(2);
    expect(await wire.request("textDocument/rename", { ...place, newName: "left" })).toEqual({ changes: {} });
    // The name of a thing is read by where it is; but `fit new left` is not read.
    expect(
      (await wire.request<{ changes: Record<string, unknown[]> }>("textDocument/rename", { ...at(uri, 4, 7), newName: "step" })).changes[uri],
    ).toHaveLength(2);
    await expect(wire.request("textDocument/rename", { ...at(uri, 4, 7), newName: "new" })).rejects.toThrow("line 5 (`fit hub left`) would be read otherwise");
  });
  test("a lens runs a command that the server has, or one that the editor said it has", async () => {
    const text = `${hub}supplier mill "Mill"\nstep on "On"\n  fit hub new\nrelease by "E. Lind" 2026-05-09\n`;
    const uri = open("lenses.jobsheet", text);
    const resolved = async (wire: Wire) => {
      const lenses = await wire.request<{ command?: { command: string; arguments: unknown[] } }[]>("textDocument/codeLens", { textDocument: { uri } });
      const out = [];
      for (const it of lenses) out.push((await wire.request<typeof it>("codeLens/resolve", it)).command);
      return out;
    };
    const fresh = startServer();
    const { capabilities } = await fresh.initialize([pathToFileURL(folder).href]);
    fresh.open(uri, text);
    await fresh.diagnostics(uri);
    const plain = await resolved(fresh);
    expect(plain.map((it) => it?.command)).toEqual(["splitpin.order", "splitpin.plan", "splitpin.release"]);
    for (const it of plain) {
      expect((capabilities.executeCommandProvider as { commands: string[] }).commands).toContain(it?.command);
      expect(await fresh.request("workspace/executeCommand", it)).toBeTruthy();
    }
    await fresh.stop();
    const own = startServer();
    await own.request("initialize", { processId: null, rootUri: pathToFileURL(folder).href, capabilities: {}, initializationOptions: { commands: true } });
    own.notify("initialized", {});
    own.open(uri, text);
    await own.diagnostics(uri);
    expect((await resolved(own)).map((it) => it?.command)).toEqual(["splitpin.showOrder", "splitpin.showPlan", "splitpin.markDone", "splitpin.showRelease"]);
    await own.stop();
  });
  test("the order comes by workspace/executeCommand", async () => {
    const uri = open("a.jobsheet", `${sheet.replace("crackd", "cracked")}finding hub\n  decision renew\n`);
    const order = await wire.request<{ html: string; markdown: string; json: { lines: { item: string }[] }; files: Record<string, string> }>(
      "workspace/executeCommand",
      { command: "splitpin.order", arguments: [uri] },
    );
    expect(order.json.lines.map((it) => it.item)).toEqual(["hub"]);
    expect(order.html).toContain("<html");
    expect(order.markdown).toContain("hub");
    expect(order.files["a.jobsheet"]).toBe(uri);
    await expect(wire.request("workspace/executeCommand", { command: "splitpin.order" })).rejects.toThrow("URI");
  });
});

describe("workspaces", () => {
  test("a sheet of no folder is served with the files beside it, and one that is on no disk is served too", async () => {
    const single = startServer();
    await single.initialize();
    writeFileSync(join(folder, "data.jobsheet"), hub);
    const uri = uriOf("job.jobsheet");
    single.open(uri, 'use "data.jobsheet"\nfinding hub\n  is serviceable\n');
    expect((await single.diagnostics(uri)).map((it) => it.code)).not.toContain("use-missing");
    single.open("untitled:Untitled-1", "part\n");
    expect((await single.diagnostics("untitled:Untitled-1")).length).toBeGreaterThan(0);
    expect(await single.stop()).toBe(0);
  });
});

describe("price lists", () => {
  const sheet = `sheet "Hub"
  currency GBP
part hub "Hub"
supplier alder "Alder Lane"
  currency GBP
  prices "alder.csv"
finding hub
  is damaged
`;
  test("a change of one on the disk reaches the open sheet and its order", async () => {
    const list = join(folder, "alder.csv");
    const changed = () => wire.notify("workspace/didChangeWatchedFiles", { changes: [{ uri: pathToFileURL(list).href, type: 2 }] });
    writeFileSync(list, 'item,price\nhub,"4,10"\n');
    const uri = open("a.jobsheet", sheet);
    const faults = async (since: number) =>
      (await wire.diagnostics(uri, since)).filter((it) => it.code === "price-row").map((it) => [it.range.start.line, it.message]);
    expect(await faults(0)).toEqual([[5, "Line 2 of alder.csv is left out. 4,10 has a decimal comma. Write 4.10."]]);
    const total = async () =>
      (await wire.request<{ json: { lines: { total: string | null }[] } }>("workspace/executeCommand", { command: "splitpin.order", arguments: [uri] })).json
        .lines[0]?.total;
    expect(await total()).toBeNull();
    const before = wire.listsOf(uri);
    writeFileSync(list, "item,price\nhub,4.10\n");
    changed();
    expect(await faults(before)).toEqual([]);
    expect(await total()).toBe("4.10");
    // And a price that is not in any diagnostic.
    writeFileSync(list, "item,price\nhub,14.10\n");
    changed();
    expect(await total()).toBe("14.10");
    rmSync(list);
    changed();
    expect(await total()).toBeNull();
  });
});
