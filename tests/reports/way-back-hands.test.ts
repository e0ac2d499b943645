// The way back as hands would do it, and what no step of it settles: what was seen to be asked too early, twice, or in the wrong row, put down by hand from the facts of each sheet.
import { describe, expect, test } from "vitest";
import { filesFrom } from "./sheets.ts";
import { wayBack } from "../in-one-go.ts";

test("a name with a comma of its own is told from the next in a step's title; an order that has words for a reference has them in quotes", () => {
  const sheet = `sheet "Hub"
  opened 2026-03-01
part outer "Hub bearing, outer"
part inner "Hub bearing, inner"
supplier s "S"
order "by telephone" to s
  status held 2026-03-02
  item outer 1
  item inner 1
step off
  remove outer, inner
  done 2026-03-02
finding outer
  is worn
  decision renew
finding inner
  is worn
  decision renew
`;
  const back = wayBack(filesFrom({ "job.jobsheet": sheet }), "job.jobsheet");
  expect(back?.entries.map((it) => it.title)).toEqual(["Way back: hub bearing (inner), hub bearing (outer)"]);
  expect(back?.unsettled.map((it) => it.text)).toEqual(["a new hub bearing (outer) and a new hub bearing (inner) wait for order “by telephone”"]);
});

test("all that waits for one answer is one row, and so is what nothing was decided on", () => {
  const sheet = `sheet "Drive"
  opened 2026-03-01
part wheel "Crown wheel, 37 teeth"
part pinion "Pinion"
part bush "Bush"
question pits "Do pits still pass?"
  about wheel, pinion
step off
  remove wheel, pinion, bush
  done 2026-03-02
finding wheel
  is pitted
  decision ask pits
finding pinion
  is pitted
  decision ask pits
finding bush
  is scored
step on
  fit pinion
  done 2026-03-03
`;
  const back = wayBack(filesFrom({ "job.jobsheet": sheet }), "job.jobsheet");
  expect(back?.unsettled).toEqual([
    { text: "“Do pits still pass?” has no answer yet. Crown wheel and pinion wait for it.", file: "job.jobsheet", line: 6 },
    { text: "Bush is scored, and nothing is decided. Write reuse, renew or repair, or ask.", file: "job.jobsheet", line: 17 },
  ]);
});

