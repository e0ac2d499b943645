// What the gate and the record say: what is open by its step with each advice once; what went on new, in order; a renewed part as made; who is to look.
import { describe, expect, test } from "vitest";
import { asText } from "../../server/reports/draw/as-text.ts";
import type { ReleaseReport } from "../../server/reports/release/shapes.ts";
import { releaseSections } from "../../server/reports/release/sections.ts";
import { byGroup, byStep } from "../../server/reports/release/words.ts";
import { filesFrom } from "./sheets.ts";
import { asPage, releaseReport } from "../in-one-go.ts";

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
    expect(hubs?.matters.map((it) => [it.advice !== undefined, it.rows.length])).toEqual([[true, 2]]);
    // One line that speaks of two places is one row.
    expect(hubs?.matters[0]?.rows.map(({ said }) => said)).toEqual(["Left and right: hub came off and is not back.", "Cap came off and is not back."]);
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
    expect(report.done[1]?.text).toBe("On: fitted bush new; tightened nut to 20, 25 N.m; locked nut new");
    // On a page the step's title does not run into what was done.
    const page = asPage(releaseSections(report));
    expect(page).toContain('<span class="item">On</span><br><span class="part">fitted bush new; tightened nut to ');
  });
  test("says first that it is no inspection and who is to look, and has the counter and a place to sign", () => {
    const text = asText(releaseSections(report)).split("\n");
    const head = text.find((it) => it.includes("Signed off")) ?? "";
    expect(head).toContain("at 120 h");
    expect(head).toContain("It is a record, not an inspection: Splitpin has not seen the machine.");
    expect(head).toContain("examined by a competent person before it lifts");
    expect(text.some((it) => it.startsWith("Signed:\u00a0____"))).toBe(true);
  });
  test("calls what is to be looked at again by its title", () => expect(report.rechecks.map((it) => it.of)).toEqual(["Nut"]));
});

describe("what the record leaves out would be missed", () => {
  const report = of(`sheet "Winch"
places end port, starboard
part drum "Rope drum"
  held by cap
  critical "the load"
part pawl "Pawl"
fastener cap "Cap nut"
  each end 2
  torque 10 .. 12 N.m
  locked by nothing "x"
limit wire "Lead wire"
  set 0.003 .. 0.006 in by cap
  source "Book"
limit gap "Gap, no limit known"
check holds "Holds the load"
  of drum
finding cap 1 port
  is loose
  decision reuse
finding pawl
  is cracked
  decision make "forged to the old drawing"
finding cap both
  is corroded
measure wire found
  0.021, 0.019 in
measure gap found
  3/64 in
seen holds final good "a turn and a half" by "B. Amaro" 2026-03-02
`);
  const texts = (rows: readonly { readonly text: string }[]) => rows.map((it) => it.text);
  test("how many of them were found so, and how what was decided is to be done", () =>
    expect(texts(report.found).slice(0, 2)).toEqual(["Port cap nut (1 of 2): loose; reuse", "Pawl: cracked; make (forged to the old drawing)"]));
  test("a reading that nothing judges, as it was written; of a setting, whether it was found where it is to be", () =>
    expect(report.readings.map((it) => [it.of, it.value, it.outcome])).toEqual([
      ["Lead wire", "0.021, 0.019 in", "out"],
      ["Gap", "3/64 in", "unjudged"],
    ]));
  test("what was looked at, and who looked", () =>
    expect(report.seen.map((it) => [it.text, it.by, it.day])).toEqual([["Holds the load, final: good (a turn and a half)", "B. Amaro", "2026-03-02"]]));
});

test("a step is told in words: its things by their titles, what stands in quotes as it was said", () => {
  const report = of(`sheet "Winch"
part drum-bush "Drum bush"
fastener guard-bolt "Guard bolt"
hazard air "Air to the motor"
step off "Off"
  safe air "valve chained, drum-bush warm"
  undo guard-bolt 2
  remove drum-bush
  let back guard-bolt by 1/4 turn
  done
`);
  expect(report.done[0]?.text).toBe(
    "Off: made safe air to the motor “valve chained, drum-bush warm”; undid 2 × guard bolt; removed drum bush; let back guard bolt by 1/4 turn",
  );
});

