// Thousands of edits that nobody would make, in the real server: after them it says what a fresh one says of the same texts.
// Texts are kept beside it by the protocol's own document library, so that what a range means is not ours to say. SPLITPIN_FUZZ=3000 makes more
// edits, SPLITPIN_SEED others; the seed stands in the test's name.
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterAll, expect, test } from "vitest";
import { TextDocument } from "vscode-languageserver-textdocument";
import { times } from "../sampled.ts";
import { longSheet } from "./long-sheet.ts";
import { type Wire, startServer } from "./wire.ts";

const edits = Number(process.env.SPLITPIN_FUZZ ?? times({ plain: 60, run: 240, full: 480 }));
const seed = Number(process.env.SPLITPIN_SEED ?? 20261128);

const folder = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-fuzz-")));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const samples = fileURLToPath(new URL("../../samples/", import.meta.url));
const pieces = ["bevel-drive/bevel-drive.jobsheet", "steering-box/steering-box.jobsheet"].flatMap((it) =>
  readFileSync(join(samples, it), "utf8").split(/\n(?=[a-z])/),
);
const bits = [
  ...[
    "x",
    "9",
    '"',
    "#",
    " ",
    "\t",
    "\n",
    "\r",
    "\r\n",
    "\n\n",
    "\n  ",
    "\0",
    "\ud83d",
    "\ude00",
    "😀",
    "\ufeff",
    "\u2028",
    "é",
    "e\u0301",
    "\u202e",
    "-",
    ",",
    "0.",
    "1/0",
  ],
  ...[
    "9".repeat(60),
    "(".repeat(300),
    '  note "',
    "\n  done\n",
    "\nday 2026-13-45\n",
    '\nrelease by "A. Moor" 2026-06-01\n',
    '\nuse "data.jobsheet"\n',
    '\nuse "../one/job.jobsheet"\n',
  ],
];

/** Numbers from a seed, each below `below`. */
function numbers(from: number): (below: number) => number {
  let state = from >>> 0;
  return (below) => {
    // mulberry32, in the public domain.
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) % below;
  };
}

