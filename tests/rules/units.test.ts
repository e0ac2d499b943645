// Rules of units and figures, beyond their own examples: one cause gets one squiggle, and what is right is left alone.
// Figures of conversion stand beside their source; all other figures are what the test itself wrote.
import { describe, expect, test } from "vitest";
import { fixed, fixesOf, said, saidBy } from "./sheets.ts";

const source = '  source "Invented handbook"\n';
const play = `limit play "Play"\n  worn max 0.40 mm\n${source}`;
const read = (...lines: string[]) => `${play}measure play found\n${lines.map((it) => `  ${it}\n`).join("")}`;
const nut = (line: string) => `fastener nut "Nut"\n  ${line}\n`;

/** What all rules of units and figures say of a sheet: rule and words under the squiggle. */
function units(text: string): string[] {
  const lines = text.split("\n");
  return said(text)
    .filter((it) => /^(unit|range|decimal|figure|thread-unknown|pack|currency)/.test(it.rule))
    .map((it) => `${it.rule} [${lines[it.line]?.slice(it.from, it.to)}]`);
}

describe("one cause, one squiggle", () => {
  test.each([
    ["0,38 mm", ["decimal-comma [0,38]"]],
    ["0,38", ["decimal-comma [0,38]"]],
    ["0,38 inn", ["decimal-comma [0,38]"]],
    ["0.38 inn", ["unit-unknown [inn]"]],
    ["0.38", ["unit-missing [0.38]"]],
    ["0.38 N.m", ["unit-kind [N.m]"]],
    ["15 mil", ["unit-ambiguous [mil]"]],
    ["0.36, 0.37, 0.38", ["unit-missing [0.38]"]],
    ["0.36 mm, 0.37, 0.38 mm", ["unit-missing [0.37]"]],
    ["0.36, 0.37, 0.38 mm", []],
    ["0.36 mm, 15 thou, 3/256 in", []],
  ])("a reading of %s", (figures, expected) => expect(units(read(figures))).toEqual(expected));

  test.each([
    ["torque 45", ["range-bare [45]", "unit-missing [45]"]],
    ["torque 45 lbf.ft", ["range-bare [45 lbf.ft]"]],
    ["torque 45 foo", ["unit-unknown [foo]"]],
    ["torque 40 .. 50 mm", ["unit-kind [mm]"]],
    ["torque 40 .. 50 lb", ["unit-ambiguous [lb]"]],
    ["torque 40 .. 50 kg", ["unit-kind [kg]"]],
    ["torque 50 .. 40 N.m", ["range-reversed [50 .. 40 N.m]"]],
    ["torque 40 N.m .. 50", ["unit-missing [50]"]],
    ["torque max 50 lb.ft", []],
    ["torque 40 to 50 ft-lbs", []],
    ["torque 45 +/- 5 Nm", []],
    ["locked by split pin 1/8 x 1", ["unit-missing [1]"]],
    ["locked by lock wire 1 mm x 180 mm", []],
    ["recheck after 50 mi", []],
    ["recheck after 10 h", []],
    ["recheck after 50 kg", ["unit-kind [kg]"]],
  ])("a fastener with %s", (line, expected) => expect(units(nut(line)).sort()).toEqual([...expected].sort()));

  test("a broken line has its fault and nothing else", () => {
    expect(units(nut("torque 45-55 foo"))).toEqual([]);
  });
});

