// The built program, as it ships: run in this process, or started on a Node of choice.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { nodeOf, versions } from "../.ci/nodes.ts";
import { isRun } from "./sampled.ts";

const dist = new URL("../dist/", import.meta.url);

export const program = fileURLToPath(new URL("splitpin.js", dist));

/** The door of the command line, as it was built. */
export async function commandLine(): Promise<typeof import("../server/cli/run.ts")> {
  return import(/* @vite-ignore */ new URL("command-line.js", dist).href);
}

/** The Nodes to try: that of the tests, and those that are promised. A push must have them all; between two changes the oldest is tried beside that of the tests. */
export const nodes: readonly { readonly name: string; readonly path: string }[] = [
  { name: `the Node of the tests, ${process.version}`, path: process.execPath },
  ...versions.slice(0, isRun ? versions.length : 1).flatMap((version) => {
    const path = nodeOf(version);
    if (path === undefined && isRun) throw new Error(`Node ${version} is missing: node .ci/run-ts.mjs fetch.ts`);
    return path === undefined ? [] : [{ name: `Node ${version}`, path }];
  }),
];

/** One run of the program. */
export function runOn(node: string, words: readonly string[], cwd: string): { readonly code: number | null; readonly out: string; readonly err: string } {
  const { status, stdout, stderr, error } = spawnSync(node, [program, ...words], { cwd, encoding: "utf8", maxBuffer: 1 << 28 });
  if (error !== undefined) throw error;
  return { code: status, out: stdout, err: stderr };
}
