// Bundles the programs into dist/: `splitpin` (command line and language server), the VS Code extension's client, and the module for a page in a browser.
// What they need at run time is inside the bundles, so dist/ works without node_modules.
import { chmodSync, copyFileSync, readFileSync, rmSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { runTs } from "./run-ts.mjs";

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

/** The solver lies beside the program as it comes, and is read when an order is to be chosen; a page in a browser gets it as one module with the WebAssembly inside. */
const solver = { alias: { highs: "./highs.cjs" }, external: ["./highs.cjs"], supported: { "dynamic-import": false } };

// Parts of the last build have a hash in their names, and would be left behind.
rmSync(`${root}dist`, { recursive: true, force: true });
const [program] = await Promise.all([
  build({
    ...common,
    ...solver,
    entryPoints: { program: "server/main.ts" },
    outdir: "dist",
    // The hash makes sure that what was compiled of one program is never taken for another one's.
    entryNames: "[name]-[hash]",
    outExtension: { ".js": ".cjs" },
    format: "cjs",
    charset: "ascii",
    metafile: true,
    define: { ...common.define, "import.meta.url": "splitpinUrl" },
    banner: { js: 'const splitpinUrl=require("node:url").pathToFileURL(__filename).href;' },
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
await build({
  ...common,
  platform: "browser",
  target: "es2022",
  entryPoints: { solver: "server/browser/load-solver.ts" },
  outdir: "dist/browser",
  format: "esm",
  loader: { ".wasm": "binary" },
  external: ["node:*"],
});
copyFileSync(`${root}node_modules/highs/build/highs.js`, `${root}dist/highs.cjs`);
copyFileSync(`${root}node_modules/highs/build/highs.wasm`, `${root}dist/highs.wasm`);
const name = Object.keys(program.metafile.outputs)[0].replace("dist/", "");
await build({
  ...common,
  entryPoints: { splitpin: "server/start.ts" },
  outdir: "dist",
  format: "esm",
  define: { SPLITPIN_PROGRAM: JSON.stringify(name) },
});
chmodSync(`${root}dist/splitpin.js`, 0o755);
// It only saves time: where it fails, the program is compiled at each start.
if ((await runTs("compile.ts", [`${root}dist/${name}`])) !== 0) console.error("The compiled form of the program was not written.");
