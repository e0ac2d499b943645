// The page beside the sheet, as the extension makes it, in a browser of its own: a stand-in for the editor's side notes what it says and sends it reports.
import type { Browser } from "playwright-core";
import { build } from "esbuild";
import { fileURLToPath } from "node:url";
import { afterEach, beforeAll, expect, test } from "vitest";
import type { FromPage, ReportShown, ToPage } from "../../client/messages.ts";
import { pageShell } from "../../client/page-shell.ts";
import { releaseSections } from "../../server/reports/release/sections.ts";
import { filesFrom, orderHtml, orderOf } from "../reports/sheets.ts";
import { type Opened, hindrances, misfits, openPage, startBrowser } from "./browser.ts";
import { asPage, releaseReport } from "../in-one-go.ts";

let browser: Browser;
let script = "";
let opened: Opened;
beforeAll(async () => {
  browser = await startBrowser();
  const entry = fileURLToPath(new URL("../../client/page/main.ts", import.meta.url));
  const { outputFiles } = await build({ entryPoints: [entry], bundle: true, write: false, format: "iife", platform: "browser", target: "es2022" });
  script = (outputFiles[0] as { text: string }).text;
});
afterEach(async () => {
  // Whatever was done: nothing fetched, nothing refused by the page's policy, no error.
  expect({ asked: opened.asked, console: opened.console, acted: opened.acted }).toEqual({ asked: [], console: [], acted: [] });
  await opened.page.close();
});

/** The editor's side of the page comes before the page's own policy, as an editor puts it there. */
async function open(width = 700): Promise<void> {
  const stand = "<script>window.said = []; window.acquireVsCodeApi = () => ({ postMessage: (it) => window.said.push(it) });</script>";
  opened = await openPage(browser, pageShell(script).replace("<head>", `<head>${stand}`), { name: "editor", width });
}

function send(said: ToPage): Promise<void> {
  return opened.page.evaluate(`window.postMessage(${JSON.stringify(said)})`);
}

function said(): Promise<FromPage[]> {
  return opened.page.evaluate("window.said");
}

function text(selector: string): Promise<string[]> {
  return opened.page.locator(selector).allInnerTexts();
}

const reports = [
  { name: "order", title: "Parts order" },
  { name: "release", title: "In the way" },
];

/** A sheet with so many parts to be renewed, the last at the line that is asked about. */
function sheetOf(count: number): string {
  const parts = Array.from({ length: count }, (_, i) => `part bush-${i} "Bush ${i}"\nfinding bush-${i}\n  is worn\n  decision renew\n`);
  return `sheet "Many bushes"\n${parts.join("")}`;
}

function order(sheet: string): ReportShown {
  const entries = { "job.jobsheet": sheet.split("\n").flatMap((line, i) => (/^[a-z]/.test(line) ? [i + 1] : [])) };
  return { kind: "report", report: "order", sheet: "file:///job.jobsheet", html: orderHtml(orderOf(sheet)), reports, entries };
}

function release(sheet: string): ReportShown {
  const value = releaseReport(filesFrom({ "job.jobsheet": sheet }), "job.jobsheet");
  return { ...order(sheet), report: "release", html: value === undefined ? "" : asPage(releaseSections(value)) };
}

test("it says that it is ready, shows what it is sent, and offers the other reports", async () => {
  await open();
  expect(await said()).toEqual([{ kind: "ready" }]);
  await send(order(sheetOf(3)));
  await opened.page.locator("tbody").nth(2).waitFor();
  expect(await text(".item")).toEqual(["Bush 0", "Bush 1", "Bush 2"]);
  expect(await text("#reports button")).toEqual(["Parts order", "In the way"]);
  expect(await text("#reports [aria-current]")).toEqual(["Parts order"]);
  await opened.page.getByRole("button", { name: "In the way" }).click();
  expect((await said()).at(-1)).toEqual({ kind: "turn", report: "release" });
  expect(await misfits(opened.page)).toEqual([]);
  expect(await hindrances(opened.page, "whole")).toEqual([]);
});

