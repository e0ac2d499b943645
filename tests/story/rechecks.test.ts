// What is to be looked at again, over several releases: a new release takes nothing back that an earlier one asked for and nobody did.
import { describe, expect, test } from "vitest";
import { rechecksOf } from "../../server/story/rechecks.ts";
import { recheckWords } from "../../server/reports/release/words.ts";
import { filesFrom } from "../reports/sheets.ts";
import { releaseReport, tell } from "../in-one-go.ts";

const head = `sheet "Hoist"
  machine "Chain hoist"
fastener eye-nut "Eye nut"
  torque 40 N.m
limit slack "Slack of the brake"
  set 1 .. 2 mm
check grip "The brake holds"
`;
const first = `release by "A. Moor" 2026-05-01 at 100 h
  recheck eye-nut after 10 days
  recheck slack after 20 h
  recheck grip after 1 d
`;
const second = 'release by "A. Moor" 2026-07-01 at 150 h\n';
const filesOf = (text: string) => filesFrom({ "job.jobsheet": text });
const left = (between: string, last = second, asked = first) => {
  const story = tell(filesOf(`${head}${asked}${between}${last}`), "job.jobsheet")?.story;
  return story === undefined ? [] : rechecksOf(story).flatMap((it) => (it.done ? [] : [it.of]));
};

describe("of an earlier release", () => {
  test("all that was not done is still to be done", () => expect(left("")).toEqual(["eye-nut", "slack", "grip"]));
  test("what was done is not", () => expect(left("", second, first.replace("after 10 days", "after 10 days done 2026-05-12"))).toEqual(["slack", "grip"]));
  test("nor what was worked at since", () => expect(left("step again\n  tighten eye-nut to 40 N.m\n  done 2026-06-01\n")).toEqual(["slack", "grip"]));
  test("work that is only planned was not done", () => expect(left("step again\n  tighten eye-nut to 40 N.m\n")).toEqual(["eye-nut", "slack", "grip"]));
  test("nor what was measured or looked at since", () =>
    expect(left("day 2026-06-01\nmeasure slack final\n  1.5 mm\nseen grip final good\n")).toEqual(["eye-nut"]));
  test("what the new one asks for again is the new one's alone", () =>
    expect(left("", `${second}  recheck eye-nut after 5 days\n`)).toEqual(["slack", "grip", "eye-nut"]));
  test("and falls due as its own release counts", () => {
    const report = releaseReport(filesOf(`${head}${first}${second}`), "job.jobsheet");
    expect(report?.rechecks.map((it) => [recheckWords(it), it.line])).toEqual([
      ["Eye nut after 10 days, on 2026-05-11", 9],
      ["Slack of the brake after 20 h, at 120 h", 10],
      ["The brake holds after 1 d, on 2026-05-02", 11],
    ]);
  });
});
