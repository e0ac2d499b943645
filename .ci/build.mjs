// Bundles the programs into dist/: `splitpin` (command line and language server), the VS Code extension's client, and the module for a page in a browser.
// What they need at run time is inside the bundles, so dist/ works without node_modules.
import { chmodSync, readFileSync, rmSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("../", import.meta.url));
const { version } = JSON.parse(readFileSync(`${root}package.json`, "utf8"));

const common = {
  absWorkingDir: root,
  bundle: true,
  platform: "node",
  target: "node20",
  minify: true,
  legalComments: "none",
  charset: "utf8",
  logLevel: "warning",
  define: { SPLITPIN_VERSION: JSON.stringify(version), SPLITPIN_BUNDLED: "true" },
};

/** The script of the reports' page, which stands in the page that the extension makes. */
async function pageScript() {
  const { outputFiles } = await build({ ...common, entryPoints: ["client/page/main.ts"], platform: "browser", format: "iife", write: false });
  return outputFiles[0].text;
}

// Parts of the last build have a hash in their names, and would be left behind.
rmSync(`${root}dist`, { recursive: true, force: true });
await Promise.all([
  build({
    ...common,
    entryPoints: { splitpin: "server/main.ts" },
    outdir: "dist",
    format: "esm",
    splitting: true,
    chunkNames: "[name]-[hash]",
    // Libraries in CommonJS ask for Node's own modules by `require`, which a module has not got of itself.
    banner: { js: 'import { createRequire as splitpinRequire } from "node:module"; const require = splitpinRequire(import.meta.url);' },
  }),
  build({
    ...common,
    entryPoints: { client: "client/extension.ts" },
    outdir: "dist",
    format: "cjs",
    outExtension: { ".js": ".cjs" },
    external: ["vscode"],
    define: { ...common.define, SPLITPIN_PAGE_SCRIPT: JSON.stringify(await pageScript()) },
  }),
  // A core that reached for the disk or the process would not bundle for this platform.
  build({ ...common, platform: "browser", target: "es2022", entryPoints: { splitpin: "server/browser/folder.ts" }, outdir: "dist/browser", format: "esm" }),
]);
chmodSync(`${root}dist/splitpin.js`, 0o755);
