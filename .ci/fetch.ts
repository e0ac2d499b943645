// Fetches into .cache/ what only the tests of each push ask for, where it is not there yet: the Nodes of `nodes.ts`, and the packer.
import { execFile } from "node:child_process";
import { existsSync, mkdirSync, writeFileSync } from "node:fs";
import { promisify } from "node:util";
import { homeOf, nodeOf, versions } from "./nodes.ts";
import { homeOfPacker, packer, packerProgram } from "./packer.ts";

const run = promisify(execFile);

await Promise.all([
  ...versions.map(async (version) => {
    if (nodeOf(version) !== undefined) return;
    await install(`node@${version}`, homeOf(version));
    const said = (await run(nodeOf(version) ?? "", ["--version"])).stdout.trim();
    if (said !== `v${version}`) throw new Error(`node@${version} calls itself ${said}.`);
  }),
  existsSync(packerProgram) ? undefined : install(packer, homeOfPacker),
]);

async function install(what: string, folder: string): Promise<void> {
  mkdirSync(folder, { recursive: true });
  writeFileSync(`${folder}/package.json`, '{"private":true}');
  await run("npm", ["install", "--no-audit", "--no-fund", "--loglevel=error", what], { cwd: folder });
}
