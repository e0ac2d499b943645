// Makes a fresh clone ready with nothing but Node and git: installs what the lock names, and builds dist/.
// Does neither where it has been done for the same lock and the same sources. `--no-build` leaves the build out.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));
const major = Number(process.versions.node.split(".")[0]);
if (major < 20) {
  console.error(`Splitpin needs Node 20 or newer; this is Node ${process.versions.node}.`);
  process.exit(2);
}

once("node_modules/.splitpin-installed", lockMark(), "Installing what package-lock.json names …", () => {
  run("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"]);
});
if (!process.argv.includes("--no-build")) {
  once("dist/.splitpin-built", sourcesMark(), "Building dist/ …", () => run(process.execPath, [".ci/build.mjs"]));
}

/** Does the work unless the stamp says that it was done for the same mark. */
function once(stamp, mark, saying, work) {
  const path = root + stamp;
  if (existsSync(path) && readFileSync(path, "utf8") === mark) return;
  console.error(saying);
  work();
  writeFileSync(path, mark);
}

function lockMark() {
  return createHash("sha256")
    .update(readFileSync(`${root}package-lock.json`))
    .update(`${process.platform} ${process.arch} ${major}`)
    .digest("hex");
}

function sourcesMark() {
  const hash = createHash("sha256");
  for (const path of [
    "package.json",
    "package-lock.json",
    // Whatever of them the build is made of: who changes one is to test what it builds.
    ...readdirSync(`${root}.ci`)
      .filter((it) => it.endsWith(".mjs"))
      .sort()
      .map((it) => `.ci/${it}`),
    ...files("client"),
    ...files("grammar"),
    ...files("server"),
  ]) {
    const { mtimeMs, size } = statSync(root + path);
    hash.update(`${path} ${mtimeMs} ${size}\n`);
  }
  return hash.digest("hex");
}

function files(folder) {
  return readdirSync(root + folder, { recursive: true, withFileTypes: true })
    .filter((it) => it.isFile())
    .map((it) => `${it.parentPath ?? it.path}/${it.name}`.slice(root.length))
    .sort();
}

function run(command, args) {
  const windows = process.platform === "win32" && command === "npm";
  const { status, error } = spawnSync(windows ? "npm.cmd" : command, args, { cwd: root, stdio: ["ignore", 2, 2], shell: windows });
  if (error !== undefined) console.error(`${command} could not be started: ${error.message}`);
  if (status !== 0) process.exit(status ?? 2);
}
