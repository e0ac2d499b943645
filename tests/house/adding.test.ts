// What it takes to add a word, a rule and a report: each is written into a copy of the project by the fewest files that a hand must touch, and works there.
// The copy is generated, type-checked and built, which takes half a minute: on each push, or by itself with SPLITPIN_ADDING=1.
import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, realpathSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { isRun } from "../sampled.ts";
import { startServer } from "../server/wire.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const copy = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-adding-")));
afterAll(() => rmSync(copy, { recursive: true, force: true }));

/** What a hand writes, by what it is for: a whole file, or what comes behind a text that stands in one. */
type Hand = Readonly<Record<string, string | { readonly behind: string; readonly put: string }[]>>;

const word: Hand = {
  "grammar/words/work-words.ts": [
    {
      behind: "export const workWords = [\n",
      put: `  {
    word: "weather",
    kind: "weather",
    shape: text("text"),
    under: step,
    syntax: 'weather "…"',
    says: "What it was like outside.",
    example: 'weather "frost"',
  },
`,
    },
  ],
};

const rule: Hand = {
  "server/rules/steps/weather-frost.ts": `// Work in frost, as the sheet itself says.
import { where } from "../../model/where.ts";
import type { EntryRule } from "../rule.ts";

export const rule: EntryRule = {
  id: "weather-frost",
  group: "Order of work",
  severity: "hint",
  safety: false,
  title: "Done in frost",
  why: "Cold metal reads small. Let it come to the warmth of the shop before it is measured.",
  wrong: \`step strip "Strip"
  weather "frost"
# ^^^^^^^^^^^^^^^ hint weather-frost
\`,
  right: \`step strip "Strip"
  weather "fair"
\`,
  scope: "entry",
  check({ file, entry, report }) {
    for (const detail of entry.details)
      if (detail.kind === "weather" && detail.text?.value === "frost")
        report({ where: where(file, entry, detail.row, detail.at), severity: "hint", message: "It was done in frost: what is read there reads small." });
  },
};
`,
};

const report: Hand = {
  "server/reports/weather/report.ts": `// The row of \`all.ts\` for the weather.
import { report } from "../report.ts";

export const weather = report({
  name: "weather",
  command: "splitpin.weather",
  title: "Weather",
  kind: async () => (await import("./kind.ts")).kind,
  help: "splitpin weather [PATH…] [--format text|md|html|json] [--out FILE]\\n\\nWhat it was like outside, step by step.\\n",
});
`,
  "server/reports/weather/kind.ts": `// The weather: how it is worked out and drawn.
import { drawings } from "../draw/drawings.ts";
import type { Slices } from "../../../grammar/slices.ts";
import { type Heading, telling } from "../draw/heading.ts";
import type { Line } from "../draw/line.ts";
import { listOf } from "../draw/sections.ts";
import { where } from "../../model/where.ts";
import { kindOf, noWishes } from "../report.ts";

interface Weather extends Heading {
  readonly rows: readonly (Line & { readonly text: string })[];
}

export const kind = kindOf({
  of: "each job",
  wishes: noWishes,
  *make(files, [path = ""]): Slices<Weather | undefined> {
    const told = yield* telling(files, path);
    if (told === undefined) return undefined;
    const rows = told.job.own.sheet.entries.flatMap((entry) =>
      entry.details.flatMap((it) => (it.kind === "weather" && it.text !== undefined ? [{ ...told.at(where(path, entry, it.row, it.at)), text: it.text.value }] : [])),
    );
    return { ...told.heading, rows };
  },
  drawings: drawings((it: Weather) => ({ name: "Weather", heading: it, parts: [listOf("Step by step", it.rows, (row) => row.text)], foot: [] })),
});
`,
  "server/reports/all.ts": [
    { behind: 'import { wayBackReport } from "./way-back/report.ts";\n', put: 'import { weather } from "./weather/report.ts";\n' },
    { behind: "export const reports: readonly Report[] = [", put: "weather, " },
  ],
};

