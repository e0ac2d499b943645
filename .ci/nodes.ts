// The Nodes that the built program is tested on, besides the one that runs the tests. `.ci/run` fetches them; where they are not, as in `npm test` on
// a fresh machine, the tests do with their own.
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
const { engines } = JSON.parse(readFileSync(`${root}package.json`, "utf8")) as { engines: { node: string } };

/** The oldest that is promised, the one that the oldest VS Code that is promised runs extensions on, and the newest there is. */
export const versions: readonly string[] = [`${engines.node.replace(">=", "")}.0.0`, "20.9.0", "26.10.0"];

/** The folder that `npm install node@VERSION` is run in. */
export const homeOf = (version: string) => `${root}.cache/nodes/${version}`;

/** Where its program is; undefined where it was not fetched. */
export function nodeOf(version: string): string | undefined {
  const path = `${homeOf(version)}/node_modules/node/bin/node`;
  return existsSync(path) ? path : undefined;
}
