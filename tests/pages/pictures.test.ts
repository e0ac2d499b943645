// The drawings of the reports against pictures that were looked at: lines and shapes only, for letters differ from machine to machine.
// `UPDATE_PICTURES=1` takes them anew; look at them before they are committed. Where they fail, what differs is written to .cache/pictures.
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import pixelmatch from "pixelmatch";
import type { Browser, Page } from "playwright-core";
import { PNG } from "pngjs";
import { beforeAll, describe, expect, test } from "vitest";
import { type Look, openPage, startBrowser } from "./browser.ts";
import { drawn, reports } from "./jobs.ts";

const kept = fileURLToPath(new URL("pictures/", import.meta.url));
const failed = fileURLToPath(new URL("../../.cache/pictures/", import.meta.url));
const anew = process.env.UPDATE_PICTURES === "1";

const shown = [
  { name: "bevel-readings", report: "readings", path: "samples/bevel-drive/bevel-drive.jobsheet" },
  { name: "bevel-shims", report: "shims", path: "samples/bevel-drive/bevel-drive.jobsheet" },
  { name: "bevel-plan", report: "plan", path: "samples/bevel-drive/bevel-drive.jobsheet" },
  { name: "big-end-readings", report: "readings", path: "tests/sheets/big-end/big-end.jobsheet" },
].filter((it) => reports.includes(it.report));

const alone = `{
  const style = document.createElement("style");
  style.textContent = "body { padding: 0 } svg { display: block; max-width: none } svg text { display: none }";
  document.head.append(style);
  const drawings = [...document.querySelectorAll("main .picture svg")];
  for (const it of drawings) {
    const { width, height } = it.viewBox.baseVal;
    it.setAttribute("width", Math.ceil(width));
    it.setAttribute("height", Math.ceil(height));
  }
  document.body.replaceChildren(...drawings);
}`;

let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
  mkdirSync(kept, { recursive: true });
});

async function withPage<T>(report: string, path: string, look: Look, use: (page: Page) => Promise<T>): Promise<T> {
  const { page } = await openPage(browser, await drawn(report, path, "html"), look);
  try {
    return await use(page);
  } finally {
    await page.close();
  }
}

describe.each(shown)("$name", ({ name, report, path }) => {
  test("the shapes are as they were when they were looked at", async () => {
    await withPage(report, path, { name: "light", width: 1000 }, async (page) => {
      // Each alone, at its own size and at whole pixels, so that the letters of the page around it have no say in where its edges fall.
      await page.evaluate(alone);
      const drawings = await page.locator("body > svg").all();
      expect(drawings.length).toBeGreaterThan(0);
      for (const [i, drawing] of drawings.entries()) {
        const file = `${name}-${i + 1}.png`;
        const now = PNG.sync.read(await drawing.screenshot());
        if (anew) {
          writeFileSync(kept + file, PNG.sync.write(now, { colorType: 0, inputHasAlpha: true }));
          continue;
        }
        const was = PNG.sync.read(readFileSync(kept + file));
        expect([file, now.width, now.height]).toEqual([file, was.width, was.height]);
        const differs = new PNG({ width: was.width, height: was.height });
        // Edges are softened a little otherwise by another version of the browser; a shape that moved is many pixels.
        const count = pixelmatch(was.data, grey(now).data, differs.data, was.width, was.height, { threshold: 0.25 });
        if (count > 20) {
          mkdirSync(failed, { recursive: true });
          writeFileSync(failed + file, PNG.sync.write(differs));
        }
        expect([file, count <= 20]).toEqual([file, true]);
      }
      if (!anew) expect(readdirSync(kept).filter((it) => it.startsWith(`${name}-`)).length).toBe(drawings.length);
    });
  });

  test("each says in words what it shows", async () => {
    await withPage(report, path, { name: "light", width: 1000 }, async (page) => {
      for (const drawing of await page.locator("main .picture svg").all()) {
        expect(await drawing.getAttribute("role")).toBe("img");
        expect((await drawing.getAttribute("aria-label"))?.length).toBeGreaterThan(30);
      }
    });
  });

  // Whoever sees no colours, and whoever prints in black: every line and shape is as plain in grey, and nothing has a colour of its own.
  test("nothing in it hangs on a colour, and in high contrast nothing fades", async () => {
    const colours =
      "[...new Set([...document.querySelectorAll('main svg *')].flatMap((it) => { const s = getComputedStyle(it); return [s.fill, s.stroke]; }).filter((it) => it !== 'none'))]";
    const hued = (list: string[]) =>
      list.filter((it) => {
        const [r = 0, g = 0, b = 0] = (/rgba?\(([^)]*)\)/.exec(it)?.[1] ?? "").split(",").map(Number);
        return Math.max(r, g, b) - Math.min(r, g, b) > 32;
      });
    for (const look of [{ name: "light", width: 1000 }, { name: "dark", width: 1000, dark: true } as const])
      expect(hued(await withPage(report, path, look, (page) => page.evaluate<string[]>(colours)))).toEqual([]);
    const plain = await withPage(report, path, { name: "contrast", width: 1000, contrast: true }, (page) => page.evaluate<string[]>(colours));
    expect(plain.length).toBeGreaterThan(0);
    for (const it of plain) expect(["rgb(0, 0, 0)", "rgb(255, 255, 255)"]).toContain(it);
  });
});

/** As it would come out of a printer that has no colours. */
function grey(picture: PNG): PNG {
  return PNG.sync.read(PNG.sync.write(picture, { colorType: 0, inputHasAlpha: true }));
}

test("there is no picture of what is not looked at", () => {
  expect(existsSync(kept)).toBe(true);
  for (const file of readdirSync(kept)) expect([file, shown.some((it) => file.startsWith(`${it.name}-`))]).toEqual([file, true]);
});
