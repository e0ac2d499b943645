// What the gate and the record say: what is open by its step with each advice once; what went on new, in order; a renewed part as made; who is to look.
import { describe, expect, test } from "vitest";
import { asText } from "../../server/reports/draw/as-text.ts";
import { type ReleaseReport, releaseReport } from "../../server/reports/release/release.ts";
import { releaseSections } from "../../server/reports/release/sections.ts";
import { byGroup, byStep } from "../../server/reports/release/words.ts";
import { filesFrom } from "./sheets.ts";

const of = (text: string) => releaseReport(filesFrom({ "job.jobsheet": text }), "job.jobsheet") as ReleaseReport;

describe("what is open", () => {
  const report = of(`sheet "Hub"
  machine "van"
places side left, right
part hub "Hub"
  each side
part cap "Cap"
part drum "Drum"
day 2026-03-01
step hubs "Hubs off"
  remove hub
  remove cap
  done
step drums "Drum off"
  remove drum
  done
`);
  const back = byGroup(report.open).find((it) => it.group === "Not back");

  test("stands by the step that it came of, in the order of the sheet", () =>
    expect(byStep(back?.rows ?? []).map((it) => [it.step?.title, it.step?.line])).toEqual([
      ["Hubs off", 9],
      ["Drum off", 13],
    ]));
  test("and what cures several of them is said once", () => {
    const [hubs, drum] = byStep(back?.rows ?? []);
    expect(hubs?.matters.map((it) => [it.advice !== undefined, it.rows.length])).toEqual([[true, 3]]);
    expect(hubs?.matters[0]?.rows.every(({ said }) => !said.includes("discarded"))).toBe(true);
    // One alone keeps its advice with it.
    expect(drum?.matters.map((it) => [it.advice, it.rows.length])).toEqual([[undefined, 1]]);
    expect(drum?.matters[0]?.rows[0]?.said).toContain("discarded");
  });
});

describe("the record", () => {
  const report = of(`sheet "Bush"
  machine "chain hoist"
part bush "Bush"
fastener nut "Nut"
  torque 20 .. 30 N.m
  locked by split pin 2 x 20 mm
  recheck after 10 h
limit bore "Bush bore"
  new 20.00 .. 20.02 mm
  worn max 20.10 mm
  of bush
  source "Book"
day 2026-03-01
measure bore found
  20.15 mm
step off "Off"
  undo nut
  remove bush
  done by "A. Reader"
step on "On"
  fit bush new
  tighten nut to 20, 25 N.m
  lock nut new
  done by "A. Reader"
measure bore final
  20.01 mm
release by "A. Reader" 2026-03-02 at 120 h
  test "Lifted its load"
`);

  test("is released", () => expect(report.open.map((it) => it.message)).toEqual([]));
  test("names what went on new, its locking too, in the order of the work", () =>
    expect(report.fitted.map((it) => it.text)).toEqual(["Bush", "Split pin 2 x 20 mm, nut"]));
  test("judges a renewed part as made, not by the wear limit beside it", () =>
    expect(report.readings.map((it) => [it.stage, it.against, it.outcome])).toEqual([
      ["found", "worn max 20.10 mm", "out"],
      ["final", "new 20.00 .. 20.02 mm", "in"],
    ]));
  test("has the stages of a torque, the lines of each step and who did it", () => {
    expect(report.fast[0]?.to).toMatch(/20.*25 N\.m/);
    expect(report.done[1]).toMatchObject({ by: "A. Reader" });
    expect(report.done[1]?.text).toContain("lock nut new");
  });
  test("says first that it is no inspection and who is to look, and has the counter and a place to sign", () => {
    const text = asText(releaseSections(report)).split("\n");
    const head = text.find((it) => it.includes("Signed off")) ?? "";
    expect(head).toContain("at 120 h");
    expect(head).toContain("It is a record, not an inspection: Splitpin has not seen the machine.");
    expect(head).toContain("examined by a competent person before it lifts");
    expect(text.some((it) => it.startsWith("Signed: ____"))).toBe(true);
  });
  test("calls what is to be looked at again by its title", () => expect(report.rechecks.map((it) => it.of)).toEqual(["Nut"]));
});
