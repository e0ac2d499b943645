// The pages of sheets, each looked at in Chromium by day, by night, narrow, in high contrast and as printed.
// What is checked holds whatever the fonts of the machine: nothing is cut, lies over something else or reaches out; nothing is fetched; nothing fails.
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Window, openWindow, startBrowser, wrongIn } from "./browser.ts";
import { drawn, reports } from "./jobs.ts";

/** A test for each report of each sheet. A file of tests goes through some of the sheets, so that several are looked at side by side. */
export function lookAtAll(jobs: readonly string[]): void {
  let browser: Browser;
  const right = new Set<string>();
  beforeAll(async () => {
    browser = await startBrowser();
  });
  afterAll(() => browser?.close());

  describe.each(jobs)("%s", (path) => {
    let window: Window;
    beforeAll(async () => {
      window = await openWindow(browser);
    });
    afterAll(() => window?.close());

    test.each(reports)("%s", async (report) => {
      const html = await drawn(report, path, "html");
      // A report of the whole folder is the same page from whichever of its sheets it is asked for.
      if (right.has(html)) return;
      expect(await wrongIn(await window.show(html))).toEqual({});
      right.add(html);
    });
  });
}
