// Where the workbench lies, and the extension, installed from its .vsix once before all tests: it takes the workbench's server seconds, and no window changes it.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("../../", import.meta.url));
export const cache = join(root, ".cache/workbench");
export const node = join(cache, "node24/node_modules/node/bin/node");
export const server = join(cache, "node_modules/code-server/lib/vscode/out/server-main.js");
const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const packed = join(root, `splitpin-${version}.vsix`);
/** The extensions of each window: ours, by what was packed. */
export const installed = join(
  cache,
  `extensions-${existsSync(packed) ? createHash("sha256").update(readFileSync(packed)).digest("hex").slice(0, 16) : "none"}`,
);

/** Run by the runner before the first test. Where there is no workbench, or no .vsix, whoever starts one says so: pages are looked at without. */
export function setup(): void {
  if (!existsSync(node) || !existsSync(server) || !existsSync(packed) || existsSync(installed)) return;
  for (const it of readdirSync(cache)) if (it.startsWith("extensions-")) rmSync(join(cache, it), { recursive: true });
  const home = mkdtempSync(join(tmpdir(), "splitpin-install-"));
  const folders = ["--extensions-dir", installed, "--user-data-dir", join(home, "user"), "--server-data-dir", join(home, "server")];
  const words = [server, ...folders, "--accept-server-license-terms", "--install-extension", packed];
  const { status, stdout, stderr } = spawnSync(node, words, { encoding: "utf8", timeout: 120_000 });
  rmSync(home, { recursive: true, force: true });
  if (status === 0 && /successfully installed/.test(stdout)) return;
  rmSync(installed, { recursive: true, force: true });
  console.error(`The .vsix was not installed:\n${stdout}\n${stderr}`);
}
