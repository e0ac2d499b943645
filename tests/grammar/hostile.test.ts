// Sheets come from anywhere: whatever is in one, it is read in time that grows with its length, every byte is kept, and nothing is thrown.
import { describe, expect, it } from "vitest";
import { formatSheet } from "../../grammar/format.ts";
import { readSheet, textOf } from "../../grammar/sheet-text.ts";
import { faultsIn, faultsOf } from "./reading.ts";
import { sampleName, sampled, thinned } from "../sampled.ts";
import { seeded } from "../seeded.ts";
import { samples, wholeLanguage } from "./sheets.ts";

const mega = (text: string) => text.repeat(Math.ceil(1_000_000 / text.length));

const texts: Readonly<Record<string, string>> = {
  empty: "",
  "one quote": '"',
  "one backslash in a quote": 'note "\\',
  NUL: "part \0 a\0\n\0",
  "lone surrogates": 'part \ud800 "x\udfff"\n\udc00part a\n  note "\ud83d"',
  "a line of 1 MB": mega("x"),
  "a head of 1 MB": `part a ${mega("b ")}\n  each side`,
  "a text of 1 MB": `part a\n  note "${mega("y")}"\n  each side`,
  "a comment of 1 MB": `part a\n  # ${mega("z ")}\n  each side`,
  "blanks of 1 MB": `part a\n${mega(" ")}\n  each side`,
  "brackets of 1 MB": `limit a\n  = ${mega("(")}`,
  "brackets in a line": `limit a\n  = ${"(".repeat(1500)}b${")".repeat(1500)}`,
  "signs in a line": `limit a\n  = ${"- ".repeat(1900)}b`,
  "a sum of a thousand": `limit a\n  = ${"b + ".repeat(900)}b`,
  "commas in a line": `measure a found\n  ${"1,".repeat(1900)}2 mm`,
  "hyphens in a line": `part ${"a-".repeat(1900)}a`,
  "digits in a line": `measure a found\n  ${"9".repeat(3900)} mm`,
  "right to left": 'part محور "محور أمامي"\n  note "\u202eabc"\n  held by \u200fصمولة',
  emoji: 'part 😀 "😀"\n  note "😀"\n😀',
  "line separators": 'part a\u2028  each side\n  note "a\u2028b"\u0085',
  "CR only": "part a\r  each side\rpart b\r",
};

describe("bad input", () => {
  it.each(Object.entries(texts))("%s", (_name, text) => {
    const sheet = readSheet(text);
    expect(textOf(sheet)).toBe(text);
    for (const { fault } of faultsOf(sheet)) {
      expect(fault.message.length).toBeLessThan(600);
      expect(fault.at.from).toBeLessThanOrEqual(fault.at.to);
    }
    const formatted = formatSheet(text);
    expect(formatSheet(formatted)).toBe(formatted);
  });
  it("a line too long costs itself", () => {
    const sheet = readSheet(`part a\n  note "${"y".repeat(5000)}"\n  each side\n${`part ${"b".repeat(5000)}`}\n  each side`);
    expect(faultsOf(sheet).map((it) => [it.line, it.fault.message])).toEqual([
      [1, "This line is too long to be read. Write it as several lines."],
      [3, "This line is too long to be read. Write it as several lines."],
    ]);
    expect(sheet.entries.map((it) => [it.kind, it.details.map((detail) => detail.kind)])).toEqual([
      ["part", ["note", "each"]],
      ["part", ["each"]],
    ]);
  });
  it("brackets deeper than 64 are said to be too deep", () => {
    const at = (depth: number) => faultsIn(`limit a\n  = ${"(".repeat(depth)}b${")".repeat(depth)}`).map((it) => it.fault.message);
    expect(at(64)).toEqual([]);
    expect(at(65)).toEqual(["Parentheses more than 64 deep are not read. Write the expression in parts, a limit each."]);
  });
  it("random bytes and random characters", () => {
    for (let seed = 0; seed < 60; seed++) {
      const random = seeded(seed);
      const bytes = Uint8Array.from({ length: 2000 }, () => random(256));
      const any = Array.from({ length: 800 }, () => String.fromCharCode(random(4) === 0 ? random(0x10000) : 9 + random(118))).join("");
      for (const text of [new TextDecoder("latin1").decode(bytes), new TextDecoder().decode(bytes), any]) expect(textOf(readSheet(text))).toBe(text);
    }
  });
  it("random lines of the language's own words", () => {
    const words = wholeLanguage().split(/\s+/);
    for (let seed = 0; seed < 300; seed++) {
      const random = seeded(40_000 + seed);
      const text = Array.from(
        { length: 20 },
        () => (random(2) === 0 ? "  " : "") + Array.from({ length: 1 + random(7) }, () => words[random(words.length)]).join(" "),
      ).join("\n");
      const sheet = readSheet(text);
      const lines = faultsOf(sheet).map((it) => it.line);
      // At most one fault a line.
      expect(new Set(lines).size).toBe(lines.length);
      expect(JSON.stringify(sheet.entries)).not.toMatch(/null|RECORDING|Recording Phase/);
    }
  });
});

describe(`every beginning of every sheet's lines (${sampleName})`, () => {
  /** Lines below their heads: the same one in another sheet says the same. */
  const tried = new Set<string>();
  it.each(thinned(samples, 3))("$name", ({ text }) => {
    // Line by line the reading is the same but for the last line, so each line's own beginnings are tried below the head of its entry.
    const sheet = readSheet(text);
    sheet.entries.forEach((_entry, i) => {
      const start = sheet.starts[i] as number;
      for (let line = start; line < (sheet.starts[i + 1] ?? sheet.lineCount); line++) {
        const whole = sheet.lines[line] as string;
        const head = line === start ? "" : `${sheet.lines[start]}\n`;
        if (tried.has(head + whole)) continue;
        tried.add(head + whole);
        for (const end of sampled(
          Array.from({ length: whole.length + 1 }, (_, i) => i),
          3,
        )) {
          const lines = faultsIn(head + whole.slice(0, end)).map((it) => it.line);
          if (new Set(lines).size !== lines.length) throw new Error(`two faults on a line: ${whole.slice(0, end)}`);
        }
      }
    });
  });
});

describe("length", () => {
  it("100,000 lines are read", () => {
    expect(readSheet("part a\n  each side\n".repeat(50_000)).entries).toHaveLength(50_000);
    expect(readSheet("  zebra\n".repeat(100_000)).lineCount).toBe(100_001);
  });
});
