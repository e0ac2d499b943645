// The built program says of every sheet of the project what its sources say, on every Node that is promised: samples, hand-answered sheets, traps,
// the examples of the rules and those of the documents. Of the traps and of the rules a part, but in the full run.
import { cpSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { run } from "../../server/cli/run.ts";
import { written as rules } from "../../server/rules/all.ts";
import { nodes, runOn } from "../built.ts";
import { isRun, sampleName, sampled, thinned } from "../sampled.ts";
import { machine, trapFiles } from "../traps/read-traps.ts";

interface Answer {
  readonly diagnostics: readonly { readonly file: string; readonly line: number; readonly rule: string; readonly message: string }[];
}

const root = fileURLToPath(new URL("../../", import.meta.url));
const words = ["check", ".", "--format", "json"];
let folder = "";
let bySource: Answer;

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
    sheetsIn(page).forEach((text, i) => {
      put(`pages/${page}/${i}.jobsheet`, text);
    });
  bySource = JSON.parse((await source()).out) as Answer;
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

// Between two changes the oldest, where it was fetched: on the Node of the tests other tests run it.
describe.each(isRun ? nodes : nodes.slice(-1))("$name", ({ path }) => {
  test(`says of every sheet what the sources say; traps and rules: ${sampleName}`, () => {
    const { code, out, err } = runOn(path, words, folder);
    expect([code, err]).toEqual([1, ""]);
    const built = (JSON.parse(out) as Answer).diagnostics;
    // What differs first is told, and not two long lists; compared as texts, for there are thousands.
    const at = bySource.diagnostics.findIndex((it, i) => JSON.stringify(built[i]) !== JSON.stringify(it));
    if (at >= 0) expect(built[at]).toEqual(bySource.diagnostics[at]);
    expect([at, built.length]).toEqual([-1, bySource.diagnostics.length]);
  });
});

test("there is something to compare", () => {
  const files = new Set(bySource.diagnostics.map((it) => it.file.split("/")[0]));
  expect([...files].sort()).toEqual(["pages", "rules", "samples", "tests", "traps"]);
  expect(bySource.diagnostics.length).toBeGreaterThan(isRun ? 1000 : 150);
});

function put(path: string, text: string): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), text);
}

function sheetsIn(page: string): string[] {
  return [...readFileSync(root + page, "utf8").matchAll(/^```jobsheet\n([\s\S]*?)^```$/gm)].map((it) => it[1] as string);
}

async function source(): Promise<{ out: string }> {
  const out: string[] = [];
  await run(words, { cwd: folder, version: "0", colour: false, width: 100, out: (text) => void out.push(text), err: (text) => void out.push(text) });
  return { out: out.join("") };
}