describe("unit-missing", () => {
  test("offers the limit's unit, and that of the neighbours where it is another", () => {
    expect(fixesOf("unit-missing", read("0.38"))).toEqual([["Write 0.38 mm"]]);
    expect(fixesOf("unit-missing", read("15 thou, 0.36"))).toEqual([["Write 0.36 mm", "Write 0.36 thou"]]);
    expect(fixed("unit-missing", read("0.38   # by feel"))).toBe(read("0.38 mm   # by feel"));
  });

  test("offers the unit of a spread, an ovality or a taper, where the limit has nothing else", () => {
    for (const [line, unit] of [
      ["spread max 0.03 mm", "mm"],
      ["ovality max 2 thou", "thou"],
      ["taper max 0.02 mm", "mm"],
    ])
      expect(fixesOf("unit-missing", `limit bore "Bore"\n  ${line}\n${source}measure bore found\n  0.02\n`)[0]).toEqual([`Write 0.02 ${unit}`]);
  });

  test("offers what is usual where nothing tells", () => {
    expect(fixesOf("unit-missing", nut("torque max 45"))).toEqual([["Write 45 N.m", "Write 45 lbf.ft"]]);
    // Fractions are inches.
    expect(fixesOf("unit-missing", nut("locked by split pin 1/8 x 1"))).toEqual([["Write 1 in"]]);
    expect(fixesOf("unit-missing", nut("locked by split pin 4 x 40"))).toEqual([["Write 40 mm", "Write 40 in"]]);
    expect(fixesOf("unit-missing", 'supplier s "S"\n  lead 9\n  duty 4\n')).toEqual([["Write 9 d"], ["Write 4 %"]]);
  });

  test("offers a fluid the unit of its capacity, and asks one of it wherever it is named", () => {
    const oil = 'part box "Box"\nfluid oil "Oil"\n  in box\n  capacity 2 imp.pt\n';
    expect(fixesOf("unit-missing", `${oil}step a "A"\n  drain oil 2\nstock oil 1\n`)).toEqual([["Write 2 imp.pt"], ["Write 1 imp.pt"]]);
    expect(units(`${oil}stock oil 500 ml\nstock box 1\nneed "Rags" 2 "wiping"\nneed "Grease" 100 g "packing"\n`)).toEqual([]);
    expect(units(`${oil}stock box 2 kg\n`)).toEqual(["unit-kind [kg]"]);
  });

  test("a plain number beside a length in what a limit is worked out from", () => {
    const sheet = (expression: string) =>
      `limit bore "Bore"\n  worn max 20 mm\n${source}limit shaft "Shaft"\n  worn min 19 mm\n${source}limit gap "Gap"\n  = ${expression}\n  worn max 0.5 mm\n${source}`;
    expect(fixesOf("unit-missing", sheet("bore - shaft - 0.1"))).toEqual([["Write 0.1 mm"]]);
    expect(fixesOf("unit-missing", sheet("bore * sin(30)"))).toEqual([["Write 30 deg"]]);
    // A factor has no unit, and nothing is nothing in any unit.
    expect(units(sheet("(bore - shaft) / 2"))).toEqual([]);
    expect(units(sheet("max(0, bore - shaft)"))).toEqual([]);
  });
});

describe("unit-unknown", () => {
  test("a fit that touches its unit", () => {
    const sheet = (fit: string) => `limit bore "Bore"\n  new ${fit}\n${source}`;
    expect(saidBy("unit-unknown", sheet("25H7mm"))).toEqual(["2 error [H7mm] `H7mm` isn't a unit. Write a space between a fit and its unit: 25 H7 mm."]);
    expect(fixed("unit-unknown", sheet("25H7mm"))).toBe(sheet("25 H7 mm"));
  });

  test("a thread behind a locking, whose size is a length", () => {
    expect(saidBy("unit-unknown", nut("locked by lock nut 1/2 BSF"))).toEqual([
      "2 error [BSF] `BSF` is a thread, and the thread is the fastener's own. A size here is a length: 1/2 in.",
    ]);
    expect(fixed("unit-unknown", nut("locked by lock nut 1/2 BSF"))).toBe(nut("locked by lock nut 1/2 in"));
  });

  test("the nearest unit of what belongs there, and none where none is near", () => {
    expect(fixesOf("unit-unknown", nut("torque max 45 lbf.fr"))).toEqual([["Write lbf.ft"]]);
    expect(saidBy("unit-unknown", nut("torque max 45 hands"))).toEqual([
      "2 error [hands] `hands` isn't a unit that Splitpin knows. Write a torque: N.m, lbf.ft or another.",
    ]);
  });
});

