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
    "Plate: a new one is fitted, and nothing says that the old one came off. Write `remove plate` before it; if it came apart before this job, in a done step of whoever took it apart. Or count them again.",
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
