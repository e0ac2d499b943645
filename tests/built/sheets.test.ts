// The built program says of every sheet of the project what its sources say, on every Node that is promised: samples, hand-answered sheets, traps,
// the examples of the rules and those of the documents. Of the traps and of the rules a part, but in the full run.
// The oldest Node and the newest go through all of them. What lies between, the Node of the tests among it, shares them: each sheet is checked on one of those, and on all in the full run.
import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { nodeOf, versions } from "../../.ci/nodes.ts";
import { run } from "../../server/cli/run.ts";
import { sheetsIn } from "../../server/disk/list-sheets.ts";
import { written as rules } from "../../server/rules/all.ts";
import { nodes } from "../built.ts";
import { isFull, isRun, sampleName, sampled, thinned } from "../sampled.ts";
import { machine, trapFiles } from "../traps/read-traps.ts";

interface Answer {
  readonly diagnostics: readonly { readonly file: string; readonly line: number; readonly rule: string; readonly message: string }[];
}

interface Group {
  readonly cwd: string;
  readonly paths: readonly string[];
}

/** What the command line said of a group. */
interface Said {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

const root = fileURLToPath(new URL("../../", import.meta.url));
const groupsChecked = fileURLToPath(new URL("check-groups.mjs", import.meta.url));
const commandLineDoor = join(root, "dist/command-line.js");
let folder = "";
/**
 * What is checked, in two halves: every second group. The sheets of a group lie in one folder and know one another; all traps are jobs on one machine, and in one folder
 * each would be told of the thousand others.
 */
let halves: readonly (readonly Group[])[] = [];
let bySource: readonly (readonly Said[])[] = [];

beforeAll(async () => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-built-")));
  const folders = [
    ...thinned(readdirSync(`${root}samples`), 2).map((it) => `samples/${it}`),
    ...thinned(readdirSync(`${root}tests/sheets`), 8).map((it) => `tests/sheets/${it}`),
  ];
  for (const name of folders) cpSync(root + name, join(folder, name), { recursive: true });
  trapFiles.forEach(({ name, traps }) => {
    sampled([...traps.entries()], 1).forEach(([i, trap]) => {
      for (const [path, text] of [...trap.texts, ["machine.jobsheet", machine] as const]) put(`traps/${name}/${i}/${path}`, text);
    });
  });
  for (const rule of sampled(rules, 1))
    for (const kind of ["wrong", "fixed", "right"] as const) {
      if (rule[kind] === undefined) continue;
      put(`rules/${rule.id}/${kind}/sheet.jobsheet`, rule[kind]);
      for (const [path, text] of Object.entries(rule.files ?? {})) put(`rules/${rule.id}/${kind}/${path}`, text);
    }
  for (const page of ["README.md", "DEVELOPERS.md", "grammar/REFERENCE.md", "server/rules/RULES.md"])
    inPage(page).forEach((text, i) => {
      put(`pages/${page}/${i}.jobsheet`, text);
    });
  const groups = [...folders, "rules", "pages", ...trapFiles.map((it) => `traps/${it.name}`)]
    .filter((name) => existsSync(join(folder, name)))
    .map((name) => {
      const cwd = join(folder, name);
      const paths = sheetsIn(cwd).map((it) => relative(cwd, it));
      // Every trap has the same machine beside it: it is read with each, and checked by itself once.
      return { cwd, paths: paths.filter((it, i) => !isMachine(it) || i === paths.findIndex(isMachine)) };
    })
    .filter((it) => it.paths.length > 0);
  halves = [0, 1].map((half) => groups.filter((_, i) => i % 2 === half));
  for (const [half, some] of halves.entries()) writeFileSync(join(folder, `groups-${half}.json`), JSON.stringify(some));
  bySource = [await source(0), await source(1)];
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const isMachine = (path: string) => /^\d+\/machine\.jobsheet$/.test(path);

// Between two changes the oldest, where it was fetched: on the Node of the tests other tests run it.
const asked = isRun ? nodes : nodes.slice(-1);
const between = asked.slice(0, 1).concat(asked.slice(2, -1));
const shared = (node: (typeof nodes)[number]) => !isFull && between.length > 1 && between.includes(node);
const runs = asked.flatMap((node) =>
  [0, 1].filter((half) => !shared(node) || between.indexOf(node) % 2 === half).map((half) => ({ ...node, half, which: half === 0 ? "one" : "the other" })),
);

test.each(runs)(`$name says of every sheet of $which half what the sources say; traps and rules: ${sampleName}`, ({ path, half }) => {
  const built = builtOn(path, half);
  const sources = bySource[half] as readonly Said[];
  for (const [i, { out, ...rest }] of sources.entries()) {
    const { out: outBuilt = "", ...restBuilt } = built[i] ?? {};
    expect({ in: halves[half]?.[i]?.cwd, ...restBuilt }).toEqual({ in: halves[half]?.[i]?.cwd, ...rest });
    // What differs first is told, and not two long lists; compared as texts, for there are thousands.
    if (outBuilt === out) continue;
    const [ours, theirs] = [answerOf(out), answerOf(outBuilt)];
    const at = ours.findIndex((it, k) => JSON.stringify(theirs[k]) !== JSON.stringify(it));
    expect([theirs.length, theirs[at]]).toEqual([ours.length, ours[at]]);
    expect(outBuilt).toBe(out);
  }
  expect(built.length).toBe(sources.length);
});

test("the oldest and the newest Node are asked about every sheet, and so are those between, together", () => {
  expect(new Set(runs.map((it) => it.path))).toEqual(new Set(asked.map((it) => it.path)));
  const halvesOf = (some: typeof asked) => runs.filter((it) => some.some(({ path }) => path === it.path)).map((it) => it.half);
  const [oldest, newest] = isRun ? versions.map(nodeOf).filter((_, i, { length }) => i === 0 || i === length - 1) : asked.map((it) => it.path);
  for (const path of [oldest, newest ?? oldest]) expect(halvesOf(asked.filter((it) => it.path === path))).toEqual([0, 1]);
  if (isRun) expect(new Set(halvesOf(asked.filter((it) => it.path !== oldest && it.path !== newest)))).toEqual(new Set([0, 1]));
});

test("there is something to compare", () => {
  const groups = bySource.flatMap((said, half) =>
    said.map((it, i) => ({ name: relative(folder, halves[half]?.[i]?.cwd ?? "").split("/")[0], said: answerOf(it.out).length, err: it.err })),
  );
  expect([...new Set(groups.filter((it) => it.said > 0).map((it) => it.name))].sort()).toEqual(["pages", "rules", "samples", "tests", "traps"]);
  expect(groups.filter((it) => it.err !== "")).toEqual([]);
  expect(groups.reduce((sum, it) => sum + it.said, 0)).toBeGreaterThan(isRun ? 1000 : 150);
});

function put(path: string, text: string): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), text);
}

