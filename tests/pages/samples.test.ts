// The pages of all samples, looked at in Chromium by day, by night, narrow, in high contrast and as printed.
// What is checked holds whatever the fonts of the machine: nothing is cut, lies over something else or reaches out; nothing is fetched; nothing fails.
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { hindrances, lookAt, looks, misfits, openPage, startBrowser } from "./browser.ts";
import { drawn, jobs, printed, reports } from "./jobs.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
});
afterAll(() => browser?.close());

describe.each(jobs)("%s", (path) => {
  test.each(reports)("%s", async (report) => {
    const { page, asked, console, acted } = await openPage(browser, await drawn(report, path, "html"), looks[0]);
    for (const look of looks) {
      await lookAt(page, look);
      expect({ look: look.name, misfits: await misfits(page), asked, console, acted }).toEqual({
        look: look.name,
        misfits: [],
        asked: [],
        console: [],
        acted: [],
      });
      if (look.judged === true) expect({ look: look.name, hindrances: await hindrances(page) }).toEqual({ look: look.name, hindrances: [] });
    }
    await page.close();
  });
});

test.each(reports)("%s: the program, started as a person would, draws the page that is looked at here", async (report) => {
  expect(await drawn(report, jobs[0] as string, "html")).toBe(printed(report, jobs[0] as string, "html"));
});

test("a page that is looked at otherwise is as one that was opened so", async () => {
  const html = await drawn("order", jobs[0] as string, "html");
  const state =
    "[innerWidth, getComputedStyle(document.body).color, getComputedStyle(document.body).backgroundColor, document.body.getBoundingClientRect().height]";
  const { page } = await openPage(browser, html, looks.at(-1));
  for (const look of looks) {
    await lookAt(page, look);
    const fresh = await openPage(browser, html, look);
    expect([look.name, await page.evaluate(state)]).toEqual([look.name, await fresh.page.evaluate(state)]);
    await fresh.page.close();
  }
  await page.close();
});
