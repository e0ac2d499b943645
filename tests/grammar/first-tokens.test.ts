// What the built program brings along of its grammar says what the sources find out by themselves: by which token a rule goes on, and by which character a token begins.
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { firstTokensOf } from "../../.ci/first-tokens.mjs";
import { grammar } from "../../grammar/line-grammar.ts";
import { firstCharacters } from "../../grammar/tokens.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));

test("the table that is brought along is the one of the sources", async () => {
  const found = await firstTokensOf(root);
  expect(found).toEqual({ choices: grammar.choices, characters: firstCharacters() });
  expect(Object.keys(found.choices).length).toBeGreaterThan(50);
  expect(Object.keys(found.characters)).toContain("PlainFigure");
});

test("a lexer that is told by what its tokens begin tries the same ones at each character", async () => {
  const found = await firstTokensOf(root);
  expect(await firstTokensOf(root, found)).toEqual(found);
});
