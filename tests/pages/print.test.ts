// Reports on paper, A4 and Letter: printed to PDF by Chromium and read back by pdftotext (Debian's poppler-utils).
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { releaseSections } from "../../server/reports/release/sections.ts";
import { filesFrom, orderHtml, orderOf } from "../reports/sheets.ts";
import { openPage, startBrowser } from "./browser.ts";
import { drawn } from "./jobs.ts";
import { asPage, releaseReport } from "../in-one-go.ts";

let browser: Browser;
let folder = "";
beforeAll(async () => {
  browser = await startBrowser();
  folder = mkdtempSync(join(tmpdir(), "splitpin-print-"));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

/** The text of each page, and the size of the paper in points. */
async function printed(html: string, format: "A4" | "Letter"): Promise<{ pages: string[]; size: number[] }> {
  const { page } = await openPage(browser, html, { name: "print", width: 703, print: true });
  const path = join(folder, "page.pdf");
  await page.pdf({ path, format });
  await page.close();
  const text = execFileSync("pdftotext", ["-layout", path, "-"], { encoding: "utf8" });
  const size = /^Page size: +([\d.]+) x ([\d.]+) pts/m.exec(execFileSync("pdfinfo", [path], { encoding: "utf8" }));
  return { pages: text.split("\f").slice(0, -1), size: (size?.slice(1) ?? []).map((it) => Math.round(Number(it))) };
}

/** How far down each page its lowest word stands, of its height; the page's own number in the margin is left out. */
async function reach(html: string, format: "A4" | "Letter"): Promise<number[]> {
  await printed(html, format);
  const text = execFileSync("pdftotext", ["-bbox", join(folder, "page.pdf"), "-"], { encoding: "utf8" });
  return text
    .split("<page ")
    .slice(1)
    .map((page) => {
      const height = Number(/height="([\d.]+)"/.exec(page)?.[1]);
      const ends = [...page.matchAll(/yMax="([\d.]+)"/g)].map((it) => Number(it[1]) / height);
      return Math.max(...ends.filter((it) => it < 0.95));
    });
}

/** So many parts, each with a finding: its reason stands on line 4 of its own four. */
const sheet = `sheet "Many bushes"\n${Array.from({ length: 60 }, (_, i) => `part bush-${i} "Bush number ${i}"\nfinding bush-${i}\n  is worn\n  decision renew\n`).join("")}`;

// ISO 216 A4 is 210 × 297 mm, ANSI A is 8-1/2 × 11 in; in points of 1/72 in.
describe.each([
  ["A4", [595, 842]],
  ["Letter", [612, 792]],
] as const)("%s", (format, paper) => {
  test("the order: heads on every page of rows, no row over two pages, line numbers there", async () => {
    const { pages, size } = await printed(orderHtml(orderOf(sheet)), format);
    // A browser rounds paper up to whole points.
    expect(size.map((it, i) => Math.abs(it - (paper[i] as number)) <= 1)).toEqual([true, true]);
    expect(pages.length).toBeGreaterThan(2);
    const withRows = pages.filter((it) => /Bush number \d+/.test(it) && /to be renewed/.test(it));
    for (const page of withRows) expect(page).toMatch(/What[\s\S]{0,200}To order[\s\S]{0,200}Status/);
    for (let i = 0; i < 60; i++) {
      const name = new RegExp(`Bush number ${i}\\b`);
      const line = 1 + i * 4 + 2;
      const reason = new RegExp(`found worn, to be renewed[\\s\\S]{0,40}\\bline.${line}\\b`);
      const at = pages.findIndex((it) => reason.test(it));
      expect([i, at >= 0]).toEqual([i, true]);
      expect([i, name.test(pages[at] as string)]).toEqual([i, true]);
    }
  });

  test("the order: whose goods they are stands on every page of their rows", async () => {
    const offered = Array.from({ length: 60 }, (_, i) => `offer bush-${i} from weir\n  price 2.00 GBP each\n`).join("");
    const { pages } = await printed(orderHtml(orderOf(`${sheet}supplier weir "Weir Lane Bearings"\n  currency GBP\n${offered}`)), format);
    const withRows = pages.filter((it) => /Bush number \d+/.test(it) && /2\.00/.test(it));
    expect(withRows.length).toBeGreaterThan(1);
    for (const page of withRows)
      expect(page).toMatch(/What, from Weir Lane\s+Bearings|What, from Weir[\s\S]{0,120}Lane Bearings|What, from Weir Lane[\s\S]{0,120}Bearings/);
  });

  test("the order's tables, one below the other: each column under its like", async () => {
    // One supplier's things have a number and large sums, the other's have neither. Whose they are stands in the head of each.
    const two = `sheet "Two suppliers"
supplier far "Far Away Supplies"
supplier near "Near"
offer casing from far
  number "FA-1234-56"
  price 12345.00 GBP each
  lead 14 d
offer bush from near
  price 1.10 GBP each
part casing "Casing of a long name that takes the width"
part bush "Bush"
finding casing
  is cracked
  decision renew
finding bush
  is worn
  decision renew
`;
    const { page } = await openPage(browser, orderHtml(orderOf(two)), { name: "print", width: 703, print: true });
    const heads = await page.evaluate<string[]>(
      "[...document.querySelectorAll('table.sales')].map((it) => [...it.querySelectorAll('thead th')].map((th) => th.textContent.replace(/, from .*/, '') + ' ' + Math.round(th.getBoundingClientRect().right)).join())",
    );
    await page.close();
    expect(heads.length).toBe(2);
    expect(heads[1]).toBe(heads[0]);
  });

  test("what stands in the way: what is to be done once, a line number in every row", async () => {
    const released = `${sheet}step off "Off"\n${Array.from({ length: 60 }, (_, i) => `  remove bush-${i}\n`).join("")}  done\n`;
    const report = releaseReport(filesFrom({ "job.jobsheet": released }), "job.jobsheet");
    if (report === undefined) throw new Error("no report");
    const { pages } = await printed(asPage(releaseSections(report)), format);
    expect(pages.length).toBeGreaterThan(1);
    expect(pages.join("\n").match(/Fit it, or say in a finding/g)).toHaveLength(1);
    const rows = pages.flatMap((page) => page.split("\n")).filter((it) => it.includes("came off and is not back"));
    expect(rows).toHaveLength(60);
    for (const row of rows) expect(row).toMatch(/not back\.\s+\d+\s*$/);
  });

  test.each(["bevel-drive/bevel-drive", "lorry-rear-axle/rear-axle", "stationary-engine/bottom-end"])(
    "how %s was left: no page but the last has a fifth of it blank",
    async (job) => {
      const reached = await reach(await drawn("left", `samples/${job}.jobsheet`, "html"), format);
      expect(reached.length).toBeGreaterThan(1);
      for (const it of reached.slice(0, -1)) expect(it).toBeGreaterThan(0.8);
    },
  );

  test("the foot of a plan stands with what is above it, never on a page by itself", async () => {
    const { pages } = await printed(await drawn("plan", "samples/bevel-drive/bevel-drive.jobsheet", "html"), format);
    expect((pages.at(-1) ?? "").slice(0, (pages.at(-1) ?? "").indexOf("Counted from")).trim()).not.toBe("");
  });

  test("the readings of a job: each picture stands whole under its heading", async () => {
    const html = await drawn("readings", "tests/sheets/big-end/big-end.jobsheet", "html");
    const { page } = await openPage(browser, html);
    // Taller than a page nothing is that is kept whole; a page of either holds 246 mm and more between its margins.
    const heights = await page.evaluate<number[]>("[...document.querySelectorAll('.picture, .read tbody')].map((it) => it.getBoundingClientRect().height)");
    const titles = await page.evaluate<string[]>("[...document.querySelectorAll('section:has(.picture) > h2')].map((it) => it.textContent.trim())");
    await page.close();
    expect(Math.max(...heights)).toBeLessThan(900);
    expect(titles.length).toBeGreaterThan(1);
    const { pages } = await printed(html, format);
    for (const title of titles) {
      const at = pages.find((it) => it.split("\n").some((line) => line.trim() === title)) ?? "";
      expect([title, /^\s*found/m.test(at.slice(at.indexOf(title)))]).toEqual([title, true]);
    }
  });
});
