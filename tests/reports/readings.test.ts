// The readings of a front axle, each figure worked by hand beside it; the verdicts follow ISO 14253-1 (in or out by more than U, in doubt between).
import { describe, expect, test } from "vitest";
import { runThrough } from "../../grammar/slices.ts";
import { readingsSections } from "../../server/reports/readings/sections.ts";
import { asMarkdown } from "../../server/reports/draw/as-markdown.ts";
import { readingsPicture } from "../../server/reports/readings/picture.ts";
import { besideWords, readingsHeadline, stageVerdict } from "../../server/reports/readings/words.ts";
import { type LimitRead, type PlaceRead, type ReadingsReport, type StageRead, reportingReadings } from "../../server/reports/readings/readings.ts";
import { filesFrom } from "./sheets.ts";
import { asPage, releaseReport } from "../in-one-go.ts";

const of = (text: string) => runThrough(reportingReadings(filesFrom({ "job.jobsheet": text }), "job.jobsheet")) as ReadingsReport;
const limitOf = (report: ReadingsReport, name: string) => report.limits.find((it) => it.limit === name) as LimitRead;
const at = (report: ReadingsReport, name: string, place: string) => limitOf(report, name).places.find((it) => it.place === place) as PlaceRead;

const axle = `sheet "Front axle"
places side left, right
part king-pin "King pin"
  each side
fastener hub-nut "Hub nut"
  each side
limit float "Hub end float"
  each side
  set 0.002 .. 0.005 in by hub-nut
  worn max 0.010 in
limit pin "King pin diameter"
  each side
  new 0.8740 .. 0.8750 in
  worn min 0.8720 in
  read at top, bottom
  ovality max 0.0010 in
  taper max 0.0010 in
  of king-pin
limit bore "Bush bore"
  each side
  new 0.8755 .. 0.8765 in
  worn max 0.8790 in
limit clearance "Pin in bush"
  each side
  = bore - pin
  new 0.0005 .. 0.0025 in
  worn max 0.0060 in
limit toe "Toe-in"
  worn max 5 mm
gauge dial "Dial"
  uncertainty 0.0010 in
gauge mike "Micrometer"
  uncertainty 0.0002 in
gauge bore-gauge "Bore gauge"
  uncertainty 0.0003 in
measure float found by dial
  left again 0.014, 0.015, 0.014 in
  right 0.006 in
measure pin found by mike
  left top 0.8731, 0.8725 in
  left bottom 0.8744, 0.8743 in
measure bore found by bore-gauge
  left 0.8788 in
measure float final by dial
  left 0.0035 in
`;

