// The drawings of the samples on a telephone: no drawing is so wide that its letters, 12 of its own units high, come out smaller than 11 pixels in the 360 that such a page leaves.
import { readFileSync } from "node:fs";
import { basename } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { reports } from "../../server/reports/all.ts";
import { planPicture } from "../../server/reports/plan/picture.ts";
import { type PlanReport, planning } from "../../server/reports/plan/plan.ts";
import { filesAround } from "../reread.ts";
import { filesFrom } from "./sheets.ts";

const samples = [
  "bevel-drive/bevel-drive.jobsheet",
  "lorry-rear-axle/rear-axle.jobsheet",
  "steering-box/steering-box.jobsheet",
  "stationary-engine/bottom-end.jobsheet",
].map((it) => fileURLToPath(new URL(`../../samples/${it}`, import.meta.url)));

test.each(samples)("%s", async (path) => {
  const files = filesAround(path, readFileSync(path, "utf8"));
  for (const report of reports) {
    const made = (await report.make(files, [basename(path)], {}, { today: "2026-06-01", width: 100 })) as { draw(format: string): string };
    for (const [, wide] of made.draw("html").matchAll(/<svg class="\w+" viewBox="0 0 (\d+) /g))
      expect([report.name, (360 / Number(wide)) * 12 > 11]).toEqual([report.name, true]);
  }
});

describe("the calendar", () => {
  /** Its dates, with the x at which each begins. */
  const dates = (days: number) => {
    const sheet = `sheet "S"\nsupplier s "S"\n  lead ${days} d\noffer pin from s\n  price 1.00 GBP\npart pin "Pin"\nstep on "On"\n  fit pin new\n  takes 2 h\n`;
    const report = runThrough(planning(filesFrom({ "job.jobsheet": sheet }), ["job.jobsheet"], { from: "2026-06-01", hoursADay: 8 } as never)) as PlanReport;
    return [...(planPicture(report)?.text ?? "").matchAll(/<text class="faint" x="(\d+)" y="\d+">([\d-]+)<\/text>/g)].map(
      ([, x, date]) => [date, Number(x)] as const,
    );
  };
  // Sent on the first of June, the pin is here so many days later, and the step ends on that day.
  test.each([
    [12, "06-13"],
    [13, "06-14"],
    [21, "06-22"],
    [20, "06-21"],
    [5, "06-06"],
  ])("of a parcel of %i days: its last day has its date, and no two dates overlap", (days, last) => {
    const shown = dates(days);
    expect(shown.at(-1)?.[0]).toBe(last);
    // Five letters of at most 8 units each.
    const xs = shown.map(([, x]) => x).sort((a, b) => a - b);
    for (const [i, x] of xs.entries()) expect(x + 42).toBeLessThanOrEqual(xs[i + 1] ?? 372);
  });
});
