// The tests and the sources that they ask, bundled once for all workers of a run. Left to itself the runner compiles each file by itself, hands each worker a thousand of them one after
// the other, and makes of each use of an import a call: a fifth of what a run takes. What is bundled runs as it would without a runner.
import { existsSync, readdirSync, rmSync } from "node:fs";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";
import { placed } from "./placed.mjs";

const root = fileURLToPath(new URL("../", import.meta.url));
const kept = `${root}.cache/tests/`;

/** Which files have their like in the bundle: the tests, and what the runner's own files share with them (`breathe.ts`). */
const entries = () => [
  ...readdirSync(`${root}tests`, { recursive: true })
    .map((it) => `tests/${it.replaceAll("\\", "/")}`)
    .filter((it) => it.endsWith(".test.ts")),
  "tests/seeded.ts",
];

/** A plugin of the runner. Where it watches the sources each is compiled by itself, as the runner does it. */
export function bundledTests() {
  let bundle;
  return {
    name: "bundled tests",
    enforce: "pre",
    async configureVitest({ vitest }) {
      if (!vitest.config.watch) bundle = await bundled();
    },
    load(id) {
      const url = bundle?.get(id);
      return url === undefined ? undefined : `export * from ${JSON.stringify(url)};`;
    },
  };
}

/** A run has a folder of its own, so that two at a time do not take each other's away. */
async function bundled() {
  if (existsSync(kept)) for (const it of readdirSync(kept)) if (!lives(Number(it))) rmSync(kept + it, { recursive: true, force: true });
  const home = `${kept}${process.pid}/`;
  process.on("exit", () => rmSync(home, { recursive: true, force: true }));
  const files = entries();
  await build({
    absWorkingDir: root,
    entryPoints: files,
    outbase: root,
    outdir: home,
    chunkNames: "[name]-[hash]",
    outExtension: { ".js": ".mjs" },
    bundle: true,
    splitting: true,
    platform: "node",
    format: "esm",
    target: "node20",
    packages: "external",
    sourcemap: "linked",
    sourcesContent: false,
    logLevel: "warning",
    plugins: [placed],
  });
  return new Map(files.map((it) => [root + it, pathToFileURL(home + it.replace(/\.ts$/, ".mjs")).href]));
}

function lives(process_) {
  try {
    return process.kill(process_, 0);
  } catch {
    return false;
  }
}
