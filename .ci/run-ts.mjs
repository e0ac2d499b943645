// Runs a TypeScript program of the project: bundled first, with `import.meta.url` of each file still telling where that file stands.
import { spawnSync } from "node:child_process";
import { mkdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { placed } from "./placed.mjs";

const here = fileURLToPath(new URL("./", import.meta.url));
const root = fileURLToPath(new URL("../", import.meta.url));

/** The exit code of `.ci/NAME` with the words given. */
export async function runTs(name, words) {
  const program = `${here}.bundled/${name.replace(/\.ts$/, ".mjs")}`;
  mkdirSync(`${here}.bundled`, { recursive: true });
  await build({
    absWorkingDir: root,
    entryPoints: [`.ci/${name}`],
    outfile: program,
    bundle: true,
    platform: "node",
    format: "esm",
    target: "node20",
    packages: "external",
    inject: [".ci/group-by.mjs"],
    logLevel: "warning",
    plugins: [placed],
  });
  return spawnSync(process.execPath, [program, ...words], { cwd: root, stdio: "inherit" }).status ?? 1;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) process.exitCode = await runTs(process.argv[2], process.argv.slice(3));
