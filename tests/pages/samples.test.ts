// The pages of all samples, looked at in Chromium by day, by night, narrow, in high contrast and as printed.
// What is checked holds whatever the fonts of the machine: nothing is cut, lies over something else or reaches out; nothing is fetched; nothing fails.
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { hindrances, looks, misfits, openPage, startBrowser } from "./browser.ts";
import { drawn, jobs, reports } from "./jobs.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
});
afterAll(() => browser?.close());

describe.each(jobs)("%s", (path) => {
  test.each(reports)("%s", async (report) => {
    const html = drawn(report, path, "html");
    for (const look of looks) {
      const { page, asked, console, acted } = await openPage(browser, html, look);
      expect({ look: look.name, misfits: await misfits(page), asked, console, acted }).toEqual({
        look: look.name,
        misfits: [],
        asked: [],
        console: [],
        acted: [],
      });
      if (look.judged === true) expect({ look: look.name, hindrances: await hindrances(page) }).toEqual({ look: look.name, hindrances: [] });
      await page.close();
    }
  });
});
