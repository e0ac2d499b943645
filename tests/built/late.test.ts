// The parts of the program that few sheets ask for are read when a sheet asks for them, and not before: a start with a sheet that is read reads none.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { actionWords, conditions, detailWords, entryWords } from "../../grammar/words.ts";
import { reports } from "../../server/reports/all.ts";
import { nodes } from "../built.ts";
import { startServer } from "../server/wire.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "splitpin-late-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Does commands by the built door, one behind the other in a process of its own, and names the parts that each read which no command before it had. */
const program = `
import { createRequire } from "node:module";
const [door, commands] = process.argv.slice(1);
const { run } = await import(door);
const before = new Set();
const all = [];
for (const words of JSON.parse(commands)) {
  const said = [];
  await run(words, { cwd: ".", version: "0", colour: false, width: 100, out: (text) => said.push(text), err: (text) => said.push(text) });
  const read = Object.keys(createRequire(door).cache).flatMap((it) => /late-(\\w+)-/.exec(it)?.[1] ?? []).filter((it) => !before.has(it));
  for (const it of read) before.add(it);
  all.push({ read, said: said.join("") });
}
console.log(JSON.stringify(all));
`;

interface Done {
  readonly read: readonly string[];
  readonly said: string;
}

function done(node: string, ...commands: readonly (readonly string[])[]): readonly Done[] {
  const door = pathToFileURL(join(root, "dist/command-line.js")).href;
  // What follows the two dashes is the program's, though it looks like an option of Node.
  const { stdout, stderr } = spawnSync(node, ["--input-type=module", "-e", program, "--", door, JSON.stringify(commands)], {
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  expect(stderr).toBe("");
  const all = JSON.parse(stdout) as readonly Done[];
  expect(all.length).toBe(commands.length);
  return all;
}

const checking = (sheet: string) => ["check", sheet, "--format", "json"];

test.each(nodes)("$name reads what is said of a broken line with the first of them", ({ path }) => {
  const sheet = join(folder, "broken.jobsheet");
  writeFileSync(sheet, 'sheet "Hub"\n  machine "Cart"\npart hub "Hub"\nfastener nut "Nut"\n  locked by split-pin 1/8 x 1-1/4 in\n');
  const [it] = done(path, checking(sheet));
  expect(it?.read).toEqual(["unread"]);
  expect(it?.said).toContain("split pin");
});

test("a sheet of which every line is read is checked without it", () => {
  const samples = readdirSync(join(root, "samples"), { withFileTypes: true }).filter((it) => it.isDirectory() && it.name !== "pictures");
  // One sample shows what is said of a broken line, the first by its name: behind the others it is the first that reads it.
  const all = done(process.execPath, ...samples.toReversed().map(({ name }) => checking(join(root, "samples", name))));
  const isBroken = all.map(({ said }) => said.includes('"rule": "syntax"'));
  expect(isBroken.filter((it) => it)).toEqual([true]);
  expect(isBroken.at(-1)).toBe(true);
  expect(all.map(({ read }) => read.includes("unread"))).toEqual(isBroken);
  expect(all.flatMap(({ read }) => read).filter((it) => it === "texts" || it === "help")).toEqual([]);
});

test.each(nodes)("$name reads the help of a report when it is asked for, as it stands in its row", ({ path }) => {
  const all = done(path, ...reports.map(({ name }) => [name, "--help"]));
  for (const [i, { name, help }] of reports.entries()) {
    const { read, said } = all[i] as Done;
    expect([name, ...read].sort()).toEqual((i === 0 ? [name, "help", "texts"] : [name]).sort());
    // Set for the terminal: only where its lines break may be otherwise.
    const words = (text: string) => text.split(/\s+/).filter((it) => it !== "");
    expect(words(said)).toEqual(words(help));
  }
});

test("what is planned, and what is on hold, is worked out by a part that a job without orders does not read", () => {
  const all = done(process.execPath, ...["drilling-machine", "lorry-rear-axle"].map((of) => checking(join(root, "samples", of))));
  expect(all.map(({ read }) => read.includes("ordered"))).toEqual([false, true]);
});

test.each(nodes)(
  "$name tells how each word is written and what it says, as its row does",
  async ({ path }) => {
    // A line under an entry of each kind, on which nothing is written yet, and one with a condition each.
    const plain = conditions.filter((it) => it.syntax === it.word);
    const lines = ["", ...entryWords.flatMap(({ word }) => [`${word} `, "  "]), "finding hub", ...plain.map(({ word }) => `  is ${word}`)];
    const wire = startServer({ node: path });
    await wire.initialize([pathToFileURL(folder).href]);
    const textDocument = { uri: pathToFileURL(join(folder, "words.jobsheet")).href };
    wire.open(textDocument.uri, `${lines.join("\n")}\n`);
    await wire.diagnostics(textDocument.uri);
    const at = (line: number) => ({ textDocument, position: { line, character: (lines[line] as string).length } });

    const rows = [...entryWords, ...detailWords, ...actionWords];
    const told = new Map(rows.map(({ word }) => [word as string, new Set<string>()]));
    for (const line of lines.keys()) {
      if (lines[line]?.trim() !== "") continue;
      const { items } = await wire.request<{ readonly items: readonly Item[] }>("textDocument/completion", at(line));
      for (const { label, detail, documentation } of items) told.get(label)?.add(`${detail}: ${textOf(documentation)}`);
    }
    // Of two lines that begin with one word under one entry the first is offered.
    const isTold = (word: string) => rows.some((it) => it.word === word && told.get(word)?.has(`${it.syntax}: ${it.says}`));
    expect([...told.keys()].filter((it) => !isTold(it))).toEqual([]);

    for (const { word, says } of plain)
      expect([word, JSON.stringify(await wire.request("textDocument/hover", at(lines.indexOf(`  is ${word}`))))]).toEqual([
        word,
        expect.stringContaining(says),
      ]);
    await wire.stop();
  },
  60_000,
);

interface Item {
  readonly label: string;
  readonly detail?: string;
  readonly documentation?: string | { readonly value: string };
}

function textOf(documentation: Item["documentation"]): string | undefined {
  return typeof documentation === "object" ? documentation.value : documentation;
}
