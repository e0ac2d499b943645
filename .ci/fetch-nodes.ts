// Fetches the Nodes of `nodes.ts` into .cache/, those that are not there yet.
import { execFileSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { homeOf, nodeOf, versions } from "./nodes.ts";

for (const version of versions) {
  if (nodeOf(version) !== undefined) continue;
  mkdirSync(homeOf(version), { recursive: true });
  writeFileSync(`${homeOf(version)}/package.json`, '{"private":true}');
  execFileSync("npm", ["install", "--no-audit", "--no-fund", "--loglevel=error", `node@${version}`], { cwd: homeOf(version), stdio: "inherit" });
  const said = execFileSync(nodeOf(version) ?? "", ["--version"], { encoding: "utf8" }).trim();
  if (said !== `v${version}`) throw new Error(`node@${version} calls itself ${said}.`);
}
