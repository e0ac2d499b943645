// The help of `figure` is true: every question that stands whole in it has an answer.
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { figure } from "../../server/features/figure.ts";

test("every question in the help has an answer", () => {
  const source = readFileSync(new URL("../../server/cli/help.ts", import.meta.url), "utf8");
  const help = source.slice(source.indexOf('splitpin figure "QUESTION"'), source.indexOf("--format text   for reading (as usual)"));
  const quoted = [...help.matchAll(/ {2,}"([^"\n]+)"/g)].map((it) => (it[1] as string).replace(/ ?\[[^\]]*\]/g, ""));
  // Words in capitals and an ellipsis stand for what the reader puts in.
  const questions = quoted.filter((it) => !/\bREADING\b|…/.test(it));
  expect(questions.length).toBeGreaterThan(60);
  for (const query of questions) expect(figure(query).known, `${query}: ${figure(query).line}`).toBe(true);
});
