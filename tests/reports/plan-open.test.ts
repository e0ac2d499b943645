// What a plan says of what nobody has planned, of what nobody knows, and of gauges that run out: worked out by hand from each sheet.
import { describe, expect, test } from "vitest";
import { planSections } from "../../server/reports/plan/sections.ts";
import { comesWords, jobWords, makeWords, parcelSlackWords } from "../../server/reports/plan/words.ts";
import { planOfText, waitsOfStep } from "./plan-sheets.ts";
import { asPage } from "../in-one-go.ts";

const words = (text: string, from?: string) => {
  const report = planOfText(text, from);
  return jobWords(report.jobs[0] as (typeof report.jobs)[number], report).join(" ");
};

describe("what has no step", () => {
  const strip = `sheet "Hub"
places side left, right
part hub "Hub"
  each side
  held by nut
part cap "Grease cap"
fastener nut "Hub nut"
  each side
  torque 10 .. 20 N.m
fluid grease "Grease"
  in hub
  capacity 50 ml
stock grease 100 ml "Shelf" 2026-05-01
day 2026-05-01
step off "Off"
  remove cap
  undo nut
  remove hub
  done
`;

  // Two hubs, two nuts, one cap; the grease went with the hubs.
  test("is counted before any finish", () =>
    expect(words(strip)).toMatch(/^5 things that are off and 1 that is drained have no step yet\. Nothing more is planned; 1 step done\.$/));

  test("what a step puts back is not counted, and what it puts back slack is", () => {
    const back = `${strip}step on "On"\n  takes 1 h\n  fit hub left\n  fit nut left\n`;
    expect(planOfText(back).jobs[0]?.withoutStep).toEqual({ off: 3, slack: 1, drained: 1 });
    expect(words(back)).toContain("Earliest end of what is planned: 2026-06-01 (1 h).");
  });

  test("with everything planned it is the finish", () => {
    const all = `${strip}step on "On"\n  takes 1 h\n  fit hub\n  tighten nut to 15 N.m\n  fill grease 50 ml\n  fit cap\n`;
    expect(planOfText(all).jobs[0]?.withoutStep).toEqual({ off: 0, slack: 0, drained: 0 });
    expect(words(all)).toMatch(/^Earliest finish: 2026-06-01 \(1 h\)\./);
  });

  test("what is discarded needs no step", () => {
    const gone = `${strip}finding cap\n  is broken\n  decision discard\n`;
    expect(planOfText(gone).jobs[0]?.withoutStep.off).toBe(4);
  });
});

describe("a parcel that is overdue", () => {
  const sheet = `sheet "Seal"
part seal "Seal"
supplier weir "Weir Lane"
  lead 5 d
day 2026-04-01
order "W-7" to weir
  status placed 2026-04-01
  item seal 1
step on "Seal in"
  takes 2 h
  fit seal new
`;
  // Placed on 1 April with five days' lead: due on the 6th, and on 1 June 56 days late (24 of April, 31 of May, 1 of June).
  const report = planOfText(sheet);

  test("leaves the finish unknown, and says why", () => expect(words(sheet)).toContain("Finish: not known. It waits for seal (order W-7), 56 days overdue."));
  test("has nothing to spare, and no day by which it may come", () => {
    const [parcel] = report.parcels;
    expect(parcel?.slack).toBeNull();
    expect(parcel && [comesWords(parcel), parcelSlackWords(parcel)]).toEqual(["was due 56 days ago: ask where it is", ""]);
  });
  test("its innocent twin, on its way in time, has a finish", () => expect(words(sheet, "2026-04-02")).toContain("Earliest finish: 2026-04-06 (4 d 2 h)."));
});

test("work that is out and late is asked for, though no step takes it yet", () => {
  const sheet = `sheet "Spring"
part spring "Spring"
supplier weir "Weir Springs"
  lead 20 d
step off "Off"
  remove spring
  done 2026-04-01
order "W-8" to weir
  status sent 2026-04-02
  work spring "New main leaf"
`;
  // Sent on 2 April with twenty days' lead: due on the 22nd, and on 1 June 40 days late (8 of April, 31 of May, 1 of June).
  expect(planOfText(sheet).notPlanned.map((it) => [it.kind, it.order, comesWords(it)])).toEqual([["work", "W-8", "was due 40 days ago: ask where it is"]]);
  const back = `${sheet}order "W-8" to weir\n  status received 2026-04-20\n`;
  expect(planOfText(back).notPlanned).toEqual([]);
});

