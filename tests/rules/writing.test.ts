// Rules of writing, beyond their own examples: what is near, what is a slip, and where they hold their tongue.
import { describe, expect, test } from "vitest";
import { nearestNames } from "../../server/model/near.ts";
import { fixed, fixesOf, saidBy } from "./sheets.ts";

describe("near names", () => {
  test("two letters off, one where a name is short, swapped letters count one", () => {
    expect(nearestNames("hbu", ["hub"])).toEqual(["hub"]);
    expect(nearestNames("hub", ["tube"])).toEqual([]);
    expect(nearestNames("hub-nutt", ["hub-nut", "hub-seal"])).toEqual(["hub-nut"]);
    expect(nearestNames("spring", ["string", "screw"])).toEqual(["string"]);
    expect(nearestNames("bearing", ["bushing"])).toEqual([]);
    expect(nearestNames("king-pln", ["king-pin", "king-plug"])).toEqual(["king-pin"]);
  });

  test("names of a series are not near one another", () => {
    for (const [a, b] of [
      ["bolt-3", "bolt-1"],
      ["cyl-1", "cyl-12"],
      ["stud-b", "stud-a"],
      ["bolt-2", "bolt"],
      ["shell2", "shell1"],
    ] as const)
      expect(nearestNames(a, [b])).toEqual([]);
    expect(nearestNames("blot-1", ["bolt-1"])).toEqual(["bolt-1"]);
  });

  test("all that are as near are named, three at the most", () => {
    expect(nearestNames("nut-x1y", ["nut-x2y", "nut-x3y", "nut-x4y", "nut-x5y"])).toEqual(["nut-x2y", "nut-x3y", "nut-x4y"]);
  });

  test("letters beyond Latin are letters", () => {
    expect(nearestNames("bride-arriere", ["bride-arrière"])).toEqual(["bride-arrière"]);
  });
});

describe("name-unknown", () => {
  test("a slip is said at every mention, an undeclared name once", () => {
    const sheet = 'fastener sump-bolt "Sump bolt"\nstep drop "Drop the sump"\n  undo sump-blot\n  remove sump\n  tighten sump-blot\n  fit sump\n';
    expect(saidBy("name-unknown", sheet)).toEqual([
      "3 error [sump-blot] `sump-blot` is not declared. Is `sump-bolt` meant?",
      '4 information [sump] `sump` isn\'t declared, so Splitpin can check little about it. Declare it: part sump "Sump".',
      "5 error [sump-blot] `sump-blot` is not declared. Is `sump-bolt` meant?",
    ]);
  });

  test("only a near name that may stand there counts", () => {
    const sheet = 'gauge sump-bolt "A gauge with an odd name"\n  resolution 0.01 mm\nstep drop "Drop the sump"\n  undo sump-blot\n';
    expect(saidBy("name-unknown", sheet).map((it) => it.split("]")[0])).toEqual(["4 information [sump-blot"]);
  });

  test("declares it at the end of the file, for each kind that it may be", () => {
    const sheet = 'step drop "Drop the sump"\n  remove sump-plate\n';
    expect(fixed("name-unknown", sheet)).toBe('step drop "Drop the sump"\n  remove sump-plate\n\npart sump-plate "Sump plate"\n');
    expect(fixesOf("name-unknown", "finding sump-plate\n  is bent\n")).toEqual([["Declare it as a part", "Declare it as a fastener", "Declare it as a fluid"]]);
  });

  test("a line that can't be read is silent, and so is a name that an unread entry may declare", () => {
    expect(saidBy("name-unknown", 'step a "A"\n  remove sump left right\n')).toEqual([]);
    expect(saidBy("name-unknown", 'fastner sump-bolt "Sump bolt"\nstep a "A"\n  undo sump-bolt\n')).toEqual([]);
  });

  test("an entry that adds to a used declaration under a slipped name", () => {
    const data = { "data.jobsheet": 'part sump "Sump"\nfastener sump-bolt "Sump bolt"\n' };
    const sheet = 'use "data.jobsheet"\nfastener sump-bolts\n  critical "oil"\n';
    expect(saidBy("name-unknown", sheet, data)).toEqual([
      "2 error [sump-bolts] No used file declares `sump-bolts`, so this adds to nothing. Is `sump-bolt` meant?",
    ]);
    // What something else mentions is a thing that was meant.
    expect(saidBy("name-unknown", `${sheet}step a "A"\n  undo sump-bolts\n`, data)).toEqual([]);
    // And of another kind it can't be a slip for it.
    expect(saidBy("name-unknown", 'use "data.jobsheet"\npart sump-bolts\n', data)).toEqual([]);
  });

  test("a used file that is not there is the one error; the places that it may declare are not errors as well", () => {
    const sheet = 'use "data.jobsheet"\nstep a "A"\n  undo sump-bolt left\n  remove sump left\n';
    expect(saidBy("use-missing", sheet)).toHaveLength(1);
    expect(saidBy("name-unknown", sheet).map((it) => it.split("]")[0])).toEqual(["3 information [sump-bolt", "4 information [sump"]);
    expect(saidBy("place-unknown", sheet)).toEqual([]);
  });

  test("accept names a rule, and not a safety rule", () => {
    const sheet = (rule: string) => `part sump "Sump"\n  accept ${rule} "as agreed"\n`;
    expect(saidBy("name-unknown", sheet("part-undecidd"))).toEqual(["2 error [part-undecidd] There is no rule `part-undecidd`. Is `part-undecided` meant?"]);
    expect(saidBy("name-unknown", sheet("part-undecided"))).toEqual([]);
    expect(saidBy("syntax", sheet("part-undecided"))).toEqual([]);
    expect(saidBy("syntax", sheet("locking-left-off"))).toEqual([
      "2 error [locking-left-off] `locking-left-off` is a safety rule and can't be accepted. Cure what it says and delete this line.",
    ]);
  });
});

