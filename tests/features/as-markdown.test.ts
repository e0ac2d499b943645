// What a hover shows of a sheet's texts: as they are written, with no more backslashes than Markdown needs.
import fc from "fast-check";
import { marked } from "marked";
import { describe, expect, test } from "vitest";
import { asMarkdownText } from "../../server/features/as-markdown.ts";

const entities: Record<string, string> = { lt: "<", gt: ">", amp: "&", quot: '"', "#39": "'" };

/** What a reader of Markdown shows, and the names of the elements that it made. */
function shown(markdown: string): { readonly text: string; readonly elements: readonly string[] } {
  const html = marked.parse(markdown, { async: false, gfm: true }).trim();
  const elements = [...html.matchAll(/<([a-z0-9]+)/g)].map((it) => it[1] as string);
  const text = html.replace(/<[^>]*>/g, "").replace(/&(#?\w+);/g, (whole, name) => entities[name] ?? whole);
  return { text, elements };
}

describe("plain words of the shop bear no backslash", () => {
  test.each([
    "0.022 in (0.559 mm)",
    "5/8-18 UNF (left-hand)",
    "Line 12: the nut is loose.",
    "± 0.0003 in + 0.1",
    "a > b and 3 < 4",
    "Weir & Sons",
    "Is it loose?",
    "1.5 mm",
    "hub-nut",
    "torque 60 .. 70 lbf.ft!",
  ])("%s", (text) => expect(asMarkdownText(text)).toBe(text));
});

describe("nothing becomes markup", () => {
  test.each([
    "# heading",
    "> quoted",
    "- item",
    "+ item",
    "1. item",
    "12) item",
    "---",
    "===",
    "*bold* and _so_ and ___",
    "`code`",
    "[link](command:run)",
    "![picture](x)",
    "<b onclick=x>",
    "<!-- gone -->",
    "&lt; &#60;",
    "https://example.org and www.example.org and a@example.org",
    "~~struck~~",
    "| a | b |",
    "a\\*b\\",
    "    code",
  ])("%s", (text) => expect(shown(asMarkdownText(text))).toEqual({ text: text.trim(), elements: ["p"] }));

  test("whatever is written", () => {
    const sign = fc.constantFrom(..."ab1 .-+*_`[]()<>&#!|~\\:/@=;x\"'w$");
    fc.assert(
      fc.property(fc.array(sign, { minLength: 1, maxLength: 24 }), (signs) => {
        const text = signs.join("").trim();
        if (text === "") return;
        expect(shown(asMarkdownText(text))).toEqual({ text, elements: ["p"] });
      }),
      { seed: 1916, numRuns: 5000 },
    );
  });
});
