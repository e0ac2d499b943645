// The times of a plan: published networks written as sheets, and random ones held against every path there is.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { monday, planOfText, sheetOf } from "./plan-sheets.ts";

type Row = readonly [es: number, ef: number, ls: number, lf: number, slack: number, free: number];

function rowsOf(text: string, unit: "days" | "hours"): Record<string, Row> {
  return Object.fromEntries(
    planOfText(text).steps.map((it) => [
      it.step,
      [it.earliestStart, it.earliestFinish, it.latestStart, it.latestFinish, it.slack, it.freeSlack].map((time) => Number(time?.[unit])) as unknown as Row,
    ]),
  );
}

describe("published networks, as sheets", () => {
  const server = (unit: string) =>
    sheetOf({
      A: [`2 ${unit}`, []],
      B: [`4 ${unit}`, ["A"]],
      C: [`5 ${unit}`, ["A"]],
      D: [`2 ${unit}`, ["B"]],
      E: [`1 ${unit}`, ["B"]],
      F: [`8 ${unit}`, ["B", "C"]],
      G: [`3 ${unit}`, ["D", "E"]],
      H: [`5 ${unit}`, ["F"]],
      I: [`4 ${unit}`, ["F"]],
      J: [`7 ${unit}`, ["G", "H", "I"]],
    });
  const serverTable: Record<string, Row> = {
    A: [0, 2, 0, 2, 0, 0],
    B: [2, 6, 3, 7, 1, 0],
    C: [2, 7, 2, 7, 0, 0],
    D: [6, 8, 15, 17, 9, 0],
    E: [6, 7, 16, 17, 10, 1],
    F: [7, 15, 7, 15, 0, 0],
    G: [8, 11, 17, 20, 9, 9],
    H: [15, 20, 15, 20, 0, 0],
    I: [15, 19, 16, 20, 1, 1],
    J: [20, 27, 20, 27, 0, 0],
  };

  test("ten activities of putting in a server, in days: a textbook's problem with its worked answer, as seen on public pages", () => {
    expect(rowsOf(server("d"), "days")).toEqual(serverTable);
    const [job] = planOfText(server("d")).jobs;
    expect(job?.criticalPath).toEqual(["A", "C", "F", "H", "J"]);
    // The 27th day, of which the first is the day of the plan.
    expect([job?.finish?.day, job?.finish?.days]).toEqual(["2026-06-27", "27"]);
  });
  test("the same in hours of work", () => {
    expect(rowsOf(server("h"), "hours")).toEqual(serverTable);
    // 27 hours at 8 a day end on the fourth day.
    expect(planOfText(server("h")).jobs[0]?.finish?.day).toBe("2026-06-04");
  });
  test("seven arrows, in weeks: B. W. Taylor, Introduction to Management Science, solutions of chapter 8, as quoted on public pages", () => {
    // Activities on arrows: one waits for all that end where it begins. The weeks are written as days.
    const text = sheetOf({
      from1to2: ["7 d", []],
      from1to3: ["10 d", []],
      from2to4: ["6 d", ["from1to2"]],
      from3to4: ["5 d", ["from1to3"]],
      from3to5: ["4 d", ["from1to3"]],
      from4to5: ["3 d", ["from2to4", "from3to4"]],
      from5to6: ["2 d", ["from3to5", "from4to5"]],
    });
    expect(rowsOf(text, "days")).toEqual({
      from1to2: [0, 7, 2, 9, 2, 0],
      from1to3: [0, 10, 0, 10, 0, 0],
      from2to4: [7, 13, 9, 15, 2, 2],
      from3to4: [10, 15, 10, 15, 0, 0],
      from3to5: [10, 14, 14, 18, 4, 4],
      from4to5: [15, 18, 15, 18, 0, 0],
      from5to6: [18, 20, 18, 20, 0, 0],
    });
    expect(planOfText(text).jobs[0]?.criticalPath).toEqual(["from1to3", "from3to4", "from4to5", "from5to6"]);
  });
});