describe("name-twice", () => {
  test("without a title it adds, in the same file and to a used one", () => {
    expect(saidBy("name-twice", 'part sump "Sump"\npart sump\n  mass 4 kg\n')).toEqual([]);
    expect(saidBy("name-twice", 'use "d.jobsheet"\npart sump\n  mass 4 kg\n', { "d.jobsheet": 'part sump "Sump"\n' })).toEqual([]);
    expect(saidBy("name-twice", 'use "d.jobsheet"\npart sump "Another"\n', { "d.jobsheet": 'part sump "Sump"\n' })).toEqual([
      "2 error [sump] `sump` is a part already, in d.jobsheet. Give this one another name, or leave its title out to add to the first.",
    ]);
  });

  test("of another kind it never adds", () => {
    expect(saidBy("name-twice", 'part sump "Sump"\nfastener sump\n')).toEqual([
      "2 error [sump] `sump` is a part already, at line 1. Give this one another name.",
    ]);
  });

  test("steps are never added to", () => {
    expect(saidBy("name-twice", 'step a "A"\nstep a "B"\n')).toEqual(["2 error [a] `a` is a step already, at line 1. Give this one another name."]);
  });

  test("places of one kind, and a second sheet", () => {
    expect(saidBy("name-twice", "places side left, right\nplaces end left\nplaces side right, centre\n")).toEqual([
      "3 error [right] `right` is a place of the kind `side` already, at line 1. Take it out here.",
    ]);
    expect(saidBy("name-twice", 'sheet "One"\npart a "A"\nsheet "Two"\n')).toEqual([
      "3 error [sheet] This file is the sheet of a job already, at line 1. Put the other job in a file of its own.",
    ]);
  });
});

