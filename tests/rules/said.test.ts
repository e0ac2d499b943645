// What a message says, and what its first fix writes, where another word of the rule would leave the message on the same line.
import { expect, test } from "vitest";
import { readSheet } from "../../grammar/sheet-text.ts";
import { checkFile } from "../../server/rules/check.ts";
import { judge } from "../../server/story/verdicts.ts";
import { walk } from "../../server/story/walk.ts";
import { buildJob } from "../in-one-go.ts";

const filesOf = (text: string) => {
  const sheet = readSheet(text);
  return { read: (path: string) => (path === "a.jobsheet" ? sheet : ("missing" as const)) };
};

test("more new ones than came off are counted; where none came off, that is what is missing", () => {
  const said = (off: string) =>
    checkFile(filesOf(`part plate "Plate"\n  qty 2\nstep s\n${off}  fit plate 2 new\n  done\n`), "a.jobsheet")
      .filter((it) => it.rule === "part-count")
      .map((it) => it.message);
  expect(said("  remove plate 1\n")).toEqual(["Plate: 3 would be on and there should be 2. Count them again, or correct the declared number."]);
  expect(said("  clean plate\n")).toEqual([
    "Plate: a new one is fitted, and nothing says that the old one came off. Write `remove plate` before it, in a step of whoever took it apart.",
  ]);
});

test("a figure without a unit is offered that of its limit", () => {
  const [missing] = checkFile(filesOf('limit gap "Gap"\n  worn max 20 thou\n  source "b"\nmeasure gap final\n  12\n'), "a.jobsheet").filter(
    (it) => it.rule === "unit-missing",
  );
  expect(missing?.fixes[0]?.title).toContain("thou");
});

test("nothing is left unjudged where nothing is worked out", () => {
  const job = buildJob(filesOf('limit gap "Gap"\n  worn max 20 thou\nmeasure gap final\n  12 thou\n'), "a.jobsheet");
  expect(judge(walk(job as NonNullable<typeof job>)).unjudged).toEqual([]);
});

test("what is staked is staked afresh, wire is fitted new, and a pin is a new one", () => {
  const said = (locking: string) =>
    checkFile(
      filesOf(
        `fastener nut "Nut"\n  torque 20 N.m\n  locked by ${locking}\n  critical "it"\nstep s\n  undo nut\n  tighten nut to 20 N.m\n  lock nut\n  done\n`,
      ),
      "a.jobsheet",
    )
      .filter((it) => it.rule === "locking-reused")
      .map((it) => it.message);
  expect(said("staking")).toEqual(["Nut is locked with its old staking. Metal is staked once: stake it afresh, and write `new`."]);
  expect(said("lock wire 1 mm")).toEqual(["Nut is locked with its old lock wire 1 mm. It is used once: fit new and write `new`."]);
  expect(said("split pin 3 x 30 mm")).toEqual(["Nut is locked with its old split pin 3 x 30 mm. It is used once: fit a new one and write `new`."]);
});

test("what is called by a title for several came off and are not back; what is called by one is", () => {
  const said = (title: string) =>
    checkFile(filesOf(`part it "${title}"\n  critical "it"\nstep s\n  remove it\n  done\nrelease by "E" 2026-01-02\n`), "a.jobsheet")
      .filter((it) => it.rule === "part-left-over")
      .map((it) => it.message);
  expect(said("Girder blades")).toEqual(["Girder blades came off and are not back. Fit them, or say in a finding why they are discarded."]);
  expect(said("Big end brass")).toEqual(["Big end brass came off and is not back. Fit it, or say in a finding why it is discarded."]);
});

test("a concession of the part is told where it counts, one of the limit is taken", () => {
  const said = (of: string) =>
    checkFile(
      filesOf(
        `part drum "Drum"\n  critical "brakes"\nlimit bore "Drum bore"\n  worn max 9.060 in\n  of drum\n  source "b"\nmeasure bore found 2026-03-01\n  9.062 in\nconcession ${of} "The maker allows 9.070" by "R. Holm, engineer" 2026-03-02\n`,
      ),
      "a.jobsheet",
    )
      .filter((it) => it.rule === "limit-worn")
      .map((it) => it.message);
  expect(said("drum")).toEqual([
    "Drum bore is 9.062 in: over its wear limit of 9.060 in. Renew it or have it repaired. The concession at line 9 is of `drum`. Of this figure it is written `concession bore`.",
  ]);
  expect(said("bore")).toEqual(["Drum bore is 9.062 in, outside max 9.060 in. Accepted by R. Holm, engineer at line 9."]);
});

test("what was repaired waits for a look, and not for another repair; a figure in a finding is how many", () => {
  const said = (count: string, done: string) =>
    checkFile(
      filesOf(
        `part hub "Hub"\n  qty 2\n  critical "a wheel"\nstep a\n  remove hub\n  done\nfinding hub${count}\n  is stripped\n  decision repair "insert"\nstep b\n${done}  done\nrelease by "E" 2026-01-02\n`,
      ),
      "a.jobsheet",
    )
      .filter((it) => it.rule === "part-failed")
      .map((it) => it.message);
  expect(said("", "  fit hub\n")).toEqual(["Hub was found stripped. Repair it, then measure it or look at it again."]);
  expect(said("", '  repair hub "thread insert"\n  fit hub\n')).toEqual([
    "Hub was found stripped. It was repaired: measure it, or look at it again, and write what it is like.",
  ]);
  expect(said(" 2", "  fit hub 1\n  fit hub 1 new\n")[0]).toContain("`hub 2` in a finding is 2 of them, not the last.");
});

