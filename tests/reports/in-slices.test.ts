// A report that is worked out in slices says what it says in one go, whatever is worked out between two of them; and all of it is of one text, whatever the files say meanwhile.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { editSheet, readSheet } from "../../grammar/sheet-text.ts";
import { type Slices, runThrough } from "../../grammar/slices.ts";
import type { Files } from "../../server/model/files.ts";
import { reports } from "../../server/reports/all.ts";
import { type Made, Refused } from "../../server/reports/report.ts";
import { checking } from "../../server/rules/check.ts";
import { times } from "../sampled.ts";
import { longSheet } from "../server/long-sheet.ts";

const sample = readFileSync(fileURLToPath(new URL("../../samples/lorry-rear-axle/rear-axle.jobsheet", import.meta.url)), "utf8");
const texts = { "made for measuring": longSheet(400), "rear axle": sample.replace(/^use .*$/gm, "") };
const path = "job.jobsheet";
/** Between so many slices another check runs to its end. */
const apart = times({ plain: 200, run: 40, full: 40 });
const around = { today: "2026-06-01", width: 100 };

function filesOf(text: string): Files {
  const sheet = readSheet(text);
  return { read: (asked) => (asked === path ? sheet : "missing"), jobsheets: () => [path] };
}

function* pageOf(making: Slices<Made | Refused | undefined>): Slices<string> {
  const made = yield* making;
  if (made === undefined || made instanceof Refused) return "";
  return String(yield* made.drawing("html"));
}

const named = Object.entries(texts).flatMap(([name, text]) => reports.map((report) => ({ name, text, report, title: report.title })));

test.each(named)("$title of the sheet $name", async ({ text, report }) => {
  const whole = runThrough(pageOf(await report.making(filesOf(text), [path], {}, around)));
  expect(whole.length).toBeGreaterThan(1000);

  // The files are another text from the first slice on, and checks of both run to their ends in between.
  const before = readSheet(text);
  const after = editSheet(before, { startLine: 0, startColumn: 0, endLine: Math.floor(before.lineCount / 2), endColumn: 0, text: 'sheet "Another"\n' });
  let now = before;
  const files: Files = { read: (asked) => (asked === path ? now : "missing"), jobsheets: () => [path] };
  const slices = pageOf(await report.making(files, [path], {}, around));
  let n = 0;
  let step = slices.next();
  for (; step.done !== true; step = slices.next()) {
    now = after;
    if (++n % apart !== 1) continue;
    for (const it of [before, after]) runThrough(checking({ read: (asked) => (asked === path ? it : "missing"), jobsheets: () => [path] }, path));
  }
  expect(n).toBeGreaterThan(5);
  expect(step.value).toBe(whole);
});
