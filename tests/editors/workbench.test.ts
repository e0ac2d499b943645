// The built extension in the real workbench: squiggles under the right words, a fix that takes one away, the order page that follows the sheet.
// It also takes the pictures that the project's front page shows.
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { FrameLocator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { program } from "../server/wire.ts";
import { type Workbench, goTo, openFile, root, runCommand, startWorkbench } from "./workbench.ts";

interface Printed {
  readonly line: number;
  readonly column: number;
  readonly endColumn: number;
  readonly severity: string;
  readonly rule: string;
}

function printedBy(folder: string, name: string): Printed[] {
  const { stdout } = spawnSync(process.execPath, [program, "check", name, "--format", "json"], { cwd: folder, encoding: "utf8" });
  return (JSON.parse(stdout) as { diagnostics: Printed[] }).diagnostics;
}

const wordsUnder = readFileSync(new URL("words-under-squiggles.js", import.meta.url), "utf8").replace(/;\s*$/, "");

/** The words that stand over each squiggle of a severity, as the screen shows them. */
function wordsUnderSquiggles(page: Page, severity: string): Promise<string[]> {
  return page.evaluate(`(${wordsUnder})(${JSON.stringify(severity)})`);
}

describe("a sheet in the workbench", () => {
  const name = "pillar-drill.jobsheet";
  let bench: Workbench;
  beforeAll(async () => {
    bench = await startWorkbench(join(root, "tests/editors/jobs"));
    await openFile(bench.page, name);
    await bench.page.locator(".squiggly-error").first().waitFor();
  });
  afterAll(() => bench?.stop());

  test("squiggles stand under the words that the command line names", async () => {
    const lines = readFileSync(join(bench.folder, name), "utf8").split("\n");
    const errors = printedBy(bench.folder, name).filter((it) => it.severity === "error");
    expect(errors.length).toBeGreaterThan(1);
    const words = errors.map((it) => (lines[it.line - 1] as string).slice(it.column - 1, it.endColumn - 1));
    await expect.poll(async () => (await wordsUnderSquiggles(bench.page, "error")).sort(), { timeout: 15_000 }).toEqual(words.sort());
  });

  test("a quick fix is applied, and its squiggle goes while the others stay", async () => {
    const before = await wordsUnderSquiggles(bench.page, "error");
    expect(before).toContain("pited");
    await goTo(bench.page, 31, 7);
    await bench.page.keyboard.press("Control+.");
    const action = bench.page.locator(".action-widget .monaco-list-row", { hasText: "pitted" }).first();
    await action.waitFor();
    await action.click();
    await bench.page.locator(".view-line", { hasText: "is pitted" }).waitFor();
    await expect
      .poll(async () => (await wordsUnderSquiggles(bench.page, "error")).sort(), { timeout: 15_000 })
      .toEqual(before.filter((it) => it !== "pited").sort());
  });

  test("the order page opens beside the sheet, shows the right rows, follows an edit, and leads to lines", async () => {
    await runCommand(bench.page, "Job Sheet: Show Parts Order");
    const page = orderPage(bench.page);
    const bearing = page.locator("tr", { hasText: "Top bearing" }).first();
    await bearing.waitFor();
    // Two at 7.25 GBP each, worked out by hand: 14.50.
    expect(await bearing.innerText()).toMatch(/\b2\b[\s\S]*7\.25[\s\S]*14\.50/);
    expect(await page.locator("body").innerText()).toContain("split pin 1/8 x 1-1/4 in");

    await goTo(bench.page, 22, 100);
    await bench.page.keyboard.press("Enter");
    await bench.page.keyboard.type("stock top-bearing 1 2026-05-01");
    // One is on the shelf now: one at 7.25.
    await expect.poll(() => bearing.innerText(), { timeout: 15_000 }).toMatch(/7\.25[\s\S]*7\.25/);
    expect(await bearing.innerText()).not.toContain("14.50");

    await goTo(bench.page, 1, 1);
    await page.locator("[data-line]", { hasText: /\S/ }).first().click();
    await expect.poll(() => bench.page.locator(".editor-group-container .line-numbers.active-line-number").first().innerText()).not.toBe("1");
  });

  test("works in Restricted Mode, and nothing that the page did was refused or fetched", async () => {
    expect(await bench.page.locator(".statusbar-item", { hasText: "Restricted Mode" }).count()).toBe(1);
  });
});

describe("pictures of the sample", () => {
  test.each([
    ["light", "Default Light Modern"],
    ["dark", "Default Dark Modern"],
  ])("%s", async (name, theme) => {
    const bench = await startWorkbench(join(root, "samples/bevel-drive"), {
      "workbench.colorTheme": theme,
      "editor.fontSize": 13,
      "workbench.activityBar.location": "hidden",
    });
    try {
      await openFile(bench.page, "bevel-drive.jobsheet");
      await bench.page.keyboard.press("Control+B");
      const [fault] = printedBy(bench.folder, "bevel-drive.jobsheet").filter((it) => it.severity === "error");
      // Only what is in view is drawn, and the first fault is not on the first page.
      await goTo(bench.page, fault?.line ?? 1, fault?.column ?? 1);
      await bench.page.locator(".squiggly-error").first().waitFor();
      await runCommand(bench.page, "Job Sheet: Show Parts Order");
      await orderPage(bench.page).locator("tr").nth(2).waitFor();
      await goTo(bench.page, fault?.line ?? 1, fault?.column ?? 1);
      await bench.page.locator(".squiggly-error").first().waitFor();
      await bench.picture(`bevel-drive-${name}`);
    } finally {
      await bench.stop();
    }
  });
});

function orderPage(page: Page): FrameLocator {
  return page.frameLocator("iframe.webview").frameLocator("iframe#active-frame");
}
