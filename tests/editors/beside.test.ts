// What the extension shows beside the lines of a real sheet, in the real workbench: hints, lenses, colours, the status line, the tree of jobs; and what the palette writes.
// It also takes the pictures that the project's front page shows.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { FrameLocator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Printed, type Workbench, goTo, openFile, printedBy, root, runCommand, startWorkbench, toEditor, untilShown } from "./workbench.ts";

const name = "bevel-drive.jobsheet";
const lines = readFileSync(join(root, "samples/bevel-drive", name), "utf8").split("\n");
let bench: Workbench;
beforeAll(async () => {
  bench = await startWorkbench(join(root, "samples/bevel-drive"), { "files.autoSave": "off", "editor.autoIndent": "none", "editor.fontSize": 13 });
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

describe("pictures of the sample", () => {
  let fault: Printed | undefined;
  beforeAll(async () => {
    const { page } = bench;
    await runCommand(page, "View: Hide Activity Bar");
    await page.locator(".activitybar").first().waitFor({ state: "hidden" });
    await toEditor(page);
    await runCommand(page, "File: Revert File");
    await page.locator(".tab.active.dirty").waitFor({ state: "detached" });
    if (await page.locator(".sidebar").first().isVisible()) await page.keyboard.press("Control+B");
    await page.locator(".sidebar").first().waitFor({ state: "hidden" });
    [fault] = printedBy(bench.folder, "bevel-drive.jobsheet").filter((it) => it.severity === "error" && it.line > 100);
    await goTo(bench.page, fault?.line ?? 1, fault?.column ?? 1);
    await bench.page.locator(".squiggly-error").first().waitFor({ state: "attached" });
    await runCommand(bench.page, "Job Sheet: Show Parts Order");
    await reportPage(bench.page).locator("tbody").nth(2).waitFor();
  });

  // One window, whose colours are changed as a person would: the page that is open takes on the new ones.
  test.each([
    ["light", "Light Modern", "vs"],
    ["dark", "Dark Modern", "vs-dark"],
    ["contrast", "Dark High Contrast", "hc-black"],
  ])("%s", async (name, theme, mark) => {
    await chooseTheme(bench.page, theme);
    await bench.page.locator(`.monaco-workbench.${mark}`).waitFor();
    await goTo(bench.page, 1, 1);
    await goTo(bench.page, fault?.line ?? 1, fault?.column ?? 1);
    const page = reportPage(bench.page);
    await page.locator(".is-here").first().waitFor({ state: "attached" });
    const colours = "(() => { const it = getComputedStyle(document.body); return [it.backgroundColor, it.color]; })()";
    const shown = async () => (await page.locator("body").evaluate(colours)) as [string, string];
    const white = "rgb(255, 255, 255)";
    await expect.poll(async () => contrast((await shown())[0], white) < 2, { timeout: 15_000 }).toBe(name === "light");
    // What is written on it can be read.
    expect(contrast(...(await shown()))).toBeGreaterThan(7);
    await bench.picture(`editor-${name}`);
  });
});

async function chooseTheme(page: Page, theme: string): Promise<void> {
  const input = page.locator(".quick-input-widget input[type=text]").first();
  await untilShown(page.locator(".quick-input-list .monaco-list-row.focused", { hasText: theme }).first(), async () => {
    await page.keyboard.press("Escape");
    await toEditor(page);
    await page.keyboard.press("Control+K");
    await page.keyboard.press("Control+T");
    await input.fill(theme, { timeout: 4000 });
  });
  await page.keyboard.press("Enter");
  await input.waitFor({ state: "hidden" });
}

/** The contrast of two colours as WCAG 2.2 reckons it: 1 to 21. */
function contrast(a: string, b: string): number {
  const light = (colour: string) => {
    const [r = 0, g = 0, blue = 0] = (/\(([^)]*)\)/.exec(colour)?.[1] ?? "").split(",").map((it) => {
      const part = Number(it) / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * blue;
  };
  const [one, other] = [light(a), light(b)];
  return (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
}

function reportPage(page: Page): FrameLocator {
  return page.frameLocator("iframe.webview").frameLocator("iframe#active-frame");
}
