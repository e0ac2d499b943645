// The extension's client as it is built, without an editor: it loads, on each Node that is here, and has what an editor calls.
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { nodeOf, versions } from "../../.ci/nodes.ts";

const dist = fileURLToPath(new URL("../../dist/", import.meta.url));

/** In the place of the editor's own module: whatever is asked of it is something that can be called, made and asked again. An extension is run as editors do, on a desk and in a browser. */
const inAnEditor = `
globalThis.self = globalThis;
const anything = () => new Proxy(class {}, { get: (it, name) => (name === Symbol.toPrimitive ? () => "" : name === "prototype" ? it.prototype : anything()), apply: anything });
const client = { exports: {} };
new Function("module", "exports", "require", require("fs").readFileSync(process.argv[1], "utf8"))(client, client.exports, (name) => (name === "vscode" ? anything() : require(name)));
process.stdout.write(Object.keys(client.exports).sort().join());
`;

const nodes = [process.execPath, ...versions.flatMap((it) => nodeOf(it) ?? [])];

test.each(["client.cjs", "client-web.js"])("%s loads, and is begun and ended by the editor", (name) => {
  for (const node of nodes) expect(execFileSync(node, ["-e", inAnEditor, `${dist}${name}`], { encoding: "utf8" }), node).toBe("activate,deactivate");
});