describe("name-kind", () => {
  test("the verb is changed only where the whole line takes the other", () => {
    const things = 'part sump "Sump"\nfastener sump-bolt "Bolt"\n';
    expect(fixesOf("name-kind", `${things}step a "A"\n  remove sump-bolt\n`)).toEqual([["Write undo"]]);
    expect(fixesOf("name-kind", `${things}step a "A"\n  remove sump, sump-bolt\n`)).toEqual([[]]);
    expect(fixesOf("name-kind", `${things}step a "A"\n  remove sump-bolt 2\n`)).toEqual([[]]);
    expect(fixed("name-kind", `${things}step a "A"\n  undo sump\n`)).toBe(`${things}step a "A"\n  remove sump\n`);
  });

  test("says what belongs there", () => {
    expect(saidBy("name-kind", 'part sump "Sump"\nmeasure sump found\n  0.1 mm\n')).toEqual(["2 error [sump] `sump` is a part; `measure` takes a limit."]);
    expect(saidBy("name-kind", 'part sump "Sump"\nlimit gap "Gap"\n  = sump\n')).toEqual([
      "3 error [sump] `sump` is a part; a limit is worked out from other limits.",
    ]);
  });

  test("a name that nothing declares has no kind to be wrong", () => {
    expect(saidBy("name-kind", 'step a "A"\n  undo cover\n  remove cover\n')).toEqual([]);
  });
});

describe("place-unknown, of a word that is not finished", () => {
  const above = 'places side left, right\nfastener hub-nut "Hub nut"\n  each side\nstep s "S"\n';
  test.each(["ne", "enw", "NEW"])("lock hub-nut %s", (word) => {
    expect(saidBy("place-unknown", `${above}  lock hub-nut ${word}\n`)).toEqual([`5 error [${word}] No place \`${word}\` is declared. Is \`new\` meant?`]);
  });
  test("a place that is called so is one, and another word is no beginning", () => {
    expect(saidBy("place-unknown", `${above.replace("left, right", "ne, sw")}  lock hub-nut ne\n`)).toEqual([]);
    expect(saidBy("place-unknown", `${above}  lock hub-nut front\n`)).toEqual([
      "5 error [front] Hub nut has no place `front`. Its place is `left` or `right`.",
    ]);
  });
});
describe("place-unknown, of two words", () => {
  const nut = 'places side left, right\nfastener hub-nut "Hub nut"\n  each side\nstep off "Off"\n';
  test("the place before the name, and a name without its hyphen, each with its fix", () => {
    expect(saidBy("place-unknown", `${nut}  undo left hub-nut\n`)).toEqual(["5 error [hub-nut] The place comes after the name: hub-nut left."]);
    expect(fixed("place-unknown", `${nut}  undo left hub-nut\n`)).toBe(`${nut}  undo hub-nut left\n`);
    expect(fixed("place-unknown", `${nut}finding left hub-nut 2026-05-04\n  is worn\n`)).toBe(`${nut}finding hub-nut left 2026-05-04\n  is worn\n`);
    expect(saidBy("place-unknown", `${nut}  undo hub nut\n`)).toEqual(["5 error [nut] Is `hub-nut` meant? A name's words are joined by hyphens."]);
    expect(fixed("place-unknown", `${nut}  undo hub nut\n`)).toBe(`${nut}  undo hub-nut\n`);
    const seal = `part hub "Hub"\n  each side\npart seal "Seal"\n  each side\n${nut}`;
    expect(saidBy("place-unknown", `${seal}  remove left hub, seal\n`)).toEqual(["9 error [hub] The place of them all comes last: hub, seal left."]);
    expect(fixed("place-unknown", `${seal}  remove left hub, seal\n`)).toBe(`${seal}  remove hub, seal left\n`);
    expect(fixesOf("place-unknown", `${seal}  remove hub left, seal\n`)).toEqual([[]]);
    // What else the line names may be at that place too.
    expect(fixesOf("place-unknown", `${nut}  undo hub-nut, left hub-nut\n`)).toEqual([[]]);
  });
  test("a place after its name is nothing to say, and of a part that is called as a place is nothing turned round", () => {
    expect(saidBy("place-unknown", `${nut}  undo hub-nut left\n`)).toEqual([]);
    expect(saidBy("place-unknown", `part left "Left"\n${nut}  remove left hub-nut\n`)[0]).not.toContain("comes after");
  });
});

