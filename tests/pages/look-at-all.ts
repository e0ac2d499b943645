// The pages of sheets, each looked at in Chromium by day, by night, narrow, in high contrast and as printed.
// What is checked holds whatever the fonts of the machine: nothing is cut, lies over something else or reaches out; nothing is fetched; nothing fails.
// All pages are drawn, by the sources; what is looked at is what the built program draws, and must be the same. Looked at is each of a sample; of the other sheets each that has something of a kind that none before it has, or the longest word or text of a kind, and
// of the rest an even part, in fewer looks; all of them in all looks in the full run.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { isFull, sampleName, sampled } from "../sampled.ts";
import { type Window, looks, openWindow, startBrowser, wrongIn } from "./browser.ts";
import { drawn, drawnBySources, isAnswered, reports } from "./jobs.ts";
import { type Things, thingsIn } from "./things.ts";

interface Drawn {
  readonly path: string;
  readonly report: string;
  readonly html: string;
  readonly things: Things;
}

/** By day, narrow and on paper: of a page that is made of what other pages showed in all looks. */
const fewerLooks = looks.filter((it) => ["light", "narrow", "print"].includes(it.name));

/** A test for each page that is looked at, of the sheets given; each page of a `whole` one is. Two are looked at side by side, each in a window of its own. */
export async function lookAtAll(jobs: readonly string[], whole: (path: string) => boolean): Promise<void> {
  const all = await drawnOf([...jobs.filter(whole), ...jobs.filter((it) => !whole(it))]);
  const telling = new Set([...all.filter((it) => whole(it.path)), ...tellingOf(all)]);
  const others = new Set(
    sampled(
      all.filter((it) => !telling.has(it)),
      6,
    ),
  );
  const chosen = all.filter((it) => telling.has(it) || others.has(it));
  const free: Window[] = [];
  beforeAll(async () => {
    const browser = await startBrowser();
    free.push(await openWindow(browser), await openWindow(browser));
  });
  afterAll(async () => {
    for (const it of free) await it.close();
  });

  describe.concurrent.each(jobs.map((path) => [path, chosen.filter((it) => it.path === path)] as const).filter(([, pages]) => pages.length > 0))(
    "%s",
    (_, pages) => {
      test.each(pages)("$report", async (it) => {
        const html = await drawn(it.report, it.path, "html");
        expect(html === it.html, "the built program draws it as the sources do").toBe(true);
        const window = free.pop() as Window;
        try {
          expect(await wrongIn(await window.show(html), isFull || telling.has(it) ? looks : fewerLooks)).toEqual({});
        } finally {
          free.push(window);
        }
      });
    },
  );

  test(`${chosen.length} of ${all.length} pages are looked at: ${telling.size} for what is on them, of the others ${sampleName}`, () => {
    // Whatever a page is made of was looked at on one of them, in all looks.
    const seen = new Set([...telling].flatMap((it) => [...it.things.kinds]));
    for (const it of all) expect([...it.things.kinds].filter((kind) => !seen.has(kind))).toEqual([]);
    expect(chosen.length).toBeGreaterThanOrEqual(2 * reports.length);
  });
}

/** Each page once: a report of the whole folder is the same from whichever of its sheets it is asked for, and is asked of one. */
async function drawnOf(jobs: readonly string[]): Promise<readonly Drawn[]> {
  const all = new Map<string, Drawn>();
  for (const [i, path] of jobs.entries())
    for (const report of reports) {
      if (isAnswered(report, path, jobs.slice(0, i))) continue;
      const html = await drawnBySources(report, path);
      if (!all.has(html)) all.set(html, { path, report, html, things: thingsIn(html) });
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
    for (const kind of it.things.kinds) {
      if (!kinds.has(kind)) telling.add(it);
      kinds.add(kind);
    }
    for (const [what, length] of it.things.lengths) if (length > (longest.get(what)?.length ?? 0)) longest.set(what, { length, on: it });
  }
  for (const { on } of longest.values()) telling.add(on);
  return telling;
}
