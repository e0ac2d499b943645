// One list of what is open: the check, the release, how it was left and a signed sheet beside it say the same, over every trap, released sheet and damaged sheet.
import { readFileSync, readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { readSheet } from "../../grammar/sheet-text.ts";
import type { Files } from "../../server/model/files.ts";
import { standingStill } from "../../server/model/job.ts";
import { reportingLeft } from "../../server/reports/left/left.ts";
import { leftWords } from "../../server/reports/left/words.ts";
import { type Diagnostic, checkFile, listingOpen } from "../../server/rules/check.ts";
import { written as rules } from "../../server/rules/all.ts";
import { reread } from "../reread.ts";
import { isRun, sampleName, sampled, thinned, times } from "../sampled.ts";
import { apply, sheetName } from "../rules/sheets.ts";
import { releaseReport } from "../in-one-go.ts";

const here = new URL("../traps/", import.meta.url);
const machine = readFileSync(new URL("machine.jobsheet", here), "utf8");
const head = 'sheet "Trap"\n  machine "Trap one"\nuse "machine.jobsheet"\nday 2026-05-01\n';

/** The traps of one sheet, as a mechanic would have them. */
const traps = readdirSync(here)
  .filter((name) => name.endsWith(".traps"))
  .flatMap((name) =>
    readFileSync(new URL(name, here), "utf8")
      .split(/^==== /m)
      .slice(1),
  )
  .filter((block) => !/^---- /m.test(block))
  .map((block) => {
    const [title = "", ...rest] = block.split("\n");
    const text = rest.filter((line) => !line.startsWith("#! ")).join("\n");
    return { title, text: text.startsWith("sheet") ? text : `${head}${text}` };
  });

const data = readSheet(machine);
/** What was read last: the next text is most often that one without a line. */
let latest: ReturnType<typeof readSheet> | undefined;

function filesWith(text: string): Files {
  const own = latest === undefined ? readSheet(text) : reread(latest, text);
  latest = own;
  return standingStill({ read: (path) => (path === sheetName ? own : path === "machine.jobsheet" ? data : "missing"), jobsheets: () => [sheetName] });
}

/** What contradicts what, in a sheet. */
function contradictions(text: string): string[] {
  const files = filesWith(text);
  const list = checkFile(files, sheetName);
  const { open } = runThrough(listingOpen(files, sheetName));
  const report = releaseReport(files, sheetName);
  const now = runThrough(reportingLeft(files, sheetName))?.pauses[0];
  const errors = list.filter((it) => it.severity === "error");
  const out: string[] = [];
  if (/^release /m.test(text) && list.some((it) => it.rule === "release-blocked") !== open.length > 0) out.push("check and list");
  if (report?.released === open.length > 0 && /^release /m.test(text)) out.push("release and list");
  if (report?.open.length !== open.length) out.push("report and list");
  if (errors.some((it) => it.rule !== "release-blocked" && !open.some((other) => other.rule === it.rule && other.line === it.line)))
    out.push("an error that the list does not hold");
  const planned = open.every((it) => it.rule === "release-blocked");
  if (now !== undefined && leftWords(now) === "Nothing is open." && !planned) out.push("left says nothing");
  return out;
}

test(`blocked in one is blocked in all, over the traps (${sampleName})`, { timeout: 600_000 }, () => {
  expect(traps.length).toBeGreaterThan(300);
  expect(sampled(traps, 3).flatMap(({ title, text }) => contradictions(text).map((it) => `${title}: ${it}`))).toEqual([]);
});

test(`and over released sheets with any one line gone (${sampleName})`, { timeout: 120_000 }, () => {
  const released = traps.filter(({ text }) => /^release /m.test(text)).slice(0, times({ plain: 12, run: 30, full: 60 }));
  const faults: string[] = [];
  for (const { title, text } of released) {
    const lines = text.split("\n");
    for (let i = 4; i < lines.length; i += 3) {
      const damaged = lines.filter((_, k) => k !== i).join("\n");
      faults.push(...contradictions(damaged).map((it) => `${title} without ${lines[i]}: ${it}`));
    }
  }
  expect(faults).toEqual([]);
});

test("no click releases a machine: every fix that says what was done or decided leaves it open", { timeout: 120_000 }, () => {
  const isBlocked = (list: readonly Diagnostic[]) => list.some((it) => it.rule === "release-blocked");
  const faults: string[] = [];
  let tried = 0;
  // Several fixes make the same text of a sheet.
  const known = new Map<string, boolean>();
  const blocked = (text: string) => {
    const before = known.get(text) ?? isBlocked(checkFile(filesWith(text), sheetName));
    known.set(text, before);
    return before;
  };
  for (const { title, text } of thinned([...traps, ...rules.map((rule) => ({ title: rule.id, text: rule.wrong }))], 4)) {
    if (!/^release /m.test(text)) continue;
    const said = checkFile(filesWith(text), sheetName);
    if (!isBlocked(said)) continue;
    for (const it of said) {
      for (const fix of it.fixes) {
        if (fix.spells === true) continue;
        tried++;
        if (!blocked(apply(text, fix.edits))) faults.push(`${title}: ${it.rule}: ${fix.title}`);
      }
    }
  }
  expect(faults).toEqual([]);
  expect(tried).toBeGreaterThan(isRun ? 15 : 3);
});
