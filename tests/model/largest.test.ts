// A job that is larger than is worked with: what is left out of it is said, in one line that names the limit, and keeps it from being released.
import { expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { mostApart, mostFiles, mostLinesInAll, mostPlaced } from "../../server/model/largest.ts";
import { checkFile, listingOpen } from "../../server/rules/check.ts";
import { filesFrom } from "../reports/sheets.ts";

const found = (texts: Readonly<Record<string, string>>) => checkFile(filesFrom(texts), "s.jobsheet").filter((it) => it.severity === "error");
const times = (n: number, line: (i: number) => string) => Array.from({ length: n }, (_, i) => line(i)).join("");
const used = (n: number, text: (i: number) => string) => Object.fromEntries(Array.from({ length: n }, (_, i) => [`u${i}.jobsheet`, text(i)]));
/** So many places of one kind, in lines that are not too long. */
const places = (n: number) => times(n / 100, (line) => `places hole ${Array.from({ length: 100 }, (_, i) => `h${line * 100 + i}`).join(", ")}\n`);

test("so many sheets are used, and the next is not read", () => {
  const fits = { ...used(mostFiles, (i) => `part q${i} "Q"\n`), "s.jobsheet": times(mostFiles, (i) => `use "u${i}.jobsheet"\n`) };
  expect(found(fits)).toEqual([]);
  const more = { ...used(mostFiles + 3, (i) => `part q${i} "Q"\n`), "s.jobsheet": times(mostFiles + 3, (i) => `use "u${i}.jobsheet"\n`) };
  const over = found(more);
  expect(over.map((it) => it.rule)).toEqual(["use-missing"]);
  expect(over[0]?.message).toContain(
    `u${mostFiles}.jobsheet and 2 others are not read: a job has no more than ${mostFiles} sheets and ${mostLinesInAll} lines in all`,
  );
});

test("so many lines are read in all sheets that one uses", () => {
  const half = "#\n".repeat(mostLinesInAll / 2 - 10);
  expect(found({ "a.jobsheet": half, "s.jobsheet": `${half}use "a.jobsheet"\n` })).toEqual([]);
  const over = found({ "a.jobsheet": half, "b.jobsheet": half, "s.jobsheet": 'use "a.jobsheet"\nuse "b.jobsheet"\npart p "P"\n' });
  expect(over).toEqual([]);
  const more = found({ "a.jobsheet": half, "b.jobsheet": half, "s.jobsheet": `use "a.jobsheet"\nuse "b.jobsheet"\n${"#\n".repeat(40)}` });
  expect(more.map((it) => it.message)).toEqual([expect.stringContaining("b.jobsheet is not read")]);
});

test("so many places are worked with, each counted for each thing that stands there", () => {
  const parts = (n: number) => times(n, (i) => `part p${i} "P"\n  each hole\n`);
  expect(found({ "s.jobsheet": `${places(200)}${parts(mostPlaced / 200)}` })).toEqual([]);
  const text = `places side left, right\npart r "R"\n  each side\n${places(400)}${parts(mostPlaced / 200)}release by "B" 2026-05-01\n  test "road"\n`;
  const over = found({ "s.jobsheet": text });
  expect(over.map((it) => it.rule)).toEqual(["place-unknown", "release-blocked"]);
  // Two places of one thing keep their two; of what is left each of the two hundred things has its share.
  expect(over[0]?.message).toContain(
    `400 places with ${mostPlaced / 200} things at each are more than are worked with: no more than ${mostPlaced} in all. The first 199 are`,
  );
  expect(runThrough(listingOpen(filesFrom({ "s.jobsheet": text }), "s.jobsheet")).open.map((it) => it.rule)).toContain("place-unknown");
});

test("a line that speaks of a thing at all of its places counts for each of them", () => {
  const nut = (steps: number) => `${places(1000)}fastener n "N"\n  each hole\n  torque 20 .. 40 N.m\n${times(steps, (i) => `step s${i} "S"\n  clean n\n`)}`;
  expect(found({ "s.jobsheet": nut(10) })).toEqual([]);
  const over = found({ "s.jobsheet": nut(99) });
  expect(over.map((it) => it.message)).toEqual([
    expect.stringContaining(`1000 places with 1 thing at each and 99 lines that speak of all of them are more than are worked with`),
  ]);
  expect(over[0]?.message).toContain(`The first ${mostPlaced / 100} are`);
  // Where a line names its place it speaks of that one.
  expect(found({ "s.jobsheet": nut(99).replaceAll("  clean n\n", "  clean n h7\n") })).toEqual([]);
});

test("so many pieces of one thing at one place are told apart, and from there on nothing is said of them", () => {
  const nuts = (n: number, line: string) =>
    `sheet "S"\n  machine "M"\nfastener nut "Nut"\n  qty ${n}\n  torque 20 .. 40 N.m\nstep s "S"\n  done\n${times(n, () => line)}release by "B" 2026-05-01\n  test "road"\n`;
  const each = "  undo nut 1\n  fit nut 1\n  tighten nut 1 to 30 N.m\n";
  // One is on its way, and the others stand as they were.
  expect(found({ "s.jobsheet": nuts(mostApart - 2, each) })).toEqual([]);
  const text = nuts(mostApart + 100, each);
  const over = found({ "s.jobsheet": text });
  expect(over.map((it) => it.rule)).toEqual(["part-count", "release-blocked"]);
  expect(over[0]?.message).toContain(`Nut: ${mostApart} of them are told apart by here, and no more are.`);
  expect(runThrough(listingOpen(filesFrom({ "s.jobsheet": text }), "s.jobsheet")).open.map((it) => it.rule)).toContain("part-count");
  // As many of which no line tells one from the other are no more than one.
  expect(found({ "s.jobsheet": nuts(mostApart + 100, "  undo nut\n  fit nut\n  tighten nut to 30 N.m\n") })).toEqual([]);
});
