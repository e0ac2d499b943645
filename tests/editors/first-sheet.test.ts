// The first five minutes of somebody with an empty folder and no manual: New Sheet, a finding, a squiggle, a fix, a reading, the order.
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Workbench, goTo, openFile, root, runCommand, startWorkbench, takeFix } from "./workbench.ts";

let bench: Workbench;
beforeAll(async () => {
  // As somebody has it who has set nothing.
  bench = await startWorkbench(join(root, "tests/editors/empty"), { "files.autoSave": "off" }, { asShipped: true });
  bench.page.setDefaultTimeout(60_000);
});
afterAll(() => bench?.stop());

const job = () => readFileSync(join(bench.folder, "hub-loose-oil-on.jobsheet"), "utf8");
const input = (page: Page) => page.locator(".quick-input-widget input[type=text]").first();

/** Answers a question of the editor that bears this title. */
async function answer(page: Page, title: string, text: string): Promise<void> {
  await page.locator(".quick-input-title", { hasText: title }).waitFor();
  // The walkthrough draws itself again a moment after its steps were clicked, and takes the cursor once: a test is quicker than a hand.
  await input(page).focus();
  if (text !== "") await input(page).fill(text);
  await page.keyboard.press("Enter");
}

async function save(page: Page): Promise<void> {
  await page.keyboard.press("Control+S");
  await page.locator(".tab.active.dirty").waitFor({ state: "detached" });
}

test("the tree of jobs, with nothing in it, leads to a new sheet and to how it begins", async () => {
  const { page } = bench;
  const view = page.locator('.activitybar .action-item a[aria-label*="Job Sheets"]').first();
  await view.waitFor();
  await view.click();
  const welcome = page.locator(".welcome-view-content");
  await welcome.getByText("No job sheet here yet.").waitFor();
  await bench.picture("welcome");
  await welcome.locator(".monaco-button", { hasText: "How it begins" }).click();
  const steps = page.locator(".gettingStartedContainer .getting-started-step");
  await expect.poll(() => steps.count(), { timeout: 60_000 }).toBe(4);
  const titles = await steps.locator(".step-title").allInnerTexts();
  expect(titles).toEqual(["Begin a sheet", "Write what you find", "Write what you read", "Get what it needs"]);
  for (const [i, title] of titles.entries()) {
    await steps.nth(i).locator(".step-title").click();
    await page.locator(".getting-started-step.expanded .step-title", { hasText: title }).waitFor();
    await page.locator(".getting-started-media iframe, .getting-started-media .markdown").first().waitFor();
    await bench.picture(`walkthrough-${i + 1}`);
  }
});

test("New Sheet asks four questions and writes a job with its data, nothing else", async () => {
  const { page } = bench;
  await page.locator(".getting-started-step .step-title", { hasText: "Begin a sheet" }).click();
  await page.locator(".getting-started-step.expanded .monaco-button", { hasText: "New Sheet" }).first().click();
  await answer(page, "1 of 4", "Tarn lorry, 1938");
  await answer(page, "2 of 4", "Hub loose, oil on the drum");
  await page.locator(".quick-input-title", { hasText: "3 of 4" }).waitFor();
  await bench.picture("new-sheet");
  expect(await page.locator(".quick-input-list .monaco-list-row").count()).toBeGreaterThanOrEqual(10);
  await input(page).fill("live rear axle");
  await page.locator(".quick-input-list .monaco-list-row", { hasText: "Live rear axle" }).first().click();
  await page.keyboard.press("Enter");
  await page.locator(".quick-input-title", { hasText: "4 of 4" }).waitFor();
  await bench.picture("new-sheet-name");
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
  // No blank is typed before a line: the editor sets it in, and out again.
  await page.keyboard.type("\nfinding hub left\nis crackd");
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
  await bench.picture("first-finding");
  await save(page);
  expect(job()).toContain('\nfinding hub left\n  is cracked\n  decision repair "sleeved"');
});

test("a limit gets its figures and its source, and a reading that is past it is flagged", async () => {
  const { page } = bench;
  const data = () => readFileSync(join(bench.folder, "hub-loose-oil-on-data.jobsheet"), "utf8");
  await openFile(page, "hub-loose-oil-on-data.jobsheet");
  const lines = data().split("\n");
  const limit = lines.findIndex((it) => it.startsWith("limit spline-play "));
  const blank = async (words: string, nth: number, text: string) => {
    const line = lines.findIndex((it, i) => i > limit && it.trim().startsWith(words));
    let column = -1;
    for (let i = 0; i <= nth; i++) column = (lines[line] as string).indexOf("___", column + 1);
    await goTo(page, line + 1, column + 1);
    for (let i = 0; i < 3; i++) await page.keyboard.press("Shift+ArrowRight");
    await page.keyboard.type(text);
    await page.keyboard.press("Escape");
  };
  await blank("worn max", 0, "0.015 in");
  await blank("source", 0, '"Maker\'s book, page 31"');
  await save(page);
  expect(data()).toContain('\n  worn max 0.015 in\n  of half-shaft, sun-wheel\n  source "Maker\'s book, page 31"\n');
  // Its tab is open still.
  await page.locator('.tab[data-resource-name="hub-loose-oil-on.jobsheet"]').first().click();
  await page.locator('.tab.active[data-resource-name="hub-loose-oil-on.jobsheet"]').waitFor();
  await page.locator(".monaco-editor .view-lines .view-line").first().waitFor();
  await runCommand(page, "Job Sheet: Add a Reading", "asks");
  await page.locator('.quick-input-widget input[placeholder="What was measured?"]').waitFor();
  await input(page).fill("Turning play of the half shaft");
  await page.locator(".quick-input-list .monaco-list-row", { hasText: "spline-play" }).first().waitFor();
  await page.keyboard.press("Enter");
  await page.locator(".view-line", { hasText: "measure spline-play" }).waitFor();
  await page.keyboard.type("0.034 in");
  await page.keyboard.press("Tab");
  await page.keyboard.type("0.008 in");
  await page.keyboard.press("Escape");
  await page.locator(".view-line", { hasText: "✗ worn max 0.015 in" }).waitFor();
  await page.locator(".squiggly-error").first().waitFor();
  await bench.picture("first-reading");
  await save(page);
  expect(job()).toMatch(/\n\nmeasure spline-play found \d{4}-\d\d-\d\d\n {2}left 0\.034 in\n {2}right 0\.008 in\n$/);
});

test("an oil seal is to be renewed, and the order says so", async () => {
  const { page } = bench;
  await page.keyboard.press("Control+End");
  await page.keyboard.type("\n\nfinding outer-seal left\nis leaking\ndecision renew\n");
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
