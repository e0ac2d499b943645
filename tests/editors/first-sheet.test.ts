// The first five minutes of somebody with an empty folder and no manual: New Sheet, a finding, a squiggle, a fix, a reading, the order.
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Workbench, goTo, root, runCommand, startWorkbench, takeFix } from "./workbench.ts";

let bench: Workbench;
beforeAll(async () => {
  bench = await startWorkbench(join(root, "tests/editors/empty"), { "files.autoSave": "off", "editor.autoIndent": "none" });
});
afterAll(() => bench?.stop());

const job = () => readFileSync(join(bench.folder, "hub-loose-oil-on.jobsheet"), "utf8");
const input = (page: Page) => page.locator(".quick-input-widget input[type=text]").first();

/** Answers a question of the editor that bears this title. */
async function answer(page: Page, title: string, text: string): Promise<void> {
  await page.locator(".quick-input-title", { hasText: title }).waitFor();
  if (text !== "") await input(page).fill(text);
  await page.keyboard.press("Enter");
}

async function save(page: Page): Promise<void> {
  await page.keyboard.press("Control+S");
  await page.locator(".tab.active.dirty").waitFor({ state: "detached" });
}

test("New Sheet asks four questions and writes a job with its data, nothing else", async () => {
  const { page } = bench;
  // A window that has just opened does not know its extensions' commands at once.
  await expect
    .poll(
      async () => {
        await page.keyboard.press("Escape");
        await page.keyboard.press("F1");
        await input(page).fill(">Job Sheet: New Sheet");
        return page.locator(".quick-input-list .monaco-list-row", { hasText: "Job Sheet: New Sheet" }).count();
      },
      { timeout: 30_000, interval: 1000 },
    )
    .toBe(1);
  await page.keyboard.press("Enter");
  await answer(page, "1 of 4", "Tarn lorry, 1938");
  await answer(page, "2 of 4", "Hub loose, oil on the drum");
  await page.locator(".quick-input-title", { hasText: "3 of 4" }).waitFor();
  await bench.picture("new-sheet");
  expect(await page.locator(".quick-input-list .monaco-list-row").count()).toBeGreaterThanOrEqual(10);
  await input(page).fill("live rear axle");
  await page.locator(".quick-input-list .monaco-list-row", { hasText: "Live rear axle" }).first().click();
  await page.keyboard.press("Enter");
  await answer(page, "4 of 4", "");
  await page.locator('.tab.active[data-resource-name="hub-loose-oil-on.jobsheet"]').waitFor();
  const today = new Date();
  const day = `${today.getFullYear()}-${String(today.getMonth() + 1).padStart(2, "0")}-${String(today.getDate()).padStart(2, "0")}`;
  expect(job().split("\n").slice(0, 8)).toEqual([
    'sheet "Hub loose, oil on the drum"',
    '  machine "Tarn lorry, 1938"',
    '  by "___"',
    `  opened ${day}`,
    "",
    'use "hub-loose-oil-on-data.jobsheet"',
    "",
    `day ${day}`,
  ]);
  expect(existsSync(join(bench.folder, "hub-loose-oil-on-data.jobsheet"))).toBe(true);
  // The blank is marked, to be typed over.
  await page.locator(".statusbar-item", { hasText: "Ln 3" }).waitFor();
  await page.keyboard.type("E. Lind");
  await save(page);
  expect(job()).toContain('  by "E. Lind"\n');
});

test("a finding is typed, its squiggle comes, and a fix leaves the cursor in the blank", async () => {
  const { page } = bench;
  await page.keyboard.press("Control+End");
  await page.keyboard.type("\nfinding hub left\n  is crackd");
  await page.keyboard.press("Escape");
  await page.locator(".squiggly-error").first().waitFor();
  await takeFix(page, "cracked");
  await page.locator(".view-line", { hasText: "is cracked" }).waitFor();
  // Cracked, and nobody has said what becomes of it.
  await page.locator(".squiggly-warning").first().waitFor();
  await goTo(page, 12, 10);
  await takeFix(page, "repair");
  await page.locator(".view-line", { hasText: "decision repair" }).waitFor();
  await page.keyboard.type("sleeved");
  await page.locator(".view-line", { hasText: 'decision repair "sleeved"' }).waitFor();
  await page.keyboard.press("Escape");
  await save(page);
  expect(job()).toContain('\nfinding hub left\n  is cracked\n  decision repair "sleeved"');
});

test("an oil seal is to be renewed, and the order says so", async () => {
  const { page } = bench;
  await page.keyboard.press("Control+End");
  await page.keyboard.type("\n\nfinding outer-seal left\n  is leaking\n  decision renew\n");
  await page.keyboard.press("Escape");
  await save(page);
  expect(job()).toContain("\n\nfinding outer-seal left\n  is leaking\n  decision renew\n");
  await runCommand(page, "Job Sheet: Show Parts Order");
  const frame = page.frameLocator("iframe.webview").frameLocator("iframe#active-frame");
  await frame.locator("tbody", { hasText: "Outer oil seal" }).first().waitFor();
  await bench.picture("first-order");
});

test("the reference opens as a page, and a keyword's hover leads there", async () => {
  const { page } = bench;
  await runCommand(page, "Job Sheet: Open the Language Reference");
  await page.locator(".tab.active", { hasText: "REFERENCE" }).waitFor();
});
