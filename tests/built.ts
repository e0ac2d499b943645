// The built program, as it ships: run in this process, or started on a Node of choice.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { nodeOf, versions } from "../.ci/nodes.ts";

const dist = new URL("../dist/", import.meta.url);

export const program = fileURLToPath(new URL("splitpin.js", dist));

/** The door of the command line, as it was built. */
export async function commandLine(): Promise<typeof import("../server/cli/run.ts")> {
  return import(/* @vite-ignore */ new URL("command-line.js", dist).href);
}

/** The Nodes to try: that of the tests, and those that are promised. The full run must have them all. */
export const nodes: readonly { readonly name: string; readonly path: string }[] = [
  { name: `the Node of the tests, ${process.version}`, path: process.execPath },
  ...versions.flatMap((version) => {
    const path = nodeOf(version);
    if (path === undefined && process.env.SPLITPIN_FULL === "1") throw new Error(`Node ${version} is missing: node .ci/run-ts.mjs fetch-nodes.ts`);
    return path === undefined ? [] : [{ name: `Node ${version}`, path }];
  }),
];

/** One run of the program. */
export function runOn(node: string, words: readonly string[], cwd: string): { readonly code: number | null; readonly out: string; readonly err: string } {
  const { status, stdout, stderr, error } = spawnSync(node, [program, ...words], { cwd, encoding: "utf8", maxBuffer: 1 << 28 });
  if (error !== undefined) throw error;
  return { code: status, out: stdout, err: stderr };
}
