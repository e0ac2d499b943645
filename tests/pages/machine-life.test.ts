// The pages of a machine over several sheets, with pictures of readings over time: looked at in Chromium as those of the samples are.
import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { splitpin } from "../cli/desk.ts";
import { looks, openPage, startBrowser, wrongIn } from "./browser.ts";
import { millLife } from "../reports/mill-life.ts";

let browser: Browser;
let cwd = "";
beforeAll(async () => {
  browser = await startBrowser();
  cwd = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-life-")));
  for (const [name, text] of Object.entries(millLife)) writeFileSync(join(cwd, name), text);
});
afterAll(() => {
  rmSync(cwd, { recursive: true, force: true });
});

test.each([["history"], ["due", "--on", "2025-01-01"], ["hand-over"]])("%s", async (...words) => {
  const { out } = await splitpin([...words, ".", "--format", "html"], cwd);
  const opened = await openPage(browser, out, looks[0]);
  expect(await wrongIn(opened)).toEqual({});
  // Both bushes have a picture, one of them with an estimate.
  if (words[0] === "history")
    expect(await opened.page.evaluate("[document.querySelectorAll('svg').length, document.querySelectorAll('svg .dash').length > 0]")).toEqual([2, true]);
  await opened.page.close();
});