describe("unit-kind", () => {
  const limits = `limit bore "Bore"\n  worn max 20 mm\n${source}limit drag "Drag"\n  worn max 2 N.m\n${source}limit pull "Pull"\n  worn min 20 N\n${source}limit lean "Lean"\n  worn max 3 deg\n${source}`;
  const worked = (expression: string, band: string) => saidBy("unit-kind", `${limits}limit out "Outcome"\n  = ${expression}\n  worn max ${band}\n${source}`);

  test.each([
    ["bore - drag", "5 mm", "14 error [drag] `bore` is a length and `drag` is a torque: they can't be taken from one another."],
    ["bore + lean", "5 mm", "14 error [lean] `bore` is a length and `lean` is an angle: they can't be added."],
    ["bore * bore", "5 mm", "14 error [bore * bore] This comes out as a length times a length, and outcome is given as a length."],
    ["bore / 2", "5 N.m", "14 error [bore / 2] This comes out as a length, and outcome is given as a torque."],
    ["bore / bore", "5 mm", "14 error [bore / bore] This comes out as a plain number, and outcome is given as a length."],
    ["bore * sin(bore)", "5 mm", "14 error [bore] `sin` takes an angle, and this is a length. Write an angle, in deg."],
    ["max(bore, pull)", "5 mm", "14 error [pull] `bore` is a length and `pull` is a force: they can't be compared."],
    ["5 kg + bore", "5 mm", "14 error [bore] 5 kg is a mass and `bore` is a length: they can't be added."],
  ])("%s against %s", (expression, band, expected) => expect(worked(expression, band)).toEqual([expected]));

  test.each([
    ["sqrt(bore * bore + bore * bore)", "5 mm"],
    ["bore * tan(lean)", "5 mm"],
    ["bore * 3/4", "5 in"],
    ["span(bore) + 5 thou", "5 mm"],
    ["bore / bore", "95 %"],
    ["abs(bore - mean(bore))", "5 mm"],
  ])("%s against %s is right", (expression, band) => expect(worked(expression, band)).toEqual([]));

  test("a force times a length is no torque here: it would be worked out in N and mm, a thousand times too large", () => {
    expect(worked("pull * bore", "5 N.m")).toEqual(["14 error [pull * bore] This comes out as a force times a length, and outcome is given as a torque."]);
  });

  test("pounds that press, and a spanner in kg", () => {
    expect(fixesOf("unit-kind", `${limits}measure pull found\n  5 lb\n`)).toEqual([["Write lbf"]]);
    expect(fixesOf("unit-kind", nut("torque max 3 kg"))).toEqual([["Write kgf.m", "Write kgf.cm"]]);
  });

  test("the ranges of one limit go together, and with a declaration in a used file", () => {
    expect(units(`limit a "A"\n  new 1 .. 2 mm\n  worn max 3 N\n  taper max 2 deg\n${source}`)).toEqual(["unit-kind [N]", "unit-kind [deg]"]);
    expect(saidBy("unit-kind", 'use "d.jobsheet"\nlimit a\n  worn max 3 N\n', { "d.jobsheet": `limit a "A"\n  new 1 .. 2 mm\n${source}` })).toEqual([
      "3 error [N] 3 N is a force, but a is given as a length.",
    ]);
  });

  test("a gauge that reads something else", () => {
    const gauges = 'gauge wrench "Torque wrench"\n  range 20 .. 100 N.m\ngauge dial "Dial gauge"\n  resolution 0.01 mm\n  uncertainty 0.01 mm\n';
    expect(saidBy("unit-kind", `${gauges}${limits}measure bore found by wrench\n  19 mm\n`)).toEqual([
      "18 error [wrench] Torque wrench reads a torque, and bore is a length. Name the gauge that was used.",
    ]);
    expect(saidBy("unit-kind", `${gauges}${nut("torque 20 .. 30 N.m")}step a "A"\n  tighten nut to 25 N.m by dial\n`)).toEqual([
      "9 error [dial] Dial gauge reads a length, and a nut is tightened by a torque. Name the wrench that was used.",
    ]);
    expect(
      units(`${gauges}${limits}measure bore found by dial\n  19 mm\n${nut("torque 20 .. 30 N.m")}step a "A"\n  tighten nut to 25 N.m by wrench\n`),
    ).toEqual([]);
  });

  test("an uncertainty in per cent is a share of the reading", () => {
    expect(saidBy("unit-kind", 'gauge wrench "Torque wrench"\n  range 20 .. 100 N.m\n  uncertainty 4 %\n')).toEqual([]);
    expect(saidBy("unit-kind", 'gauge wrench "Torque wrench"\n  range 20 .. 100 N.m\n  resolution 4 %\n')).toEqual([
      "3 error [%] 4 % is a share of the reading. Write how much it comes to where the gauge is used, in the unit that it reads.",
    ]);
    // Where the gauge itself reads per cent, it is one.
    expect(saidBy("unit-kind", 'gauge tester "Coolant tester"\n  range 0 .. 60 %\n  uncertainty 2 %\n')).toEqual([]);
  });
});

