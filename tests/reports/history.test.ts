// A machine's history over several sheets: lives, lines through readings and what they tell, what comes back. Expected figures are worked out in the test, by hand.
import { describe, expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { asMarkdown } from "../../server/reports/draw/as-markdown.ts";
import { asText } from "../../server/reports/draw/as-text.ts";
import { type HistoryReport, tellingHistory } from "../../server/reports/history/history.ts";
import type { LimitHistory, MachineHistory } from "../../server/reports/history/shapes.ts";
import { historySections } from "../../server/reports/history/sections.ts";
import { filesFrom } from "./sheets.ts";
import { asPage } from "../in-one-go.ts";

const of = (texts: Readonly<Record<string, string>>, named?: string) =>
  runThrough(tellingHistory(filesFrom(texts), Object.keys(texts), named)) as HistoryReport;
const machine = (texts: Readonly<Record<string, string>>) => of(texts).machines[0] as MachineHistory;
const limit = (texts: Readonly<Record<string, string>>) => machine(texts).limits[0] as LimitHistory;

/** One sheet of a mill on a day, at so many hours, with what was read or done. */
const sheet = (day: string, hours: number, rest: string, play = "worn max 0.50 mm") => `sheet "Looked at ${day}"
  machine "Vale mill"
  serial "VM 2"
  opened ${day}
  reading ${hours} h
part bush "Bush"
  number "B-7"
limit play "Play of the bush"
  of bush
  ${play}
  source "Maker's leaflet"
supplier weir "Weir Lane"
day ${day}
${rest}`;
const read = (value: string) => `measure play found\n  ${value} mm\n`;
/** By the name of the file, so that the order in which they are given is not that of time. */
const sheets = (rows: readonly (readonly [day: string, hours: number, value: string])[]) =>
  Object.fromEntries(rows.map(([day, hours, value], i) => [`${9 - i}.jobsheet`, sheet(day, hours, read(value))]));

describe("the line through readings", () => {
  // 0.10 at 100 h, 0.21 at 200 h, 0.29 at 300 h, 0.40 at 400 h: mean 250 h and 0.25; Sxx 50,000; Sxy −150·−0.15 + −50·−0.04 + 50·0.04 + 150·0.15 = 49;
  // slope 49/50,000 = 0.00098 mm an hour. The line is at 0.50 mm at 250 + 0.25/0.00098 = 505.1 h.
  const wearing = sheets([
    ["2023-01-01", 100, "0.10"],
    ["2023-04-11", 200, "0.21"],
    ["2023-07-20", 300, "0.29"],
    ["2023-10-28", 400, "0.40"],
  ]);
  test("goes through them over the counter, in the order of time", () => {
    const it = limit(wearing);
    expect(it.points.map((point) => [point.day, point.counter, point.value])).toEqual([
      ["2023-01-01", "100 h", "0.10 mm"],
      ["2023-04-11", "200 h", "0.21 mm"],
      ["2023-07-20", "300 h", "0.29 mm"],
      ["2023-10-28", "400 h", "0.40 mm"],
    ]);
    expect(Number(it.overCounter.slope)).toBeCloseTo(0.00098, 10);
    expect(it.overCounter.words).toContain("It moved by +0.098 mm in 100 h (4 readings).");
  });
  test("says when the limit would be reached, with its doubt, and calls it an estimate", () => {
    const { estimate, words } = limit(wearing).overCounter;
    // Residuals −0.003, 0.009, −0.009, 0.003: squares 0.00018, over 2 degrees 0.00009. t(2) = 4.303. k = t²s² = 0.00166644.
    // a = 0.00098² − k/50,000 = 9.2707e-7; middle = 250 + 0.00098·0.25/a = 514.28; half = √(k(1.25a + 0.0625/50,000))/a = 68.28.
    expect(estimate?.about).toBe("505 h");
    expect(Math.abs(Number(estimate?.earliest.replace(" h", "")) - 446)).toBeLessThanOrEqual(1);
    expect(Math.abs(Number(estimate?.latest?.replace(" h", "")) - 583)).toBeLessThanOrEqual(1);
    expect(words).toContain("Estimate, not a limit: at this rate max 0.50 mm is reached about 505 h");
  });
  test("over days as over the counter: 100 days are 100 hours here, so it comes 505.1 − 100 days after the first", () => {
    // 1 January 2023 and 405 days: 10 February 2024.
    expect(limit(wearing).overDays.estimate?.about).toBe("2024-02");
    expect(Number(limit(wearing).overDays.slope)).toBeCloseTo(0.00098, 10);
  });
  test("what falls towards a least size reaches that", () => {
    const thin = (value: string, i: number) => sheet(`2023-0${i + 1}-01`, 100 * (i + 1), read(value), "worn min 2.0 mm");
    const it = limit(Object.fromEntries(["5.0", "4.5", "4.1", "3.5"].map((value, i) => [`${i}.jobsheet`, thin(value, i)])));
    expect(Number(it.overCounter.slope)).toBeLessThan(0);
    expect(it.overCounter.estimate).not.toBeNull();
  });

  const words = (rows: Parameters<typeof sheets>[0]) => limit(sheets(rows)).overCounter;
  test.each([
    ["one reading", [["2023-01-01", 100, "0.10"]], "1 reading since it was new or set: too few for an estimate, which needs three."],
    [
      "two readings",
      [
        ["2023-01-01", 100, "0.10"],
        ["2023-02-01", 200, "0.20"],
      ],
      "2 readings since it was new or set: too few for an estimate, which needs three.",
    ],
    [
      "all at one time",
      [
        ["2023-01-01", 100, "0.10"],
        ["2023-01-02", 100, "0.20"],
        ["2023-01-03", 100, "0.30"],
      ],
      "3 readings, all at one time: no line goes through them.",
    ],
    [
      "more scatter than wear",
      [
        ["2023-01-01", 100, "0.10"],
        ["2023-02-01", 200, "0.30"],
        ["2023-03-01", 300, "0.12"],
        ["2023-04-01", 400, "0.25"],
      ],
      "The readings scatter more than they move: no estimate.",
    ],
    [
      "past already",
      [
        ["2023-01-01", 100, "0.30"],
        ["2023-02-01", 200, "0.41"],
        ["2023-03-01", 300, "0.52"],
      ],
      "The last reading is past it already.",
    ],
    [
      "far off",
      [
        ["2023-01-01", 100, "0.10"],
        ["2023-02-01", 200, "0.13"],
        ["2023-03-01", 300, "0.16"],
        ["2023-04-01", 400, "0.19"],
        ["2023-05-01", 500, "0.22"],
      ].map(([d, h, v]) => [d, h, `${Number(v) / 4}`]),
      "Its limit is further off than 3 times what the readings span: no estimate.",
    ],
    [
      "moving away",
      [
        ["2023-01-01", 100, "0.40"],
        ["2023-02-01", 200, "0.31"],
        ["2023-03-01", 300, "0.19"],
        ["2023-04-01", 400, "0.10"],
      ],
      "It moves away from its limit.",
    ],
  ] as const)("%s carries no estimate, and says why", (_, rows, expected) => {
    const trend = words(rows as unknown as Parameters<typeof sheets>[0]);
    expect(trend.estimate).toBeNull();
    expect(trend.words).toContain(expected);
  });
  test("readings that lie on a line by chance are known no better than the last figure that was read", () => {
    const exactly = sheets([
      ["2023-01-01", 100, "0.10"],
      ["2023-02-01", 200, "0.20"],
      ["2023-03-01", 300, "0.30"],
    ]);
    const { estimate } = limit(exactly).overCounter;
    expect(estimate?.about).toBe("500 h");
    // Rectangular over 0.01 mm: a variance of 0.01²/12, and t(1) = 12.706; so it is by no means certain.
    expect(estimate?.earliest).not.toBe(estimate?.latest);
  });
});

describe("a new piece begins a new line", () => {
  const renewed = {
    "1.jobsheet": sheet("2023-01-01", 100, read("0.30")),
    "2.jobsheet": sheet("2023-06-01", 200, read("0.45")),
    "3.jobsheet": sheet(
      "2023-12-01",
      300,
      `${read("0.60")}finding bush\n  is worn\n  decision renew\norder "W-1" to weir\n  status received 2023-12-02\n  item bush 1\nstep new "New bush"\n  remove bush\n  fit bush new\n  done 2023-12-03\nmeasure play final 2023-12-03\n  0.05 mm\nrelease by "A. Vale" 2023-12-04 at 301 h\n  test "ran"\n`,
    ),
    "4.jobsheet": sheet("2024-06-01", 400, read("0.10")),
  };
  const it = limit(renewed);
  test("which leaves out what was read of the old one", () => {
    expect(it.points.map((point) => [point.value, point.anew])).toEqual([
      ["0.30 mm", false],
      ["0.45 mm", false],
      ["0.60 mm", false],
      ["0.05 mm", true],
      ["0.10 mm", false],
    ]);
    expect(it.overCounter.readings).toBe(2);
    expect(it.points[3]?.counter).toBe("301 h");
  });
  test("its life says when it was renewed, and by what", () => {
    const [life] = machine(renewed).lives;
    expect(life?.title).toBe("Bush");
    expect(life?.events.map((event) => [event.kind, event.day, event.counter, event.text])).toEqual([
      ["found", "2023-12-01", "300 h", "worn; renew"],
      ["renewed", "2023-12-03", "301 h", "new (number B-7; order W-1 to Weir Lane)"],
    ]);
  });
  test("taken off and put back, the same piece goes on along its line", () => {
    const back = { ...renewed, "3.jobsheet": renewed["3.jobsheet"].replace("fit bush new", "fit bush") };
    expect(limit(back).points.map((point) => point.anew)).toEqual([false, false, false, false, false]);
  });
});

describe("what keeps coming back", () => {
  const found = (day: string, condition: string) => sheet(day, 100, `finding bush\n  is ${condition}\n  decision reuse\n`);
  test("is what was found at fault on two sheets, and not what was found sound", () => {
    const twice = machine({ "1.jobsheet": found("2023-01-01", "loose"), "2.jobsheet": found("2024-01-01", "worn") });
    expect(twice.comesBack.map((it) => [it.text, it.times.map((time) => `${time.day} ${time.text}`)])).toEqual([
      ["Bush: found at fault on 2 sheets", ["2023-01-01 loose", "2024-01-01 worn"]],
    ]);
    expect(machine({ "1.jobsheet": found("2023-01-01", "loose"), "2.jobsheet": found("2024-01-01", "serviceable") }).comesBack).toEqual([]);
  });
  test("twice on one sheet is one job", () => {
    expect(machine({ "1.jobsheet": `${found("2023-01-01", "loose")}finding bush\n  is worn\n  decision reuse\n` }).comesBack).toEqual([]);
  });
});

test("what was conceded and owned up to is told with its sheet", () => {
  const it = machine({ "1.jobsheet": sheet("2023-01-01", 100, `${read("0.60")}concession play "only for the show" by "A. Vale"\n`) });
  expect(it.conceded).toMatchObject([{ text: "Play of the bush: “only for the show”, by A. Vale on 2023-01-01", sheet: "Looked at 2023-01-01" }]);
});

test("a machine is asked for by words of its name or its serial number", () => {
  const two = { "1.jobsheet": sheet("2023-01-01", 1, ""), "2.jobsheet": 'sheet "Other"\n  machine "Tarn lathe"\n' };
  expect(of(two).machines).toHaveLength(2);
  expect(of(two, "vale").machines.map((it) => it.machine)).toEqual(["Vale mill"]);
  expect(of(two, "vm 2").machines.map((it) => it.machine)).toEqual(["Vale mill"]);
  expect(of(two, "VM").machines).toEqual([]);
});

test("every drawing has every reading, and says that the line is an estimate", () => {
  const report = of({
    "1.jobsheet": sheet("2023-01-01", 100, read("0.10")),
    "2.jobsheet": sheet("2023-02-01", 200, read("0.23")),
    "3.jobsheet": sheet("2023-03-01", 300, read("0.29")),
  });
  for (const drawn of [asText, asMarkdown, asPage].map((draw) => draw(historySections(report)))) {
    for (const value of ["0.10 mm", "0.23 mm", "0.29 mm"]) expect(drawn.replaceAll("\\", "")).toContain(value);
    expect(drawn).toContain("It is an estimate, never a limit");
  }
  expect(asPage(historySections(report))).toContain("<svg");
});

test("that there are too few readings for an estimate is said once, and what was read once is a row", () => {
  const two = `limit gap "Gap of the stones"
  worn min 1.0 mm
  of stone
  source "Leaflet"
limit lift "Lift of the sluice"
  worn min 300 mm
  source "Leaflet"
part stone "Stone"
measure gap found
  1.2 mm
measure lift found
  310 mm
`;
  const report = of({ "1.jobsheet": sheet("2024-01-01", 100, `${two}${read("0.10")}`), "2.jobsheet": sheet("2024-06-01", 200, read("0.20")) });
  const text = asText(historySections(report));
  expect(text.match(/three readings/g)).toHaveLength(1);
  expect(text).not.toContain("too few");
  expect(text.replace(/\s+/g, " ")).toContain(
    "Read once - Gap of the stones (worn min 1.0 mm): 2024-01-01, 100 h: found 1.2 mm (1.jobsheet:23) - Lift of the sluice (worn min 300 mm): 2024-01-01, 100 h: found 310 mm",
  );
});

test("the two ends of a narrow band are written one over the other, a line of letters apart, and a wide one where they are", () => {
  const labelsOf = (play: string) => {
    const report = of({ "1.jobsheet": sheet("2023-01-01", 100, read("0.50"), play), "2.jobsheet": sheet("2023-02-01", 200, read("2.90"), play) });
    return [...asPage(historySections(report)).matchAll(/<text x="[\d.]+" y="([\d.]+)">worn [\d.]+<\/text>/g)].map((it) => Number(it[1]));
  };
  // A page's letters are 13 px high, and a line of them 15.
  const [low = 0, high = 0, ...more] = labelsOf("worn 1.00 .. 1.02 mm");
  expect(more).toEqual([]);
  expect(low - high).toBeGreaterThanOrEqual(15 - 0.2);
  const [lower = 0, upper = 0] = labelsOf("worn 0.50 .. 2.90 mm");
  expect(lower - upper).toBeGreaterThan(60);
});