test("a load hangs on a crane and rests on stands", () => {
  const said = (on: string) =>
    checkFile(filesOf(`part engine "Engine"\nstep s\n  support engine on ${on} under "slings" rated 20 kg load 26 kg\n  done\n`), "a.jobsheet")
      .filter((it) => it.rule === "support-overloaded")
      .map((it) => it.message);
  expect(said("crane")).toEqual(["26 kg hangs on a crane rated for 20 kg. Use one that can carry it."]);
  expect(said("1 stands")).toEqual(["26 kg rests on stands rated for 20 kg. Use stands that can carry it."]);
});

test("a count that comes out wrong leads to the finding whose figure was taken for a number", () => {
  const said = checkFile(filesOf('part stud "Stud"\n  qty 5\nfinding stud 3\n  is missing\nstep s\n  remove stud 4\n  done\n'), "a.jobsheet")
    .filter((it) => it.rule === "part-count")
    .map((it) => it.message);
  expect(said).toEqual([
    "Stud: 4 come off and 2 are on. Line 3 says that 3 are missing: a figure behind a name is how many, not which one. If it is one, write 1 there.",
  ]);
});

test("one line that fills too much at several places is one mistake", () => {
  const text =
    'places side left, right\nfluid oil "Oil"\n  each side\n  capacity 2 l\nstep a\n  drain oil\n  fill oil 3 l\n  done\nrelease by "A. Moor" 2026-05-10\n';
  const said = checkFile(filesOf(text), "a.jobsheet").filter((it) => it.rule === "fluid-left-out");
  expect(said.map((it) => it.message)).toEqual([
    "Oil (left and right) was drained and is not filled right: too much; 3.00 l went in. It takes 2 l. Fill it and write how much.",
  ]);
});

const saidOf = (rule: string, text: string) =>
  checkFile(filesOf(text), "a.jobsheet")
    .filter((it) => it.rule === rule)
    .map((it) => it.message);

test("a unit of volume behind a fluid is a figure that is missing, and no place", () => {
  const sheet = (line: string) => `places side left, right\nfluid axle-oil "Axle oil"\n  capacity 7 l\nstep a\n  ${line}\n  done\n`;
  expect(saidOf("place-unknown", sheet("fill axle-oil l"))).toEqual(["`l` is a unit, and its figure is missing: write how much, axle-oil … l."]);
  expect(saidOf("place-unknown", sheet("fill axle-oil lef"))[0]).toContain("No place `lef` is declared.");
});

test("what its limit counts in clicks is a count, and is offered no unit", () => {
  const [missing] = checkFile(
    filesOf('fastener nut "Nut"\nlimit travel "Lever travel"\n  set 5 .. 7 clicks by nut\n  source "b"\nmeasure travel final\n  7\n'),
    "a.jobsheet",
  ).filter((it) => it.rule === "unit-missing");
  expect(missing?.message).toContain("7 is a count of clicks");
  expect(missing?.fixes).toEqual([]);
});

test("an order whose reference is blank is not called by it", () => {
  const sheet = (reference: string) =>
    `part hub "Hub"\nsupplier tarn "Tarn"\norder "${reference}" to tarn\n  status placed 2026-05-01\n  item hub 1\nstep a\n  fit hub new\n  done 2026-05-02\n`;
  expect(saidOf("step-too-early", sheet(""))[0]).toContain("and the order for it has not come yet");
  expect(saidOf("step-too-early", sheet("T-1"))[0]).toContain("and order “T-1” for it has not come yet");
});

test("a plate in tonnes over a rope in kilograms is another unit, and no lighter try of the rope", () => {
  const sheet = (plate: string) =>
    `sheet "Winch"\n  machine "Slip winch"\n  rated ${plate} "Plate"\npart rope "Wire rope"\n  critical "the load"\n  rated 2000 kg "Certificate"\nstep a\n  remove rope\n  fit rope\n  done\nrelease by "A" 2026-05-10\n  test "Hung ten minutes" load 1900 kg\n`;
  expect(saidOf("proof-load-low", sheet("2000 t"))[0]).toContain("One of the two has the wrong unit");
  expect(saidOf("proof-load-low", sheet("4000 kg"))[0]).toContain("write `of rope` if that alone was");
});

test("words under a long line of work name the part that they speak of", () => {
  const text =
    'part felt "Felt ring"\npart race "Inner race"\npart cover "Hub cover"\nstep a\n  fit felt, race, cover\n  note "Race went in crooked, a tap more and it would have split"\n  done\n';
  const [said] = saidOf("words-against", text);
  expect(said).toContain("inner race");
  expect(said).not.toContain("felt");
});
