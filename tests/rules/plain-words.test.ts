// What is said is short and in the trade's own English: over every trap and every example of a rule.
import { expect, test } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Files } from "../../server/model/files.ts";
import { written as rules } from "../../server/rules/all.ts";
import { checkFile } from "../../server/rules/check.ts";
import { machine, trapFiles } from "../traps/read-traps.ts";

const texts: ReadonlyMap<string, string>[] = [
  ...trapFiles.flatMap(({ traps }) => traps.map((trap) => new Map([...trap.texts, ["machine.jobsheet", machine] as const]))),
  ...rules.flatMap((rule) => [rule.wrong, rule.right].map((text) => new Map([["trap.jobsheet", text], ...Object.entries(rule.files ?? {})]))),
];
const said = texts.flatMap((sheets) => {
  const files: Files = {
    read: (path) => {
      const text = sheets.get(path);
      return text === undefined ? "missing" : readSheet(text);
    },
    jobsheets: () => [...sheets.keys()],
  };
  return checkFile(files, "trap.jobsheet");
});

/** Rules that name two threads, or another sheet's matters: they need more room, and still have an end. */
const longer: ReadonlySet<string> = new Set(["thread-unlike", "release-blocked", "other-sheet-open"]);

test("there is much to read", () => expect(said.length).toBeGreaterThan(500));

test("no message is longer than two lines of a screen", () => {
  expect(said.filter((it) => it.message.length > (longer.has(it.rule) ? 240 : 180)).map((it) => `${it.rule} ${it.message.length}: ${it.message}`)).toEqual([]);
});

test("none has the words that ring foreign", () => {
  const foreign =
    /\b(put right|made fast|hangs on (?:it|the same)|reckoned|is no (?:unit|day|condition|locking|currency|function|figure)|the most allowed|stands? (?:right )?behind|there stand)\b/i;
  expect(
    said.filter((it) => foreign.test(it.message) || (it.related ?? []).some((one) => foreign.test(one.message))).map((it) => `${it.rule}: ${it.message}`),
  ).toEqual([]);
});
