// Entries as they are begun: each is read as it is, and as an editor's snippet writes the same text.
import { expect, test } from "vitest";
import { formatSheet } from "../../grammar/format.ts";
import { readSheet } from "../../grammar/sheet-text.ts";
import { entryWords } from "../../grammar/words.ts";
import { entrySnippet, entryTemplate } from "../../server/features/entry-snippets.ts";
import { asSnippet } from "../../server/features/snippets.ts";

test.each(entryWords.map((it) => it.word))("%s", (word) => {
  const text = entryTemplate(word, "2026-05-04");
  const { entries } = readSheet(text);
  expect(entries.map((it) => it.kind)).toEqual([word]);
  expect(entries.flatMap((it) => [it, ...it.details, ...it.stray]).filter((it) => it.fault !== undefined)).toEqual([]);
  expect(entries[0]?.stray).toEqual([]);
  expect(formatSheet(`${text.trimEnd()}\n`)).toBe(`${text.trimEnd()}\n`);
  // Typed over nowhere, the snippet leaves the text.
  expect(entrySnippet(word, "2026-05-04").replace(/\$\{\d+:(_+)\}/g, "$1")).toBe(text);
  expect(entryTemplate(word, undefined)).not.toContain("TODAY");
});

test("signs that mean something in a snippet are kept from it, and stops are counted on", () => {
  // biome-ignore lint/suspicious/noTemplateCurlyInString: stops of a snippet.
  expect(asSnippet('a "$5 {x}\\" ___ b ____', 2)).toEqual({ text: 'a "\\$5 {x\\}\\\\" ${3:___} b ${4:____}', stops: 4 });
});
