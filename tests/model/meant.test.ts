// A misspelt name that is near to one declared alone is read as that one by everything that is worked out: the order, the way back, the readings, the plan, what
// is left say the same as of the sheet without the slip, and the slip is an error where it is.
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { readSheet, textOf } from "../../grammar/sheet-text.ts";
import type { Files } from "../../server/model/files.ts";
import { standingStill } from "../../server/model/job.ts";
import { referencesOf } from "../../server/model/references.ts";
import { planning } from "../../server/reports/plan/plan.ts";
import { reportingReadings } from "../../server/reports/readings/readings.ts";
import { reportingShims } from "../../server/reports/shims/shims.ts";
import { checkFile } from "../../server/rules/check.ts";
import { sheetAt } from "../reread.ts";
import { isRun, thinned } from "../sampled.ts";
import { buildJob, partsOrder, wayBack } from "../in-one-go.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const path = "job.jobsheet";

test("an order to a misspelt supplier pays that supplier's carriage", () => {
  const text =
    'sheet "Offer slip"\n  opened 2026-05-04\n  currency GBP\npart hub "Hub"\nsupplier weir "Weir Lane"\n  currency GBP\n  freight 4.50 GBP\noffer hub from wier\n  price 10.00 GBP each\nfinding hub\n  is worn\n  decision renew\n';
  // 10.00 for the hub and 4.50 for its carriage.
  expect(partsOrder(filesOf(text), [path]).totals.map((it) => it.amount)).toEqual(["14.50"]);
  expect(checkFile(filesOf(text), path).map((it) => `${it.line + 1} ${it.severity} ${it.rule}`)).toEqual(["8 error name-unknown"]);
});

test("the entries that were read are not changed", () => {
  const text = 'part hub "Hub"\nfinding hubb\n  is worn\n';
  const sheet = readSheet(text);
  const before = JSON.stringify(sheet);
  const files: Files = { read: () => sheet };
  expect(buildJob(files, path)?.own.sheet.entries[1]).not.toBe(sheet.entries[1]);
  expect(buildJob(files, path)?.own.sheet.entries[1]).toBe(buildJob(files, path)?.own.sheet.entries[1]);
  expect(JSON.stringify(sheet)).toBe(before);
});

describe.each(["samples/bevel-drive/bevel-drive.jobsheet"])("%s", (name) => {
  const text = readFileSync(join(root, name), "utf8");
  const folder = dirname(join(root, name));
  const mentions = mentionsIn(text, folder);
  const right = workedOut(filesOf(text, folder));

  test("mentions names", () => expect(mentions.length).toBeGreaterThan(25));

  test("with any one mention misspelt, everything comes to the same", () => {
    const wrong: string[] = [];
    let tried = 0;
    for (const { line, from, to } of thinned(mentions, 3)) {
      const lines = text.split("\n");
      const row = lines[line] as string;
      const written = `${row.slice(from, to)}x`;
      lines[line] = row.slice(0, from) + written + row.slice(to);
      const slipped = lines.join("\n");
      const files = filesOf(slipped, folder);
      const job = buildJob(files, path);
      if (job?.slips.get(written)?.length !== 1) continue;
      tried++;
      if (workedOut(files) !== right) wrong.push(`${line + 1}: ${lines[line]}`);
    }
    expect(tried).toBeGreaterThan(isRun ? 20 : 6);
    expect(wrong).toEqual([]);
  });
});

/** One mention of each name by each kind of line that has it. */
function mentionsIn(text: string, folder: string): { line: number; from: number; to: number }[] {
  const job = buildJob(filesOf(text, folder), path);
  if (job === undefined) return [];
  const seen = new Set<string>();
  return job.own.sheet.entries.flatMap((entry, i) =>
    referencesOf(entry).things.flatMap(({ name, row, role }) => {
      const key = `${entry.kind} ${role} ${job.things.get(name.text)?.kind}`;
      if (seen.has(key) || job.things.get(name.text)?.implied !== false) return [];
      seen.add(key);
      return [{ line: (job.own.sheet.starts[i] ?? 0) + row, from: name.at.from, to: name.at.to }];
    }),
  );
}

function workedOut(files: Files): string {
  return JSON.stringify([
    partsOrder(files, [path]).lines,
    runThrough(planning(files, [path], { from: "2026-05-04", hoursADay: 8 })),
    runThrough(reportingReadings(files, path)),
    runThrough(reportingShims(files, path)),
    wayBack(files, path)?.sheet,
  ]);
}

function filesOf(text: string, folder?: string): Files {
  const own = readSheet(text);
  expect(textOf(own)).toBe(text);
  // What is worked out of the same files is worked out of one job.
  return standingStill({
    read: (it) => {
      if (it === path) return own;
      if (folder === undefined) return "missing";
      return sheetAt(join(folder, it));
    },
  });
}
