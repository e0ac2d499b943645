// Bundles the programs into dist/: `splitpin` (command line and language server), the VS Code extension's client, and the module for a page in a browser.
// What they need at run time is inside the bundles, so dist/ works without node_modules; NOTICES.txt has the licences of what is in them.
import { chmodSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { brotliCompress, constants } from "node:zlib";
import { build, transform } from "esbuild";
import { firstTokensOf } from "./first-tokens.mjs";
import { fractionsAsked, grammarKnown, helpersOnce, numbersAsked, unserved, wordsWithoutExamples } from "./lighter.mjs";
import { lateParts } from "./late-parts.mjs";
import { lateTexts } from "./late-texts.mjs";
import { withoutDisk } from "./without-disk.mjs";
import { noticesOf } from "./notices.mjs";
import { reportsTogether } from "./reports-together.mjs";
import { rulePages, rulePagesWithoutExamples } from "./rule-pages.mjs";

const root = fileURLToPath(new URL("../", import.meta.url));
const { version } = JSON.parse(readFileSync(`${root}package.json`, "utf8"));

/**
 * Files that stand beside the program and are read only when they are needed: `from` a package in node_modules, `to` a name in dist/.
 * `packed`: by Brotli.
 * Whatever the program imports with `import()` becomes a file of its own by itself, and needs no row here. `files` in package.json must name the ending.
 */
const readWhenNeeded = [
  // The solver by which an order is chosen: WebAssembly and what starts it.
  { from: "highs/build/highs.js", to: "highs.cjs" },
  { from: "highs/build/highs.wasm", to: "highs.wasm.br", packed: true },
];
// On a thread of its own, beside the bundler.
const packing = Promise.all(readWhenNeeded.filter((it) => it.packed === true).map(async (it) => [it.to, await small(`${root}node_modules/${it.from}`)]));

const common = {
  absWorkingDir: root,
  bundle: true,
  platform: "node",
  target: "node20",
  // Readable names tell more where a profile is looked at.
  minify: process.env.SPLITPIN_NAMES !== "1",
  legalComments: "none",
  // Letters beyond ASCII stand escaped: so a Node need not decode the file, holds it in half the memory, and looks through it quicker.
  charset: "ascii",
  // All that `target` names have them; left to itself the bundler makes a call of each such pattern, which is compiled anew at every use.
  supported: { "regexp-unicode-property-escapes": true },
  metafile: true,
  logLevel: "warning",
  define: { SPLITPIN_VERSION: JSON.stringify(version), SPLITPIN_BUNDLED: "true", SPLITPIN_FIRST_TOKENS: JSON.stringify(await firstTokensOf(root)) },
};

/** The script of the reports' page, which stands in the page that the extension makes. */
const page = await build({ ...common, entryPoints: ["client/page/main.ts"], platform: "browser", format: "iife", write: false });

const texts = lateTexts(root);

/** The command line and the language server. */
const program = {
  ...common,
  // Each door and what the doors share are files of their own, so that a start loads its own door and no other.
  entryPoints: { splitpin: "server/start.ts", "command-line": "server/cli/run.ts", "language-server": "server/lsp/language-server.ts" },
  outdir: "dist",
  chunkNames: "[name]-[hash]",
  format: "esm",
  splitting: true,
  // For packages that are written as CommonJS.
  banner: { js: 'import{createRequire as splitpinRequire}from"node:module";const require=splitpinRequire(import.meta.url);' },
  plugins: [fractionsAsked, grammarKnown, helpersOnce, numbersAsked, reportsTogether(texts.rowAt), rulePages, texts.plugin],
  alias: { highs: "./highs.cjs" },
  external: ["./highs.cjs"],
};
const late = await lateParts(program);

// Parts of the last build have a hash in their names, and would be left behind.
rmSync(`${root}dist`, { recursive: true, force: true });
const built = await Promise.all([
  build({ ...program, plugins: [late.plugin, ...program.plugins] }),
  build({
    ...common,
    entryPoints: { client: "client/extension.ts" },
    outdir: "dist",
    format: "cjs",
    outExtension: { ".js": ".cjs" },
    external: ["vscode"],
    define: { ...common.define, SPLITPIN_PAGE_SCRIPT: JSON.stringify(page.outputFiles[0].text) },
    plugins: [unserved, helpersOnce],
  }),
  // The same for an editor in a browser: the extension, and the server as a worker.
  build({
    ...common,
    platform: "browser",
    target: "es2022",
    entryPoints: { "client-web": "client/extension-web.ts" },
    outdir: "dist",
    format: "cjs",
    external: ["vscode"],
    define: { ...common.define, SPLITPIN_PAGE_SCRIPT: JSON.stringify(page.outputFiles[0].text) },
    plugins: [unserved, helpersOnce],
  }),
  build({
    ...common,
    platform: "browser",
    target: "es2022",
    entryPoints: { "web-server": "server/lsp/web-worker.ts" },
    outdir: "dist",
    format: "iife",
    alias: { "vscode-jsonrpc/node": "vscode-jsonrpc/browser" },
    plugins: [fractionsAsked, grammarKnown, helpersOnce, numbersAsked, rulePagesWithoutExamples, withoutDisk(root), wordsWithoutExamples],
  }),
  // A core that reached for the disk or the process would not bundle for this platform.
  build({
    ...common,
    platform: "browser",
    target: "es2022",
    entryPoints: { splitpin: "server/browser/folder.ts" },
    outdir: "dist/browser",
    format: "esm",
    plugins: [fractionsAsked, grammarKnown, wordsWithoutExamples],
  }),
  // The solver for such a page, with its WebAssembly inside, to be loaded when an order is to be chosen.
  build({
    ...common,
    platform: "browser",
    target: "es2022",
    entryPoints: { solver: "server/browser/load-solver.ts" },
    outdir: "dist/browser",
    format: "esm",
    loader: { ".wasm": "binary" },
    external: ["node:*"],
  }),
]);
for (const { from, to, packed } of readWhenNeeded)
  if (packed !== true)
    writeFileSync(
      `${root}dist/${to}`,
      (await transform(readFileSync(`${root}node_modules/${from}`, "utf8"), { minify: true, platform: "node", target: "node20" })).code,
    );
for (const [to, bytes] of await packing) writeFileSync(`${root}dist/${to}`, bytes);
for (const { name, text } of late.files) writeFileSync(`${root}dist/${name}`, text);
writeFileSync(`${root}dist/${texts.name}`, (await transform(texts.contents, { charset: "ascii", minify: common.minify })).code);
// What lies here says for itself that it is modules: an editor in a browser takes no extension that says so of all of it.
writeFileSync(`${root}dist/package.json`, '{ "type": "module" }\n');
chmodSync(`${root}dist/splitpin.js`, 0o755);

for (const folder of ["dist", "dist/browser"])
  for (const file of readdirSync(`${root}${folder}`)) if (/\.c?js$/.test(file)) escapeTheRest(`${root}${folder}/${file}`);

const inputs = [page, ...built].flatMap(({ metafile }) => Object.values(metafile.outputs).flatMap((it) => Object.keys(it.inputs)));
writeFileSync(
  `${root}dist/NOTICES.txt`,
  noticesOf(root, [...inputs, ...late.files.flatMap((it) => it.inputs), ...readWhenNeeded.map((it) => `node_modules/${it.from}`)]),
);

/** The bundler leaves the letters of a pattern, and of a `String.raw` that one is made of, as they are: there an escape means the same. It escapes all others itself. */
function escapeTheRest(path) {
  const text = readFileSync(path, "utf8");
  const escaped = text.replace(/[^\0-\x7f]/g, (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, "0")}`);
  if (escaped !== text) writeFileSync(path, escaped);
}

/** By Brotli, in a third of a second. Its best takes a seventh less room and twenty times as long: half of what a fresh clone is built in. */
function small(path) {
  return promisify(brotliCompress)(readFileSync(path), { params: { [constants.BROTLI_PARAM_QUALITY]: 9 } });
}
