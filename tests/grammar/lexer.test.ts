// How a line falls into tokens: a kind is tried only where its row says that it may begin, so no row may say too little; and together the tokens are the line.
import { expect, test } from "vitest";
import { kinds, tokensOf } from "../../grammar/lexer.ts";
import { samples, wholeLanguage } from "./sheets.ts";

/** A kind that begins here and whose row does not say so; undefined where there is none. */
function missed(line: string, at: number): string | undefined {
  const letter = line.charAt(at);
  const fits = kinds.find((it) => it.endOf(line, at) > at);
  if (fits === undefined) return `nothing fits ${JSON.stringify(line)} at ${at}`;
  return (letter > "\x7f" ? fits.beyond : fits.begins.includes(letter)) ? undefined : `${fits.type?.name ?? "a blank"} in ${JSON.stringify(line)} at ${at}`;
}

test("what a token may begin with is said of its kind, for every character of the first plane", () => {
  const around: readonly (readonly [string, string])[] = [
    ["", ""],
    ["1", "2"],
    ["1", ".5"],
    ["a", "b"],
    [" ", "10x1.25"],
    ["", "o.10"],
    ["", "__"],
    [".", ".."],
    ["", "2026-05-01"],
    ["", '"'],
    [" ", "/-"],
  ];
  const out: string[] = [];
  for (let code = 0; code < 0x1_0000; code++) {
    for (const [before, behind] of around) {
      const it = missed(`${before}${String.fromCharCode(code)}${behind}`, before.length);
      if (it !== undefined) out.push(it);
    }
  }
  expect(out).toEqual([]);
});

test("it is said of every place in the sheets of the project, and the tokens of a line leave out nothing but blanks", () => {
  const lines = [...new Set([...samples.map((it) => it.text), wholeLanguage()].join("\n").split("\n"))].filter((it) => it.length < 400);
  const out: string[] = [];
  for (const line of lines) {
    for (let at = 0; at < line.length; at++) {
      const it = missed(line, at);
      if (it !== undefined) out.push(it);
    }
    const { tokens, comment } = tokensOf(line);
    const all = comment === undefined ? tokens : [...tokens, comment];
    let end = 0;
    for (const { image, startOffset } of all) {
      if (
        line
          .slice(end, startOffset)
          .replace(/^\ufeff/, "")
          .trim() !== "" ||
        !line.startsWith(image, startOffset)
      )
        out.push(line);
      end = startOffset + image.length;
    }
    if (line.slice(end).trim() !== "") out.push(line);
  }
  expect(out).toEqual([]);
  expect(lines.length).toBeGreaterThan(2000);
});

test("what lies beyond the first plane is one token, whole or half", () => {
  expect(tokensOf("\u{1f527} 5").tokens.map((it) => it.image)).toEqual(["\u{1f527}", "5"]);
  expect(tokensOf("\ud83d 5").tokens.map((it) => it.image)).toEqual(["\ud83d", "5"]);
});
