// Shims: what to put in and take out, worked by hand beside each.
import { describe, expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { shimsSections } from "../../server/reports/shims/sections.ts";
import { type ShimReport, reportingShims } from "../../server/reports/shims/shims.ts";
import { filesFrom } from "./sheets.ts";
import { asPage } from "../in-one-go.ts";

const of = (text: string) => runThrough(reportingShims(filesFrom({ "job.jobsheet": text }), "job.jobsheet")) as ShimReport;

const one = (have: string, fitted: string, reading: string, more = "") => `sheet "Shims"
shims cap-shims "Cap shims"
  have ${have}
  fitted ${fitted}
${more}limit play "Play"
  set 0.10 .. 0.18 mm by cap-shims
measure play trial
  ${reading}
`;

describe("one stack", () => {
  test("nearest the middle: 0.30 in reads 0.25; 0.14 is wanted, so 0.19 in all; 0.20 is the nearest of 0.10s and 0.15s", () => {
    // 0.25 + (0.20 - 0.30) = 0.15 mm. The other totals near: 0.15 (0.10 mm read) and 0.25 (0.20 mm read).
    const [it] = of(one("0.15 mm x 1", "0.10 mm x 3", "0.25 mm")).jobs;
    expect(it).toMatchObject({ outcome: "change", target: "0.14 mm", reads: "0.15 mm" });
    expect(it?.stacks[0]).toMatchObject({ nowTotal: "0.3 mm", thenTotal: "0.2 mm", change: ["take out 1 of 0.1 mm"] });
  });
  test("the effect: half the thickness at the reading, so twice the thickness is moved", () => {
    // 0.24 to 0.14 is 0.10 less; at 0.5 that is 0.20 of thickness: 0.30 becomes 0.10.
    const [it] = of(one("0.15 mm x 1", "0.10 mm x 3", "0.24 mm", "  effect 0.5\n")).jobs;
    expect(it).toMatchObject({ outcome: "change", reads: "0.14 mm" });
    expect(it?.stacks[0]?.thenTotal).toBe("0.1 mm");
  });
  test("the middle of several spots is what is moved, and spots too far apart are said so", () => {
    // 0.20 and 0.30: the middle is 0.25, as above it comes to 0.15; then the spots read 0.10 and 0.20, and 0.20 is outside.
    const [it] = of(one("0.15 mm x 1", "0.10 mm x 3", "0.20, 0.30 mm")).jobs;
    expect(it?.reading).toMatchObject({ text: "0.25 mm", spread: "0.2 mm to 0.3 mm" });
    expect(it?.notes.some((note) => note.startsWith("The spots lie so far apart"))).toBe(true);
  });
  test("no stack fits: the thickness to get. 0.10 in reads 0.02; 0.22 is wanted, 0.20 at most is there: 0.12 on top of one 0.10", () => {
    // Band 0.10 .. 0.18 wants 0.18 .. 0.26 in all; the drawer holds no more than the one 0.05 besides: 0.15 reads 0.07.
    const [it] = of(one("0.05 mm x 1", "0.10 mm x 1", "0.02 mm")).jobs;
    expect(it).toMatchObject({ outcome: "none", reads: "0.07 mm" });
    // 0.22 - 0.15 = 0.07, inside from 0.18 - 0.15 = 0.03 to 0.26 - 0.15 = 0.11.
    expect(it?.say).toContain("Get one of 0.07 mm, on top of 1 of 0.1 mm and 1 of 0.05 mm (from 0.03 mm to 0.11 mm would be inside).");
  });
  test("where nothing comes nearer it is left", () => {
    expect(of(one("0.10 mm x 1", "0.10 mm x 2", "0.14 mm")).jobs[0]?.outcome).toBe("leave");
  });
  test("without a reading there is nothing to work from", () => {
    const text = one("0.10 mm x 1", "0.10 mm x 2", "0.14 mm").split("measure")[0] as string;
    expect(of(text).jobs[0]?.outcome).toBe("no reading");
  });
});

describe("what is in", () => {
  test("the lines of one entry together: 0.20 and 0.10 in reads 0.25, so 0.19 is wanted, and 0.20 is the nearest of them", () => {
    // 0.25 + (0.20 - 0.30) = 0.15 mm, as above.
    const [it] = of(one("0.15 mm x 1", "0.20 mm x 1\n  fitted 0.10 mm x 1", "0.25 mm")).jobs;
    expect(it?.stacks[0]).toMatchObject({ nowTotal: "0.3 mm", thenTotal: "0.2 mm", change: ["take out 1 of 0.1 mm"] });
  });
  const later = "shims cap-shims\n  fitted 0.10 mm x 2\n";
  test("a later entry's shims are in instead: 0.20 in reads 0.14, the middle", () => {
    const text = `${one("0.10 mm x 1", "0.10 mm x 3", "0.24 mm")}${later}measure play final\n  0.14 mm\n`;
    expect(of(text).jobs[0]).toMatchObject({ outcome: "leave", reads: "0.14 mm", stacks: [{ nowTotal: "0.2 mm" }] });
  });
  test("where others went in since it was read, nothing is worked out", () => {
    const [it] = of(`${one("0.10 mm x 1", "0.10 mm x 3", "0.24 mm")}${later}`).jobs;
    expect(it).toMatchObject({ outcome: "no reading", stacks: [] });
    expect(it?.say).toContain("Other shims went in at line 10");
    // The same once more is no other.
    expect(of(`${one("0.10 mm x 1", "0.10 mm x 2", "0.24 mm")}${later}`).jobs[0]?.outcome).toBe("change");
  });
});

describe("two stacks", () => {
  const two = (set: string) => `sheet "Two"
shims left-shims "Left shims"
  fitted 0.50 mm x 1, 0.10 mm x 2
  effect 0.5
shims right-shims "Right shims"
  fitted 0.50 mm x 1, 0.20 mm x 1
limit backlash "Backlash"
  set ${set} by left-shims, right-shims
measure backlash trial
  0.30 mm
`;
  test("what leaves one goes to the other: 0.30 to 0.20 at 0.5 moves 0.20 mm, and 1.40 mm stays in all", () => {
    const [it, ...rest] = of(two("0.15 .. 0.25 mm")).jobs;
    expect(rest).toEqual([]);
    expect(it).toMatchObject({ outcome: "change", reads: "0.2 mm" });
    expect(it?.stacks.map((stack) => [stack.nowTotal, stack.thenTotal])).toEqual([
      ["0.7 mm", "0.5 mm"],
      ["0.7 mm", "0.9 mm"],
    ]);
  });
  test("no way of sharing them out: how much should go, and which way. 0.30 to 0.28 at 0.5 is 0.04 mm from the left", () => {
    const [it] = of(two("0.27 .. 0.29 mm")).jobs;
    expect(it?.outcome).toBe("none");
    expect(it?.say).toContain("0.04 mm should go from Left shims.");
  });
});

test("the page draws a slab for each shim, with its thickness in words, and escapes what a sheet says", () => {
  const page = asPage(shimsSections(of(one("0.15 mm x 1", "0.10 mm x 3", "0.25 mm").replace("Cap shims", "<b onclick=x>&"))));
  // Three are in, two go back: five slabs.
  expect(page.match(/<rect class="slab"/g)).toHaveLength(5);
  expect(page).toContain('role="img" aria-label="Stack. Now: 3 \u00d7 0.1 mm, 0.3 mm in all. Then: 2 \u00d7 0.1 mm, 0.2 mm in all."');
  expect(page).not.toContain("<b onclick");
});

test("a drag is no thickness: it says why, and how it is found by trial", () => {
  const [it] = of(
    'sheet "x"\nshims s "Column shims"\n  fitted 3 of 0.10 mm\nlimit drag "Column drag"\n  set 4 .. 8 lbf by s\nmeasure drag trial\n  12 lbf\n',
  ).jobs;
  expect(it?.outcome).toBe("unclear");
  expect(it?.say).toMatch(/^Column drag is set to 4 \.\. 8 lbf, which is no thickness: /);
  expect(it?.say).toContain("change one of the thinnest at a time and read again");
});

test("the head of the page says what to do with the one stack, or that there is none", () => {
  const none = of('sheet "x"\n');
  expect(shimsSections(none).headline).toBe("No shims are declared.");
  const single = of(one("0.15 mm x 1", "0.10 mm x 3", "0.25 mm"));
  expect(shimsSections(single).headline).toBe(single.jobs[0]?.say);
});
