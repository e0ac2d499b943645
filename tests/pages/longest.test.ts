// A sheet whose every figure is as long as a figure may well be: its pages in Chromium, in every look. What is cut or reaches out here does so on somebody's real sheet.
import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { splitpin } from "../cli/desk.ts";
import { lookAt, looks, misfits, openPage, startBrowser } from "./browser.ts";
import { reports } from "./jobs.ts";

const data = `places side nearside-front-outboard, offside-front-outboard
part crosshead-slipper-adjusting-wedge "Crosshead slipper adjusting wedge, upper, with its two tapered keys and the cover plate"
  each side
  number "ABC-1234567-0001/WWWW-MMMM"
part rod-brass "Rod brass"
  number "1234567890123456789012345"
fastener anchorage-bolt "Anchorage bolt"
  qty 1248
  thread M36x4
  torque 12345.678 +/- 1234.567 kgf.cm
limit slipper-width "Slipper width over the two tapered keys"
  each side
  new 1234.56785 +0.00085 -0.00035 mm
  worn max 1234.57915 mm
  of crosshead-slipper-adjusting-wedge
  source "Works drawing"
limit brass-bore "Brass bore"
  new 1.984375 +0.015625 -0.015625 in
  worn max 2.046875 in
  of rod-brass
  source "Works drawing"
limit brass-float "Brass float"
  set 1000.00025 .. 1000.00175 thou by brass-shims
  source "Works drawing"
shims brass-shims "Brass float shims"
  have 100.00025 thou x 144, 125.00075 thou x 144
  fitted 100.00025 thou x 12
gauge long-gauge "Gauge"
  resolution 0.00005 mm
  uncertainty 0.00015 mm
supplier far "W. W. Wimborne & Mummery, Wrought Ironmasters and Marine Engineers' Merchants (Exports)"
  freight 123456.78 GBP
offer crosshead-slipper-adjusting-wedge from far
  number "WWWW-1234567890-MMMM"
  price 1234567.89 GBP each
  lead 365 d
offer rod-brass from far
  price 99999999.95 GBP each
  lead 3650 d
offer anchorage-bolt from far
  price 98765432.10 GBP a pack
  pack 144
`;
const job = `sheet "Crosshead slippers, brasses and anchorage"
  currency GBP
  reading 1234567.8 h
use "data.jobsheet"
day 2026-09-30
step strip "Strip the crosshead"
  takes 1234.75 h
  undo anchorage-bolt
  remove crosshead-slipper-adjusting-wedge
  remove rod-brass
measure slipper-width found by long-gauge
  nearside-front-outboard 1234.58015, 1234.58025, 1234.58005 mm
measure slipper-width found by long-gauge
  offside-front-outboard 1234.57805 mm
measure brass-bore found
  2.078125 in
measure brass-float found
  1000.00315 thou
finding crosshead-slipper-adjusting-wedge
  is worn
  decision renew
finding rod-brass
  is worn
  decision renew
finding anchorage-bolt
  is bent
  decision renew
step back "Back"
  takes 9999 h
  fit crosshead-slipper-adjusting-wedge new
`;

let browser: Browser;
let home = "";
beforeAll(async () => {
  browser = await startBrowser();
  home = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-longest-")));
  writeFileSync(join(home, "data.jobsheet"), data);
  writeFileSync(join(home, "job.jobsheet"), job);
});
afterAll(() => {
  rmSync(home, { recursive: true, force: true });
});

test("each long figure is on a page, so that a page without misfits says something", async () => {
  const of = async (report: string) => (await splitpin([report, "job.jobsheet", "--format", "html"], home)).out;
  const [order, readings, shims] = await Promise.all(["order", "readings", "shims"].map(of));
  expect(order).toContain("99999999.95");
  expect(readings).toContain("1234.56785");
  expect(shims).toContain("1000.00315");
});

test.each(reports)("%s: nothing is cut, lies over something else or reaches out", async (report) => {
  const { code, out, err } = await splitpin([report, "job.jobsheet", "--format", "html"], home);
  expect([code === 2, err]).toEqual([false, ""]);
  const { page } = await openPage(browser, out);
  for (const look of [...looks, { name: "telephone", width: 390, height: 200 }]) {
    await lookAt(page, look);
    expect([look.name, await misfits(page)]).toEqual([look.name, []]);
  }
  await page.close();
});