test("where it was done stands before what it was done to, and after it what is said of it", () => {
  const report = of(`sheet "Hubs"
places side left, right
part hub "Hub"
  each side
  held by hub-nut
fastener hub-nut "Hub nut"
  each side
  qty 3
step off "Off"
  undo hub-nut 2 right
  undo hub-nut 1 right
  undo hub-nut left
  remove hub left, right
  fit hub left new
  fit hub right
  done
`);
  expect(report.done[0]?.text).toBe(
    "Off: undid 2 × right hub nut; undid 1 × right hub nut; undid left hub nut; removed left and right hub; fitted left hub new; fitted right hub",
  );
});

test("what was found keeps the reason that was written with it", () => {
  const report = of('sheet "Hub"\npart bearing "Bearing"\nfinding bearing 2026-01-02\n  is serviceable\n  because "Rolls clean; it was the nut"\n');
  expect(report.found.map((it) => it.text)).toEqual(["Bearing: serviceable. \u201cRolls clean; it was the nut\u201d"]);
});

test("a piece that was made went on new, a plate came with its lock, a pin has no torque, an oil says what its metal is from, and whoever worked on it is named", () => {
  const report = of(`sheet "Lift"
part key "Key"
part drum "Drum"
part plate "Lock plate"
fastener nut "Nut"
  torque 20 .. 24 N.m
  locked by part plate
fastener pin "Shoe pin"
  torque none
  locked by split pin 3 x 25 mm
fluid oil "Oil"
  in drum
check bed "Shoes bite together"
  set by pin
supplier tarleton "Tarleton Turners"
step off "Off"
  undo nut
  undo pin
  remove key, drum
  done 2026-03-01
finding oil
  is metallic from drum
finding key
  is worn
  decision make "from key steel"
order "Drum" to tarleton
  status sent 2026-03-02
  work drum "Skim it"
order "Drum" to tarleton
  status received 2026-03-03
step on "On"
  repair key "filed from key steel"
  fit key
  fit drum
  tighten nut to 22 N.m
  lock nut new
  fit pin
  lock pin new
  done 2026-03-04
`);
  const texts = (rows: readonly { readonly text: string }[]) => rows.map((it) => it.text);
  expect(texts(report.fitted)).toEqual(["Key, made", "Lock plate, nut", "Split pin 3 x 25 mm, shoe pin"]);
  expect(report.fast.map((it) => [it.of, it.to, it.lockedBy])).toEqual([
    ["Nut", "22 N.m", "new lock plate"],
    ["Shoe pin", "in, no torque asked", "new split pin 3 x 25 mm"],
  ]);
  expect(texts(report.found)[0]).toBe("Oil: metallic from drum");
  expect(texts(report.outside)).toEqual(["Drum: Skim it (order Drum to Tarleton Turners)"]);
});

