// The built program starts on every Node that is promised, by each of its doors, and reads every character that the reference promises.
import { fork } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { versions } from "../../.ci/nodes.ts";
import { nodes, program, runOn } from "../built.ts";
import { startServer } from "../server/wire.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const manifest = JSON.parse(readFileSync(`${root}package.json`, "utf8")) as { version: string; engines: { node: string; vscode: string } };
let folder = "";
beforeAll(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-doors-")));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Written from the reference by hand: each line is promised there, under “Lines”, “Figures and units”, “Ranges” and “Threads”. */
const promised = `part bride-arrière "Bride arrière"
  held by гайка
fastener гайка "Гайка"
  torque 50 ± 2 N·m
  thread 5/8-18 UNF
fastener nut-1 "Nut"
  torque 50 +/- 2 Nm
  thread No.10-32 UNF
fastener nut-2 "Nut, “loose” they said: ½ turn, £3, 20 °C"
  torque max 34 lb.ft
fastener nut-3 "轴承 🔧"
  torque max 34 ft-lb
limit lift "Lift"
  new 40 .. 60 µm
limit lift-2 "Lift"
  new 40 .. 60 µm
limit lift-3 "Lift"
  new 40\u00a0.. 60\u00a0um
limit gap "Gap"
  new .005 to 1-1/4 in
limit heat "Heat"
  new 80 .. 120 °C
limit heat-2 "Heat"
  new 180 .. 250 °F
limit bore "Bore"
  new 25 H7 mm
limit pin "Pin"
  new 25 +0.021 0 mm
`;

// One letter beyond them, and a Node has to decode the file, holds it in twice the memory, and looks through it slower at each start.
test("what ships is written in ASCII", () => {
  const files = ["dist", "dist/browser"].flatMap((it) => readdirSync(`${root}${it}`).map((name) => `${it}/${name}`)).filter((it) => /\.c?js$/.test(it));
  expect(files.length).toBeGreaterThan(8);
  expect(files.filter((it) => readFileSync(`${root}${it}`).some((byte) => byte > 127))).toEqual([]);
});

test("the oldest Node that is tried is the oldest that is promised", () => {
  expect(manifest.engines).toEqual({ node: ">=20", vscode: "^1.91.0" });
  // VS Code 1.91 runs its extensions on Node 20.9.0 (Electron 29).
  expect(versions.slice(0, 2)).toEqual(["20.0.0", "20.9.0"]);
});

describe.each(nodes)("$name", ({ path }) => {
  test("the command line", () => {
    expect(runOn(path, ["--version"], folder)).toEqual({ code: 0, out: `splitpin ${manifest.version}\n`, err: "" });
    expect(runOn(path, ["figure", "25 µm in mm"], folder).out).toMatch(/^25 um = 0\.025 mm/);
  });
  test("reads every character that is promised, and tells of those that are not", () => {
    writeFileSync(join(folder, "promised.jobsheet"), promised);
    writeFileSync(join(folder, "curly.jobsheet"), 'part hub “Hub”\nlimit gap "Gap"\n  new ½ .. 1 in\n');
    const { out } = runOn(path, ["check", ".", "--format", "json"], folder);
    const { diagnostics } = JSON.parse(out) as { diagnostics: { file: string; line: number; severity: string; message: string }[] };
    expect(diagnostics.some((it) => it.file === "promised.jobsheet")).toBe(true);
    const said = (name: string) => diagnostics.filter((it) => it.file === name && it.severity === "error");
    expect(said("promised.jobsheet")).toEqual([]);
    expect(said("curly.jobsheet").map((it) => [it.line, it.message])).toEqual([
      [1, 'Quotes are written straight: "…".'],
      [3, "A fraction is written with a stroke: 1/2."],
    ]);
  });
  test("the language server over standard input and output", async () => {
    const server = startServer({ node: path });
    const { capabilities } = await server.initialize();
    expect(capabilities.hoverProvider).toBe(true);
    const sheet = `${root}samples/bevel-drive/bevel-drive.jobsheet`;
    const uri = pathToFileURL(sheet).href;
    server.open(uri, readFileSync(sheet, "utf8"));
    expect((await server.diagnostics(uri)).length).toBeGreaterThan(5);
    expect(await server.stop()).toBe(0);
    expect(server.errors()).toBe("");
  });
  test("the language server as an extension starts it, over the channel between processes", async () => {
    const child = fork(program, ["server", "--node-ipc"], { execPath: path, execArgv: [] });
    const answer = new Promise((resolve) => child.once("message", resolve));
    child.send({ jsonrpc: "2.0", id: 1, method: "initialize", params: { processId: process.pid, rootUri: null, capabilities: {} } });
    expect(await answer).toMatchObject({ id: 1, result: { serverInfo: { name: "splitpin", version: manifest.version } } });
    const ended = new Promise((resolve) => child.once("exit", resolve));
    child.send({ jsonrpc: "2.0", method: "exit" });
    // Without a shutdown before it, the protocol wants 1.
    expect(await ended).toBe(1);
  });
});
