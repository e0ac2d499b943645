// The pages of all samples, and of the sheets that the tests are made with: whole jobs of road vehicles and machines. How they are looked at is held here too.
import type { Browser } from "playwright-core";
import { beforeAll, expect, test } from "vitest";
import { type Opened, hindrances, lookAt, looks, openPage, openWindow, startBrowser, wrongIn } from "./browser.ts";
import { allDue, drawn, jobs, printed, reports } from "./jobs.ts";
import { lookAtAll } from "./look-at-all.ts";

await lookAtAll(jobs, (path) => path.startsWith("samples/"));

let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
});

test.each(reports)("%s: the program, started as a person would, draws the page that is looked at here", async (report) => {
  expect(await drawn(report, jobs[0] as string, "html")).toBe(printed(report, jobs[0] as string, "html"));
});

test("what falls due in all folders together", async () => {
  const window = await openWindow(browser);
  expect(await wrongIn(await window.show(await allDue()))).toEqual({});
  await window.close();
});

test("a page that is written after others and looked at otherwise is as one that was opened so", async () => {
  const window = await openWindow(browser);
  await wrongIn(await window.show(await drawn("readings", jobs.at(-1) as string, "html")));
  const html = await drawn("order", jobs[0] as string, "html");
  const { page } = await window.show(html);
  const state = `[innerWidth, document.compatMode, location.href, document.styleSheets.length, document.title, ...['color', 'backgroundColor', 'fontSize'].map((it) => getComputedStyle(document.body)[it]),
    ...[...document.querySelectorAll('body, body *')].map((it) => Object.values(it.getBoundingClientRect().toJSON()).join(' '))]`;
  for (const look of looks) {
    await lookAt(page, look);
    const fresh = await openPage(browser, html, look);
    expect([look.name, await page.evaluate(state)]).toEqual([look.name, await fresh.page.evaluate(state)]);
    await fresh.page.close();
  }
  await window.close();
});

test("what is wrong with a page is seen, whichever way it was opened, and is gone with the next", async () => {
  const bad = `<!doctype html><html lang="en"><title>Bad</title><style>
    @media (max-width: 700px) { p { width: 900px } }
    @media (prefers-color-scheme: dark) { h1 { color: #777; background: #888 } }
    td { max-width: 40px; overflow: hidden; white-space: nowrap }
    @media print { h2 { margin-top: -60px } }
    @media (forced-colors: active) { h2 { margin-left: -50px } }
  </style><h1>Head</h1><h2>Second</h2><p>Text</p><table><tr><td>A text that does not fit</table><img src="http://x.invalid/i.png"><script>undefined.it</script>`;
  const right = '<!doctype html><html lang="en"><title>Right</title><main><h1>Head</h1></main>';
  const window = await openWindow(browser);
  const seen = async (opened: Opened) => Object.entries(await wrongIn(opened)).map(([look, faults]) => `${look}: ${faults.join(" | ")}`);
  const opened = await seen(await openPage(browser, bad, looks[0]));
  expect(opened).toEqual([
    expect.stringMatching(/^light: .*is cut.*image-alt/),
    expect.stringMatching(/^dark: .*color-contrast/),
    expect.stringMatching(/^narrow: .*the page is \d+ wide/),
    expect.stringMatching(/^middling: .*is cut/),
    expect.stringMatching(/^high contrast: .*“Second” reaches out of the page/),
    expect.stringMatching(/^print: .*lies over/),
    "asked: http://x.invalid/i.png",
    expect.stringMatching(/^console: error: Failed to load/),
    expect.stringMatching(/^acted: error: /),
  ]);
  expect(await seen(await window.show(bad))).toEqual(opened);
  expect(await seen(await window.show(right))).toEqual([]);
  expect(await seen(await window.show(bad))).toEqual(opened);
  await window.close();
});

test("what is wrong with a thing is seen where others of its place were found right", async () => {
  const window = await openWindow(browser);
  const html = await drawn("readings", jobs[0] as string, "html");
  const faults = async (page: string) => hindrances((await window.show(page)).page, "whole");
  expect(await faults(html)).toEqual([]);
  const broken: readonly (readonly [string | RegExp, string, RegExp])[] = [
    ['<html lang="en"', "<html", /^html-has-lang/],
    [/<title>[^<]*<\/title>/, "<title></title>", /^document-title/],
    [/role="img" aria-label="[^"]*"/, 'role="img"', /^svg-img-alt/],
    [/(<td[^>]*>)/, '$1<img src="data:image/gif;base64,R0lGODlhAQABAAAAACw=">', /^image-alt/],
    [/<a ([^>]*)>.*?<\/a>/s, '<a href="#">\u00a0</a>', /^link-name/],
    [/<td /, '<td role="nothing" ', /^aria-roles/],
    [/<tr/, "<tr><td><button></button></td></tr><tr", /^button-name/],
    [/<h2/, '<div style="height: 9px; overflow: auto">a<br>b<br>c</div><h2', /^scrollable-region-focusable/],
    [/<h2/, '<p style="color: #999; background: #aaa">faint</p><h2', /^color-contrast/],
  ];
  for (const [what, by, rule] of broken) {
    const bad = html.replace(what, by);
    expect([by, bad !== html]).toEqual([by, true]);
    expect([by, (await faults(bad)).filter((it) => rule.test(it)).length]).toEqual([by, 1]);
  }
  expect(await faults(html)).toEqual([]);
  await window.close();
});
