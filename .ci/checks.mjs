// Types and style, and beside them the build: what `npm test` does before it runs a test.
import { spawn } from "node:child_process";
import { delimiter } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
// What tsc found of files that have not changed since is kept in node_modules.
const kept = (name) => `--incremental --tsBuildInfoFile node_modules/.cache/${name}.tsbuildinfo`;
const checks = [`tsc ${kept("all")}`, `tsc -p client/page ${kept("page")}`, "biome check --error-on-warnings", "node .ci/setup.mjs"];
// By their names and not by npx, whose start takes as long as a third of the types.
const env = { ...process.env, PATH: `${root}node_modules/.bin${delimiter}${process.env.PATH}` };
const codes = await Promise.all(checks.map((it) => new Promise((resolve) => spawn(it, { cwd: root, env, shell: true, stdio: "inherit" }).on("exit", resolve))));
process.exitCode = codes.every((it) => it === 0) ? 0 : 1;
