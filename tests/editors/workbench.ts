// The real VS Code workbench in a browser, with a real extension host and the built extension installed from its .vsix.
// Ports on the loopback only; everything that was downloaded lies in .cache, which git ignores.
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Locator, Page } from "playwright-core";
import { browserOfWorker } from "../browser-of-worker.ts";
import { program } from "../server/wire.ts";
import { cache, installed, node, root, server } from "./installed.ts";

export { root };

export interface Workbench {
  readonly page: Page;
  /** The folder that is open. */
  readonly folder: string;
  /** What the consoles of the page and of its frames said. */
  readonly console: string[];
  /** A screenshot for the project's own pages where `UPDATE_PICTURES=1` asks for it, else in .cache. */
  picture(name: string): Promise<void>;
  stop(): Promise<void>;
}

export interface Kind {
  /** The extension runs in a web worker, without Node. */
  readonly inWorker?: boolean;
  /** With all extensions that an editor brings along; else without those that no sheet asks for. */
  readonly asShipped?: boolean;
  /** Milliseconds between two drawings of a window: most of what an editor does at a key is drawing. */
  readonly drawnEvery?: number;
}

/** Opens a copy of `workspace` in the workbench; `settings` are the user's. */
export async function startWorkbench(
  workspace: string,
  settings: Record<string, unknown> = {},
  { inWorker = false, asShipped = false, drawnEvery = 50 }: Kind = {},
): Promise<Workbench> {
  if (!existsSync(node) || !existsSync(server)) throw new Error("The workbench is not set up: .ci/workbench.sh does it.");
  if (!existsSync(installed)) throw new Error("The extension is not installed in it: npm run package makes what is installed.");
  const home = mkdtempSync(join(tmpdir(), "splitpin-workbench-"));
  const folder = join(home, "jobs");
  cpSync(workspace, folder, { recursive: true });
  const userData = join(home, "user");
  mkdirSync(join(userData, "User"), { recursive: true });
  // In the browser the user's settings live with the server.
  writeFileSync(
    join(userData, "User/settings.json"),
    JSON.stringify({
      "workbench.startupEditor": "none",
      "workbench.tips.enabled": false,
      "telemetry.telemetryLevel": "off",
      "editor.minimap.enabled": false,
      "security.workspace.trust.startupPrompt": "never",
      "chat.disableAIFeatures": true,
      "workbench.secondarySideBar.defaultVisibility": "hidden",
      "security.workspace.trust.banner": "never",
      // Else the server looks through all processes of the machine for open ports, every two seconds.
      "remote.autoForwardPorts": false,
      ...quiet,
      ...settings,
    }),
  );
  const extensions = inWorker ? join(home, "extensions") : installed;
  const folders = ["--extensions-dir", extensions, "--user-data-dir", userData, "--server-data-dir", join(home, "server")];
  if (inWorker) {
    cpSync(installed, extensions, { recursive: true });
    // The same package without its program for Node, so that the workbench has to take the other.
    const [installedAs] = readdirSync(extensions).filter((it) => it.startsWith("splitpin."));
    const manifest = join(extensions, installedAs as string, "package.json");
    const { main: _, ...others } = JSON.parse(readFileSync(manifest, "utf8"));
    writeFileSync(manifest, JSON.stringify(others));
  }

  const port = await freePort();
  const child = spawn(
    node,
    [
      server,
      "--host",
      "127.0.0.1",
      "--port",
      String(port),
      "--without-connection-token",
      "--accept-server-license-terms",
      "--telemetry-level",
      "off",
      // The environment of the tests is what it has; else it starts a shell as at a log-in to ask for another.
      "--force-disable-user-env",
      ...(asShipped ? [] : ["--builtin-extensions-dir", builtIn()]),
      ...folders,
    ],
    { stdio: ["ignore", "pipe", "pipe"], detached: true },
  );
  let log = "";
  for (const stream of [child.stdout, child.stderr])
    stream.on("data", (bytes: Buffer) => {
      log += bytes.toString();
    });
  let page: Page | undefined;
  const stop = async () => {
    await page?.close();
    await stopped(child);
    rmSync(home, { recursive: true, force: true, maxRetries: 5 });
  };
  try {
    await listening(port, child, () => log);
    const browser = await browserOfWorker();
    page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    await page.addInitScript(drawnSeldom, drawnEvery);
    page.setDefaultTimeout(60_000);
    page.setDefaultNavigationTimeout(120_000);
    const console: string[] = [];
    page.on("console", (it) => console.push(`${it.type()}: ${it.text()}`));
    await page.goto(`http://127.0.0.1:${port}/?folder=${encodeURIComponent(folder)}`);
    await page.waitForSelector(".monaco-workbench", { timeout: 120_000 });
    const shown = page;
    return {
      page,
      folder,
      console,
      async picture(name) {
        const pictures = join(root, process.env.UPDATE_PICTURES === "1" ? "samples/pictures" : ".cache/pictures");
        mkdirSync(pictures, { recursive: true });
        await shown.screenshot({ path: join(pictures, `${name}.png`) });
      },
      stop,
    };
  } catch (error) {
    await stop();
    throw error;
  }
}