describe("unit-ambiguous", () => {
  test.each([
    // NIST SP 811 Appendix B: US pint 473.176473 ml; imperial pint 568.26125 ml.
    ['part p "P"\nfluid o "O"\n  in p\n  capacity 3 pints\n', ["Write us.pt (473 ml)", "Write imp.pt (568 ml)"]],
    // NIST SP 811: US fluid ounce 29.57353 ml; imperial 28.41306 ml.
    ['part p "P"\nfluid o "O"\n  in p\n  capacity 3 oz\n', ["Write us.floz (29.6 ml)", "Write imp.floz (28.4 ml)"]],
    // NIST SP 811: 1 lbf.ft = 1.355818 N.m; 1 lbf.in = 0.1129848 N.m.
    [nut("torque max 20 lb"), ["Write lbf.ft (1.36 N.m)", "Write lbf.in (0.113 N.m)"]],
    // NIST SP 811: short ton 907.1847 kg; long ton 1016.047 kg.
    ['part p "P"\n  mass 2 ton\n', ["Write us.ton (907 kg)", "Write imp.ton (1020 kg)", "Write t (1000 kg)"]],
    // 1 mil = 0.001 in = 0.0254 mm where it is not a millimetre.
    [`limit a "A"\n  worn max 3 mil\n${source}`, ["Write thou (0.0254 mm)", "Write mm (a millimetre)"]],
  ])("%s", (sheet, titles) => expect(fixesOf("unit-ambiguous", sheet)).toEqual([titles]));

  test("pounds and ounces are masses where a mass belongs", () => {
    expect(units('part p "P"\n  mass 20 lb\npart q "Q"\n  mass 8 oz\n')).toEqual([]);
  });
});

describe("ranges", () => {
  test("what wears down is offered `min` first", () => {
    expect(fixesOf("range-bare", `limit a "A"\n  new 24.95 .. 25.00 mm\n  worn 24.80 mm\n${source}`)).toEqual([
      ["Write min 24.80 mm", "Write max 24.80 mm", "Write 24.80 +/- ___, for how far it may be off"],
    ]);
    expect(fixed("range-bare", nut("torque 50 lbf.ft dry"), 2)).toBe(nut("torque 50 +/- ___ lbf.ft dry"));
  });

  test("ends are turned round with their units", () => {
    // 1 in = 25.4 mm exactly.
    expect(fixed("range-reversed", `limit a "A"\n  worn 1 in .. 25 mm\n${source}`)).toBe(`limit a "A"\n  worn 25 mm .. 1 in\n${source}`);
    expect(units(`limit a "A"\n  worn 25 mm .. 1 in\n${source}`)).toEqual([]);
    expect(units(`limit a "A"\n  worn 1 in .. 25.4 mm\n${source}`)).toEqual([]);
  });

  test("of two deviations the upper stands first", () => {
    expect(fixed("range-reversed", `limit a "A"\n  new 25 -0.01 +0.02 mm\n${source}`)).toBe(`limit a "A"\n  new 25 +0.02 -0.01 mm\n${source}`);
    expect(fixed("range-reversed", `limit a "A"\n  new 25 -0.02 0 mm\n${source}`)).toBe(`limit a "A"\n  new 25 +0 -0.02 mm\n${source}`);
    expect(units(`limit a "A"\n  new 25 +0.021 0 mm\n${source}`)).toEqual([]);
  });

  test("a fit that the table has not got stays quiet here", () => {
    expect(units(`limit a "A"\n  new 25 H7 mm\n${source}`)).toEqual([]);
  });
});

