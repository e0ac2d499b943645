// A page in Chromium, with everything that it does noted: what it asked for, what the console said, whether something in it acted.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";

export interface Opened {
  readonly page: Page;
  /** The addresses that it asked for: none is allowed to be answered. */
  readonly asked: string[];
  readonly console: string[];
  /** Dialogs, new windows, downloads and errors. */
  readonly acted: string[];
}

export interface Look {
  readonly name: string;
  readonly width: number;
  /** Of a page that is looked at without being scrolled; all of it is laid out however little of it the window shows, and what it shows is drawn. */
  readonly height?: number;
  readonly dark?: true;
  readonly print?: true;
  readonly contrast?: true;
  /** Looked at by axe-core: by all of its rules, or by those of colours. What it judges is the same in the others, or none of a page's making (forced colours, paper). */
  readonly judged?: "whole" | "colours";
}

/** A page on A4 has 210 - 2 × 12 mm between its margins: 703 px at 96 px an inch. */
export const looks: readonly Look[] = lowered([
  { name: "light", width: 1200, judged: "whole" },
  { name: "dark", width: 1200, dark: true, judged: "colours" },
  { name: "narrow", width: 600 },
  { name: "middling", width: 1030 },
  { name: "high contrast", width: 800, contrast: true },
  { name: "print", width: 703, print: true },
]);

/** No page knows how high its window is: what is wrong with it is seen in a low one too, which has less to draw. */
function lowered(all: readonly Look[]): readonly Look[] {
  return all.map((it) => ({ ...it, height: 200 }));
}

const script = (name: string) => readFileSync(new URL(name, import.meta.url), "utf8").replace(/;\s*$/, "");
const whatIsWrong = script("what-is-wrong.js");
const kindsOfText = script("kinds-of-text.js");
const kindsOfElement = script("kinds-of-element.js");
const hashed = script("hashed.js");
const axe = readFileSync(fileURLToPath(new URL("../../node_modules/axe-core/axe.min.js", import.meta.url)), "utf8");

export { browserOfWorker as startBrowser } from "../browser-of-worker.ts";

/** Opens a page as a file would be: under an address of its own, from which nothing else is to be had. */
export async function openPage(browser: Browser, html: string, look: Look = { name: "light", width: 1200 }): Promise<Opened> {
  const page = await browser.newPage();
  await lookAt(page, look);
  const heard = await listenedTo(page, () => html);
  await page.goto(address);
  return { page, ...heard };
}

/** A window that is led to one page after another, each a document of its own: a fresh window for each takes longer than the page. */
export async function openPages(
  browser: Browser,
  look: Look,
): Promise<{ readonly visit: (html: string) => Promise<Opened>; readonly close: () => Promise<void> }> {
  const page = await browser.newPage();
  await lookAt(page, look);
  let shown = "";
  const heard = await listenedTo(page, () => shown);
  return {
    async visit(html) {
      for (const it of [heard.asked, heard.console, heard.acted]) it.length = 0;
      shown = html;
      await page.goto(address);
      return { page, ...heard };
    },
    close: () => page.close(),
  };
}

/** A window in which one page is written after another, as `looks[0]` shows it: a fresh window a page, with axe-core read again in each, took most of the time. */
export interface Window {
  /** What was noted of the page before is forgotten. */
  show(html: string): Promise<Opened>;
  close(): Promise<void>;
}

export async function openWindow(browser: Browser): Promise<Window> {
  const opened = await openPage(browser, "<!doctype html>");
  const { page, asked, console, acted } = opened;
  return {
    async show(html) {
      await lookAt(page, looks[0] as Look);
      for (const it of [asked, console, acted]) it.length = 0;
      await page.setContent(html);
      return opened;
    },
    close: () => page.close(),
  };
}

const address = "http://page.invalid/report.html";

async function listenedTo(page: Page, html: () => string): Promise<Omit<Opened, "page">> {
  const asked: string[] = [];
  const console: string[] = [];
  const acted: string[] = [];
  await page.route("**/*", (route) => {
    const url = route.request().url();
    if (url === address) return route.fulfill({ contentType: "text/html; charset=utf-8", body: html() });
    if (!url.startsWith("data:image/")) asked.push(url);
    return route.abort();
  });
  page.on("console", (it) => console.push(`${it.type()}: ${it.text()}`));
  page.on("pageerror", (it) => acted.push(`error: ${it.message}`));
  page.on("dialog", (it) => {
    acted.push(`dialog: ${it.message()}`);
    void it.dismiss();
  });
  page.on("popup", (it) => acted.push(`window: ${it.url()}`));
  page.on("download", (it) => acted.push(`download: ${it.url()}`));
  return { asked, console, acted };
}