test("a change in the sheet touches its row and no other: scroll, focus and what is marked stay", async () => {
  await open();
  const sheet = sheetOf(60);
  await send(order(sheet));
  await opened.page.locator("tbody").nth(59).waitFor();
  await opened.page.evaluate(
    "window.scrollTo(0, 2500); window.before = [...document.querySelectorAll('tbody')]; document.querySelectorAll('tbody a')[40].focus();",
  );
  const state = "[window.scrollY, document.activeElement.textContent, document.activeElement.closest('tbody').dataset.row]";
  const before = await opened.page.evaluate(state);
  // A line above all, which moves each line; one more part behind; one bush counted twice.
  const next = `# one line more\n${sheet}part pin "Pin"\nfinding pin\n  is bent\n  decision renew\n`.replace(
    'part bush-7 "Bush 7"\n',
    'part bush-7 "Bush 7"\n  qty 2\n',
  );
  await send(order(next));
  await opened.page.locator(".item", { hasText: "Pin" }).waitFor();
  const after = (await opened.page.evaluate(state)) as [number, string, string];
  expect([after[0], after[2]]).toEqual([(before as [number, string, string])[0], (before as [number, string, string])[2]]);
  expect(await opened.page.evaluate("[...document.querySelectorAll('tbody')].filter((it) => window.before.includes(it)).length")).toBe(60);
});

test("of 300 rows a keystroke in one touches that one", async () => {
  await open();
  const sheet = sheetOf(300);
  await send(order(sheet));
  await opened.page.locator("tbody").nth(299).waitFor();
  await opened.page.evaluate(
    "window.touched = []; new MutationObserver((list) => touched.push(...list.map((it) => (it.target.nodeType === 1 ? it.target : it.target.parentElement).closest('tbody')?.dataset.row ?? 'the page'))).observe(document.querySelector('#page'), { subtree: true, childList: true, characterData: true, attributes: true });",
  );
  await send(order(sheet.replace('"Bush 7"', '"Bush 7x"')));
  await opened.page.locator(".item", { hasText: "Bush 7x" }).waitFor();
  // Of what nobody offers the headline names three, and this is none of them.
  expect(await opened.page.evaluate("[...new Set(window.touched)]")).toEqual(["bush-7"]);
});

test("what changed is marked in words: changed, new, gone; a line typed above changes nothing", async () => {
  await open();
  const sheet = sheetOf(4);
  await send(order(sheet));
  await opened.page.locator("tbody").nth(3).waitFor();
  await send(order(`# a comment above\n${sheet}`));
  await opened.page.locator("a", { hasText: "line 4" }).waitFor();
  expect([await text(".page-mark"), await text("#status")]).toEqual([[], [""]]);

  const next = sheet
    .replace('part bush-1 "Bush 1"\n', 'part bush-1 "Bush 1"\n  qty 2\n')
    .replace("finding bush-2\n  is worn\n  decision renew\n", "")
    .concat('part pin "Pin"\nfinding pin\n  is bent\n  decision renew\n');
  await send(order(next));
  await opened.page.locator(".item", { hasText: "Pin" }).waitFor();
  expect(await text("tbody .item, tbody .page-mark")).toEqual(["Bush 0", "Bush 1", "\u2260 changed", "Bush 3", "Pin", "+ new"]);
  expect(await text("#status")).toEqual(["1 changed, 1 new, 1 gone (Bush 2) since you opened this."]);
  await opened.page.getByRole("button", { name: "Clear the marks" }).click();
  expect([await text(".page-mark"), await text("#status")]).toEqual([[], [""]]);
  await send(order(next.replace("  qty 2\n", "  qty 3\n")));
  await expect.poll(() => text("tbody .page-mark")).toEqual(["\u2260 changed"]);
});

test("a row leads to its line, by the mouse and by the keyboard", async () => {
  await open();
  const sheet = sheetOf(3);
  await send(order(sheet));
  await opened.page.locator(".item", { hasText: "Bush 1" }).click();
  // The finding of the second bush: the head, then four lines a part, and the second line of its own four.
  expect((await said()).at(-1)).toEqual({ kind: "line", file: "job.jobsheet", line: 7 });
  await opened.page.locator("tbody a").nth(2).focus();
  await opened.page.keyboard.press("Enter");
  expect((await said()).at(-1)).toEqual({ kind: "line", file: "job.jobsheet", line: 11 });
});