describe.runIf(isRun || process.env.SPLITPIN_ADDING === "1")("in a copy of the project", () => {
  const before = new Map<string, string>();
  const run = (command: string, ...words: readonly string[]) => {
    const { status, stdout, stderr } = spawnSync(command, words, { cwd: copy, encoding: "utf8" });
    return { status, text: stdout + stderr };
  };
  const splitpin = (...words: readonly string[]) => run(process.execPath, "dist/splitpin.js", ...words);
  const sheet = 'sheet "Front"\nstep strip "Strip"\n  weather "frost"\n  done 2026-01-02\n';

  beforeAll(() => {
    for (const name of readdirSync(root).filter((it) => !/^(node_modules|dist|\.git|\.cache)$/.test(it)))
      cpSync(join(root, name), join(copy, name), { recursive: true });
    symlinkSync(join(root, "node_modules"), join(copy, "node_modules"));
    for (const hand of [word, rule, report]) write(hand);
    for (const file of filesOf(copy)) before.set(file, readFileSync(join(copy, file), "latin1"));
    expect(run(process.execPath, ".ci/generate.mjs")).toMatchObject({ status: 0 });
    expect(run(process.execPath, ".ci/build.mjs")).toEqual({ status: 0, text: "" });
    writeFileSync(join(copy, "front.jobsheet"), sheet);
  });

  test("it compiles, and nothing but what is generated changed beside what the hand wrote", () => {
    expect(run(process.execPath, "node_modules/typescript/bin/tsc")).toEqual({ status: 0, text: "" });
    const changed = filesOf(copy).filter((it) => it !== "front.jobsheet" && before.get(it) !== readFileSync(join(copy, it), "latin1"));
    expect(changed.sort()).toEqual([
      "grammar/REFERENCE.md",
      "grammar/jobsheet.tmLanguage.json",
      "server/rules/RULES.md",
      "server/rules/all.ts",
      "server/rules/ids.ts",
    ]);
    expect(run(process.execPath, ".ci/generate.mjs", "--check")).toMatchObject({ status: 0 });
  });

  test("a word takes two files at most: it is read, and stands in the reference and in the grammar of editors", () => {
    expect(Object.keys(word).length).toBeLessThanOrEqual(2);
    const { text } = splitpin("check", "front.jobsheet", "--hints");
    expect(text).not.toContain("syntax");
    expect(readFileSync(join(copy, "grammar/REFERENCE.md"), "utf8")).toContain('weather "…"');
    expect(readFileSync(join(copy, "grammar/jobsheet.tmLanguage.json"), "utf8")).toMatch(/\bweather\b/);
  });

  test("a rule takes one: it speaks, and has its page", () => {
    expect(Object.keys(rule)).toHaveLength(1);
    expect(splitpin("check", "front.jobsheet", "--hints").text).toContain("weather-frost");
    expect(splitpin("explain", "weather-frost").text).toContain("Cold metal reads small.");
    expect(readFileSync(join(copy, "server/rules/RULES.md"), "utf8")).toMatch(/^#+ `?weather-frost`?$/m);
    const examples = run(process.execPath, "node_modules/vitest/vitest.mjs", "run", "tests/rules/rules.test.ts", "-t", "weather-frost");
    expect(examples.text).toMatch(/[1-9]\d* passed/);
    expect(examples.status).toBe(0);
  });

  test("a report takes its own folder and one row: every door has it", async () => {
    expect(Object.keys(report).filter((it) => !it.startsWith("server/reports/weather/"))).toEqual(["server/reports/all.ts"]);
    for (const format of ["text", "md", "html"]) expect(splitpin("weather", "front.jobsheet", "--format", format).text).toContain("frost");
    expect(JSON.parse(splitpin("weather", "front.jobsheet", "--format", "json").text)).toMatchObject({ rows: [{ line: 3, text: "frost" }] });
    expect(splitpin("--help").text).toContain("splitpin weather");
    const wire = startServer({ entry: join(copy, "dist/splitpin.js") });
    const { capabilities } = await wire.initialize();
    expect((capabilities.executeCommandProvider as { commands: readonly string[] }).commands).toContain("splitpin.weather");
    expect(await wire.request("workspace/executeCommand", { command: "splitpin.reports", arguments: [] })).toContainEqual({
      name: "weather",
      title: "Weather",
      command: "splitpin.weather",
    });
    await wire.stop();
  });
});

function write(hand: Hand): void {
  for (const [file, how] of Object.entries(hand)) {
    const path = join(copy, file);
    mkdirSync(dirname(path), { recursive: true });
    if (typeof how === "string") {
      expect(existsSync(path), `${file} is there already`).toBe(false);
      writeFileSync(path, how);
      continue;
    }
    let text = readFileSync(path, "utf8");
    for (const { behind, put } of how) {
      expect(text.split(behind).length, `“${behind}” stands once in ${file}`).toBe(2);
      text = text.replace(behind, () => behind + put);
    }
    writeFileSync(path, text);
  }
}

function filesOf(folder: string, under = ""): string[] {
  return readdirSync(join(folder, under), { withFileTypes: true }).flatMap((it) => {
    if (it.isDirectory() && !["dist", ".bundled", ".cache"].includes(it.name)) return filesOf(folder, join(under, it.name));
    return it.isFile() ? [join(under, it.name)] : [];
  });
}
