// Names in a text: what a message puts between backticks is code on a page and in Markdown, and no page shows a backtick.
import { readFileSync } from "node:fs";
import { marked } from "marked";
import { describe, expect, test } from "vitest";
import { html } from "../../server/reports/draw/html.ts";
import { bareWords, prose, proseInMarkdown } from "../../server/reports/draw/prose.ts";
import { standingStill } from "../../server/model/job.ts";
import { reports } from "../../server/reports/all.ts";
import { filesAround } from "../reread.ts";

const page = (text: string) => html`${prose(text)}`.text;

describe("on a page", () => {
  test.each([
    ["Let it down and write `lower`.", 'Let it down and write <code class="unbroken">lower</code>.'],
    ["`wheel-in` and `pin` wait", '<code class="unbroken">wheel-in</code> and <code class="unbroken">pin</code> wait'],
    ["Write `seen contact-pattern final good`", "Write <code>seen contact-pattern final good</code>"],
    ["a figure in it stays whole: `torque` 3 mm", 'a figure in it stays whole: <code class="unbroken">torque</code> <span class="unbroken">3 mm</span>'],
  ])("%s", (text, markup) => expect(page(text)).toBe(markup));

  test("what no line of a sheet is made of is text, and so is one alone", () => {
    expect(page("`<img src=x>`")).toBe("`&#60;img src=x&#62;`");
    expect(page("a ` b")).toBe("a ` b");
  });
});

describe("in Markdown", () => {
  const read = (text: string) => (marked.parseInline(proseInMarkdown(text), { async: false }) as string).trim();
  test.each([
    ["Write `lower` here", "Write <code>lower</code> here"],
    ["`a_b_` - c", "<code>a_b_</code> - c"],
    ["`a*b*` - c", "`a*b*` - c"],
    ["`a` *b* `c`", "<code>a</code> *b* <code>c</code>"],
    ["one ` alone", "one ` alone"],
  ])("%s", (text, as) => expect(read(text)).toBe(as));

  test("a sign that would end a cell of a table makes it a text", () => expect(proseInMarkdown("`a|b`")).toBe("\\`a\\|b\\`"));
});

test("in a drawing and a label the bare words", () => expect(bareWords("shoe (`p0`)")).toBe("shoe (p0)"));

describe("no page shows one", () => {
  test.each([
    "bevel-drive/bevel-drive",
    "lorry-rear-axle/rear-axle",
    "steering-box/steering-box",
    "stationary-engine/bottom-end",
    "drilling-machine/drill-head",
  ])("%s", async (sample) => {
    const path = `samples/${sample}.jobsheet`;
    const name = path.slice(path.lastIndexOf("/") + 1);
    const files = standingStill({ ...filesAround(path, readFileSync(path, "utf8")), jobsheets: () => [] });
    for (const report of reports) {
      const made = await report.make(files, [name], {}, { today: "2026-06-01", width: 100 });
      if (made === undefined || !("draw" in made)) throw new Error(report.name);
      const shown = String(made.draw("html"))
        .replace(/<(style|pre)>[\s\S]*?<\/\1>/g, "")
        .replace(/\sdata-row="[^"]*"/g, "");
      expect([report.name, ...(shown.match(/.{0,40}(?:`|&#96;).{0,40}/g) ?? [])]).toEqual([report.name]);
    }
  });
});
