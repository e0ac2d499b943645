// What the extension shows beside the lines of a real sheet, in the real workbench: hints, lenses, colours, the status line, the tree of jobs; and what the palette writes.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Workbench, goTo, openFile, root, runCommand, startWorkbench, toEditor, untilShown } from "./workbench.ts";

const name = "bevel-drive.jobsheet";
const lines = readFileSync(join(root, "samples/bevel-drive", name), "utf8").split("\n");
let bench: Workbench;
beforeAll(async () => {
  bench = await startWorkbench(join(root, "samples/bevel-drive"), { "files.autoSave": "off", "editor.autoIndent": "none" });
  await openFile(bench.page, name);
  await bench.page.locator(".statusbar-item", { hasText: /open/ }).first().waitFor();
});
afterAll(() => bench?.stop());

const shown = (page: Page) =>
  page
    .locator(".view-lines")
    .first()
    .innerText()
    .then((it) => it.replaceAll("\u00a0", " "));
const lineWith = (words: RegExp, from = 0) => lines.findIndex((it, i) => i >= from && words.test(it)) + 1;

test("hints stand behind readings: in or out, and of which limit", async () => {
  const { page } = bench;
  const measure = lineWith(/^measure /);
  await goTo(page, measure, 1);
  await expect.poll(() => shown(page), { timeout: 20_000 }).toMatch(/[✓✗?] (worn|set|new|spread|max)/);
  await bench.picture("hints");
});

test("lenses stand over planned steps and suppliers", async () => {
  const { page } = bench;
  await goTo(page, lineWith(/^supplier /), 1);
  await expect
    .poll(
      () =>
        page
          .locator(".codelens-decoration")
          .allInnerTexts()
          .then((it) => it.join(" | ")),
      { timeout: 20_000 },
    )
    .toMatch(/\d+ things?, [\d.]+ [A-Z]{3}|nothing to get here/);
  await bench.picture("lenses");
});

test("the status line says how it stands, the worst first, and leads to what is open", async () => {
  const { page } = bench;
  const item = page.locator(".statusbar-item", { hasText: /open/ }).first();
  await item.waitFor({ timeout: 20_000 });
  expect(await item.innerText()).toMatch(/open/);
  await item.click();
  await page.frameLocator("iframe.webview").frameLocator("iframe#active-frame").locator("h1").first().waitFor();
});

test("the tree of jobs has the sheet with its standing, and leads to a line", async () => {
  const { page } = bench;
  await page.locator('.activitybar .action-item a[aria-label*="Job Sheets"]').first().click();
  const tree = page.locator(".pane-body .monaco-list-row", { hasText: /open/ }).first();
  await tree.waitFor({ timeout: 20_000 });
  await bench.picture("jobs");
  await tree.locator(".monaco-tl-twistie").click();
  const group = page.locator(".pane-body .monaco-list-row", { hasText: /Unsafe|Questions|Parcels|Gauges/ }).first();
  await group.waitFor();
  await group.locator(".monaco-tl-twistie").click();
  await bench.picture("jobs-open");
  const matter = page.locator(".pane-body .monaco-list-row", { hasText: /line \d+/ }).first();
  await matter.waitFor();
  const line = /line (\d+)/.exec(await matter.innerText())?.[1];
  await matter.click();
  await expect.poll(() => page.locator(".line-numbers.active-line-number").first().innerText(), { timeout: 20_000 }).toBe(line);
});

test("Add a Reading writes a measure with a blank under the cursor, and Mark Done the day of a step", async () => {
  const { page } = bench;
  await toEditor(page);
  await runCommand(page, "Job Sheet: Add a Reading", "asks");
  await page.locator('.quick-input-widget input[placeholder="What was measured?"]').waitFor();
  await page.locator(".quick-input-list .monaco-list-row.focused").first().waitFor();
  await page.keyboard.press("Enter");
  await expect.poll(() => shown(page), { timeout: 15_000 }).toMatch(/measure \S+ found \d{4}-\d\d-\d\d/);
  await page.keyboard.type("0.010 in");
  await expect.poll(() => shown(page), { timeout: 20_000 }).toContain("0.010 in");
  await page.keyboard.press("Escape");
  await page.keyboard.press("Escape");
  await page.keyboard.press("Control+End");
  await page.keyboard.type('\nstep last-look "A last look"\n  inspect pinion');
  await page.keyboard.press("Escape");
  await runCommand(page, "Job Sheet: Mark Done");
  const today = new Date();
  await expect.poll(() => shown(page), { timeout: 20_000 }).toContain(`done ${today.getFullYear()}-`);
  await bench.picture("written");
});

test("the outline has the days", async () => {
  const { page } = bench;
  const day = page.locator(".quick-input-list .monaco-list-row", { hasText: "day 20" }).first();
  await untilShown(day, async () => {
    await page.keyboard.press("Escape");
    await toEditor(page);
    await page.keyboard.press("Control+Shift+O");
  });
  await bench.picture("outline");
  await page.keyboard.press("Escape");
});