describe("a gauge whose check runs out", () => {
  const sheet = (checked: string) => `sheet "Cap"
gauge wrench "Torque wrench"
  checked ${checked} every 12 months
fastener bolt "Cap bolt"
  torque 20 .. 24 N.m
part seal "Seal"
supplier weir "Weir Lane"
  lead 10 d
offer seal from weir
  price 1.00 GBP each
step seal-in "Seal in"
  takes 1 h
  fit seal new
step cap-on "Cap on"
  after seal-in
  takes 1 h
  tighten bolt to 22 N.m by wrench
`;
  // The seal comes on 11 June, ten days after 1 June; the cap waits for it.
  test("before its step is a thing to send for", () =>
    expect(planOfText(sheet("2025-06-05")).gauges.map((it) => [it.gauge, it.due, it.step, it.day])).toEqual([
      ["wrench", "2026-06-05", "Cap on", "2026-06-11"],
    ]));
  test("so is one that a reading behind that step is to be taken with, and that has no figure yet", () => {
    const read = (figure: string) => `${sheet("2025-12-01")}gauge bore "Bore gauge"
  checked 2025-06-05 every 12 months
limit size "Bore"
  worn max 30.10 mm
measure size final by bore
${figure}`;
    expect(planOfText(read("")).gauges.map((it) => [it.gauge, it.due, it.step, it.day])).toEqual([["bore", "2026-06-05", "Bore", "2026-06-11"]]);
    expect(planOfText(read("  30.02 mm\n")).gauges).toEqual([]);
  });
  test("on the day itself it still holds", () => expect(planOfText(sheet("2025-06-11")).gauges).toEqual([]));
  test("and it is said with what must be sent today", () => expect(planOfText(sheet("2025-06-10")).gauges).toHaveLength(1));
});

describe("what is to be made", () => {
  const keyed = `sheet "Flywheel"
part key "Flywheel key"
day 2026-05-01
step off "Off"
  remove key
  done
finding key
  is worn
  decision make "Gib key, filed and blued"
`;
  const on = `step on "Key in"
  fit key new
`;

  test("comes in no parcel: it is to be made, and the step that fits it waits for it", () => {
    const report = planOfText(`${keyed}${on}`);
    expect(report.parcels).toEqual([]);
    expect(report.toMake.map(makeWords)).toEqual(["Flywheel key: Gib key, filed and blued (“Key in” waits for it)"]);
    expect(report.steps.find((it) => it.step === "on")).toMatchObject({ state: "waiting", waitsFor: [{ text: "flywheel key, to be made" }] });
  });

  test("is asked for where no step fits it, and no more once it is in", () => {
    expect(planOfText(keyed).toMake.map(makeWords)).toEqual(["Flywheel key: Gib key, filed and blued (no step fits it yet)"]);
    expect(planOfText(`${keyed}${on}  done 2026-05-02\n`).toMake).toEqual([]);
  });

  test("what is renewed is bought as before", () => {
    const bought = planOfText(`${keyed.replace('make "Gib key, filed and blued"', "renew")}${on}`);
    expect([bought.toMake, bought.parcels.map((it) => it.items.map((item) => item.item))]).toEqual([[], [["key"]]]);
  });
});

test("a column of what there is to spare stands only where a step has something to spare, or none", () => {
  const sheet = (rest: string) => `sheet "Hub"\npart cap "Grease cap"\nday 2026-05-01\nstep off "Off"\n  remove cap\n  takes 1 h\n${rest}`;
  const page = (rest: string) => asPage(planSections(planOfText(sheet(rest), "2026-05-01")));
  expect(page("  done\n")).not.toContain(">To spare<");
  expect(page('step on "On"\n  fit cap\n  takes 1 h\n')).toContain(">To spare<");
});

// The order of the sheet alone says that what is written first of a thing is done first; a step that says `after` one further down turns it round, and neither waits for both.
describe("written the other way round", () => {
  const sheet = (after: string) => `sheet "Turned"
part cap "Cap"
part box "Box"
step first "First"
  takes 1 d
${after}  remove cap
step second "Second"
  takes 2 d
  fit cap
`;
  test("an `after` a step further down is kept, and the order of the sheet gives way to it: no circle", () => {
    const report = planOfText(sheet("  after second\n"));
    expect([waitsOfStep(report, "first"), waitsOfStep(report, "second"), report.circles]).toEqual([["second"], [], []]);
    expect(report.steps.map((it) => [it.step, Number(it.earliestStart?.days), Number(it.earliestFinish?.days)])).toEqual([
      ["first", 2, 3],
      ["second", 0, 2],
    ]);
  });
  test("its innocent twin: without it the sheet's order holds", () => {
    const report = planOfText(sheet(""));
    expect([waitsOfStep(report, "first"), waitsOfStep(report, "second"), report.circles]).toEqual([[], ["first"], []]);
  });
  test("two that say `after` one another are a circle", () => {
    const report = planOfText(sheet("  after second\n").replace("  fit cap", "  after first\n  fit cap"));
    expect(report.circles).toHaveLength(1);
  });
});

// A `takes` that can't be read says nothing, whether it stands behind one that can be or alone: a day, and not known.
test("a time that can't be read takes no other's place", () => {
  const step = (lines: string) => planOfText(`sheet "T"\npart cap "Cap"\nstep a "A"\n${lines}  remove cap\n`).steps[0]?.earliestFinish?.days;
  expect(Number(step("  takes 1 d\n"))).toBe(1);
  expect(Number(step("  takes 1 d\n  takes oh well\n"))).toBe(1);
});