describe("decimal-comma", () => {
  test("three figures behind it may be thousands, and in a reading two figures", () => {
    expect(fixesOf("decimal-comma", nut("torque max 1,250 N.m"))).toEqual([["Write 1.250", "Write 1250"]]);
    expect(fixesOf("decimal-comma", nut("torque max 1,250,000 N.m"))[0]).toContain("Write 1250000");
    expect(fixesOf("decimal-comma", read("14,15 mm"))).toEqual([["Write 14.15", "Write 14, 15"]]);
    expect(fixesOf("decimal-comma", read("0,125 mm"))).toEqual([["Write 0.125"]]);
  });

  test("in money and in counts too", () => {
    expect(units('supplier s "S"\n  freight 8,50 GBP\n')).toEqual(["decimal-comma [8,50]"]);
    expect(units(nut("torque 20 .. 30 N.m dry K 0,2"))).toEqual(["decimal-comma [0,2]"]);
  });
});

describe("thread-unknown", () => {
  test("dangerous where it reads as quite another size", () => {
    // ASME B1.1: No. 10 is 0.060 + 10 x 0.013 = 0.190 in across.
    expect(saidBy("thread-unknown", nut("thread 10-32"))).toEqual([
      "2 error [10-32] 10-32 reads as 10 inches across. The numbered size, 0.19 in, is written No.10-32 UNF.",
    ]);
  });

  test("the count tells the series, or the series the count", () => {
    // ASME B1.1: 5/8 in has 18 threads in UNF, and 11 in UNC; 1/2 in has 20 in UNF.
    expect(fixesOf("thread-unknown", nut("thread 5/8-18"))).toEqual([["Write 5/8-18 UNF"]]);
    expect(fixed("thread-unknown", nut("thread 1/2-18 UNF LH"))).toBe(nut("thread 1/2-20 UNF LH"));
  });

  test("known, and free texts", () => {
    for (const thread of ["5/8-18 UNF", "1/2 BSF", "M10", "M10x1.25", "2 BA", "No.10-32 UNF LH", '"Square, 6 to the inch"'])
      expect(units(nut(`thread ${thread}`))).toEqual([]);
  });
});

describe("figure-slip", () => {
  const gap = (figures: string, more = "") => `limit gap "Gap"\n  new 0.25 .. 0.30 mm\n  worn max 0.45 mm\n${source}measure gap found\n  ${figures}\n${more}`;

  test("a point, or a unit", () => {
    expect(fixesOf("figure-slip", gap("2.7 mm"))[0]?.slice(0, -1)).toEqual(["Write 0.27 mm"]);
    // 0.27 in = 6.858 mm; read in mm and written as in.
    // Another figure is another testimony, so somebody is left to say why.
    expect(fixed("figure-slip", gap("0.27 in"))).toBe(gap("0.27 mm", '  note "___"\n'));
    expect(fixesOf("figure-slip", gap("270 mm"))[0]?.slice(0, -1)).toEqual(["Write 270 um"]);
  });

  test("accepted with the reason it is answered", () => {
    const sheet = gap("2.7 mm");
    const accepted = fixed("figure-slip", sheet, 1);
    expect(accepted).toBe(gap("2.7 mm", '  accept figure-slip "___"\n'));
    // A blank accepts nothing; words do.
    expect(saidBy("figure-slip", accepted as string)).toHaveLength(1);
    expect(saidBy("figure-slip", (accepted as string).replace("___", "It was that wide"))).toEqual([]);
  });

  test("one unit for several figures is not changed for one of them", () => {
    expect(fixesOf("figure-slip", gap("0.27, 2.8 mm"))).toEqual([["Write 0.28 mm", 'Accept the figure as it is: `accept figure-slip "…"`']]);
    expect(fixed("figure-slip", gap("0.27, 2.8 mm"))).toBe(gap("0.27, 0.28 mm", '  note "___"\n'));
  });
});

describe("figure-too-fine", () => {
  const with0 = (resolution: string, figures: string) =>
    units(`gauge g "Gauge"\n  resolution ${resolution}\nlimit gap "Gap"\n  worn max 30 mm\n${source}measure gap found by g\n  ${figures}\n`).filter((it) =>
      it.startsWith("figure-too-fine"),
    );

  test.each([
    ["0.0005 in", "0.0125 in", 0],
    ["0.001 in", "0.01433 in", 1],
    ["0.0005 in", "0.01250 in", 0],
    ["0.0005 in", "0.0127 in", 0],
    ["0.0005 in", "12.5 thou", 0],
    ["0.0005 in", "12.55 thou", 1],
    ["0.01 mm", "2.345 cm", 0],
    ["0.01 mm", "2.3456 cm", 1],
    ["0.02 mm", "1.03 mm", 0],
    ["0.01 mm", "0.12345 in", 0],
    ["1/64 in", "0.125 in", 0],
    ["1 mm", "12 mm", 0],
    ["1 mm", "12.5 mm", 1],
  ])("a gauge that reads %s, and %s", (resolution, figures, count) => expect(with0(resolution, figures)).toHaveLength(count));
});

