// Two things of a job are never called by the same words.
import { describe, expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { reportingLeft } from "../../server/reports/left/left.ts";
import { checkFile } from "../../server/rules/check.ts";
import { filesFrom } from "../reports/sheets.ts";
import { releaseReport } from "../in-one-go.ts";

const sheet = (titles: readonly string[]) => `sheet "Hub"
${titles.map((title, i) => `part p${i} "${title}"\n`).join("")}day 2026-03-02
step off "Off"
  remove ${titles.map((_, i) => `p${i}`).join(", ")}
  done
`;
const off = (titles: readonly string[]) => {
  const files = filesFrom({ "job.jobsheet": sheet(titles) });
  return runThrough(reportingLeft(files, "job.jobsheet"))
    ?.pauses[0]?.groups.find((it) => it.name === "Off")
    ?.rows.map((it) => it.text);
};

describe("what a thing is called in a sentence", () => {
  test.each<[string, string[], string[]]>([
    ["its title up to the first comma, where nothing else is called so", ["Hub bearing, tapered", "Hub seal, lipped"], ["hub bearing", "hub seal"]],
    ["as much more as tells two apart", ["Hub bearing, outer", "Hub bearing, inner"], ["hub bearing, outer", "hub bearing, inner"]],
    ["no more than that", ["Hub bearing, outer, 30 mm", "Hub bearing, inner, 40 mm"], ["hub bearing, outer", "hub bearing, inner"]],
    ["the bare title stays bare", ["Hub bearing", "Hub bearing, inner"], ["hub bearing", "hub bearing, inner"]],
    ["brackets as commas", ["Shoe (leading)", "Shoe (trailing)"], ["shoe (leading)", "shoe (trailing)"]],
    ["with its name where the titles are the same", ["Shoe", "shoe"], ["shoe (`p0`)", "shoe (`p1`)"]],
  ])("%s", (_, titles, called) => expect(off(titles)).toEqual(called));

  test.each<[string, string, string]>([
    ["a limit called after a part says what of it is measured", "Big end, play up and down", "Big end, play up and down is 0.3 mm"],
    ["of two parts it is called after as well", "Bearing and big end, play up and down", "Bearing and big end, play up and down is 0.3 mm"],
    ["no further than its second comma", "Bearing, play, warm", "Bearing, play is 0.3 mm"],
    ["one that is called after nothing is cut at its first", "Play, up and down", "Play is 0.3 mm"],
  ])("%s", (_, title, said) => {
    const text = `sheet "Rod"\npart big-end "Big end bearing"\nlimit play "${title}"\n  worn max 0.2 mm\n  of big-end\nmeasure play found\n  0.3 mm\n`;
    expect(checkFile(filesFrom({ "job.jobsheet": text }), "job.jobsheet").find((it) => it.rule === "limit-worn")?.message).toContain(`${said}: over`);
  });

  test("a part keeps the title that it shares with its limit; the limit has its own name in words behind it", () => {
    const text = (then: string) =>
      `sheet "Cart"\npart axle-arm "Axle arm"\nlimit arm-dia "Axle arm"\n  worn max 0.2 mm\n  of axle-arm\nday 2026-03-02\n${then}`;
    const said = (then: string) => checkFile(filesFrom({ "job.jobsheet": text(then) }), "job.jobsheet").map((it) => it.message);
    expect(said("finding axle-arm\n  is cracked\n  decision renew\n").find((it) => it.includes("cracked"))).toMatch(/^Axle arm was found cracked/);
    expect(said("measure arm-dia found\n  0.3 mm\n").find((it) => it.includes("over its"))).toMatch(/^Axle arm \(arm dia\) is 0\.3 mm: over/);
  });

  test("in the way of release they are two rows unlike each other", () => {
    const files = filesFrom({ "job.jobsheet": sheet(["Hub bearing, outer", "Hub bearing, inner"]) });
    const said = releaseReport(files, "job.jobsheet")?.open.map((it) => it.message) ?? [];
    expect(said).toHaveLength(2);
    expect(new Set(said).size).toBe(2);
  });
});
