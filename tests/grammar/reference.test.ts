// The reference tells the truth: each sheet in it is read without a fault, and each entry, detail and action stands in one of them.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { referenceTables } from "../../grammar/editor-files.ts";
import { formatSheet } from "../../grammar/format.ts";
import { readSheet } from "../../grammar/sheet-text.ts";
import { entryWords } from "../../grammar/words.ts";
import { unitsByMeasure } from "../../server/quantities/units.ts";
import { faultsIn } from "./reading.ts";

const page = readFileSync(fileURLToPath(new URL("../../grammar/REFERENCE.md", import.meta.url)), "utf8");
const sheets = [...page.matchAll(/^```jobsheet\n([\s\S]*?)^```$/gm)].map((it) => it[1] as string);

describe("the reference", () => {
  it.each(sheets.map((text) => [text.split("\n")[0] as string, text] as const))("%s", (_first, text) => {
    expect(faultsIn(text)).toEqual([]);
    expect(formatSheet(text)).toBe(text);
  });
  it("has an example of every entry", () => {
    const kinds = new Set(sheets.flatMap((it) => readSheet(it).entries.map((entry) => entry.kind)));
    expect(entryWords.map((it) => it.word).filter((it) => !kinds.has(it))).toEqual([]);
    for (const { word } of entryWords) expect(page, word).toMatch(new RegExp(`^### ${word}$`, "m"));
  });
  it("has every table, and no table that is none", () => {
    const named = [...page.matchAll(/^<!-- table: ([a-z ]+) -->$/gm)].map((it) => it[1] as string);
    expect([...new Set(named)].sort()).toEqual([...referenceTables(unitsByMeasure()).keys()].sort());
    expect(page.match(/^<!-- end -->$/gm)).toHaveLength(named.length);
  });
  it("its links lead to its headings", () => {
    const headings = new Set(
      [...page.matchAll(/^#+ (.+)$/gm)].map((it) =>
        (it[1] as string)
          .toLowerCase()
          .replaceAll(/[^a-z ]/g, "")
          .replaceAll(" ", "-"),
      ),
    );
    for (const it of page.matchAll(/\]\(#([a-z-]+)\)/g)) expect(headings).toContain(it[1]);
  });
});
