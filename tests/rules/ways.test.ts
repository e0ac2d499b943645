// The lists of ways say what all their patterns together say, though each is asked only where a text has a word that it needs.
import { readFileSync, readdirSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { needsOf } from "../../.ci/needs-of.ts";
import * as doubt from "../../server/rules/doubt-lists.ts";
import { faults, faultsDenying } from "../../server/rules/fault-lists.ts";
import * as tests from "../../server/rules/test-lists.ts";
import { firstOf, waysOf } from "../../server/rules/ways.ts";
import * as work from "../../server/rules/work-lists.ts";
import { thinned, times } from "../sampled.ts";

const here = new URL("./", import.meta.url);
/** Each fifth, and fewer between two changes: that the lines of faults are told at all is tried elsewhere, of every one. */
const lines = thinned(
  ["test-words", "work-words", "reasons"]
    .flatMap((folder) => readdirSync(new URL(folder, here)).flatMap((file) => readFileSync(new URL(`${folder}/${file}`, here), "utf8").split("\n")))
    .filter((_, i) => i % 5 === 0),
  5,
);
const lists = Object.entries({ faults, faultsDenying, ...tests, ...doubt, ...work }) as [Parameters<typeof waysOf>[0], readonly string[]][];

describe.each(lists)("%s", (name, sources) => {
  test("what is found in each line that people wrote is what all patterns joined would find", () => {
    const joined = new RegExp(sources.join("|"), "iu");
    const ways = waysOf(name, sources);
    // One comparison for all lines: there are thousands, and most have nothing in them.
    const otherwise = lines
      .map((it, i) => (i % 4 === 0 ? it.toUpperCase() : it))
      .map((line) => ({ line, found: firstOf(ways, line), asJoined: joined.exec(line) }))
      .filter(({ found, asJoined }) => found?.index !== asJoined?.index || found?.[0] !== asJoined?.[0]);
    expect(otherwise).toEqual([]);
  });
});

/** What the reading of a pattern is tried with: patterns that hold each thing which it knows, put together at random. */
const { pattern } = fc.letrec<{ pattern: string; piece: string }>((tie) => ({
  pattern: fc.oneof(
    { depthSize: "small" },
    fc.array(tie("piece"), { minLength: 1, maxLength: 3 }).map((it) => it.join("")),
  ),
  piece: fc.oneof(
    { depthSize: "small", withCrossShrink: true },
    fc.constantFrom(
      "knock",
      "of",
      "a",
      "leaks?",
      "un?done",
      "T",
      " the ",
      "to{2}",
      "o{0,2}",
      "x+",
      "z*?",
      "\\d+",
      "\\.",
      "\\w*",
      "[a-c]",
      "[^x\\]]?",
      "\\p{L}",
      "\\u0061",
      ".",
    ),
    fc.tuple(tie("pattern"), tie("pattern"), fc.constantFrom("", "?", "*", "+", "{0,1}", "{1,2}", "{2}")).map(([a, b, often]) => `(?:${a}|${b})${often}`),
    tie("pattern").map((it) => `(${it})`),
  ),
}));

test("what a pattern takes has one of the words that it is said to need", () => {
  fc.assert(
    fc.property(
      pattern.chain((source) => fc.tuple(fc.constant(source), fc.stringMatching(new RegExp(source, "u"), { size: "xsmall" }))),
      ([source, taken]) => {
        const needs = needsOf(source);
        return needs.length === 0 || needs.some((it) => taken.toLowerCase().includes(it));
      },
    ),
    { numRuns: times({ plain: 15, run: 60, full: 300 }) },
  );
});

test.each([
  ["\\bcross(?:ed)?[- ]?threads?\\b", ["threa"]],
  ["\\b(?:nut|bolt)s? (?:loose|slack)\\b(?! enough)", ["loose", "slack"]],
  ["\\bnot (?:yet )?(?:tight|home)|adrift", ["adrif", "home", "tight"]],
  ["(?<!no )leaks?\\b", ["leak"]],
  ["\\d+ out\\.", ["out."]],
  ["\\w+(?:ed|ing)?", []],
  ["worn|\\w+", []],
])("%s needs %j", (source, needs) => {
  expect(needsOf(source)).toEqual(needs);
});