describe("money and packs", () => {
  const offer = (price: string, pack: string) => `supplier s "S"\noffer "Tube of sealant" from s\n  price ${price}\n  pack ${pack}\n`;

  test("a pack that is an amount is one pack at its price, and so is a pack of one", () => {
    expect(units(offer("9.40 GBP", "1 l"))).toEqual([]);
    expect(units(offer("9.40 GBP", "1"))).toEqual([]);
    expect(units(offer("9.40 GBP", "2"))).toEqual(["pack-ambiguous [9.40 GBP]"]);
    expect(fixed("pack-ambiguous", offer("9.40 GBP", "2"), 1)).toBe(offer("9.40 GBP each", "2"));
  });

  test("decimals by ISO 4217", () => {
    // ISO 4217: JPY has no minor unit, KWD three decimals, GBP two.
    expect(units(offer("940 JPY", "1"))).toEqual([]);
    expect(units(offer("9.405 KWD", "1"))).toEqual([]);
    expect(saidBy("currency-unknown", offer("9.5 JPY", "1"))).toEqual(["3 error [9.5 JPY] 9.5 has 1 decimal, and JPY has none. Write what is paid."]);
    expect(fixed("currency-unknown", offer("9.400 GBP", "1"))).toBe(offer("9.40 GBP", "1"));
    expect(fixesOf("currency-unknown", offer("9.405 GBP", "1"))).toEqual([[]]);
  });

  test("a rate of exchange has the decimals that it needs", () => {
    expect(units("rate 1 USD = 0.79345 GBP\n")).toEqual([]);
    expect(units("rate 1 USD = 0.79345 GBX\n")).toEqual(["currency-unknown [GBX]"]);
  });
});

test("hours and minutes in one word are their minutes, and no half of them is left out", () => {
  const text = 'step a "A"\n  takes 1h30\n';
  expect(saidBy("unit-unknown", text)).toEqual(["2 error [1h30] A quantity has one figure and one unit. Write 90 min."]);
  expect(fixed("unit-unknown", text)).toBe('step a "A"\n  takes 90 min\n');
  // What has a figure in it and is no time is near to no unit.
  expect(fixesOf("unit-unknown", 'step a "A"\n  takes 1h75x\n')).toEqual([[]]);
});

test("a week is told to be written in days, and millimetres of time to be minutes, but other figures of another kind are not guessed at", () => {
  expect(saidBy("unit-unknown", 'step a "A"\n  takes 1 week\n')).toEqual(["2 error [week] `week` isn't a unit that Splitpin knows. Write it in days, d."]);
  expect(saidBy("unit-kind", 'step a "A"\n  takes 30 mm\n')).toEqual(["2 error [mm] 30 mm is a length, but a time is wanted here: is 30 min meant?"]);
  expect(saidBy("unit-kind", 'step a "A"\n  takes 30 in\n')).toEqual(["2 error [in] 30 in is a length, but a time is wanted here."]);
});

test("a week of waiting is seven days, and how many days of work it has nobody guesses", () => {
  expect(fixed("unit-unknown", 'supplier forge "Forge"\n  lead 3 weeks\n')).toBe('supplier forge "Forge"\n  lead 21 days\n');
  expect(fixed("unit-unknown", 'fastener hub-nut "Hub nut"\n  recheck after 2 wk\n')).toBe('fastener hub-nut "Hub nut"\n  recheck after 14 days\n');
  expect(fixesOf("unit-unknown", 'step a "A"\n  takes 2 weeks\n')).toEqual([[]]);
  expect(fixesOf("unit-unknown", 'supplier forge "Forge"\n  lead 1.5 weeks\n')).toEqual([[]]);
});
