// Renaming: no line that it would write is read as anything but the same line with another name.
import { describe, expect, test } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import { runThrough } from "../../grammar/slices.ts";
import { entryWords } from "../../grammar/words.ts";
import { renamed } from "../../server/features/rename.ts";
import { buildJob } from "../in-one-go.ts";

const data = `places side front, rear
part hub "Hub"
  each side
  held by nut
part spacer "Spacer"
fastener nut "Nut"
  each side
  locked by split pin 1/8 x 1 in
limit bore "Bore"
  each side
  worn max 0.765 in
  of hub
limit gap "Gap"
  = bore - 0.75 in
  set max 0.01 in
hazard gas "Gas"
  safe before hub
`;
const job = `use "data.jobsheet"
day 2026-05-04
finding nut front
  is loose
measure bore found by rule
  front 0.7590 in
step off "Off"
  safe gas "let out"
  undo nut rear
  remove hub rear, spacer
  fit hub front new
  tighten nut front to 20 lbf.ft by wrench
  # front stays as it is in a comment
  note "the front one"
  broken front here
`;

/** Why the first name so called in the job can't be called otherwise, or how many places would be written. */
function asked(before: string, after: string): string | number | undefined {
  const files = {
    read: (path: string) => (path === "job.jobsheet" ? readSheet(job) : path === "data.jobsheet" ? readSheet(data) : ("missing" as const)),
    jobsheets: () => ["job.jobsheet", "data.jobsheet"],
  };
  const lines = job.split("\n");
  const line = lines.findIndex((it) => new RegExp(`(?<![\\w"-])${before}(?![\\w-])`).test(it));
  const found = runThrough(renamed(files, buildJob(files, "job.jobsheet") ?? expect.fail("no job"), line, (lines[line] as string).indexOf(before), after));
  return found === undefined ? undefined : "why" in found ? found.why : found.places.length;
}

describe("what REFERENCE says may be no place is given to none", () => {
  const words = "note photo accept again at by each for from LH new of to with in mm min K h".split(" ");
  test.each([...words, ...entryWords.map((it) => it.word)])("%s", (word) => expect(asked("front", word)).toMatch(/can't be a (place|name)/));
  test("a name that is no word of a line is", () => expect(asked("front", "near")).toBe(5));
});

test.each([
  ["gas", "before", 'line 8 (`safe gas "let out"`)'],
  ["hub", "new", "line 11 (`fit hub front new`)"],
])("%s → %s is refused, and said where a line would be read otherwise", (before, after, where) =>
  expect(asked(before, after)).toBe(`“${after}” can't be its name: ${where} would be read otherwise.`),
);

test.each([
  ["hub", "step", 5],
  ["gas", "safe", 2],
  ["nut", "spring", 5],
])("%s → %s is a keyword elsewhere, and is read as a name where it stands", (before, after, places) => expect(asked(before, after)).toBe(places));
