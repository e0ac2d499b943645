// The pages of sheets, each looked at in Chromium by day, by night, narrow, in high contrast and as printed.
// What is checked holds whatever the fonts of the machine: nothing is cut, lies over something else or reaches out; nothing is fetched; nothing fails.
// All pages are drawn. Looked at is each that has something of a kind that none before it has, or the longest word or text of a kind, and of the others an even sample;
// all of them in the full run.
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { sampleName, sampled } from "../sampled.ts";
import { type Window, openWindow, startBrowser, wrongIn } from "./browser.ts";
import { drawn, reports } from "./jobs.ts";
import { type Things, thingsIn } from "./things.ts";

interface Drawn {
  readonly path: string;
  readonly report: string;
  readonly html: string;
}

/** A test for each page that is looked at, of the sheets given; `whole`: each of them is. A file of tests goes through some of the sheets, so that several are looked at side by side. */
export async function lookAtAll(jobs: readonly string[], whole?: "whole"): Promise<void> {
  const all = await drawnOf(jobs);
  const telling = whole === undefined ? tellingOf(all) : new Set(all);
  const others = sampled(
    all.filter((it) => !telling.has(it)),
    6,
  );
  const chosen = all.filter((it) => telling.has(it) || others.includes(it));
  let browser: Browser;
  beforeAll(async () => {
    browser = await startBrowser();
  });
  afterAll(() => browser?.close());

  describe.each(jobs.map((path) => [path, chosen.filter((it) => it.path === path)] as const).filter(([, pages]) => pages.length > 0))("%s", (_, pages) => {
    let window: Window;
    beforeAll(async () => {
      window = await openWindow(browser);
    });
    afterAll(() => window?.close());

    test.each(pages)("$report", async ({ html }) => {
      expect(await wrongIn(await window.show(html))).toEqual({});
    });
  });

  test(`${chosen.length} of ${all.length} pages are looked at: ${telling.size} for what is on them, of the others ${sampleName}`, () => {
    // Whatever a page is made of was looked at on one of them.
    const seen = new Set(chosen.flatMap((it) => [...thingsIn(it.html).kinds]));
    for (const it of all) expect([...thingsIn(it.html).kinds].filter((kind) => !seen.has(kind))).toEqual([]);
    expect(chosen.length).toBeGreaterThanOrEqual(Math.min(all.length, 2 * reports.length));
  });
}

/** Each page once: a report of the whole folder is the same from whichever of its sheets it is asked for. */
async function drawnOf(jobs: readonly string[]): Promise<readonly Drawn[]> {
  const all = new Map<string, Drawn>();
  for (const path of jobs)
    for (const report of reports) {
      const html = await drawn(report, path, "html");
      if (!all.has(html)) all.set(html, { path, report, html });
      await new Promise<void>((done) => setImmediate(done));
    }
  return [...all.values()];
}

/** Those that have what none of the others before has, or more of it than any: what fits there fits elsewhere. */
function tellingOf(all: readonly Drawn[]): ReadonlySet<Drawn> {
  const telling = new Set<Drawn>();
  const kinds = new Set<string>();
  const longest = new Map<string, { readonly length: number; readonly on: Drawn }>();
  for (const it of all) {
    const things: Things = thingsIn(it.html);
    for (const kind of things.kinds) {
      if (!kinds.has(kind)) telling.add(it);
      kinds.add(kind);
    }
    for (const [what, length] of things.lengths) if (length > (longest.get(what)?.length ?? 0)) longest.set(what, { length, on: it });
  }
  for (const { on } of longest.values()) telling.add(on);
  return telling;
}