describe("place-unknown, of what is no place", () => {
  const nut = 'places side left, right\nfastener hub-nut "Hub nut"\n  each side\npart drum "Drum"\npart hub "Hub"\nstep off "Off"\n';
  test("a count in words, who did it, and a name of its own, each with its fix", () => {
    expect(saidBy("place-unknown", `${nut}  undo hub-nut two\n`)).toEqual(["7 error [two] How many is written as a figure, straight after the name: 2."]);
    expect(fixed("place-unknown", `${nut}  undo hub-nut two\n`)).toBe(`${nut}  undo hub-nut 2\n`);
    expect(fixed("place-unknown", `${nut}  done Ilse\n`)).toBe(`${nut}  done by "Ilse"\n`);
    expect(saidBy("place-unknown", `${nut}  remove drum hub\n`)).toEqual([
      "7 error [hub] `hub` is no place but a name of its own. Names are joined by commas: drum, hub.",
    ]);
    expect(saidBy("place-unknown", `${nut}  remove drum, hub\n`)).toEqual([]);
  });
  test("a reading that is under what the gauge shows", () => {
    const play = 'limit play "Play"\n  worn max 0.3 mm\nmeasure play found\n';
    expect(saidBy("place-unknown", `${play}  under 0.1 mm\n`)[0]).toContain("the figure that the gauge showed");
    expect(saidBy("place-unknown", `${play}  rim 0.1 mm\n`)).toEqual([]);
  });
});

describe("a name that is near", () => {
  test("of the kind that is wanted, where another kind is called as it was written", () => {
    const wheels = 'part wheel "Wheel"\nstep wheels "Wheels"\n  remove wheels\n';
    expect(saidBy("name-kind", wheels)).toEqual(["3 error [wheels] `wheels` is a step; `remove` takes a part or shims. Is `wheel` meant?"]);
    expect(fixed("name-kind", wheels)).toBe(wheels.replace("remove wheels", "remove wheel"));
  });
  test("by one of its words, where one alone has it", () => {
    const oil = 'fluid box-oil "Box oil"\nstep a "A"\n  drain oil\n';
    expect(saidBy("name-unknown", oil)[0]).toContain("Is `box-oil` meant?");
    expect(saidBy("name-unknown", `fluid axle-oil "Axle oil"\n${oil}`)[0]).not.toContain("meant");
  });
});

