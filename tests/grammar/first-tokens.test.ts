// What the built program brings along of its grammar says what the sources find out by themselves: by which token a rule goes on.
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { firstTokensOf } from "../../.ci/first-tokens.mjs";
import { grammar } from "../../grammar/line-grammar.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));

test("the table that is brought along is the one of the sources", async () => {
  const found = await firstTokensOf(root);
  expect(found).toEqual({ choices: grammar.choices });
  expect(Object.keys(found.choices).length).toBeGreaterThan(50);
});

test("a parser that is told by the table chooses by the same one", async () => {
  const found = await firstTokensOf(root);
  expect(await firstTokensOf(root, found)).toEqual(found);
});
