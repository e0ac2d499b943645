// Bundles the three programs into dist/: the command line (which is also the language server), and the VS Code extension's client.
// What they need at run time is inside the bundles, so dist/ works without node_modules.
import { chmod, readFile } from "node:fs/promises";
import { build } from "esbuild";

const root = new URL("../", import.meta.url).pathname;
const { version } = JSON.parse(await readFile(`${root}package.json`, "utf8"));

const common = {
  absWorkingDir: root,
  bundle: true,
  platform: "node",
  target: "node20",
  minify: true,
  keepNames: false,
  legalComments: "none",
  charset: "utf8",
  logLevel: "warning",
  define: { SPLITPIN_VERSION: JSON.stringify(version), SPLITPIN_BUNDLED: "true" },
};

await Promise.all([
  build({
    ...common,
    entryPoints: { splitpin: "server/cli/main.ts", server: "server/lsp/main.ts" },
    outdir: "dist",
    format: "esm",
    splitting: true,
    chunkNames: "[name]-[hash]",
    // Libraries in CommonJS ask for Node's own modules by `require`, which a module has not got of itself.
    banner: { js: 'import { createRequire as makeRequire } from "node:module"; const require = makeRequire(import.meta.url);' },
  }),
  build({
    ...common,
    entryPoints: { client: "client/extension.ts" },
    outdir: "dist",
    format: "cjs",
    outExtension: { ".js": ".cjs" },
    external: ["vscode"],
  }),
]);
await chmod(`${root}dist/splitpin.js`, 0o755);