test("the line under the cursor leads to its row: marked in words, and scrolled to", async () => {
  await open();
  await send(order(sheetOf(60)));
  await opened.page.locator("tbody").nth(59).waitFor();
  // The third line of the fiftieth part's four: `is worn`, whose row is that of its entry.
  await send({ kind: "cursor", file: "job.jobsheet", line: 2 + 49 * 4 + 2, follow: true });
  const row = opened.page.locator(".is-here");
  await row.waitFor();
  expect(await row.locator(".item").innerText()).toBe("Bush 49");
  expect(await text(".page-mark.here")).toEqual(["\u25c2 your line"]);
  expect(
    await opened.page.evaluate(
      "(() => { const it = document.querySelector('.is-here').getBoundingClientRect(); return it.top >= document.querySelector('#head').getBoundingClientRect().bottom && it.bottom <= innerHeight; })()",
    ),
  ).toBe(true);
  // As the sheet is typed the mark follows and the page stays where it is.
  const y = await opened.page.evaluate("scrollY");
  await send({ kind: "cursor", file: "job.jobsheet", line: 3, follow: false });
  await expect.poll(() => text(".is-here .item")).toEqual(["Bush 0"]);
  expect(await opened.page.evaluate("scrollY")).toBe(y);
});

test("each report keeps its own place, and another sheet starts at its head", async () => {
  await open();
  const sheet = sheetOf(60);
  await send(order(sheet));
  await opened.page.locator("tbody").nth(59).waitFor();
  await opened.page.evaluate("window.scrollTo(0, 1800)");
  await send(release(sheet));
  await opened.page.locator("h1", { hasText: "What stands in the way" }).waitFor();
  expect(await opened.page.evaluate("scrollY")).toBe(0);
  await send(order(sheet));
  await opened.page.locator("h1", { hasText: "Parts order" }).waitFor();
  expect(await opened.page.evaluate("scrollY")).toBe(1800);
  await send({ ...order(sheet), sheet: "file:///other.jobsheet" });
  await expect.poll(() => opened.page.evaluate("scrollY")).toBe(0);
});

test("a page that tries to act is put in without what acts", async () => {
  await open();
  const html = `<style>body { background: url(http://x.invalid/s.png) }</style><main onclick="postMessage(1)"><script>window.acted = 1</script><base href="http://x.invalid/"><iframe src="http://x.invalid/"></iframe><img src="http://x.invalid/i.png" onerror="window.acted = 1"><p id="end" onmouseover="window.acted = 1">end</p><a href="javascript:window.acted = 1" data-line="1" data-file="job.jobsheet">go</a></main>`;
  await send({ ...order(sheetOf(1)), html });
  await opened.page.locator("#end").hover();
  await opened.page.locator("a").click();
  expect(await opened.page.evaluate("window.acted ?? null")).toBe(null);
  expect(opened.asked).toEqual([]);
  // The policy refuses what is left of it, and says so: that is what it is there for.
  expect(opened.console.length).toBeGreaterThan(0);
  opened.console.length = 0;
});

test("a photo is asked for once, by its path and mark, and shown when it comes", async () => {
  await open();
  const html = `<main><ul><li data-row="photo"><img data-photo="a/b.png" data-mark="7" alt="Photo of a mark"> <span class="n">1</span></li></ul></main>`;
  await send({ ...order(sheetOf(1)), html });
  await send({ ...order(sheetOf(1)), html: html.replace(">1<", ">2<") });
  await opened.page.locator(".n", { hasText: "2" }).waitFor();
  expect((await said()).filter((it) => it.kind === "photo")).toEqual([{ kind: "photo", path: "a/b.png", mark: "7" }]);
  const dot = "data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNgAAAAAgABSK+kcQAAAABJRU5ErkJggg==";
  await send({ kind: "photo", path: "a/b.png", mark: "7", src: dot });
  await expect.poll(() => opened.page.evaluate("document.querySelector('img').naturalWidth")).toBe(1);
});
