// A sheet whose every text, in every kind of entry, tries to be more than a text: opened as pages in Chromium, read as CSV and as Markdown. Nothing acts.
import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { marked } from "marked";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { splitpin } from "../cli/desk.ts";
import { misfits, openPages, startBrowser } from "./browser.ts";
import { reports } from "./jobs.ts";

/** What has made one program or another act on what somebody else wrote: markup, addresses, styles, formulas, control and direction characters. */
const attempts: Readonly<Record<string, string>> = {
  markup: "<script>acted=1</script><img src=x onerror=acted=1><svg onload=acted=1><iframe src=javascript:acted=1>",
  attribute: "' onmouseover='acted=1' x=` onfocus=acted=1 autofocus tabindex=1 ",
  closing: "</title></style></td></table></svg></textarea><h1 onclick=acted=1>gone</h1><base href=//x.invalid/>",
  entities: "&lt;script&gt;acted=1&lt;/script&gt; &#106;avascript&colon;acted=1 &amp;",
  style: "}</style><style>*{background:url(http://x.invalid/s)} x{expression(acted=1)}",
  template: "{{constructor.constructor('acted=1')()}} $\u007bacted=1} <%= acted=1 %> #{acted=1}",
  markdown: "[x](javascript:acted=1) ![x](http://x.invalid/i.png) <http://x.invalid> `` `x` `` **x** | a | b |",
  reference: "[x]: javascript:acted=1 [x][x] http://x.invalid www.x.invalid a@x.invalid # x - x 1. x > x",
  formula: "=HYPERLINK(\\\"http://x.invalid\\\") +1+cmd|' /C calc'!A0",
  at: "@SUM(1+1)*cmd|' /C calc'!A0",
  minus: "-2+3+cmd|' /C calc'!A0",
  control: "\u001b[31mred\u001b]0;title\u0007 \u0008 \u009b31m \u2028 \u2029",
  direction: "\u202efdp.exe \u2066 \u200f \u061c",
  surrogate: "\ud800 half \udfff",
};

function sheetOf(t: string, released: boolean): string {
  return `sheet "${t}"
  machine "${t}"
  serial "${t}"
  by "${t}"
  currency GBP
  note "${t}"
places side left, right
part hub "${t}"
  each side
  number "${t}"
  held by hub-nut
  fits "${t}"
  critical "${t} wheel"
part drum "${t}"
  behind hub
fastener hub-nut "${t}"
  each side
  thread "${t}"
  torque by feel "${t}"
  locked by thread lock "${t}"
  source "${t}"
  critical "${t}"
fastener plain-nut "${t}"
  torque 10 .. 20 N.m
  locked by nothing "${t}"
fluid oil "${t} oil"
  in hub
  grade "${t}"
  capacity 1 l
limit play "${t}"
  worn max 0.20 mm
  set 0.10 .. 0.18 mm by cap-shims
  source "${t}"
check pattern "${t}"
  of hub
gauge dial "${t}"
  uncertainty 0.01 mm
hazard mains "${t} spring"
  safe before hub-nut
  caution "${t}"
shims cap-shims "${t}"
  have 0.10 mm x 1
  fitted 0.10 mm x 3
supplier them "${t}"
  currency GBP
  freight 2.00 GBP
offer hub from them
  number "${t}"
  price 2.00 GBP each
  equal to "${t}"
offer "${t}" from them
  price 1.00 GBP each
stock "${t}" 1 "${t}"
need "${t}" 2 "${t}"
order "${t}" to them
  status held
  item hub 4
  work drum "${t}" price 4.00 GBP
day 2026-03-30
step down "${t}"
  tool "${t}"
  caution "${t}"
  chock "${t}"
  raise on jack
  support on 2 stands under "${t}"
  safe mains "${t}"
  undo hub-nut left
  mark hub left "${t}"
  remove hub left
  repair drum "${t}"
  photo "${t}"
  done by "${t}"
measure play found by dial
  0.25 mm
seen pattern found bad "${t}" by "${t}"
finding hub left
  is worn, wrong "${t}"
  because "${t}"
  decision repair "${t}"
finding hub-nut left
  is unlocked "${t}"
  decision make "${t}"
finding hub right
  is cracked
  decision ask q
question q "${t}"
  about drum
  answer "${t}"
  source "${t}"
question open "${t}"
  about plain-nut
concession play "${t}" by "${t}" 2026-03-31
pause 2026-04-01 "${t}"
step next "${t}"
  fit hub left for now "${t}"
${released ? `release by "${t}"\n  test "${t}"\n  recheck hub-nut after 10 h\n` : ""}`;
}