/** What moves by itself is drawn again and again. */
const quiet = {
  "editor.cursorBlinking": "solid",
  "workbench.reduceMotion": "on",
  "workbench.iconTheme": null,
  "breadcrumbs.enabled": false,
  "editor.stickyScroll.enabled": false,
};

/** Runs in the window before all else: what asks to be drawn with the next picture waits until so many milliseconds have gone by. */
function drawnSeldom(every: number): void {
  const waiting = new Map<number, (now: number) => void>();
  let last = 0;
  let asked = false;
  const draw = () => {
    asked = false;
    const all = [...waiting.values()];
    waiting.clear();
    for (const it of all)
      try {
        it(performance.now());
      } catch (error) {
        console.error(error);
      }
  };
  Object.assign(globalThis, {
    requestAnimationFrame(then: (now: number) => void): number {
      waiting.set(++last, then);
      if (!asked) setTimeout(draw, every);
      asked = true;
      return last;
    },
    cancelAnimationFrame(it: number): void {
      waiting.delete(it);
    },
  });
}

/** Of the extensions that the workbench brings along those that something here shows: its colours, a page, a picture. Each other is read at every start. */
function builtIn(): string {
  const all = join(cache, "node_modules/code-server/lib/vscode/extensions");
  const few = join(cache, `built-in-${process.env.VITEST_POOL_ID ?? "alone"}`);
  rmSync(few, { recursive: true, force: true });
  mkdirSync(few);
  for (const it of ["theme-defaults", "markdown-basics", "markdown-language-features", "media-preview"]) symlinkSync(join(all, it), join(few, it));
  return few;
}

const question = (page: Page) => page.locator(".quick-input-widget input[type=text]").first();

/** The cursor in the sheet, from wherever it is (a page, the tree of jobs, nothing): the sheet is in the first group. */
export async function toEditor(page: Page): Promise<void> {
  await untilShown(page.locator(".editor-instance .monaco-editor.focused").first(), () => page.keyboard.press("Control+1"));
}

/**
 * Presses the key that asks for something, and answers. A key that is pressed while a page beside the sheet has the cursor, or nothing has, may be lost, and what is
 * typed while the box draws itself again: so whoever asks looks whether the box has come and whether what was meant is chosen in it, and else begins again.
 */
async function choose(page: Page, { key, text, row }: { readonly key: string; readonly text: string; readonly row: string }): Promise<void> {
  const chosen = page.locator(".quick-input-list .monaco-list-row.focused", { hasText: row }).first();
  await untilShown(chosen, async () => {
    if (await question(page).isVisible()) await page.keyboard.press("Escape");
    await page.keyboard.press(key);
    await question(page).waitFor({ state: "visible", timeout: 4000 });
    await question(page).fill(text);
  });
  await page.keyboard.press("Enter");
}

/** Runs a command from the palette by its whole title. `asks`: it goes on with a question of its own. */
export async function runCommand(page: Page, title: string, asks?: "asks"): Promise<void> {
  await choose(page, { key: "F1", text: `>${title}`, row: title });
  if (asks === undefined) await question(page).waitFor({ state: "hidden" });
}

