// Runs every generator that stands beside this file: `generate-*.mjs` as it is, `generate-*.ts` bundled first.
// With `--check` a generator writes nothing and fails where its file is stale.
import { spawnSync } from "node:child_process";
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { runTs } from "./run-ts.mjs";

const here = fileURLToPath(new URL("./", import.meta.url));
const words = process.argv.slice(2);

const generators = readdirSync(here)
  .filter((name) => /^generate-.*\.(mjs|ts)$/.test(name))
  .sort();
// Those in JavaScript write sources, which those in TypeScript import: so they go first, and one run is enough.
for (const name of [...generators.filter((it) => it.endsWith(".mjs")), ...generators.filter((it) => it.endsWith(".ts"))]) {
  const status = name.endsWith(".ts") ? await runTs(name, words) : spawnSync(process.execPath, [here + name, ...words], { stdio: "inherit" }).status;
  if (status === 0) continue;
  console.error(`${name} failed.`);
  process.exitCode = 1;
}
