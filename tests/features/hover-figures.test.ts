// What the pointer shows over figures: both systems, verdicts, sources. Expected figures are worked by hand or stand in the named tables.
import { expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { type Hover, hoveringAt } from "../../server/features/hover.ts";
import { filesFrom } from "../reports/sheets.ts";
import { buildJob } from "../in-one-go.ts";

const sheet = `places side left, right

part hub "Hub"
  each side
  held by hub-nut

fastener hub-nut "Hub nut"
  each side
  thread 1/2-20 UNF grade 5
  torque 45 .. 55 lbf.ft oiled K 0.2
  locked by split pin 1/8 x 1-1/4 in
  critical "a wheel"
  source "Maker's book, page 9"

limit float "Hub end float"
  each side
  worn max 0.010 in
  set 0.004 .. 0.008 in by hub-nut
  source "Maker's book, page 9"

limit bore "Bush bore"
  new 25 H7 mm
  worn 25 +0.05 -0.01 mm
  source "Drawing 4"

gauge dial "Dial gauge"
  uncertainty 0.0005 in

measure float found by dial 2026-02-03
  left 0.0150 in
  right 0.0098 in

measure bore found
  25.01, 25.03 mm

step strip "Hub off"
  undo hub-nut
  lock hub-nut with split pin 1/16 x 1 in
  tighten hub-nut to 50 lbf.ft

fluid oil "Oil"
  in hub
  capacity 2 us.pt
`;
const lines = sheet.split("\n");

/** Over the first place where `words` stand, on the nth line that has them. */
function over(words: string, nth = 0, within = words): Hover {
  const row = lines.map((line, i) => (line.includes(within) ? i : -1)).filter((i) => i >= 0)[nth] ?? expect.fail(words);
  const job = buildJob(filesFrom({ "job.jobsheet": sheet }), "job.jobsheet") ?? expect.fail("no job");
  return runThrough(hoveringAt(job, row, (lines[row] as string).indexOf(words) + 1, job.workspace)) ?? expect.fail(`nothing over ${words}`);
}

test("a thread: what it is, its figures, the source and how sure", () => {
  const { plain, from, to } = over("1/2-20 UNF");
  expect(lines.find((it) => it.includes("UNF"))?.slice(from, to)).toMatch(/^1\/2-20 UNF/);
  // SAE J429: 85 ksi; 0.75 in 9/64 in: American practice.
  expect(plain).toMatch(/20 threads an inch.*SAE J429 grade 5: proof stress 85 ksi.*usual split pin 1\/8 in.*from memory/s);
  expect(plain).toContain("Source: ASME B1.1");
});
test("a torque: both systems, whose figure, and the share of proof load as an estimate", () => {
  const { plain } = over("45 .. 55");
  // 45 and 55 times 1.3558179483314004 are 61.01 and 74.57; shown to a place more than was written.
  expect(plain).toContain("45 .. 55 lbf.ft (61 .. 74.6 N.m)");
  expect(plain).toContain("Maker's book, page 9");
  // 55 lbf.ft over K·d = 0.2 · 0.5 in is 6600 lbf; proof 85 000 · 0.1599 in² = 13 596 lbf: 49 %.
  expect(plain).toMatch(/Estimate: .*about 49 % of proof load/);
});
test("a split pin: both systems, and whether it suits its thread", () => {
  expect(over("split pin 1/8").plain).toMatch(/1\/8 in \(3\.175 mm\) x 1-1\/4 in \(31\.75 mm\).*suits/s);
  expect(over("split pin 1/16").plain).toMatch(/1\/16 in .*too thin/s);
});
test("a range: both systems", () => {
  expect(over("max 0.010").plain).toContain("max 0.010 in (max 0.254 mm)");
  expect(over("0.004 ..").plain).toContain("0.004 .. 0.008 in (0.102 .. 0.203 mm)");
  expect(over("25 +0.05").plain).toContain("24.99 .. 25.05 mm (0.98386 .. 0.98622 in)");
});
test("a fit: its limits by ISO 286 (25 H7 is +21 µm), and the source", () => {
  const { plain } = over("25 H7");
  expect(plain).toContain("25.000 .. 25.021 mm");
  expect(plain).toContain("ISO 286-1");
});
test("a reading: both systems, against each band with the gauge's doubt, and the verdict of its place", () => {
  const left = over("0.0150 in").plain;
  expect(left).toContain("0.0150 in (0.381 mm)");
  expect(left).toMatch(/ISO 14253-1\): set .*: out; worn max 0\.010 in \(max 0\.254 mm\): out/);
  expect(left).toMatch(/Left hub end float is 0\.0150 in.*found.*: out/);
  // 0.0098 + 0.0005 passes 0.010 and 0.0098 − 0.0005 does not: doubt.
  expect(over("0.0098 in").plain).toMatch(/worn max 0\.010 in \(max 0\.254 mm\): in doubt/);
});
test("without a gauge the comparison is called plain; the unit at the end serves the list", () => {
  const { plain } = over("25.01");
  expect(plain).toMatch(/25\.01 mm \(0\.98465 in\)/);
  expect(plain).toContain("by plain comparison");
  expect(over("25.03").plain).toMatch(/new 25 H7 mm.*: out; worn.*: in/);
});
test("the names: a limit's bands and how it last read, a fastener's thread, torque and pin", () => {
  const limit = over("float", 1).plain;
  expect(limit).toContain("worn max 0.010 in (max 0.254 mm)");
  expect(limit).toContain("Source: Maker's book, page 9.");
  expect(limit).toMatch(/Left hub end float is 0\.0150 in/);
  const nut = over("hub-nut", 0, "fastener hub-nut").plain;
  expect(nut).toMatch(/1\/2-20 UNF: .*Torque 45 \.\. 55 lbf\.ft .*A 1\/8 in split pin suits/s);
});
test("any other quantity has the other system beside it", () => {
  // 2 US pints are 0.946352946 l; 50 lbf.ft are 67.79 N.m; 0.0005 in are 0.0127 mm.
  expect(over("2 us.pt").plain).toContain("2 us.pt (0.95 l)");
  expect(over("50 lbf.ft").plain).toMatch(/50 lbf\.ft \(67\.8 N\.m\)/);
  expect(over("0.0005 in").plain).toContain("0.0005 in (0.0127 mm)");
});
test("what a sheet says never becomes markup", () => {
  const text = 'limit x "X"\n  worn max 1 in\n  source "<b>[a](b)</b>"\n';
  const job = buildJob(filesFrom({ "job.jobsheet": text }), "job.jobsheet") ?? expect.fail("no job");
  expect(
    runThrough(hoveringAt(job, 0, 7, job.workspace))
      ?.markdown.split("```")
      .at(-1),
  ).not.toMatch(/(?<!\\)<b>|(?<!\\)\[a/);
});
test("no column of any line throws", () => {
  const job = buildJob(filesFrom({ "job.jobsheet": sheet }), "job.jobsheet") ?? expect.fail("no job");
  for (const [row, line] of lines.entries())
    for (let column = 0; column <= line.length + 1; column++) expect(() => runThrough(hoveringAt(job, row, column, job.workspace))).not.toThrow();
});

test("over the words within a line, and over a day", () => {
  expect(over("found", 0, "measure float found").plain).toBe("As it was, before anything was done about it. It is judged, and puts nothing right.");
  expect(over("2026-02-03").plain).toBe("2026-02-03: a Tuesday");
  const words: Record<string, string> = {
    "  fit hub left new": "new",
    '  fit hub left for now "a trial"': "now",
  };
  for (const [line, word] of Object.entries(words)) expect(under("step a", line, word)).toMatch(/^(A new one|For a trial)/);
  expect(under("finding hub", "  decision renew", "renew")).toMatch(/^A new one takes its place/);
  expect(under('order "1" to tarn', "  status sent 2026-02-03", "sent")).toMatch(/^On its way/);
  expect(under("seen blue final good", '  note "good"', "good")).toBeUndefined();
});

function under(head: string, line: string, word: string): string | undefined {
  const job = buildJob(filesFrom({ "job.jobsheet": `places side left, right\n${head}\n${line}\n` }), "job.jobsheet") ?? expect.fail("no job");
  return runThrough(hoveringAt(job, 2, line.lastIndexOf(word) + 1, job.workspace))?.plain;
}
