// The parts of the program that few sheets ask for are read when a sheet asks for them, and not before: a start with a sheet that is read reads none.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { nodes } from "../built.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "splitpin-late-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Checks a sheet by the built door in a process of its own, and names the parts that it read. */
const program = `
import { createRequire } from "node:module";
const [door, sheet] = process.argv.slice(1);
const { run } = await import(door);
const said = [];
await run(["check", sheet, "--format", "json"], { cwd: ".", version: "0", colour: false, width: 100, out: (text) => said.push(text), err: (text) => said.push(text) });
const read = Object.keys(createRequire(door).cache).flatMap((it) => /late-(\\w+)-/.exec(it)?.[1] ?? []);
console.log(JSON.stringify({ read, said: said.join("") }));
`;

function checked(node: string, sheet: string): { readonly read: readonly string[]; readonly said: string } {
  const door = pathToFileURL(join(root, "dist/command-line.js")).href;
  const { stdout, stderr } = spawnSync(node, ["--input-type=module", "-e", program, door, sheet], { encoding: "utf8" });
  expect(stderr).toBe("");
  return JSON.parse(stdout) as ReturnType<typeof checked>;
}

test.each(nodes)("$name reads what is said of a broken line with the first of them", ({ path }) => {
  const sheet = join(folder, "broken.jobsheet");
  writeFileSync(sheet, 'sheet "Hub"\n  machine "Cart"\npart hub "Hub"\nfastener nut "Nut"\n  locked by split-pin 1/8 x 1-1/4 in\n');
  const { read, said } = checked(path, sheet);
  expect(read).toEqual(["unread"]);
  expect(said).toContain("split pin");
});

test("a sheet of which every line is read is checked without it", () => {
  const samples = readdirSync(join(root, "samples"), { withFileTypes: true }).filter((it) => it.isDirectory() && it.name !== "pictures");
  const isBroken = samples.map(({ name }) => {
    const { read, said } = checked(process.execPath, join(root, "samples", name));
    const broken = said.includes('"rule": "syntax"');
    expect([name, read.includes("unread")]).toEqual([name, broken]);
    return broken;
  });
  // One sample shows what is said of a broken line.
  expect(new Set(isBroken)).toEqual(new Set([false, true]));
});
