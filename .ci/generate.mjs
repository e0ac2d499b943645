// Runs every generator that stands beside this file: `generate-*.mjs` as it is, `generate-*.ts` bundled first.
// With `--check` a generator writes nothing and fails where its file is stale.
import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = fileURLToPath(new URL("./", import.meta.url));
const root = fileURLToPath(new URL("../", import.meta.url));
const args = process.argv.slice(2);
let failed = false;

for (const name of readdirSync(here).sort()) {
  if (!/^generate-.*\.(mjs|ts)$/.test(name)) continue;
  let program = here + name;
  if (name.endsWith(".ts")) {
    // Inside .ci, so that `import.meta.url` in a bundled generator still tells where the project stands.
    program = `${here}.bundled/${name.replace(/\.ts$/, ".mjs")}`;
    mkdirSync(`${here}.bundled`, { recursive: true });
    await build({ absWorkingDir: root, entryPoints: [`.ci/${name}`], outfile: program, bundle: true, platform: "node", format: "esm", target: "node20", packages: "external", logLevel: "warning" });
  }
  const { status } = spawnSync(process.execPath, [program, ...args], { cwd: root, stdio: "inherit" });
  if (status !== 0) {
    console.error(`${name} failed.`);
    failed = true;
  }
}
process.exitCode = failed ? 1 : 0;