describe("what no step settles", () => {
  const sheet = (more: string) => `sheet "Frame"
  opened 2026-03-01
part bracket "Engine bracket"
  held by bolt, stud
  critical "the engine"
fastener bolt "Bracket bolt"
  qty 2
  torque 40 .. 50 N.m
  locked by split pin 3 x 20 mm
  critical "the engine"
  source "Book"
fastener stud "Bracket stud nut"
  torque 40 .. 50 N.m
  locked by split pin 3 x 20 mm
  critical "the engine"
  source "Book"
supplier shop "Shop"
order "P-1" to shop
  status received 2026-03-02
  item split pin 3 x 20 mm 1
step off "Off"
  undo bolt, stud
  remove bracket
  done 2026-03-02
finding bracket
  is cracked
  decision repair "welded by the shop"
${more}`;
  const rows = (more: string) => wayBack(filesFrom({ "job.jobsheet": sheet(more) }), "job.jobsheet")?.unsettled.map((it) => [it.text, it.line]);
  const looks = (more: string) =>
    wayBack(filesFrom({ "job.jobsheet": sheet(more) }), "job.jobsheet")?.entries.flatMap((it) => (it.kind === "look" ? [[...it.waits, it.line]] : []));
  const short = ["New split pin 3 x 20 mm: 3 to go in, and this is short: there were fewer, counted in pieces.", 20];
  const mended = 'step mend\n  repair bracket "welded by the shop"\n  done 2026-03-03\n';
  const seen = 'finding bracket 2026-03-04\n  is serviceable\n  because "dye: no crack beside the weld"\n';
  test("a repaired crack that no limit speaks of is looked at again, planned or done, before it goes on", () => {
    expect(looks("")).toEqual([["finding bracket", 25]]);
    expect(looks(mended)).toEqual([["finding bracket", 29]]);
    expect(looks(mended + seen)).toEqual([]);
    expect(rows(mended)).toEqual([short]);
    expect(rows(mended + seen)).toEqual([short]);
    const back = wayBack(filesFrom({ "job.jobsheet": sheet("") }), "job.jobsheet");
    expect(back?.sheet).toMatch(/ {2}repair bracket "welded by the shop"\n\n# finding bracket\n# {3}is \u2026\n\n(?:.*\n)+? {2}fit bracket\n/);
    expect(wayBack(filesFrom({ "job.jobsheet": `${sheet("")}${back?.sheet}` }), "job.jobsheet")?.sheet).toBe("");
    expect(looks('check sound "No crack under dye"\n  of bracket\n')).toEqual([]);
    expect(rows('check sound "No crack under dye"\n  of bracket\n')).toEqual([short]);
  });
  test("pins of which too few came, once for all that they lock", () => {
    expect(rows("")).toContainEqual(short);
    expect(rows('stock split pin 3 x 20 mm 2 "Tin"\n')).toEqual([]);
  });
});

const lines = (text: string) =>
  (wayBack(filesFrom({ "job.jobsheet": text }), "job.jobsheet")?.sheet ?? "").split("\n").filter((it) => it !== "" && !/^# (?:The |A )/.test(it));

describe("as hands would do it", () => {
  /** The lines that begin so, in their order. */
  const order = (text: string, ...starts: string[]) => lines(text).flatMap((it) => starts.filter((start) => it.trim().startsWith(start)));

  const box = `sheet "Steering"
  opened 2026-03-01
part worm "Worm"
  held by adjuster
  behind arm
part arm "Drop arm"
  held by arm-nut
fastener adjuster "Worm adjusting nut"
  locked by lock plate
  critical "steering"
fastener arm-nut "Drop arm nut"
  torque 10 .. 12 N.m
  locked by nothing "x"
  source "Book"
limit float "Worm end float"
  set 0.01 .. 0.06 mm by adjuster
  of worm
  source "Book"
limit play "Play at the rim of the steering wheel"
  set max 20 mm by adjuster
  source "Book"
check lock "Lock to lock without a tight spot"
  of worm
  critical "steering"
measure play found 2026-03-01
  65 mm
step off "Off"
  undo arm-nut
  remove arm
  undo adjuster
  remove worm
  done 2026-03-02
`;
  test("play at the steering wheel is read with the drop arm on, and lock to lock is tried at the end", () =>
    expect(order(box, "fit worm", "measure float final", "fit arm", "tighten arm-nut", "measure play final", "# seen lock")).toEqual([
      "fit worm",
      "measure float final",
      "fit arm",
      "tighten arm-nut",
      "measure play final",
      "# seen lock",
    ]));
  test("an adjusting nut is read before it is locked, at what it sets and not at the wheel", () =>
    expect(lines(box)).toContain(
      "  tighten adjuster  # sets worm end float 0.01 .. 0.06 mm, play at the rim of the steering wheel max 20 mm; read worm end float before you lock it",
    ));

  const engine = (more: string) => `sheet "Engine"
  opened 2026-03-01
part door "Door"
  held by door-nut
part gasket "Door gasket"
  renew with door
part cap "Cap"
  behind door
  held by cap-nut
part shaft "Shaft"
  behind cap
  mass 62 kg
part shell "Shell"
  behind shaft
fastener door-nut "Door nut"
fastener cap-nut "Cap nut"
part wheel "Flywheel"
  held by key
  mass 145 kg
fastener key "Flywheel key"
  torque none
  locked by grub screw
check bedding "Blue along the whole key"
  of key
fluid grease "Bearing grease"
  in cap
  grade "NLGI 2"
${more}`;
  test("a gasket comes off with its door; what is heavy says so as it comes off; grease is not drained", () =>
    expect(lines(engine("finding shell\n  is worn\n  decision renew\n")).slice(0, 10)).toEqual([
      'step back-1 "Way in: door, cap, shaft and the rest"',
      "  undo door-nut",
      "  remove door",
      "  remove gasket",
      "  undo cap-nut",
      "  remove cap",
      "  support shaft on crane  # 62 kg: lifting gear rated for more; until it is down",
      "  remove shaft",
      "  lower shaft  # set down where it can\u2019t roll or fall",
      "  remove shell",
    ]));
  const wheelOff = `step off "Off"
  support wheel on crane under "rim" rated 500 kg
  undo key
  remove wheel
  support wheel on cradle under "timber"
  done 2026-03-02
finding key
  is worn
  decision renew
`;
  test("what goes on from its cradle says what it weighs", () =>
    expect(lines(engine(wheelOff))).toContain("  fit wheel  # 145 kg: lifting gear rated for more; until it is held"));
  test("what is blued is looked at before the planned step that fits it", () => {
    const all = lines(engine(`${wheelOff}step on "On"\n  support wheel on crane rated 500 kg\n  fit wheel\n  fit key new\n  lock key\n`));
    expect(all.slice(all.indexOf("# Before \u201cOn\u201d: look at the piece, then fit it."))[1]).toBe('# seen bedding final good|bad "…" by "…"');
  });
  test("work on what a planned step closes in says before which", () =>
    expect(
      lines(
        engine(`step off "Off"
  undo door-nut
  remove door, gasket
  undo cap-nut
  remove cap
  done 2026-03-02
step shut "Shut"
  fit gasket new
  fit door
  tighten door-nut
`),
      ).filter((it) => / cap/.test(it) && !it.startsWith("step")),
    ).toEqual(["  fit cap  # before \u201cShut\u201d, which closes it in", "  tighten cap-nut  # before \u201cShut\u201d, which closes it in"]));
});

test("what was tried is not read while what it was tried with is off again", () => {
  const sheet = `sheet "Winch"
  opened 2026-03-01
part pinion "Pinion"
  held by pinion-nut
  behind crown
  critical "drive"
fastener pinion-nut "Pinion nut"
  torque 80 .. 90 N.m
  locked by split pin 4 x 40 mm
  critical "drive"
  source "Book"
part crown "Crown wheel"
  held by crown-bolt
  critical "drive"
fastener crown-bolt "Crown wheel bolt"
  qty 4
  torque 40 .. 50 N.m
  locked by lock plate
  critical "drive"
  source "Book"
shims crown-shims "Shims behind the crown wheel"
  have 0.1 mm x 4
limit backlash "Backlash"
  set 0.10 .. 0.20 mm by crown-shims
  critical "drive"
  source "Book"
step off "Off"
  undo crown-bolt
  remove crown
  undo pinion-nut
  remove pinion
  done 2026-03-02
step on "On for a trial"
  fit pinion
  tighten pinion-nut to 85 N.m
  fit crown
  tighten crown-bolt to 45 N.m
  done 2026-03-03
measure backlash trial 2026-03-03
  0.31 mm
`;
  const all = (wayBack(filesFrom({ "job.jobsheet": sheet }), "job.jobsheet")?.sheet ?? "").split("\n").map((it) => it.trim());
  const at = ["remove crown", "lock pinion-nut new", "fit crown", "measure backlash final"].map((start) => all.findIndex((it) => it.startsWith(start)));
  expect(at.includes(-1)).toBe(false);
  expect(at).toEqual([...at].sort((a, b) => a - b));
});

test("a new one has no mark of where it came from", () => {
  const sheet = `sheet "Drum"
  opened 2026-03-01
places side left, right
part drum "Drum"
  each side
  keeps its place
step off "Off"
  remove drum
  done 2026-03-02
finding drum right
  is cracked
  decision renew
`;
  const text = wayBack(filesFrom({ "job.jobsheet": sheet }), "job.jobsheet")?.sheet;
  expect(text).toContain("\n  fit drum left  # back where it came from, by its mark\n");
  expect(text).toContain("\n  fit drum right new  # found cracked, to be renewed\n");
});

describe("a setting that was read outside what it may be", () => {
  const hub = (found: string, more = "") => `sheet "Hub"
  opened 2026-05-01
part cap "Grease cap"
part drum "Brake drum"
part hub "Hub"
  behind drum, cap
  held by hub-nut
  critical "a wheel"
part washer "Thrust washer"
  behind cap
  held by hub-nut
fastener hub-nut "Hub nut"
  torque 20 .. 24 lbf.ft
  let back 1 flat
  locked by split pin 1/8 x 1 in
  critical "a wheel"
  source "Book"
limit hub-float "Hub float"
  set 0.002 .. 0.006 in by hub-nut
  of hub
  critical "a wheel"
  source "Book"
measure hub-float found 2026-05-01
  ${found} in
${more}`;
  test("the nut that sets it is let go by no more than its own way in, done up and locked, and then it is read", () =>
    expect(lines(hub("0.019")).filter((it) => !it.startsWith("step"))).toEqual([
      "  remove cap",
      "  slacken hub-nut  # hub float was 0.019 in, to be set to 0.002 .. 0.006 in",
      "  tighten hub-nut to 22 lbf.ft  # 20 .. 24 lbf.ft: write the figure that you read",
      "  let back hub-nut by 1 flat",
      "  lock hub-nut new",
      "measure hub-float final",
      "  # \u2026  (set 0.002 .. 0.006 in)",
      "  fit cap",
    ]));
  test("inside, nothing is moved", () => expect(lines(hub("0.005"))).toEqual([]));
  test("set again since, it is only read", () =>
    expect(
      lines(
        hub("0.019", "step again\n  slacken hub-nut\n  tighten hub-nut to 22 lbf.ft\n  let back hub-nut by 1 flat\n  lock hub-nut new\n  done 2026-05-01\n"),
      ),
    ).toEqual(["measure hub-float final", "  # \u2026  (set 0.002 .. 0.006 in)"]));
  const shimmed = `sheet "Pinion"
  opened 2026-05-01
part crown "Crown wheel"
  held by crown-nut
  critical "drive"
part pinion "Pinion"
  behind crown
  critical "drive"
shims pinion-shims "Pinion shims"
  have 0.10 mm x 4
  fitted 0.50 mm x 1
fastener crown-nut "Crown wheel nut"
  torque 38 .. 44 N.m
  locked by tab washer
  critical "drive"
  source "Book"
limit drag "Pinion drag, no crown wheel"
  set 0.6 .. 1.0 N.m by pinion-shims
  of pinion
  critical "drive"
  source "Book"
measure drag found 2026-05-01
  0.2 N.m
step out "Out"
  undo crown-nut
  remove crown
  remove pinion
  remove pinion-shims
  done 2026-05-01
`;
  test("shims go back as another stack; what is read with no crown wheel is read before that goes on", () => {
    expect(lines(shimmed).filter((it) => !it.startsWith("step"))).toEqual([
      "  fit pinion-shims  # another stack than was in: pinion drag was 0.2 N.m, to be set to 0.6 .. 1.0 N.m",
      "  fit pinion",
      "measure drag final",
      "  # \u2026  (set 0.6 .. 1.0 N.m)",
      "  fit crown",
      "  tighten crown-nut to 41 N.m  # 38 .. 44 N.m: write the figure that you read",
      "  lock crown-nut new",
    ]);
    expect(wayBack(filesFrom({ "job.jobsheet": shimmed }), "job.jobsheet")?.unsettled.map((it) => it.text)).toEqual([
      "pinion drag was 0.2 N.m, to be set to 0.6 .. 1.0 N.m: change the pinion shims, and write what is then fitted",
    ]);
  });
});

test("what was on for a trial leaves the others in the order in which they came off", () => {
  const sheet = `sheet "Big end"
  opened 2026-03-01
part cap "Cap"
  held by cap-bolt
part rod "Rod"
  behind cap
part piston "Piston"
fastener cap-bolt "Cap bolt"
  torque 30 .. 34 N.m
  locked by tab washer
  source "Book"
step out "Out"
  undo cap-bolt
  remove cap
  remove rod, piston
  done 2026-03-02
step trial "Tried"
  fit cap for now "to measure the bore"
  tighten cap-bolt to 32 N.m for now "to measure the bore"
  undo cap-bolt
  remove cap
  done 2026-03-03
`;
  expect(lines(sheet).filter((it) => it.startsWith("  fit"))).toEqual(["  fit piston", "  fit rod", "  fit cap"]);
});

test("what was ground is measured before it goes in, though it was read in its place; how true it runs, in its place", () => {
  const sheet = `sheet "Crank"
  opened 2026-03-01
part cover "Cover"
part crank "Crank"
  behind cover
  critical "the engine"
limit pin "Crank pin"
  worn min 1.870 in
  of crank
  source "Book"
limit run-out "Crank run-out"
  worn max 0.002 in
  of crank
  source "Book"
step open "Open"
  remove cover
  done 2026-03-01
measure pin found 2026-03-01
  1.868 in
measure run-out found 2026-03-01
  0.004 in
step out "Out"
  remove crank
  done 2026-03-02
finding crank 2026-03-02
  is worn
  decision repair "ground and straightened"
`;
  expect(lines(sheet).filter((it) => !it.startsWith("step") && !it.includes("\u2026"))).toEqual([
    '  repair crank "ground and straightened"',
    "measure pin final",
    "  fit crank",
    "measure run-out final",
    "  fit cover",
  ]);
});

test("what is tried by hand comes before what is seen hot, whichever is declared first", () => {
  const sheet = `sheet "Engine"
  opened 2026-03-01
part head "Head"
  critical "the engine"
fluid coolant "Water"
  in head
check dry "No weep at the head, hot"
  of head
check turns "Turns over by hand without a tight spot"
  critical "the engine"
step off "Off"
  drain coolant
  remove head
  done 2026-03-02
`;
  expect(
    lines(sheet)
      .filter((it) => it.startsWith("# seen"))
      .map((it) => it.split(" ")[2]),
  ).toEqual(["turns", "dry"]);
});

test("on the way in a weight is taken before the first of its pins goes, and what keeps its place is marked", () => {
  const sheet = `sheet "Mast"
  opened 2026-03-01
places side left, right
part carriage "Carriage"
  held by pin
  mass 130 kg
part chain "Chain"
  each side
  held by pin
  keeps its place
fastener pin "Chain pin"
  each side
  torque none
  locked by split pin 4 x 32 mm
finding chain
  is worn
  decision renew
`;
  expect(lines(sheet).slice(1, 5)).toEqual([
    '  mark chain "___"',
    "  support carriage on crane  # 130 kg: lifting gear rated for more; until it is held",
    "  undo pin",
    "  remove chain",
  ]);
});

test("a thread that is given oiled is oiled before it is pulled, where it was washed or others had their oil, and no other", () => {
  const sheet = (line: string) => `sheet "Caps"
  opened 2026-03-01
places journal front, back
part cap "Bearing cap"
  each journal
  held by cap-bolt
fastener cap-bolt "Cap bolt"
  each journal 2
  torque 20 .. 24 lbf.ft oiled
  critical "the engine"
step off
  undo cap-bolt
  remove cap
${line}  done 2026-03-02
`;
  const oils = (line: string) => lines(sheet(line)).filter((it) => /^ {2}(oil|tighten)/.test(it));
  const tighten = "tighten cap-bolt to 22 lbf.ft  # 20 .. 24 lbf.ft oiled: write the figure that you read";
  expect(oils("  clean cap-bolt\n")).toEqual(["  oil cap-bolt", `  ${tighten}`]);
  expect(oils("  clean cap-bolt\n  oil cap-bolt\n")).toEqual([`  ${tighten}`]);
  expect(oils("  oil cap-bolt front\n")).toEqual(["  oil cap-bolt back", `  ${tighten}`]);
  expect(oils("")).toEqual([`  ${tighten}`]);
});