/** Opens a file of the workspace by name. A window that has just opened may not know its files at once. */
export async function openFile(page: Page, name: string): Promise<void> {
  await untilShown(page.locator(`.tab.active[data-resource-name="${name}"]`).first(), () => choose(page, { key: "Control+P", text: name, row: name }));
  await page.locator(".monaco-editor .view-lines .view-line").first().waitFor();
}

/** Opens the fixes at the cursor and takes the one with these words. */
export async function takeFix(page: Page, words: string): Promise<void> {
  const row = page.locator(".action-widget .monaco-list-row", { hasText: words }).first();
  await untilShown(row, async () => {
    if (await page.locator(".action-widget").first().isVisible()) await page.keyboard.press("Escape");
    await page.keyboard.press("Control+.");
  });
  await row.click();
}

/** Does it again until what it should bring is there. */
export async function untilShown(what: Locator, ask: () => Promise<void>): Promise<void> {
  for (let tries = 0; ; tries++) {
    try {
      await ask();
      await what.waitFor({ timeout: 8000 });
      return;
    } catch (error) {
      if (tries > 6) throw error;
    }
  }
}

/** The line number of the cursor, where the keys that are pressed now come to it: a question that closes, or a page, may still have them. */
function atLine(page: Page, line: number): Locator {
  return page
    .locator(".editor-instance .monaco-editor.focused .line-numbers.active-line-number")
    .filter({ hasText: new RegExp(`^${line}$`) })
    .first();
}

/** Writes a line of its own below another one, both from 1. An Enter that nobody got would write it behind that one's words. */
export async function writeBelow(page: Page, line: number, text: string): Promise<void> {
  await goTo(page, line, 999);
  await untilShown(atLine(page, line + 1), () => page.keyboard.press("Enter"));
  await page.keyboard.type(text);
}

/**
 * Puts the cursor on a line and column, both from 1. A click on a page beside the sheet may leave the page the active one, and then there is no line to go to:
 * whoever sees that goes back to the sheet, which is in the first group, and asks again.
 */
export async function goTo(page: Page, line: number, column: number): Promise<void> {
  for (let tries = 0; ; tries++) {
    try {
      await page.keyboard.press("Control+G");
      await question(page).waitFor({ state: "visible", timeout: 5000 });
      await question(page).fill(`:${line}:${column}`);
      await page.keyboard.press("Enter");
      await question(page).waitFor({ state: "hidden", timeout: 5000 });
      await atLine(page, line).waitFor({ timeout: 5000 });
      return;
    } catch (error) {
      if (tries > 4) throw error;
    }
    await page.keyboard.press("Escape");
    await question(page).waitFor({ state: "hidden" });
    await toEditor(page);
  }
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once("error", reject);
    probe.listen(0, "127.0.0.1", () => {
      const { port } = probe.address() as { port: number };
      probe.close(() => resolve(port));
    });
  });
}

async function listening(port: number, child: ChildProcess, log: () => string): Promise<void> {
  const until = Date.now() + 120_000;
  while (Date.now() < until) {
    if (child.exitCode !== null) throw new Error(`The workbench's server ended:\n${log()}`);
    if (
      await fetch(`http://127.0.0.1:${port}/version`).then(
        () => true,
        () => false,
      )
    )
      return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`The workbench's server did not listen:\n${log()}`);
}

/** The server and the extension hosts that it started: they are one process group. */
async function stopped(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.pid === undefined) return;
  const ended = new Promise((resolve) => child.once("exit", resolve));
  process.kill(-child.pid, "SIGTERM");
  const kill = setTimeout(() => process.kill(-(child.pid as number), "SIGKILL"), 5_000);
  await ended;
  clearTimeout(kill);
}

export interface Printed {
  readonly line: number;
  readonly column: number;
  readonly endColumn: number;
  readonly severity: string;
  readonly rule: string;
}

/** What the command line says of a sheet of a folder. */
export function printedBy(folder: string, name: string): Printed[] {
  const { stdout } = spawnSync(process.execPath, [program, "check", name, "--format", "json"], { cwd: folder, encoding: "utf8" });
  return (JSON.parse(stdout) as { diagnostics: Printed[] }).diagnostics;
}
