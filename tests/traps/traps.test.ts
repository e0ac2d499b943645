// Dangerous states that a hasty reading would pass, and beside each the innocent one that only looks like it.
import { describe, expect, test } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Files } from "../../server/model/files.ts";
import { memo } from "../../server/model/memo.ts";
import { checkFile } from "../../server/rules/check.ts";
import type { Diagnostic } from "../../server/rules/placing.ts";
import { rules } from "../../server/rules/all.ts";
import { plainWords } from "../rules/plain-words.ts";
import { type Trap, machine, trapFiles } from "./read-traps.ts";

const all = trapFiles.flatMap((it) => it.traps);

for (const { name, traps } of trapFiles) {
  describe(name, () => {
    test.each(traps)("$title", (trap) => {
      expect(said(trap)).toEqual([...trap.expected].sort());
    });
  });
}

test("every safety rule has a trap that it must say and none has a title twice", () => {
  const spoken = new Set(all.flatMap((trap) => trap.expected.map((it) => it.split(" ").at(-1))));
  expect(rules.filter((rule) => rule.safety && !spoken.has(rule.id)).map((rule) => rule.id)).toEqual([]);
  const titles = all.map((trap) => trap.title);
  expect(titles.filter((title, i) => titles.indexOf(title) !== i)).toEqual([]);
});

test("some traps must stay quiet", () => expect(all.filter((trap) => trap.expected.length === 0).length).toBeGreaterThan(30));

test("what is wrong at both places is said once", () => {
  const doubled = all.flatMap((trap) => {
    const seen = checked(trap).map((it) => `${trap.title}: ${it.line} ${it.from} ${it.rule} ${it.message.replace(/\b(left|right) /gi, "").toLowerCase()}`);
    return seen.filter((it, i) => seen.indexOf(it) !== i);
  });
  expect(doubled).toEqual([]);
});

describe("what is said of them is in plain words", () => plainWords(() => all.flatMap(whole), 500));

function said(trap: Trap): string[] {
  const list = checked(trap).map((it) => `${it.line + 1 - trap.headLines}: ${it.severity} ${it.rule}`);
  return [...new Set(list)].sort();
}

const ofMachine = readSheet(machine);

const whole = memo((trap: Trap): readonly Diagnostic[] => {
  const read = new Map([...trap.texts].map(([path, text]) => [path, readSheet(text)]));
  const sheets: Files = { read: (path) => (path === "machine.jobsheet" ? ofMachine : (read.get(path) ?? "missing")), jobsheets: () => [...read.keys()] };
  return checkFile(sheets, "trap.jobsheet");
});
const checked = memo((trap: Trap) => whole(trap).filter((it) => it.file === "trap.jobsheet" && it.rule !== "unused"));