function inPage(page: string): string[] {
  return [...readFileSync(root + page, "utf8").matchAll(/^```jobsheet\n([\s\S]*?)^```$/gm)].map((it) => it[1] as string);
}

function answerOf(out: string): Answer["diagnostics"] {
  return (JSON.parse(out) as Answer).diagnostics;
}

async function source(half: number): Promise<readonly Said[]> {
  const all: Said[] = [];
  for (const { cwd, paths } of halves[half] ?? []) {
    const [out, err]: [string[], string[]] = [[], []];
    const desk = { cwd, version: "0", colour: false, width: 100, out: (text: string) => void out.push(text), err: (text: string) => void err.push(text) };
    all.push({ code: await run(["check", ...paths, "--format", "json"], desk), out: out.join(""), err: err.join("") });
  }
  return all;
}

const builtSaid = new Map<string, ReadonlyMap<number, readonly Said[]>>();

/** The same by the built door: all that a Node is asked about, in one process of it. */
function builtOn(node: string, half: number): readonly Said[] {
  const said = builtSaid.get(node) ?? askBuilt(node);
  builtSaid.set(node, said);
  return said.get(half) ?? [];
}

function askBuilt(node: string): ReadonlyMap<number, readonly Said[]> {
  const asked = runs.filter((it) => it.path === node).map((it) => it.half);
  const words = [groupsChecked, commandLineDoor, ...asked.map((half) => join(folder, `groups-${half}.json`))];
  const { status, stdout, stderr } = spawnSync(node, words, { encoding: "utf8", maxBuffer: 1 << 28 });
  expect([status, stderr]).toEqual([0, ""]);
  const lines = stdout.trim().split("\n");
  return new Map(asked.map((half) => [half, lines.splice(0, (halves[half] as readonly Group[]).length).map((line) => JSON.parse(line) as Said)] as const));
}
