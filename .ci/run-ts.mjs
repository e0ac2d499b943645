// Runs a TypeScript program of the project: bundled first, beside the sources that it belongs to, so that `import.meta.url` still tells where the project stands.
import { spawnSync } from "node:child_process";
import { mkdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = fileURLToPath(new URL("./", import.meta.url));
const root = fileURLToPath(new URL("../", import.meta.url));

/** The exit code of `.ci/NAME` with the words given. */
export async function runTs(name, words) {
  const program = `${here}.bundled/${name.replace(/\.ts$/, ".mjs")}`;
  mkdirSync(`${here}.bundled`, { recursive: true });
  await build({
    absWorkingDir: root,
    entryPoints: [`.ci/${name}`],
    outfile: program,
    bundle: true,
    platform: "node",
    format: "esm",
    target: "node20",
    packages: "external",
    logLevel: "warning",
    // A folder deeper than the source: what it says of where it stands is put right.
    define: { "import.meta.url": "__source" },
    banner: { js: `const __source = new URL("../${name}", import.meta.url).href;` },
  });
  return spawnSync(process.execPath, [program, ...words], { cwd: root, stdio: "inherit" }).status ?? 1;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) process.exitCode = await runTs(process.argv[2], process.argv.slice(3));
