// The built extension in the real workbench: squiggles under the right words, a fix that takes one away, the order page that follows the sheet.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { FrameLocator, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { type Workbench, goTo, openFile, printedBy, root, runCommand, startWorkbench, takeFix, toEditor, writeBelow } from "./workbench.ts";

const wordsUnder = readFileSync(new URL("words-under-squiggles.js", import.meta.url), "utf8").replace(/;\s*$/, "");

/** The words that stand over each squiggle of a severity, as the screen shows them. */
function wordsUnderSquiggles(page: Page, severity: string): Promise<string[]> {
  return page.evaluate(`(${wordsUnder})(${JSON.stringify(severity)})`);
}

describe("a sheet in the workbench", () => {
  const name = "pillar-drill.jobsheet";
  const text = readFileSync(join(root, "tests/editors/jobs", name), "utf8");
  let bench: Workbench;
  // Each begins with the sheet as it was, so that one that is tried again is tried at the same thing.
  beforeEach(async () => {
    const { page } = bench;
    await page.keyboard.press("Escape");
    await toEditor(page);
    writeFileSync(join(bench.folder, name), text);
    await runCommand(page, "File: Revert File");
    await page.locator(".tab.active.dirty").waitFor({ state: "detached" });
  });
  beforeAll(async () => {
    bench = await startWorkbench(join(root, "tests/editors/jobs"));
    await openFile(bench.page, name);
    await bench.page.locator(".squiggly-error").first().waitFor();
  });
  afterAll(() => bench?.stop());

  /** The words of the errors, as the command line names them in the sheet on the disk. */
  const errorWords = () => {
    const lines = readFileSync(join(bench.folder, name), "utf8").split("\n");
    const errors = printedBy(bench.folder, name).filter((it) => it.severity === "error");
    return errors.map((it) => (lines[it.line - 1] as string).slice(it.column - 1, it.endColumn - 1)).sort();
  };
  const shownWords = async () => (await wordsUnderSquiggles(bench.page, "error")).sort();

  test("squiggles stand under the words that the command line names", async () => {
    const words = errorWords();
    expect(words.length).toBeGreaterThan(1);
    await expect.poll(shownWords, { timeout: 15_000 }).toEqual(words);
  });

  test("a quick fix is applied, and its squiggle goes while the others stay", async () => {
    const before = errorWords();
    expect(before).toContain("pited");
    await expect.poll(shownWords, { timeout: 15_000 }).toEqual(before);
    await goTo(bench.page, 31, 7);
    await takeFix(bench.page, "pitted");
    await bench.page.locator(".view-line", { hasText: "is pitted" }).waitFor();
    await expect.poll(shownWords, { timeout: 15_000 }).toEqual(before.filter((it) => it !== "pited"));
  });

  test("the page opens beside the sheet, shows the right rows, follows an edit and marks what changed", async () => {
    await runCommand(bench.page, "Job Sheet: Show Report");
    const page = reportPage(bench.page);
    const bearing = page.locator("tbody", { hasText: "Top bearing" }).first();
    await bearing.waitFor();
    // Two at 7.25 GBP each, worked out by hand: 14.50.
    expect(await bearing.innerText()).toMatch(/\b2\b[\s\S]*7\.25[\s\S]*14\.50/);
    expect(await page.locator("body").innerText()).toContain("split pin 1/8 x 1-1/4 in");
    const clear = page.getByRole("button", { name: "Clear the marks" });
    if (await clear.isVisible()) await clear.click();
    await expect.poll(() => page.locator(".page-mark.changed").count()).toBe(0);

    await writeBelow(bench.page, 22, "stock top-bearing 1 2026-05-01");
    // One is on the shelf now: one at 7.25.
    await expect.poll(() => bearing.innerText(), { timeout: 15_000 }).toMatch(/7\.25[\s\S]*7\.25/);
    expect(await bearing.innerText()).not.toContain("14.50");
    await expect.poll(() => bearing.locator(".page-mark.changed").allInnerTexts()).toEqual(["\u2260 changed"]);
    // The row, and the sum of its supplier.
    await expect.poll(() => page.locator("#status").innerText()).toMatch(/^2 changed since you opened this\.$/);
  });

  test("rows lead to lines, and the line under the cursor to its row", async () => {
    const page = reportPage(bench.page);
    await runCommand(bench.page, "Job Sheet: Show Parts Order");
    await toEditor(bench.page);
    await goTo(bench.page, 1, 1);
    const link = page.locator("tbody", { hasText: "Top bearing" }).locator("a[data-line]").first();
    const line = await link.getAttribute("data-line");
    await link.click();
    await expect.poll(() => activeLine(bench.page)).toBe(line);
    await goTo(bench.page, 1, 1);
    await expect.poll(() => page.locator(".is-here").count()).toBe(0);
    await goTo(bench.page, Number(line), 1);
    await expect.poll(() => page.locator(".is-here .item").allInnerTexts()).toContain("Top bearing");
    expect(await page.locator(".is-here .page-mark.here").first().innerText()).toBe("\u25c2 your line");
  });

  test("one page turns between all the reports", async () => {
    const page = reportPage(bench.page);
    await runCommand(bench.page, "Job Sheet: Show Parts Order");
    await page.locator("#reports button").first().waitFor();
    const titles = await page.locator("#reports button").allInnerTexts();
    expect(titles.length).toBeGreaterThanOrEqual(6);
    for (const title of titles) {
      await page.getByRole("button", { name: title, exact: true }).click();
      await expect.poll(() => page.locator("#reports [aria-current]").allInnerTexts()).toEqual([title]);
      await page.locator("main h1").waitFor();
    }
    // The commands that name a report turn the same page to it.
    await runCommand(bench.page, "Job Sheet: Show What Stands in the Way");
    await page.locator("h1", { hasText: "What stands in the way" }).waitFor();
    await runCommand(bench.page, "Job Sheet: Show Parts Order");
    await page.locator("h1", { hasText: "Parts order" }).waitFor();
    expect(await bench.page.locator("iframe.webview").count()).toBe(1);
  });

  test("the way back is written into the sheet, once, and one undo takes it back", async () => {
    await runCommand(bench.page, "Job Sheet: Write the Way Back");
    const written = bench.page.locator(".view-line", { hasText: "# The way back, as the sheet stood." });
    await written.waitFor();
    await bench.page.locator(".notification-toast", { hasText: "Written:" }).first().waitFor();
    await runCommand(bench.page, "Job Sheet: Write the Way Back");
    await bench.page.locator(".notification-toast", { hasText: "Nothing is missing" }).first().waitFor();
    await toEditor(bench.page);
    await bench.page.keyboard.press("Control+Z");
    await expect.poll(() => written.count()).toBe(0);
  });

  test("works in Restricted Mode, and nothing that the page did was refused or fetched", async () => {
    expect(await bench.page.locator(".statusbar-item", { hasText: "Restricted Mode" }).count()).toBe(1);
    // What the workbench itself can't fetch here is its own (404s of its service worker and the like); the page's policy is ours.
    expect(bench.console.filter((it) => /Content Security Policy|Refused to/.test(it) && /report|nonce/.test(it))).toEqual([]);
  });
});

function activeLine(page: Page): Promise<string> {
  return page.locator(".editor-group-container .line-numbers.active-line-number").first().innerText();
}

function reportPage(page: Page): FrameLocator {
  return page.frameLocator("iframe.webview").frameLocator("iframe#active-frame");
}
