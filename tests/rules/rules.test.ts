// One test for every rule: its examples say what its page says of them, and its fix does what the page shows.
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { ruleIds, safetyRules } from "../../server/rules/ids.ts";
import { written as rules } from "../../server/rules/all.ts";
import { memo, memoText } from "../../server/model/memo.ts";
import type { Diagnostic } from "../../server/rules/check.ts";
import { compareExpectations, readExpectations } from "../expect/expectations.ts";
import { apply, bare, said as saidNow, sheetName } from "./sheets.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const rooms = readdirSync(`${root}server/rules`, { withFileTypes: true }).filter((it) => it.isDirectory());
const files = rooms.flatMap((room) =>
  readdirSync(`${root}server/rules/${room.name}`)
    .filter((file) => file.endsWith(".ts"))
    .map((file) => ({ room: room.name, file })),
);

/** Where the rules of a group stand. */
const roomOf: Readonly<Record<string, string>> = {
  Writing: "writing",
  "Units and figures": "units",
  Locking: "locking",
  Tightness: "tightness",
  "Limits, readings, checks": "limits",
  Parts: "parts",
  "Energy and support": "energy",
  "Order of work": "steps",
  "Getting the parts": "supply",
  Release: "release",
};

/** The same of the same sheets is asked by several tests of a rule, one behind the other. By `memo`, which the tests of mutants make forget. */
const saidOf = memo((others: Readonly<Record<string, string>>) => memoText((text) => saidNow(text, others)));
const said = (text: string, others: Readonly<Record<string, string>>) => saidOf(others)(text);

test("every file in the rooms of the rules is a rule of that name, and every rule is listed once", () => {
  const listed = rules.map((rule) => rule.id);
  expect(new Set(listed).size).toBe(listed.length);
  expect(files.map(({ file }) => file.slice(0, -3)).sort()).toEqual([...listed].sort());
});

test("the generated lists are fresh", () => {
  expect(() => execFileSync(process.execPath, [`${root}.ci/generate-rules.mjs`, "--check"], { stdio: "pipe" })).not.toThrow();
  expect([...ruleIds]).toEqual(rules.map((rule) => rule.id));
  expect([...safetyRules]).toEqual(rules.filter((rule) => rule.safety).map((rule) => rule.id));
});

/** A fault that was found stays as a hint when it is put right, and as a plan until the plan is done. */
function stands(it: Diagnostic, id: string): boolean {
  return it.rule === id && it.file === sheetName && (it.severity !== "hint" || id === "unused") && !/ is planned at line \d+, not done\.$/.test(it.message);
}

/** What a fix rightly uncovers: a decision that was unsafe spoke for the fault itself, which stands until work is done on it. */
const uncovered: Readonly<Record<string, readonly string[]>> = { "decision-unsafe": ["part-failed"] };

describe.each(rules.map((rule) => [rule.id, rule] as const))("%s", (id, rule) => {
  const others = rule.files ?? {};

  test("stands in the room of its group", () => {
    expect(existsSync(`${root}server/rules/${roomOf[rule.group]}/${id}.ts`)).toBe(true);
  });

  test("has a page that can be read", () => {
    expect(rule.title).toMatch(/^[\p{Lu}`].*[^.]$/u);
    expect(rule.why).toMatch(/^[\p{L}\d`].*[.?]\)?$/su);
    expect(rule.why.length).toBeGreaterThan(60);
    expect(rule.severity).toMatch(/^(error|warning|information|hint)/);
    for (const sheet of [rule.wrong, rule.right, ...(rule.fixed === undefined ? [] : [rule.fixed])]) expect(sheet.endsWith("\n")).toBe(true);
    expect(readExpectations(rule.right).expected).toEqual([]);
  });

  test("says of its wrong sheet what the page says, and no more", () => {
    expect(readExpectations(rule.wrong).expected.filter((it) => it.rule === id).length, "the example expects this rule").toBeGreaterThan(0);
    expect(
      readExpectations(rule.wrong).expected.every((it) => it.rule === id),
      "the example expects this rule only",
    ).toBe(true);
    const own = said(rule.wrong, others).filter((it) => it.rule === id);
    expect(compareExpectations(rule.wrong, own, id).report).toBe("");
  });

  test("says nothing of its right sheet", () => {
    expect(
      said(rule.right, others)
        .filter((it) => it.rule === id)
        .map((it) => it.message),
    ).toEqual([]);
  });

  test("speaks like a person", () => {
    for (const { message } of said(rule.wrong, others).filter((it) => it.rule === id)) {
      expect(message).toMatch(/^[\p{Lu}\p{N}`.“].*[.?]$/su);
      expect(message).not.toMatch(/undefined|\[object|NaN|invalid|illegal|[\uE000\uE001]/i);
    }
  });

  test("its fix does what the page shows, and breaks nothing", () => {
    const before = said(rule.wrong, others);
    const first = before.find((it) => it.rule === id);
    const fix = first?.fixes[0];
    if (fix === undefined || first === undefined) {
      expect(rule.fixed, "a page that shows a fix offers one").toBeUndefined();
      return;
    }
    const after = apply(rule.wrong, fix.edits);
    expect(rule.fixed, "the page shows what the fix makes of it").toBeDefined();
    expect(bare(after)).toBe(rule.fixed);
    const now = said(after, others);
    expect(now.filter((it) => stands(it, id)).length).toBe(before.filter((it) => stands(it, id)).length - 1);
    const left = [...before.map((it) => it.rule), ...(uncovered[id] ?? [])];
    for (const it of now) {
      // A fix that testifies leaves a blank to be filled in.
      if (it.rule === "left-blank") continue;
      const index = left.indexOf(it.rule);
      expect(index, `new: ${it.rule} ${it.message}`).toBeGreaterThanOrEqual(0);
      left.splice(index, 1);
    }
  });

  test("every other fix leaves a sheet that can be read", () => {
    const unread = (text: string) => said(text, others).filter((it) => it.rule === "syntax").length;
    for (const it of said(rule.wrong, others).filter((one) => one.rule === id))
      for (const fix of it.fixes) expect(unread(apply(rule.wrong, fix.edits)), fix.title).toBeLessThanOrEqual(unread(rule.wrong));
  });
});

test("the rules page is fresh", () => {
  expect(() => execFileSync(process.execPath, [`${root}.ci/run-ts.mjs`, "generate-rules-page.ts", "--check"], { cwd: root, stdio: "pipe" })).not.toThrow();
  const page = readFileSync(`${root}server/rules/RULES.md`, "utf8");
  for (const rule of rules) expect(page).toContain(`\n### ${rule.id}\n`);
});