describe("the figures of each place", () => {
  const report = of(axle);
  test("tried again: the mean of 0.014, 0.015, 0.014 is 0.043/3 = 0.01433; more than U 0.001 past 0.010, so out", () => {
    const found = at(report, "float", "left").stages[0];
    expect(found).toMatchObject({
      stage: "found",
      mean: "0.01433 in",
      uncertainty: "0.001 in",
      outcome: "out",
      verdict: "OUT, worn max 0.010 in",
      gauge: "Dial",
    });
    expect(found?.spots).toMatchObject([{ text: "0.01433 in", times: 3 }]);
  });
  test("found and final stand one above the other: 0.0035 is 0.0015 from either end of 0.002 .. 0.005, more than 0.001", () => {
    expect(at(report, "float", "left").stages.map((it) => [it.stage, it.outcome, it.value])).toEqual([
      ["found", "out", "0.01433 in"],
      ["final", "in", "0.0035 in"],
    ]);
  });
  test("a pin at two heights: mean, span, ovality at each, taper of the means", () => {
    // (0.8731 + 0.8725 + 0.8744 + 0.8743) / 4 = 0.873575; 0.8744 - 0.8725 = 0.0019; 0.0006 and 0.0001;
    // means 0.8728 and 0.87435: 0.00155. Beyond 0.0010 by 0.00055, more than the root of two times 0.0002 = 0.00028: out.
    expect(at(report, "pin", "left").stages[0]).toMatchObject({
      mean: "0.87358 in",
      span: "0.0019 in",
      ovality: ["top 0.0006 in", "bottom 0.0001 in"],
      taper: "0.00155 in",
      value: "0.8725 in",
      outcome: "past new",
      more: [{ outcome: "in" }, { outcome: "in" }, { outcome: "out", verdict: "taper: OUT, max 0.0010 in" }],
    });
  });
  test("nearer to the limit than the gauge can tell: 0.8788 is 0.0002 from 0.8790, U is 0.0003", () => {
    expect(at(report, "bore", "left").stages[0]).toMatchObject({ outcome: "doubt", uncertainty: "0.0003 in" });
  });
  test("worked out: 0.8788 - 0.8725 = 0.0063, and U the root of 0.0003 and 0.0002 squared = 0.00036", () => {
    expect(at(report, "clearance", "left").stages[0]).toMatchObject({ value: "0.0063 in", uncertainty: "0.00036 in", outcome: "doubt", spots: [] });
  });
  test("what nobody measured is named with its places", () => {
    expect(report.unread.map((it) => [it.limit, it.places])).toEqual([
      ["pin", ["right"]],
      ["bore", ["right"]],
      ["clearance", ["right"]],
      ["toe", []],
    ]);
  });
  test("each stage leads to its line", () => {
    const lines = axle.split("\n");
    expect(at(report, "float", "left").stages.map((it) => lines[it.line - 1])).toEqual(["  left again 0.014, 0.015, 0.014 in", "  left 0.0035 in"]);
  });
  test("the headline counts the latest at each place, a taper that is out as out", () => {
    // left float in, right float in; left pin out by its taper; bore and clearance in doubt.
    expect(readingsHeadline(report)).toBe("By the latest reading at each place: 1 out, 2 in doubt, 2 within limits.");
  });
  test("a final read before the nut was moved again says so", () => {
    const stale = of(`${axle}step again "Again"\n  tighten hub-nut left\n  done\n`);
    expect(at(stale, "float", "left").stages[1]?.notes[0]).toMatch(/^read before left hub nut was moved or locked again/);
  });
  test("a reading in inches of a limit in millimetres is shown in millimetres: 0.15 in is 3.81 mm", () => {
    const other = of(`${axle}measure toe found\n  0.15 in\n`);
    expect(at(other, "toe", "").stages[0]).toMatchObject({ value: "3.81 mm", outcome: "in", verdict: "in, worn max 5 mm, by plain comparison" });
  });
});