describe("place-unknown", () => {
  const machine =
    'places side left, right\nplaces end front, rear\npart hub "Hub"\n  each side\npart cover "Cover"\nlimit bore "Bore"\n  each side\n  read at top, bottom\n  worn max 10 mm\nlimit length "Length"\n  worn min 5 mm\n';

  test("a place of another kind, and one that nobody declared", () => {
    expect(saidBy("place-unknown", `${machine}finding hub front\n  is worn\n  decision renew\n`)).toEqual([
      "12 error [front] Hub has no place `front`. Its place is `left` or `right`.",
    ]);
    expect(saidBy("place-unknown", `${machine}finding hub rihgt\n  is worn\n  decision renew\n`)).toEqual([
      "12 error [rihgt] Hub has no place `rihgt`. Is `right` meant?",
    ]);
    expect(saidBy("place-unknown", `${machine}finding cover middle\n  is worn\n  decision renew\n`)).toEqual([
      "12 error [middle] No place `middle` is declared. Its place is `left`, `right`, `front` or `rear`.",
    ]);
  });

  test("what is no place but the second word of a name, of a locking, or what was found", () => {
    const nuts = `${machine}fastener axle-nut "Axle nut"\n  locked by split pin 1/8 x 1 in\n`;
    expect(saidBy("place-unknown", `${nuts}step a "A"\n  undo axle nut\n`)).toEqual([
      "15 error [nut] Is `axle-nut` meant? A name's words are joined by hyphens.",
    ]);
    expect(saidBy("place-unknown", `${nuts}step a "A"\n  undo axle nuts\n`)).toEqual([
      "15 error [nuts] Is `axle-nut` meant? A name's words are joined by hyphens.",
    ]);
    expect(saidBy("place-unknown", `${nuts}step a "A"\n  remove split pin\n`)).toEqual([
      "15 error [pin] A split pin goes in and comes out with its fastener: `undo` takes it out, `lock FASTENER new` puts a new one in.",
    ]);
    expect(saidBy("place-unknown", `${nuts}finding axle-nut loose\n`)).toEqual(["14 error [loose] What was found goes on a line of its own: is loose."]);
  });

  test("a thing without places takes any that is declared", () => {
    expect(saidBy("place-unknown", `${machine}finding cover rear\n  is worn\n  decision renew\n`)).toEqual([]);
  });

  test("a kind of places that nobody declared is said once, at its line", () => {
    expect(saidBy("place-unknown", 'places side left, right\npart hub "Hub"\n  each sied\nfinding hub left\n  is worn\n')).toEqual([
      "3 error [sied] No `places sied` is declared. Is `side` meant?",
    ]);
  });

  test("readings: the place must be there, then the position", () => {
    const reading = (line: string) => saidBy("place-unknown", `${machine}measure bore found\n  ${line}\n`);
    expect(reading("left top 9 mm")).toEqual([]);
    expect(reading("left 9 mm")).toEqual([]);
    expect(reading("9 mm")).toEqual(["13 error [9] Bore is read at `left` and `right`. Write which one before the figure."]);
    expect(reading("top 9 mm")).toEqual(["13 error [top] Bore is read at `left` and `right`. Write which one before the position."]);
    expect(reading("lfet top 9 mm")).toEqual(["13 error [lfet] Bore has no place `lfet`. Is `left` meant?"]);
    expect(reading("left middle 9 mm")).toEqual(["13 error [middle] Bore is not read at `middle`. Its position is `top` or `bottom`."]);
  });

  test("readings of a limit without places: one word at most", () => {
    const reading = (line: string) => saidBy("place-unknown", `${machine}measure length found\n  ${line}\n`);
    expect(reading("6 mm")).toEqual([]);
    expect(reading("left 6 mm")).toEqual([]);
    expect(reading("left top 6 mm")).toEqual([
      "13 error [top] Length has no places, so `top` is one word too many. Write `each …` in the limit, if length is read at several.",
    ]);
  });

  test("the place that is missing is written by the fix", () => {
    expect(fixed("place-unknown", `${machine}measure bore found\n  9 mm\n`, 1)).toBe(`${machine}measure bore found\n  right 9 mm\n`);
  });
});

describe("use-missing", () => {
  test("a fault deeper in is said at the line that leads to it", () => {
    const files = { "a.jobsheet": 'use "b.jobsheet"\n', "b.jobsheet": 'use "gone.jobsheet"\nuse "../../x.jobsheet"\n' };
    expect(saidBy("use-missing", 'part p "P"\nuse "a.jobsheet"\n', files)).toEqual([
      '2 error ["a.jobsheet"] b.jobsheet uses gone.jobsheet, and there is no such file. Check the path there.',
      '2 error ["a.jobsheet"] b.jobsheet uses ../../x.jobsheet, which lies outside of the workspace and is not read. Put a copy beside the sheet.',
    ]);
  });

  test("a circle is shown whole", () => {
    const files = { "a.jobsheet": 'use "b.jobsheet"\n', "b.jobsheet": 'use "sheet.jobsheet"\n' };
    expect(saidBy("use-missing", 'use "a.jobsheet"\n', files)).toEqual([
      '1 error ["a.jobsheet"] These files use one another in a circle: sheet.jobsheet → a.jobsheet → b.jobsheet → sheet.jobsheet. Take one of the `use` lines out.',
    ]);
    expect(saidBy("use-missing", 'use "sheet.jobsheet"\n')).toEqual(['1 error ["sheet.jobsheet"] This file uses itself. Take the `use` line out.']);
  });

  test("one file used on two ways is no circle", () => {
    const files = { "a.jobsheet": 'use "c.jobsheet"\n', "b.jobsheet": 'use "c.jobsheet"\n', "c.jobsheet": 'part p "P"\n' };
    expect(saidBy("use-missing", 'use "a.jobsheet"\nuse "b.jobsheet"\n', files)).toEqual([]);
  });
});

