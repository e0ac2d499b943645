// Dangerous states that a hasty reading would pass, and beside each the innocent one that only looks like it.
//
// A `.traps` file holds small sheets, each behind a line `==== what it is`. Behind a line stands what is said of it, and nothing else
// may be: `#! error locking-left-off, hint found-loose`. A sheet that does not begin with `sheet` is a job on the machine of
// `machine.jobsheet`; `---- NAME` begins another file of the same folder. The answers were made by hand before the checker was asked.
import { readFileSync, readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Files } from "../../server/model/files.ts";
import { checkFile } from "../../server/rules/check.ts";
import type { Diagnostic } from "../../server/rules/placing.ts";
import { rules } from "../../server/rules/all.ts";

const here = new URL("./", import.meta.url);
const machine = readFileSync(new URL("machine.jobsheet", here), "utf8");
const head = 'sheet "Trap"\n  machine "Trap one"\nuse "machine.jobsheet"\nday 2026-05-01\n';

interface Trap {
  readonly title: string;
  readonly texts: ReadonlyMap<string, string>;
  /** `LINE: severity rule`, lines of the sheet from 1 below its head. */
  readonly expected: readonly string[];
  readonly headLines: number;
}

const files = readdirSync(here).filter((name) => name.endsWith(".traps"));
const all: Trap[] = [];

for (const name of files) {
  const traps = readTraps(readFileSync(new URL(name, here), "utf8"));
  all.push(...traps);
  describe(name.replace(/\.traps$/, ""), () => {
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

function said(trap: Trap): string[] {
  const list = checked(trap).map((it) => `${it.line + 1 - trap.headLines}: ${it.severity} ${it.rule}`);
  return [...new Set(list)].sort();
}

function checked(trap: Trap): Diagnostic[] {
  const sheets: Files = {
    read: (path) => {
      const text = path === "machine.jobsheet" ? machine : trap.texts.get(path);
      return text === undefined ? "missing" : readSheet(text);
    },
    jobsheets: () => [...trap.texts.keys()],
  };
  return checkFile(sheets, "trap.jobsheet").filter((it) => it.file === "trap.jobsheet" && it.rule !== "unused");
}

function readTraps(text: string): Trap[] {
  return text
    .split(/^==== /m)
    .slice(1)
    .map((block) => {
      const [title = "", ...rest] = block.split("\n");
      const parts = rest.join("\n").split(/^---- (.*)$/m);
      const lines: string[] = [];
      const expected: string[] = [];
      for (const line of (parts[0] as string).trimEnd().split("\n")) {
        if (line.startsWith("#! "))
          expected.push(
            ...line
              .slice(3)
              .split(", ")
              .map((it) => `${lines.length}: ${it}`),
          );
        else lines.push(line);
      }
      const alone = lines[0]?.startsWith("sheet") === true;
      const texts = new Map([["trap.jobsheet", `${alone ? "" : head}${lines.join("\n")}\n`]]);
      for (let i = 1; i < parts.length; i += 2) texts.set((parts[i] as string).trim(), parts[i + 1] as string);
      return { title, texts, expected: [...new Set(expected)], headLines: alone ? 0 : head.split("\n").length - 1 };
    });
}