describe("the picture", () => {
  const report = of(axle);
  const drawn = readingsPicture(limitOf(report, "float"))?.text ?? "";
  // The x of a value is 46 + 190 · (value - low) / (high - low), of both places on one axis; the ends are 0.002 and 0.01533 with 0.12 of their distance more at each side.
  const low = 0.002 - (0.0153333333 - 0.002) * 0.12;
  const high = 0.0153333333 + (0.0153333333 - 0.002) * 0.12;
  const x = (value: number) => Math.round((46 + (190 * (value - low)) / (high - low)) * 10) / 10;

  test("the reading stands where it should, and its bar is U to either side", () => {
    expect(drawn).toContain(`<circle class="open" cx="${x(0.0143333333)}"`);
    expect(drawn).toContain(`x1="${x(0.0133333333)}"`);
    expect(drawn).toContain(`x2="${x(0.0153333333)}"`);
  });
  test("the walls of the band stand at its ends", () => {
    expect(drawn).toContain(`x1="${x(0.002)}"`);
    expect(drawn).toContain(`x1="${x(0.005)}"`);
    expect(drawn).toContain(`class="wall" x1="${x(0.01)}"`);
  });
  test("found is a ring, final a full diamond, and the whole is told in words", () => {
    expect(drawn.match(/<circle/g)).toHaveLength(2);
    expect(drawn.match(/class="mark"/g)).toHaveLength(1);
    expect(drawn).toMatch(
      /role="img" aria-label="Hub end float\. Allowed: set 0\.002 \.\. 0\.005 in, worn max 0\.010 in\. left, found: 0\.01433 in, give or take 0\.001 in, OUT/,
    );
  });
  test("a limit without a band is drawn by its readings alone", () => {
    const bare = of('sheet "x"\nlimit a "A"\n  spread max 1 mm\nmeasure a found\n  1, 3 mm\n');
    // Two spots, and no rod: the ends of the axis are 1 and 3 with 0.12 of 2 more at each side.
    const x = (value: number) => Math.round((46 + (190 * (value - 0.76)) / (3.24 - 0.76)) * 10) / 10;
    const alone = readingsPicture(limitOf(bare, "a"))?.text ?? "";
    expect([1, 3].map((value) => alone.includes(`<line class="line" x1="${x(value)}"`))).toEqual([true, true]);
    expect(alone).not.toContain("wall");
  });
  test("the axis has two figures at the least, wherever its ends fall", () => {
    // The ends are 106.5 and 114 with 0.12 of 7.5 more at each side, 105.6 and 114.9: of the fives only 110 lies between them.
    const spring = of('sheet "x"\nlimit length "Free length"\n  worn min 108 mm\n  new 112 .. 114 mm\nmeasure length found\n  106.5 mm\n');
    const figures = [...(readingsPicture(limitOf(spring, "length"))?.text ?? "").matchAll(/text-anchor="middle">([\d.]+)</g)].map((it) => it[1]);
    expect(figures).toEqual(expect.arrayContaining(["108", "112"]));
  });
  test("the unit stands at the axis, once", () => expect(drawn.match(/>in<\/text>/g)).toHaveLength(1));
  test("what is stale is an outline of dashes with its word", () => {
    const stale = of(`${axle}step again "Again"\n  tighten hub-nut left\n  done\n`);
    const picture = readingsPicture(limitOf(stale, "float"))?.text ?? "";
    expect(picture.match(/class="stale"/g)).toHaveLength(1);
    expect(picture).toContain(", stale</text>");
    expect(readingsHeadline(stale)).toContain("1 of them stale, to be measured again");
  });
  test("what is worked out without a limit is shown and drawn too: 20.02 - 19.98 = 0.04", () => {
    const text =
      'sheet "x"\nlimit bore "Bore"\n  worn max 20.10 mm\nlimit pin "Pin"\n  worn min 19.90 mm\nlimit play "Play"\n  = bore - pin\nmeasure bore found\n  20.02 mm\nmeasure pin found\n  19.98 mm\n';
    const report = of(text);
    expect(at(report, "play", "").stages[0]).toMatchObject({ value: "0.04 mm", outcome: "not judged" });
    expect(readingsPicture(limitOf(report, "play"))?.text).toContain("<circle");
  });
});

test("what a sheet says is text on the page and in Markdown", () => {
  const odd = of('sheet "<img src=x onerror=1>"\nlimit a "<script>a</script> [x](y)"\n  worn max 1 mm\n  source "<b>"\nmeasure a found\n  2 mm\n');
  const page = asPage(readingsSections(odd));
  expect(page).not.toMatch(/<script|<img|<b>/);
  expect(page).toContain("default-src &#39;none&#39;");
  expect(asMarkdown(readingsSections(odd))).not.toMatch(/\[x\]\(y\)|[^\\]<script/);
});

test("what was read at one end in one entry, and at the other in the next, is one reading of both, and the worst of them its verdict", () => {
  const report = of(`sheet "A"
part pin "Pin"
limit size "Pin diameter"
  worn max 20.10 mm
  read at front, back
  of pin
measure size found
  front 20.15 mm
measure size found
  back 20.05 mm
`);
  const [found] = at(report, "size", "").stages;
  expect([found?.spots.map((it) => `${it.position} ${it.text}`), found?.outcome, found?.value]).toEqual([
    ["front 20.15 mm", "back 20.05 mm"],
    "out",
    "20.15 mm",
  ]);
});

