// `npm run mutate`: whether the tests notice when a token of the gate is another. A sample of mutants (Stryker's, by its instrumenter) over the story, the rules, the
// supply, the plan and what stands below them is compiled in, each behind a switch of its own; `runner.ts` runs every test again under each mutant that it reaches.
//
// Stryker's own runner for vitest starts a run for each mutant: the sources are read and the sheets checked anew each time, seconds before the first test. Here it is one run.
//
//   SPLITPIN_MUTANTS=200  how many;  SPLITPIN_SEED=n  another sample;  SPLITPIN_MUTATE=server/story/lots  files whose path begins so;
//   SPLITPIN_MUTANT_SECONDS=20  how long the tests may look at one before it counts as unnoticed
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Instrumenter } from "@stryker-mutator/instrumenter";
import { defineConfig } from "vitest/config";
import type { TestModule } from "vitest/node";
import { seeded } from "../../tests/seeded.ts";
import { type Mutant, readMutants, writeMutants } from "./mutants.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const rooms = ["server/story", "server/rules", "server/supply", "server/plan", "server/trade", "server/quantities"];
const under = process.env.SPLITPIN_MUTATE ?? "server/";
const seed = Number(process.env.SPLITPIN_SEED) || 20260504;
const wanted = Number(process.env.SPLITPIN_MUTANTS) || 200;

/** Texts are left: what a message says is for its reader to judge, not for the gate. */
const options = { plugins: null, excludedMutations: ["StringLiteral"], ignorers: [] };
const quiet = () => {};
const log = { debug: quiet, info: quiet, warn: quiet, error: quiet, fatal: quiet, trace: quiet, isDebugEnabled: () => false } as never;

const paths = rooms.flatMap((room) =>
  readdirSync(root + room, { recursive: true, encoding: "utf8" })
    .filter((it) => it.endsWith(".ts"))
    .map((it) => `${room}/${it}`)
    .filter((it) => it.startsWith(under))
    .sort(),
);
const all = (await instrumented(paths.map((name) => ({ name, mutate: true })))).mutants.filter((it) => it.status !== "Ignored");
const random = seeded(seed);
const chosen = new Set(
  all
    .map((mutant) => ({ mutant, at: random(1e9) }))
    .sort((a, b) => a.at - b.at)
    .slice(0, wanted)
    .map((it) => keyOf(it.mutant)),
);
// Only where a chosen mutant stands is anything compiled in.
const made = await instrumented(
  paths
    .map((name) => ({ name, mutate: all.filter((it) => it.fileName === name && chosen.has(keyOf(it))).map((it) => it.location) }))
    .filter((it) => it.mutate.length > 0),
);
const texts = new Map(made.files.map((it) => [root + it.name, it.content]));
const mutants: Mutant[] = made.mutants
  .filter((it) => chosen.has(keyOf(it)))
  .map((it) => ({
    id: it.id,
    at: `${it.fileName}:${it.location.start.line + 1}:${it.location.start.column + 1}`,
    what: it.mutatorName,
    was: cut(readFileSync(root + it.fileName, "utf8"), it.location),
    now: it.replacement,
    reached: 0,
    seconds: 0,
  }));
mkdirSync(`${root}.cache`, { recursive: true });
writeMutants(mutants);
console.log(`${mutants.length} mutants of ${all.length}, SPLITPIN_SEED=${seed}`);

export default defineConfig({
  root,
  plugins: [
    {
      name: "mutants",
      enforce: "pre",
      transform(code, id) {
        const path = id.split("?")[0] as string;
        if (!path.startsWith(`${root}server/`)) return;
        const text = texts.get(path) ?? code;
        return /new WeakMap\b|let made:/.test(text) ? forgetful(text) : text;
      },
    },
  ],
  test: {
    // The first ones are quick and notice most, so little is left for those behind.
    include: (
      process.env.SPLITPIN_MUTATE_TESTS ??
      "tests/rules/rules,tests/traps,tests/expect,tests/rules/units,tests/rules/writing,tests/story,tests/supply,tests/reports/order,tests/reports/needs,tests/reports/plan,tests/quantities,tests/trade,tests/published,tests/features/figure,tests/simulated"
    )
      .split(",")
      .map((it) => `${it}{,*,/**/*}.test.ts`),
    testTimeout: 3_600_000,
    hookTimeout: 3_600_000,
    setupFiles: [".ci/group-by.mjs", "tests/breathe.ts"],
    runner: ".ci/mutation/runner.ts",
    reporters: ["dot", { onTestRunEnd: told }],
    server: { deps: { external: [/\/dist\/[\w-]+\.js$/] } },
    pool: "forks",
    isolate: false,
    maxWorkers: 1,
    sequence: { concurrent: false },
  },
});

/** What is kept by object is forgotten between two runs of a test: it was worked out under another mutant, or under none. */
function forgetful(text: string): string {
  return `import { Forgetful, age } from ${JSON.stringify(`${root}.ci/mutation/forgetful.ts`)};\n${text
    .replaceAll("new WeakMap", "new Forgetful")
    .replace("made ??= { value: make() };", "if (made === undefined || made.age !== age()) made = { value: make(), age: age() };")}`;
}

function instrumented(files: readonly { name: string; mutate: unknown }[]) {
  const read = files.map((it) => ({ name: it.name, mutate: it.mutate as never, content: readFileSync(root + it.name, "utf8") }));
  return new Instrumenter(log).instrument(read, options as never);
}

function keyOf(it: { fileName: string; location: unknown; replacement: string; mutatorName: string }): string {
  return JSON.stringify([it.fileName, it.location, it.mutatorName, it.replacement]);
}

function cut(text: string, { start, end }: { start: { line: number; column: number }; end: { line: number; column: number } }): string {
  const lines = text.split("\n").slice(start.line, end.line + 1);
  lines[lines.length - 1] = (lines.at(-1) as string).slice(0, end.column);
  lines[0] = (lines[0] as string).slice(start.column);
  return lines.join("\n");
}

function told(modules: readonly TestModule[]): void {
  const done = readMutants();
  const reached = done.filter((it) => it.reached > 0);
  const noticed = reached.filter((it) => it.noticedBy !== undefined);
  const unnoticed = done.filter((it) => it.noticedBy === undefined && it.static !== true);
  writeFileSync(`${root}.cache/unnoticed.json`, JSON.stringify(unnoticed, undefined, 1));
  for (const it of unnoticed)
    console.log(`${it.at} ${it.what} ${it.reached === 0 ? "(no test comes there)" : ""}\n  ${it.was.slice(0, 200)}\n  → ${it.now.slice(0, 200)}`);
  console.log(
    `${noticed.length} of ${noticed.length + unnoticed.length} noticed; ${done.length - noticed.length - unnoticed.length} more stand where only the start of the program comes. Files of tests: ${modules.length}`,
  );
}