describe("random networks, as sheets", () => {
  const networks = fc.integer({ min: 1, max: 8 }).chain((count) =>
    fc.record({
      minutes: fc.array(fc.integer({ min: 0, max: 2000 }), { minLength: count, maxLength: count }),
      after: fc.tuple(...Array.from({ length: count }, (_, i) => (i === 0 ? fc.constant([] as number[]) : fc.uniqueArray(fc.integer({ min: 0, max: i - 1 }))))),
    }),
  );
  test("finish and slack are those of the longest of all paths", () => {
    fc.assert(
      fc.property(networks, ({ minutes, after }) => {
        const text = sheetOf(Object.fromEntries(minutes.map((it, i) => [`s${i}`, [`${it} min`, (after[i] as number[]).map((j) => `s${j}`)] as const])));
        const ending = (i: number): number[][] => {
          const own = after[i] as number[];
          return own.length === 0 ? [[i]] : own.flatMap((j) => ending(j).map((chain) => [...chain, i]));
        };
        const length = (chain: readonly number[]) => chain.reduce((sum, i) => sum + (minutes[i] as number), 0);
        const chains = minutes.flatMap((_, i) => ending(i));
        const finish = Math.max(...chains.map(length));
        const report = planOfText(text);
        expect(Math.round(Number(report.jobs[0]?.finish?.hours) * 60)).toBe(finish);
        minutes.forEach((_, i) => {
          // Every chain through it, from a beginning to an end.
          const through = Math.max(...chains.filter((chain) => chain.includes(i)).map(length));
          const step = report.steps.find((it) => it.step === `s${i}`);
          expect(Math.round(Number(step?.slack?.hours) * 60)).toBe(finish - through);
          expect(step?.critical).toBe(through === finish);
          expect(Math.round(Number(step?.earliestFinish?.hours) * 60)).toBe(Math.max(...ending(i).map(length)));
        });
      }),
      { numRuns: 150 },
    );
  });
});

describe("how time is counted", () => {
  const one = (takes: string, hoursADay = 8) => planOfText(`sheet "One"\nstep a "A"\n  takes ${takes}\n`, monday, hoursADay).steps[0];

  test("a day of work is a working day, whatever its hours; minutes and hours are of work", () => {
    expect(one("2 d")?.earliestFinish).toEqual({ day: "2026-06-02", days: "2", hours: "16" });
    expect(one("2 d", 3)?.earliestFinish).toEqual({ day: "2026-06-02", days: "2", hours: "6" });
    expect(one("12 h")?.earliestFinish).toEqual({ day: "2026-06-02", days: "1.5", hours: "12" });
    expect(one("12 h", 3)?.earliestFinish).toEqual({ day: "2026-06-04", days: "4", hours: "12" });
    expect(one("90 min")?.earliestFinish).toEqual({ day: "2026-06-01", days: "0.1875", hours: "1.5" });
    expect(one("1-1/2 h")?.takes).toEqual({ days: "0.1875", hours: "1.5" });
  });
  test("days of the calendar go on over the end of a month, a leap day and a year", () => {
    expect(planOfText(sheetOf({ a: ["3 d", []] }), "2024-02-28").jobs[0]?.finish?.day).toBe("2024-03-01");
    expect(planOfText(sheetOf({ a: ["3 d", []] }), "2026-12-30").jobs[0]?.finish?.day).toBe("2027-01-01");
  });
  test("what no day can be written for has none, and nothing fails", () => {
    const step = one("99999999999999999999999999999999999999 d");
    expect([step?.state, step?.earliestFinish?.day]).toEqual(["ready", null]);
  });
  test("a time that can't be read, or is none, is not counted, and is said", () => {
    for (const takes of ["3", "3 kg", "-2 h", "soon", "1,5 h"]) {
      const report = planOfText(`sheet "One"\nstep a "A"\n  takes ${takes}\n`);
      expect([takes, report.steps[0]?.takes, report.jobs[0]?.untimed]).toEqual([takes, null, 1]);
    }
  });
  test("a step done at one place has its share left", () => {
    const report = planOfText(`sheet "Sides"
places side left, right
step a "A"
  each side
  takes 3 h
  done left
`);
    expect(report.steps.map((it) => [it.state, it.places, it.takes?.hours])).toEqual([
      ["done", ["left"], "1.5"],
      ["ready", ["right"], "1.5"],
    ]);
  });
});