/** The same page looked at otherwise: as when its reader makes the window narrow, or prints. */
export async function lookAt(page: Page, look: Look): Promise<void> {
  const size = { width: look.width, height: look.height ?? 900 };
  const now = page.viewportSize();
  if (now?.width !== size.width || now.height !== size.height) await page.setViewportSize(size);
  await page.emulateMedia({
    media: look.print === true ? "print" : "screen",
    colorScheme: look.dark === true ? "dark" : "light",
    forcedColors: look.contrast === true ? "active" : "none",
  });
}

/** What doesn't fit: text that is cut, lies over other text, or reaches out of the page or of its drawing. */
export function misfits(page: Page): Promise<string[]> {
  return page.evaluate(`(${whatIsWrong})()`);
}

const ofColours = ["color-contrast", "link-in-text-block"];
/** What is of the document and its head: of the parts of a page these say nothing. */
const ofPages = [
  "document-title",
  "html-has-lang",
  "html-lang-valid",
  "bypass",
  "meta-refresh",
  "meta-viewport",
  "aria-hidden-body",
  "html-xml-lang-mismatch",
  "css-orientation-lock",
  "frame-title-unique",
];

/**
 * What axe-core (Deque Systems) finds that is serious or worse: the rule, and where. It is asked once for each kind of thing, on whichever page that came first: what is of
 * colours for each kind of text, for two texts whose colours, letters and grounds are the same are as easy to read as one another; all else for each kind of element, the
 * second row of a table being what the first is. What is of a page as a whole (its language, its title) is asked of every page.
 */
export async function hindrances(page: Page, judged: "whole" | "colours"): Promise<string[]> {
  if (!(await page.evaluate<boolean>("typeof axe === 'object'"))) await page.evaluate(axe);
  const found: string[] = [];
  if (judged === "whole") {
    const kinds = await page.evaluate<string[]>(`(${kindsOfElement})(${JSON.stringify([...sound])}, ${hashed})`);
    found.push(
      ...(kinds.length === 0
        ? await violations(page, "document", { runOnly: ofPages })
        : await violations(page, `{ exclude: [["[data-known-kind]"]] }`, { rules: Object.fromEntries(ofColours.map((it) => [it, { enabled: false }])) })),
    );
    // What is wrong is looked at again wherever it stands.
    if (found.length === 0) for (const it of kinds) if (it !== "") sound.add(it);
  }
  const kinds = await page.evaluate<string[]>(`(${kindsOfText})(${JSON.stringify([...readable])}, ${hashed})`);
  if (kinds.length > 0) {
    const faults = await violations(page, `{ include: [["[data-new-kind]"]] }`, { runOnly: ofColours });
    if (faults.length === 0) for (const it of kinds) readable.add(it);
    found.push(...faults);
  }
  return found;
}

/** The kinds of elements in which nothing was found, on whichever page. */
const sound = new Set<string>();
/** The kinds of text that were found to be readable, on whichever page. */
const readable = new Set<string>();

async function violations(page: Page, where: string, options: object): Promise<string[]> {
  const found = await page.evaluate<{ violations: { id: string; impact: string; nodes: { html: string; failureSummary: string }[] }[] }>(
    `axe.run(${where}, ${JSON.stringify({ resultTypes: ["violations"], ...options })})`,
  );
  return found.violations
    .filter((it) => it.impact === "serious" || it.impact === "critical")
    .map((it) => `${it.id}: ${it.nodes[0]?.html.slice(0, 200)} ${it.nodes[0]?.failureSummary}`);
}

/** What is wrong with a page in any of these looks, by the name of the look; it stays as the last shows it. */
export async function wrongIn({ page, asked, console, acted }: Opened, inLooks = looks): Promise<Readonly<Record<string, readonly string[]>>> {
  const wrong: Record<string, readonly string[]> = {};
  for (const look of inLooks) {
    await lookAt(page, look);
    const faults = await misfits(page);
    if (look.judged !== undefined) faults.push(...(await hindrances(page, look.judged)));
    if (faults.length > 0) wrong[look.name] = faults;
  }
  for (const [name, noted] of Object.entries({ asked, console, acted })) if (noted.length > 0) wrong[name] = [...noted];
  return wrong;
}