describe("a record that whoever buys the machine reads", () => {
  const sheet = (by: string) => `sheet "Engine"
  machine "van"
  opened 2026-03-01
part shaft "Crankshaft"
  critical "the engine"
fluid oil "Sump oil"
  capacity 6 l
limit pin "Crank pin"
  worn min 1.8720 in
  ovality max 0.0010 in
  read at front, rear
  of shaft
  source "Book"
check dry "No weep at the sump or the head, hot"
gauge mic "Outside micrometer"
  uncertainty 0.0001 in
day 2026-03-01
measure pin found by mic
  front 1.8741, 1.8742 in
  rear 1.8740, 1.8742 in
step first "First"
  drain oil 5 l
  done by "A. Moor"
step second "Second"
  fill oil 6 l
  done by "${by}"
seen dry final good "after an hour" by "A. Moor"
release by "A. Moor" 2026-03-02
  test "Ran"
`;
  const textOf = (by: string) => asText(releaseSections(of(sheet(by))));
  test("of a fluid a figure is how much, not how many", () => expect(of(sheet("A. Moor")).done.map((it) => it.text)[1]).toBe("Second: filled sump oil 6 l"));
  test("a difference says which, where, and with what it was read", () =>
    expect(of(sheet("A. Moor")).readings.map((it) => it.text)).toEqual([
      "Crank pin, found: 1.8740 in by outside micrometer against worn min 1.8720 in: in",
      "Crank pin, at front, found: ovality 0.0001 in by outside micrometer against max 0.0010 in: in",
      "Crank pin, at rear, found: ovality 0.0002 in by outside micrometer against max 0.0010 in: in",
    ]));
  test("what a look was for is told whole", () =>
    expect(of(sheet("A. Moor")).seen.map((it) => it.text)).toEqual(["No weep at the sump or the head, hot, final: good (after an hour)"]));
  test("of one who did all of it the name stands once, at the head; of two, at each", () => {
    expect(textOf("A. Moor")).toMatch(/What was done, by A\. Moor\n.*First: drained sump oil 5 l {2}\(/);
    expect(textOf("B. Lee")).toMatch(/What was done\n.*First: drained sump oil 5 l, by A\. Moor {2}\(.*\n.*Second: filled sump oil 6 l, by B\. Lee {2}\(/);
  });
});

describe("what was noted", () => {
  const noted = `sheet "Hub"
  note "A drum of odd bolts came with it"
part hub "Hub"
  note "Ours has the long boss"
question seal "Which way round?"
  about hub
  answer "Lip inwards, by telephone"
order "H 12" to alder
  note "One box for both"
supplier alder "Alder Lane"
  currency GBP
day 2026-03-01
finding hub
  is serviceable
  note "Blue at the mouth"
step off "Hub off"
  remove hub
  note "Grey paste, not black"
  done
step on "Hub on"
  fit hub
  done
`;
  const release = 'release by "A. Orr" 2026-03-02\n  note "Went <b>home</b> on its wheels"\n  test "Round the yard: quiet"\n';

  test("is told in the words of the sheet, each with what it is beside; of what a thing is, nothing", () =>
    expect(of(noted + release).notes.map((it) => [it.line, it.day, it.text])).toEqual([
      [2, undefined, "The job: “A drum of odd bolts came with it”"],
      [7, undefined, "Which way round?: “Lip inwards, by telephone”"],
      [9, undefined, "Order “H 12”: “One box for both”"],
      [15, "2026-03-01", "Hub: serviceable: “Blue at the mouth”"],
      [18, "2026-03-01", "Hub off: “Grey paste, not black”"],
      [24, undefined, "Release: “Went <b>home</b> on its wheels”"],
    ]));
  test("and whoever signs is told to read it, for no program knows all words", () => {
    const text = asText(releaseSections(of(noted + release)));
    expect(text).toContain("Read what was found, seen and noted before you sign");
    expect(text).toContain("What was noted\n");
    // What was never noted has no head.
    const silent = (noted + release).replace(/^ {2}(?:note|answer) .*\n/gm, "");
    expect(asText(releaseSections(of(silent)))).not.toContain("What was noted");
  });
  test("and does nothing on a page", () => expect(asPage(releaseSections(of(noted + release)))).not.toContain("<b>home"));
});

describe("warnings that hold nothing", () => {
  const text = `sheet "Hub"
  machine "van"
part bracket "Bracket"
step up "Up"
  raise on jack
  support on 2 stands under "frame" rated 500 kg each
  lower
  done 2026-03-01
release by "A. Fox" 2026-03-02
  test "Six miles, quiet"
`;
  test("stand in the record, with the headline and by their lines", () => {
    const report = of(text);
    expect(report.released).toBe(true);
    expect(report.warned.map((it) => [it.rule, it.line])).toEqual([["chocks-missing", 5]]);
    const said = asText(releaseSections(report));
    expect(said).toContain("nothing open, and warns of 1 thing");
    expect(said).toContain("Warnings that stand");
  });
  test("and where there are none nothing is said of them", () => {
    const report = of(text.replace("  raise", "  chock\n  raise"));
    expect(report.warned).toEqual([]);
    expect(asText(releaseSections(report))).not.toContain("Warnings that stand");
  });
});
