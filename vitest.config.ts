import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";
import { bundledTests } from "./.ci/bundled-tests.mjs";

// The tests in tests/editors need editors that a bare machine has not got; `.ci/run` installs them and asks for those tests by name.
// Those in tests/pages need Chromium, and are run with them.
const withEditors = process.env.SPLITPIN_EDITORS === "1";

/** What takes longest begins first, so that no worker waits long for the other's last; the others as the runner has them. Before all what collects garbage: little lies about yet. */
const longest = [
  // In the full run by far.
  "otherwise-told",
  "server/closed",
  "pages/samples",
  "typing",
  "clicked",
  "hostile",
  "first-sheet",
  "editors/workbench",
  "beside",
  "pages/print",
  "house/growth",
  "built/sheets",
  "story/damaged",
  "house/adding",
  "story/released",
  "story/fresh",
  "traps/traps",
  "way-back-mirror",
  "way-back-released",
  "features/completion",
  "way-back-sweep",
  "samples/shuffled",
  "release/release",
  "cli/doors",
  "story/open",
  "rules/kept",
  "simulated",
  "house/bad-input",
  "rules/ways",
  "expect/expectations",
  "samples/prefixes",
  "grammar/format",
  "reports/in-slices",
  "reports/choose",
  "server/fuzz",
  "server/manners",
  "sharing/repository",
  "built/doors",
  "server/workspaces",
  "server/long-text",
  "grammar/edits",
  "cli/cli",
  "supply/judged",
  "order-generated",
  "order-samples",
  "server/server",
];
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const rank = ({ moduleId }: TestSpecification) =>
      (longest.findIndex((it) => moduleId.endsWith(`${it}.test.ts`)) + longest.length + 1) % (longest.length + 1);
    return (await super.sort(files)).sort((a, b) => rank(a) - rank(b));
  }
}

export default defineConfig({
  plugins: [bundledTests()],
  test: {
    include: withEditors ? ["tests/editors/**/*.test.ts", "tests/pages/**/*.test.ts"] : ["tests/**/*.test.ts"],
    exclude: withEditors ? [] : ["tests/editors/**", "tests/pages/**"],
    globalSetup: withEditors ? ["tests/editors/installed.ts"] : [],
    // Long enough for a busy machine: a test that hangs is found, a slow one is not blamed.
    testTimeout: 120_000,
    hookTimeout: 240_000,
    // What is asked until it is so may take a busy machine longer than the second that is usual.
    expect: { poll: { timeout: 20_000 } },
    // A real editor on a busy machine loses a key now and then: what fails twice fails.
    retry: withEditors ? 1 : 0,
    setupFiles: [".ci/compile-less.mjs", ".ci/group-by.mjs", "tests/breathe.ts"],
    reporters: ["dot"],
    // What was built or bundled runs as it was made.
    server: { deps: { external: [/\/dist\/[\w-]+\.js$/, /\/\.cache\/tests\//] } },
    pool: "forks",
    isolate: false,
    sequence: { sequencer: LongestFirst },
    // Of three on two cores one waits most of the time: for an editor, a server, a program that it started.
    maxWorkers: 3,
    // Pages that are looked at side by side: as many as there are windows for them.
    maxConcurrency: 2,
  },
});