describe("a limit of form alone, and a form that is out beside a size that is in", () => {
  // Run-out 0.048 - 0.000 = 0.048 over 0.030; ovality 2.4951 - 2.4922 = 0.0029 over 0.0020, the size above its 2.4900.
  const read = of(`sheet "Engine"
limit wobble "Rim"
  spread max 0.030 in
limit pin "Pin"
  worn min 2.4900 in
  ovality max 0.0020 in
measure wobble found
  0.000, 0.021, 0.048 in
measure pin found
  2.4951, 2.4922 in
`);
  const stage = (name: string) => at(read, name, "").stages[0] as StageRead;

  test("says what its form comes to, and shows that figure", () => {
    expect(stageVerdict(stage("wobble"))).toBe("spread: OUT, max 0.030 in");
    expect(besideWords(stage("wobble"))).toBe("spread 0.048 in");
  });

  test("leads with what is out", () => {
    expect(stageVerdict(stage("pin"))).toMatch(/^ovality: OUT, max 0\.0020 in; in, worn min 2\.4900 in/);
    expect(besideWords(stage("pin"))).toBe("ovality 0.0029 in");
  });
});

test("what is worked out has the decimals that it needs, though a figure was written without any", () => {
  // 2.0026 in less 2 in.
  const report = of(`sheet "Big end"
limit clear "Big end clearance"
  = bore - pin
  worn max 0.0030 in
limit free "Clearance, no limit"
  = bore - pin
limit bore "Bore"
  worn max 2.0040 in
limit pin "Pin"
  worn min 1.9980 in
measure bore final
  2.0026 in
measure pin final
  2 in
`);
  expect(limitOf(report, "clear").places[0]?.stages[0]?.value).toBe("0.0026 in");
  expect(limitOf(report, "free").places[0]?.stages[0]?.value).toBe("0.0026 in");
});

describe("a new bush on a pin that has run", () => {
  // 50.07 - 49.93 = 0.14 is past 0.13 and inside 0.80; 50.05 - 49.93 = 0.12 is inside 0.05 .. 0.13.
  const roller = (bore: string) => `sheet "Roller"
part bush "Bush"
part pin "Pin"
limit bore "Bush bore"
  new 50.05 .. 50.10 mm
  worn max 50.60 mm
  of bush
limit dia "Pin diameter"
  new 49.97 .. 50.00 mm
  worn min 49.70 mm
  of pin
limit clear "Roller on its pin"
  = bore - dia
  new 0.05 .. 0.13 mm
  worn max 0.80 mm
day 2026-03-02
step off "Off"
  remove pin, bush
  done
measure bore found
  50.66 mm
measure dia found
  49.93 mm
step on "On"
  fit bush new
  fit pin
  done
measure bore final
  ${bore} mm
`;
  const last = (text: string) => {
    const stage = limitOf(of(text), "clear").places[0]?.stages.at(-1) as StageRead;
    const record = releaseReport(filesFrom({ "job.jobsheet": text }), "job.jobsheet")?.readings.findLast((it) => it.of === "Roller on its pin");
    return [stage.value, stage.outcome, stageVerdict(stage).split(";")[0], record?.against, record?.outcome];
  };
  test("what lies past the range of a new one is never said to be in it, by the readings or by the record", () =>
    expect(last(roller("50.07"))).toEqual([
      "0.14 mm",
      "past new",
      "worn but usable: past new 0.05 .. 0.13 mm, inside its wear limit, by plain comparison",
      "new 0.05 .. 0.13 mm",
      "usable",
    ]));
  test("what lies in it is in", () =>
    expect(last(roller("50.05"))).toEqual(["0.12 mm", "in", "in, new 0.05 .. 0.13 mm, by plain comparison", "new 0.05 .. 0.13 mm", "in"]));
});

test("two shoes read at their positions have no taper and no mean of both; a pin whose form is limited has", () => {
  const sheet = (form: string) => `sheet "Brake"
part shoe "Shoe"
limit lining "Lining"
  worn min 2.0 mm
${form}  read at leading, trailing
  of shoe
  source "Book"
measure lining found
  leading 2.6 mm
  trailing 3.1 mm
`;
  const stage = (form: string) => runThrough(reportingReadings(filesFrom({ "job.jobsheet": sheet(form) }), "job.jobsheet"))?.limits[0]?.places[0]?.stages[0];
  const shoes = stage("");
  expect([shoes?.mean, shoes?.span, shoes?.taper, shoes?.ovality]).toEqual([undefined, undefined, undefined, []]);
  const pin = stage("  taper max 1.0 mm\n");
  expect([pin?.mean, pin?.span, pin?.taper]).toEqual(["2.85 mm", "0.5 mm", "0.5 mm"]);
});