/** Several at once, for what is looked at in a browser. */
const together: Readonly<Record<string, string>> = {
  pages: [attempts.markup, attempts.attribute, attempts.closing].join(" "),
  programs: [attempts.entities, attempts.style, attempts.template].join(" "),
  readers: [attempts.formula, attempts.at, attempts.markdown, attempts.reference].join(" "),
  letters: [attempts.control, attempts.direction, attempts.surrogate, "\uff1d1+1", "W".repeat(120)].join(" "),
};

let browser: Browser;
let pages: Awaited<ReturnType<typeof openPages>>;
let home = "";
beforeAll(async () => {
  browser = await startBrowser();
  pages = await openPages(browser, { name: "narrow", width: 600, height: 200 });
  home = realpathSync(mkdtempSync(join(tmpdir(), "splitpin-hostile-")));
});
afterAll(async () => {
  await pages?.close();
  rmSync(home, { recursive: true, force: true });
});

async function drawnWith(text: string, report: string, format: string, released: boolean): Promise<string> {
  writeFileSync(join(home, "job.jobsheet"), sheetOf(text, released));
  const { code, out, err } = await splitpin([report, "job.jobsheet", "--format", format], home);
  expect([code === 2, err]).toEqual([false, ""]);
  return out;
}

/** A report of the same sheet with a harmless text. */
const harmless = new Map<string, Promise<string>>();
function plainly(report: string, format: string, released: boolean): Promise<string> {
  const key = `${report} ${format} ${released}`;
  const known = harmless.get(key) ?? drawnWith("Plain", report, format, released);
  harmless.set(key, known);
  return known;
}

/** What a page is made of, in its order. */
// A label in a drawing that is broken into more lines is more of the same, and a word between backticks is shown as a name.
const tagsOf = (page: string) =>
  [...page.matchAll(/<\/?([a-z0-9]+)/gi)]
    .map((it) => it[1]?.toLowerCase())
    .filter((it) => it !== "code")
    .join(" ")
    .replace(/\btext(?: text)+/g, "text");

describe.each(reports)("%s", (report) => {
  test.each(Object.entries(attempts))("%s: page and Markdown are made of the same things as with a harmless text", async (_, attempt) => {
    for (const released of [false, true]) {
      const plain = { html: await plainly(report, "html", released), md: await plainly(report, "md", released) };
      expect(tagsOf(await drawnWith(attempt, report, "html", released))).toBe(tagsOf(plain.html));
      // As a reader shows it that takes HTML in Markdown for HTML.
      const read = marked.parse(await drawnWith(attempt, report, "md", released), { async: false, gfm: true });
      expect(tagsOf(read)).toBe(tagsOf(marked.parse(plain.md, { async: false, gfm: true })));
      for (const it of read.matchAll(/(?:href|src)="([^"]*)"/g)) expect(it[1]).toMatch(/^\.\/job\.jobsheet#L\d+$/);
    }
  });

  test.each(Object.entries(together))("%s: in a browser nothing acts, is fetched or leads away", async (_, text) => {
    for (const released of [false, true]) {
      const { page, asked, console, acted } = await pages.visit(await drawnWith(text, report, "html", released));
      // Whatever can be pointed at or pressed is.
      await page.evaluate(
        "for (const it of document.querySelectorAll('body *')) for (const kind of ['mouseover', 'focus', 'toggle', 'pointerdown']) it.dispatchEvent(new Event(kind, { bubbles: true }));",
      );
      const addresses = "[...document.querySelectorAll('[href], [src], [action]')].map((it) => it.href?.baseVal ?? it.href ?? it.src)";
      for (const href of await page.evaluate<string[]>(addresses)) expect(href).toMatch(/^http:\/\/page\.invalid\/job\.jobsheet#L\d+$/);
      const handlers = "[typeof acted, [...document.querySelectorAll('*')].flatMap((it) => it.getAttributeNames()).filter((it) => it.startsWith('on'))]";
      expect(await page.evaluate(handlers)).toEqual(["undefined", []]);
      expect({ asked, console, acted, misfits: await misfits(page) }).toEqual({ asked: [], console: [], acted: [], misfits: [] });
    }
  });
});

test.each(Object.entries(attempts))("CSV with %s: no cell is a formula", async (_, attempt) => {
  const csv = await drawnWith(attempt, "order", "csv", false);
  // The signs that a spreadsheet takes for the start of a formula: OWASP, "CSV Injection".
  for (const cell of csv.split(/,(?=(?:[^"]*"[^"]*")*[^"]*$)|\r\n/)) expect(cell).not.toMatch(/^"?\s*[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]/);
});