describe("word-ambiguous", () => {
  test("each meaning is a fix, with the size kept", () => {
    const sheet = (locking: string) => `fastener n "N"\n  locked by ${locking}\n`;
    expect(fixed("word-ambiguous", sheet("cotter 1/4 x 1-1/2 in"), 1)).toBe(sheet("taper pin 1/4 x 1-1/2 in"));
    expect(fixed("word-ambiguous", sheet("cotter  pin   1/8 x 1 in"))).toBe(sheet("split pin 1/8 x 1 in"));
  });

  test("replace: a new one, or the old one again", () => {
    const sheet = (line: string) => `part hub "Hub"\nstep a "A"\n  ${line}\n`;
    expect(fixed("word-ambiguous", sheet("replace hub"))).toBe(sheet("fit hub new"));
    expect(fixed("word-ambiguous", sheet("replace hub"), 1)).toBe(sheet("fit hub"));
    expect(fixesOf("word-ambiguous", 'part hub "Hub"\nfinding hub\n  is worn\n  decision replace\n')).toEqual([["Write renew", "Write reuse"]]);
  });

  test("a hoist", () => {
    expect(fixesOf("word-ambiguous", 'step a "A"\n  chock\n  raise on hoist\n')).toEqual([["Write lift", "Write crane"]]);
  });
});

describe("unused", () => {
  test("speaks of a job only, and of what does nothing by itself", () => {
    const things =
      'gauge feeler "Feeler gauges"\nhazard spring "Loaded spring"\n  safe before nut\nfastener nut "Nut"\nlimit a "A"\n  worn max 1 mm\nlimit b "B"\n  = a + a\n  worn max 2 mm\nquestion q "How?"\nstep s "S"\n  undo nut\n';
    expect(saidBy("unused", things)).toEqual([]);
    expect(saidBy("unused", `sheet "Job"\n${things}`).map((it) => it.split("]")[0])).toEqual(["2 hint [feeler"]);
  });

  test("a line that can't be read mentions what stands in it", () => {
    expect(saidBy("unused", 'sheet "Job"\npart hub "Hub"\nstep s "S"\n  remve hub\n')).toEqual([]);
  });

  test("what a used file declares is not this job's to use up", () => {
    expect(saidBy("unused", 'sheet "Job"\nuse "d.jobsheet"\npart sump\n  mass 4 kg\n', { "d.jobsheet": 'part sump "Sump"\npart cover "Cover"\n' })).toEqual([]);
  });
});

describe("left-blank", () => {
  const nut = 'fastener nut "Nut"\n  torque 10 .. 20 N.m\n';
  const limit = 'limit play "Play"\n  worn max 0.40 mm\n  source "Invented handbook"\n';
  const says = (text: string) => saidBy("left-blank", text).map((it) => it.replace(/^(\d+) (\w+) \[.*?\] /, "$1 $2 "));

  test("asks for a line of a step when it is done, and says what it does not say where it is", () => {
    const step = `${nut}step a "Nut up"\n  tighten nut to ___ N.m\n`;
    expect(says(step)).toEqual(["4 warning Left blank. Fill it in when it is done."]);
    expect(says(`${step}  done\n`)).toEqual(["4 warning Left blank. Fill it in: until then this line says nothing of what was done."]);
  });

  test("a reading that is blank was not read, and a blank in a declaration says nothing", () => {
    expect(says(`${limit}measure play found\n  ___ mm\n`)).toEqual(["5 warning Left blank. Fill it in: until then nothing was read here."]);
    expect(says('part hub "Hub"\n  mass ___ kg\n')).toEqual(["2 warning Left blank. Fill it in: until then this line says nothing."]);
  });

  test("a final that was begun and never read is told at the release, unless it was read further down", () => {
    const released = (rest: string) => `sheet "Job"\n${limit}measure play final\n${rest}release by "A. Moor" 2026-05-10\n`;
    const begun = "5 error No figure stands below this, so nothing was read. Write what was read, or take the line out.";
    expect(says(released(""))).toEqual([begun]);
    expect(says(released("  0.20 mm\n"))).toEqual([]);
    expect(says(released("measure play final\n  0.20 mm\n"))).toEqual([]);
    expect(says(released("").replace("play final", "play found"))).toEqual([]);
    expect(says(`sheet "Job"\n${limit}measure play final\n`)).toEqual([]);
  });
});
