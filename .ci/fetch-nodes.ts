// Fetches the Nodes of `nodes.ts` into .cache/, those that are not there yet.
import { execFile } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { promisify } from "node:util";
import { homeOf, nodeOf, versions } from "./nodes.ts";

const run = promisify(execFile);

await Promise.all(
  versions.map(async (version) => {
    if (nodeOf(version) !== undefined) return;
    mkdirSync(homeOf(version), { recursive: true });
    writeFileSync(`${homeOf(version)}/package.json`, '{"private":true}');
    await run("npm", ["install", "--no-audit", "--no-fund", "--loglevel=error", `node@${version}`], { cwd: homeOf(version) });
    const said = (await run(nodeOf(version) ?? "", ["--version"])).stdout.trim();
    if (said !== `v${version}`) throw new Error(`node@${version} calls itself ${said}.`);
  }),
);
