// The web extension in the workbench's web worker host: no Node and no disk, the files as the editor gives them.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Workbench, goTo, openFile, root, runCommand, startWorkbench, toEditor } from "./workbench.ts";

const name = "bevel-drive.jobsheet";
const lines = readFileSync(join(root, "samples/bevel-drive", name), "utf8").split("\n");
let bench: Workbench;
beforeAll(async () => {
  bench = await startWorkbench(join(root, "samples/bevel-drive"), { "files.autoSave": "off" }, { inWorker: true });
  await openFile(bench.page, name);
});
afterAll(() => bench?.stop());

const shown = (page: Page) =>
  page
    .locator(".view-lines")
    .first()
    .innerText()
    .then((it) => it.replaceAll("\u00a0", " "));

test("it runs in a worker of the page", async () => {
  await expect
    .poll(() => bench.console.some((it) => /web worker extension host|Web Worker Extension Host|same-origin iframe/i.test(it)), { timeout: 60_000 })
    .toBe(true);
});

test("the sheet is checked with the file that it uses, which is not open", async () => {
  const { page } = bench;
  await page.locator(".statusbar-item", { hasText: /open/ }).first().waitFor({ timeout: 60_000 });
  // Without its data file nothing of the sheet would be known, and the use of it would be at fault.
  const use = lines.findIndex((it) => it.startsWith("use ")) + 1;
  await goTo(page, use, 6);
  const fault = lines.findIndex((it) => /is unlocked/.test(it)) + 1;
  await goTo(page, fault, 1);
  await page.locator(".squiggly-error").first().waitFor({ state: "attached", timeout: 60_000 });
  await expect.poll(() => shown(page), { timeout: 60_000 }).toMatch(/still open/);
  await bench.picture("web");
});

test("hover, the order and the way back answer as they do on a desk", async () => {
  const { page } = bench;
  await runCommand(page, "Job Sheet: Show Parts Order");
  const frame = page.frameLocator("iframe.webview").frameLocator("iframe#active-frame");
  await frame.locator("tbody").nth(2).waitFor({ timeout: 60_000 });
  await toEditor(page);
  await runCommand(page, "Job Sheet: Write the Way Back");
  await page
    .locator(".notification-toast", { hasText: /Written:|Nothing is missing/ })
    .first()
    .waitFor({ timeout: 60_000 });
});
