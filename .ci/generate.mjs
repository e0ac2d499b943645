// Runs every generator that stands beside this file: `generate-*.mjs` as it is, `generate-*.ts` bundled first.
// With `--check` a generator writes nothing and fails where its file is stale.
import { spawnSync } from "node:child_process";
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { runTs } from "./run-ts.mjs";

const here = fileURLToPath(new URL("./", import.meta.url));
const words = process.argv.slice(2);

for (const name of readdirSync(here).sort()) {
  if (!/^generate-.*\.(mjs|ts)$/.test(name)) continue;
  const status = name.endsWith(".ts") ? await runTs(name, words) : spawnSync(process.execPath, [here + name, ...words], { stdio: "inherit" }).status;
  if (status === 0) continue;
  console.error(`${name} failed.`);
  process.exitCode = 1;
}