test(`after ${edits} edits a server says what a fresh one says (SPLITPIN_SEED=${seed})`, async () => {
  const any = numbers(seed);
  const one = <T>(list: readonly T[]): T => list[any(list.length)] as T;
  const roots = ["one", "two"].map((it) => join(folder, it));
  for (const root of roots) mkdirSync(root, { recursive: true });
  const data = roots.map((root) => join(root, "data.jobsheet"));
  const dataText = 'part hub "Hub"\n  held by hub-nut\nfastener hub-nut "Hub nut"\n  torque 60 .. 70 lbf.ft dry\n  critical "a wheel"\n';
  for (const path of data) writeFileSync(path, dataText);
  for (const name of readdirSync(join(samples, "lorry-rear-axle")))
    if (name.endsWith(".jobsheet")) writeFileSync(join(roots[1] as string, name), readFileSync(join(samples, "lorry-rear-axle", name)));
  const first = new Map<string, string>([
    [pathToFileURL(join(roots[0] as string, "job.jobsheet")).href, `sheet "Fuzzed"\nuse "data.jobsheet"\nfinding hub\n  is cracked\n${longSheet(150)}`],
    [pathToFileURL(join(roots[0] as string, "long.jobsheet")).href, longSheet(1700)],
    [pathToFileURL(join(roots[0] as string, "longest.jobsheet")).href, longSheet(edits > 1000 ? 10_000 : 4000)],
    [pathToFileURL(join(roots[1] as string, "rear-axle.jobsheet")).href, readFileSync(join(samples, "lorry-rear-axle/rear-axle.jobsheet"), "utf8")],
    [pathToFileURL(data[1] as string).href, dataText],
    ["untitled:Untitled-1", longSheet(200)],
  ]);
  const wire = startServer();
  await wire.initialize(roots.map((it) => pathToFileURL(it).href));
  const failed: string[] = [];
  wire.onList((uri, list) => {
    if (list.some((it) => it.code === "splitpin-failed")) failed.push(uri);
  });
  const open = new Map<string, TextDocument>();
  const put = (uri: string, text: string) => {
    open.set(uri, TextDocument.create(uri, "jobsheet", 1, text));
    wire.open(uri, text);
  };
  for (const [uri, text] of first) put(uri, text);

  for (let n = 0; n < edits; n++) {
    const uri = one([...first.keys()]);
    const document = open.get(uri);
    // A sheet that was closed is opened again: as it was left, or as it was at first.
    if (document === undefined) put(uri, first.get(uri) as string);
    else if (any(60) === 0) {
      open.delete(uri);
      wire.notify("textDocument/didClose", { textDocument: { uri } });
    } else if (any(40) === 0) {
      const path = one(data);
      if (any(3) === 0) rmSync(path, { force: true });
      else writeFileSync(path, `${dataText}${one(pieces)}\n# ${n}\n`);
      wire.notify("workspace/didChangeWatchedFiles", { changes: [{ uri: pathToFileURL(path).href, type: 2 }] });
    } else {
      const changes = Array.from({ length: any(6) === 0 ? 3 : 1 }, () => change(document));
      // Each change is of the text that the one before it left.
      let now = document;
      const sent = [];
      for (const make of changes) {
        const it = make(now);
        sent.push(it);
        now = TextDocument.update(now, [it], now.version + 1);
      }
      open.set(uri, now);
      wire.change(uri, now.version, sent);
    }
    if (any(8) === 0) await ask(wire, one([...first.keys()]));
    // Now and then somebody reads, and longer checks get on.
    if (any(50) === 0) await new Promise((resolve) => setTimeout(resolve, 200));
  }

  function change(document: TextDocument) {
    const kind = any(40);
    const text = any(7) === 0 ? `${one(pieces)}\n` : one(bits);
    const [a, b, c] = [any(1 << 30), any(1 << 30), any(1 << 30)];
    return (now: TextDocument) => {
      if (kind === 0) return { text: now.getText().length > 400_000 || c % 2 === 0 ? (first.get(document.uri) as string) : text };
      const line = a % (now.lineCount + 1);
      // Behind the end of a line too, and below the last.
      const start = { line, character: b % 90 };
      const end =
        kind < 6 ? { line: line + (c % (kind === 1 ? 60 : 3)), character: c % 50 } : kind < 14 ? { line, character: start.character + (c % 4) } : start;
      const ordered = end.line < start.line || (end.line === start.line && end.character < start.character) ? { start: end, end: start } : { start, end };
      return { range: ordered, text: kind === 1 || kind === 7 ? "" : text };
    };
  }

  async function ask(to: Wire, uri: string): Promise<void> {
    const textDocument = { uri };
    const position = { line: any(400), character: any(40) };
    const method = one(["hover", "completion", "definition", "references", "documentSymbol", "formatting", "codeAction", "rename"]);
    const params = {
      textDocument,
      position,
      range: { start: { line: 0, character: 0 }, end: position },
      context: { includeDeclaration: true, diagnostics: [] },
      options: { tabSize: 2, insertSpaces: true },
      newName: "fuzzed",
    };
    try {
      await to.request(`textDocument/${method}`, params);
    } catch (error) {
      // What can't be renamed is told so; nothing else may fail.
      const { code } = error as { code?: number };
      if (method !== "rename" || (code !== -32600 && code !== -32602)) throw error;
    }
  }

  // What is on the disk now may be looked for by its time: it is told once more.
  for (const path of data) wire.notify("workspace/didChangeWatchedFiles", { changes: [{ uri: pathToFileURL(path).href, type: 2 }] });
  const fresh = startServer();
  await fresh.initialize(roots.map((it) => pathToFileURL(it).href));
  for (const document of open.values()) fresh.open(document.uri, document.getText());
  for (const uri of open.keys()) {
    const of = async (it: Wire) => JSON.stringify([uri, await it.diagnostics(uri)]);
    // Either may still be at it; a server that has come to rest on something else fails here.
    for (let tries = 0; tries < 300 && (await of(wire)) !== (await of(fresh)); tries++) await new Promise((resolve) => setTimeout(resolve, 100));
    expect([uri, await wire.diagnostics(uri)]).toEqual([uri, await fresh.diagnostics(uri)]);
    // And its text is the text that was typed.
    const outline = (it: Wire) => it.request("textDocument/documentSymbol", { textDocument: { uri } });
    expect(await outline(wire)).toEqual(await outline(fresh));
  }
  expect(failed).toEqual([]);
  expect([await wire.stop(), await fresh.stop(), wire.errors(), fresh.errors()]).toEqual([0, 0, "", ""]);
}, 1_800_000);
